#pragma once
// The commands, one function each. The order of all_commands() is the order of the help.

#include <vector>

#include "command.hpp"
#include "doors.hpp"

namespace CLI {
class App;
}

namespace strikewright {

Command flight_command();
Command strike_command();
Command swing_command();
Command shot_command();
Command read_command();
Command simulate_command();

std::vector<Command> all_commands();

/// `strikewright check`: registers a subcommand with options and a callback that writes to `doors` and sets
/// `doors.exit_code`. Defined in check_command.cpp.
void add_check_command(CLI::App& app, Doors& doors);

}  // namespace strikewright
