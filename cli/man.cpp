// The man page in roff, read off the descriptions of the commands.

#include "command.hpp"

namespace strikewright {
namespace {

/// Text that roff leaves alone: a hyphen that is a minus, a backslash that is one, no control line.
std::string plain_roff(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else {
      out += c;
    }
  }
  if (!out.empty() && (out.front() == '.' || out.front() == '\'')) out.insert(0, "\\&");
  return out;
}

/// A blank line in the text starts a paragraph.
std::string paragraphs(const std::string& text) {
  std::string out;
  std::size_t from = 0;
  while (from < text.size()) {
    std::size_t to = text.find('\n', from);
    if (to == std::string::npos) to = text.size();
    const std::string line = text.substr(from, to - from);
    out += line.empty() ? ".PP\n" : plain_roff(line) + "\n";
    from = to + 1;
  }
  return out;
}

void add_option(std::string& out, const Option& option) {
  out += ".TP\n\\fB" + plain_roff(option.name) + "\\fR";
  if (!option.value.empty() && !option.is_positional()) out += " \\fI" + plain_roff(option.value) + "\\fR";
  const std::string says = option.says + (option.standard.empty() ? "" : " [" + option.standard + "]");
  out += "\n" + plain_roff(says + (says.back() == '.' ? "" : ".")) + "\n";
}

void add_command(std::string& out, const Command& command) {
  out += ".SS " + plain_roff(command.name) + "\n" + plain_roff(command.says) + ".\n";
  if (!command.more.empty()) out += ".PP\n" + paragraphs(command.more);
  for (const Option& option : command.options) add_option(out, option);
  for (const Example& example : command.examples) {
    out += ".PP\n" + plain_roff(example.says) + ":\n.PP\n.EX\n" + plain_roff(example.line) + "\n.EE\n";
  }
}

}  // namespace

std::string man_page(const std::vector<Command>& commands) {
  std::string out =
      ".TH STRIKEWRIGHT 1 \"2026-11-25\" \"strikewright " STRIKEWRIGHT_VERSION "\" \"User commands\"\n";
  out += ".SH NAME\nstrikewright \\- from what a golf coach sees to what the club did\n";
  out += ".SH SYNOPSIS\n.B strikewright\n.I COMMAND\n[options]\n";
  out += ".SH DESCRIPTION\n" +
         plain_roff(
             "Turns what a coach can see of a golf swing (divots, strike marks, ball flight, a clip) into "
             "what the club did at the ball, and says how sure that is.") +
         "\n.SH OPTIONS OF EVERY COMMAND\n";
  for (const Option& option : common_options()) add_option(out, option);
  out += ".SH COMMANDS\n";
  for (const Command& command : commands) add_command(out, command);
  out +=
      ".SH EXIT STATUS\n.TP\n0\ndone\n.TP\n1\na check did not pass\n.TP\n2\nsomething given was wrong; "
      "standard error says where, what was found and what was expected\n";
  return out;
}

}  // namespace strikewright
