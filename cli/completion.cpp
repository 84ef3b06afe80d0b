// Completion scripts, read off the descriptions of the commands.

#include "command.hpp"

namespace strikewright {
namespace {

std::string spaced(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::vector<std::string> dashed(const Command& command) {
  std::vector<std::string> out;
  for (const Option& option : options_of(command)) {
    if (!option.is_positional()) out.push_back(option.name);
  }
  return out;
}

std::string in_single_quotes(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

/// Both bash and zsh (through its own bash mode) run this.
std::string bash_script(const std::vector<Command>& commands) {
  std::vector<std::string> names;
  names.reserve(commands.size());
  for (const Command& command : commands) names.push_back(command.name);
  std::string out =
      "_strikewright() {\n  local word=\"${COMP_WORDS[COMP_CWORD]}\" "
      "before=\"${COMP_WORDS[COMP_CWORD-1]}\"\n";
  out += "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    COMPREPLY=($(compgen -W \"" + spaced(names) +
         " --help --version\" -- \"$word\"))\n    return\n  fi\n  case \"${COMP_WORDS[1]} $before\" in\n";
  for (const Command& command : commands) {
    for (const Option& option : options_of(command)) {
      if (option.words.empty()) continue;
      const std::string at = option.is_positional() ? command.name : option.name;
      out += "    \"" + command.name + " " + at + "\")\n      COMPREPLY=($(compgen -W \"" +
             spaced(option.words) + "\" -- \"$word\"))\n      return\n      ;;\n";
    }
  }
  out += "  esac\n  case \"$word\" in\n    -*)\n      case \"${COMP_WORDS[1]}\" in\n";
  for (const Command& command : commands) {
    out += "        " + command.name + ") COMPREPLY=($(compgen -W \"" + spaced(dashed(command)) +
           "\" -- \"$word\")) ;;\n";
  }
  return out +
         "      esac\n      ;;\n    *) COMPREPLY=($(compgen -f -- \"$word\")) ;;\n  esac\n}\ncomplete -F "
         "_strikewright strikewright\n";
}

std::string fish_script(const std::vector<Command>& commands) {
  std::string out;
  for (const Command& command : commands) {
    out += "complete -c strikewright -n __fish_use_subcommand -f -a " + command.name + " -d " +
           in_single_quotes(command.says) + "\n";
    for (const Option& option : options_of(command)) {
      const std::string when =
          "complete -c strikewright -n '__fish_seen_subcommand_from " + command.name + "'";
      if (!option.is_positional()) {
        out += when + " -l " + option.name.substr(2) + (option.value.empty() ? "" : " -r") +
               (option.words.empty() ? "" : " -f -a '" + spaced(option.words) + "'") + " -d " +
               in_single_quotes(option.says) + "\n";
      } else if (!option.words.empty()) {
        out += when + " -f -a '" + spaced(option.words) + "'\n";
      }
    }
  }
  return out;
}

}  // namespace

std::string completion_script(const std::vector<Command>& commands, const std::string& shell) {
  if (shell == "fish") return fish_script(commands);
  if (shell == "zsh") return "autoload -U +X bashcompinit && bashcompinit\n" + bash_script(commands);
  return bash_script(commands);
}

}  // namespace strikewright
