#pragma once
// The commands, one function each. The order of all_commands() is the order of the help.

#include <vector>

#include "command.hpp"

namespace strikewright {

Command read_command();
Command shot_command();
Command swing_command();
Command strike_command();
Command flight_command();
Command simulate_command();
Command recover_command();
Command columns_command();
Command book_command();
Command check_command();
Command demo_command();
Command serve_command();
Command exercise_command();
Command sheet_command();

std::vector<Command> all_commands();

}  // namespace strikewright
