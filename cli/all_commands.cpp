// The commands in the order of the help, and the two that print the others' descriptions.

#include <ostream>

#include "commands.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

Command man_command() {
  return {.name = "man",
          .says = "print the man page (roff)",
          .more = "",
          .options = {},
          .examples = {{.says = "read it", .line = "strikewright man | man -l -"}},
          .run = [](Doors& doors) -> Result<int> {
            doors.out << man_page(all_commands());
            return kGood;
          }};
}

Command completion_command() {
  const auto shell = std::make_shared<std::size_t>(0);
  const std::vector<std::string> shells{"bash", "zsh", "fish"};
  return {.name = "completion",
          .says = "print a completion script for the shell",
          .more = "",
          .options = {needed(choice("SHELL", shell, shells, "bash, zsh or fish"))},
          .examples = {{.says = "complete commands and options in this bash",
                        .line = "source <(strikewright completion bash)"}},
          .run = [shell, shells](Doors& doors) -> Result<int> {
            doors.out << completion_script(all_commands(), shells[*shell]);
            return kGood;
          }};
}

}  // namespace

std::vector<Command> all_commands() {
  return {read_command(),    serve_command(),  exercise_command(), sheet_command(),
          columns_command(), book_command(),   shot_command(),     swing_command(),
          strike_command(),  flight_command(), simulate_command(), demo_command(),
          recover_command(), check_command(),  man_command(),      completion_command()};
}

}  // namespace strikewright
