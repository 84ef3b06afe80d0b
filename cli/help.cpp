// --help, read off the descriptions of the commands.

#include <algorithm>

#include "command.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kSays = 28;  ///< column at which the phrases of the options start

void add_paragraph(std::string& out, const std::string& text, std::size_t indent) {
  for (const std::string& line : wrapped(text, kColumns - indent)) {
    out += (line.empty() ? "" : std::string(indent, ' ') + line) + '\n';
  }
}

std::string called(const Option& option) {
  return option.name + (option.value.empty() || option.is_positional() ? "" : " " + option.value);
}

void add_entry(std::string& out, const std::string& name, const std::string& says, std::size_t at = kSays) {
  std::string line = "  " + name;
  const std::vector<std::string> lines = wrapped(says, kColumns - at);
  std::size_t k = 0;
  if (shown_width(line) + 2 <= at) {
    out += padded(line, at) + lines[k++] + '\n';
  } else {
    out += line + '\n';
  }
  for (; k < lines.size(); ++k) out += std::string(at, ' ') + lines[k] + '\n';
}

std::string says_of(const Option& option) {
  return option.says + (option.standard.empty() ? "" : " [" + option.standard + "]");
}

std::string usage_of(const Command& command) {
  std::string line = "strikewright " + command.name;
  for (const Option& option : command.options) {
    if (option.needed || option.is_positional())
      line += " " + (option.needed ? called(option) : "[" + option.name + "]");
  }
  return line + " [options]";
}

/// Headings in the order in which their first option stands.
std::vector<std::string> groups_of(const std::vector<Option>& options) {
  std::vector<std::string> groups;
  for (const Option& option : options) {
    if (std::find(groups.begin(), groups.end(), option.group) == groups.end()) groups.push_back(option.group);
  }
  return groups;
}

}  // namespace

const std::vector<Option>& common_options() {
  static const std::vector<Option> options{
      {.name = "--json",
       .says = "answer (and errors) as JSON, keys with their units",
       .group = "Every command"},
      {.name = "--units",
       .value = "metric|yards",
       .says = "how people's figures are shown; in JSON only in sentences",
       .standard = "metric",
       .group = "Every command",
       .words = {"metric", "yards"},
       .take = {}},
      {.name = "--help", .says = "this text", .group = "Every command"},
  };
  return options;
}

std::vector<Option> options_of(const Command& command) {
  std::vector<Option> all = command.options;
  for (const Option& common : common_options()) {
    const auto same = [&](const Option& own) { return own.name == common.name; };
    if (std::none_of(all.begin(), all.end(), same)) all.push_back(common);
  }
  return all;
}

std::string help_of(const std::vector<Command>& commands) {
  std::string out = "strikewright - from what a golf coach sees to what the club did\n\n";
  out += "Usage: strikewright COMMAND [options]\n\nCommands\n";
  for (const Command& command : commands) add_entry(out, command.name, command.says, 14);
  out += "\n";
  add_paragraph(out,
                "strikewright COMMAND --help explains one command with an example. "
                "Quantities take units: 60mps 134mph 215kmh, 4cm 40mm 1.5in 2yd 6ft 5m, "
                "12deg, 2500rpm, 20C 68F, 1013hPa 29.92inHg.",
                0);
  out += "\n";
  add_entry(out, "--version", "the version", 14);
  add_entry(out, "--help", "this text", 14);
  return out;
}

std::string help_of(const Command& command) {
  std::string out = "strikewright " + command.name + " - " + command.says + "\n\n";
  out += "Usage: ";
  const std::vector<std::string> usage = wrapped(usage_of(command), kColumns - 11);
  for (std::size_t k = 0; k < usage.size(); ++k) out += (k == 0 ? "" : "           ") + usage[k] + '\n';
  if (!command.more.empty()) {
    out += "\n";
    add_paragraph(out, command.more, 0);
  }
  const std::vector<Option> options = options_of(command);
  for (const std::string& group : groups_of(options)) {
    out += "\n" + (group.empty() ? "Options" : group) + "\n";
    for (const Option& option : options) {
      if (option.group == group) add_entry(out, called(option), says_of(option));
    }
  }
  for (const Example& example : command.examples) {
    out += "\nExample: " + example.says + "\n";
    out += "  " + example.line + "\n";
  }
  return out;
}

}  // namespace strikewright
