#pragma once
// A command described once: parsing, --help, the man page and shell completion are read off it.

#include <functional>
#include <string>
#include <vector>

#include "doors.hpp"

namespace strikewright {

/// One option ("--ball-speed") or one positional ("FILE").
struct Option {
  std::string name{};
  std::string value{};     ///< what it takes, for the help: "SPEED", "right|left"; "" = a switch
  std::string says{};      ///< one plain phrase
  std::string standard{};  ///< what holds when it is not given, as text; "" = nothing
  std::string group{};     ///< heading in the help; "" = "Options"
  bool needed = false;
  std::vector<std::string> words{};  ///< the only values accepted; empty = any
  /// Called with the text given ("" for a switch), at most once.
  std::function<Result<void>(const std::string& text)> take{};
  [[nodiscard]] bool is_positional() const { return name.empty() || name.front() != '-'; }
};

/// A line that a person can type in the project's folder; a test types all of them.
struct Example {
  std::string says{};
  std::string line{};
};

struct Command {
  std::string name{};
  std::string says{};  ///< one line
  std::string more{};  ///< a paragraph or two for --help and the man page
  std::vector<Option> options{};
  std::vector<Example> examples{};
  std::function<Result<int>(Doors&)> run{};  ///< the exit code, or what was wrong with the input
};

/// Runs `strikewright ARGUMENTS...` (without the program's name) and returns the exit code.
int run_strikewright(const std::vector<std::string>& arguments, Doors& doors);

/// What `strikewright --help` and `strikewright COMMAND --help` print, at most `kColumns` wide.
inline constexpr std::size_t kColumns = 80;
std::string help_of(const std::vector<Command>& commands);
std::string help_of(const Command& command);

/// The options that every command has: --json, --units, --help.
const std::vector<Option>& common_options();

/// The command's own options and the common ones.
std::vector<Option> options_of(const Command& command);

/// The man page in roff.
std::string man_page(const std::vector<Command>& commands);

/// The completion script for "bash", "zsh" or "fish".
std::string completion_script(const std::vector<Command>& commands, const std::string& shell);

}  // namespace strikewright
