// From the words on the command line to a command's run. CLI11 splits the words; what they mean and what is
// wrong with them is said here, in one shape for every command.

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <ostream>

#include "commands.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

void declare(CLI::App& app, const std::vector<Command>& commands) {
  app.set_help_flag("");
  app.allow_extras();
  app.prefix_command(false);
  // Behind a command's own name every word is its own: `book check`, `check --only swing`.
  app.require_subcommand(0, 1);
  app.add_flag("--help,-h");
  app.add_flag("--version");
  for (const Command& command : commands) {
    CLI::App* sub = app.add_subcommand(command.name, command.says);
    sub->set_help_flag("");
    sub->allow_extras();
    for (const Option& option : options_of(command)) {
      const std::string name = option.name == "--help" ? "--help,-h" : option.name;
      const bool is_switch = option.value.empty() && !option.is_positional();
      CLI::Option* made = is_switch ? sub->add_flag(name) : sub->add_option(name);
      made->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
      // A positional waits for one word; an option without its value is a fault of ours, not of CLI11's; a
      // switch must not swallow the word after it.
      if (!is_switch) made->expected(option.is_positional() ? 1 : 0, 1);
    }
  }
}

/// CLI11 takes "-.5deg" for a cluster of letters: give the number its nought.
std::vector<std::string> backwards(const std::vector<std::string>& arguments) {
  std::vector<std::string> out(arguments.rbegin(), arguments.rend());
  for (std::string& word : out) {
    if (word.size() > 2 && word[0] == '-' && word[1] == '.') word.insert(1, "0");
  }
  return out;
}

template <class Named>
std::vector<std::string> names_of(const std::vector<Named>& all) {
  std::vector<std::string> out;
  out.reserve(all.size());
  for (const Named& one : all) out.push_back(one.name);
  return out;
}

Result<void> take_one(const Option& option, const CLI::Option& given) {
  const std::vector<std::string>& texts = given.results();
  if (texts.size() > 1) {
    return unexpected(Fault{option.name,
                            strikewright::quoted(texts[1]) + " after " + strikewright::quoted(texts[0]),
                            "it only once"});
  }
  std::string text = texts.empty() ? "" : texts.front();
  if (option.value.empty() && !option.is_positional()) {
    if (text != "true")
      return unexpected(Fault{option.name, strikewright::quoted(text), "nothing after it: it is a switch"});
    text.clear();
  } else if (text.empty()) {
    return unexpected(Fault{option.name, "nothing", option.value + ": " + option.says});
  }
  if (!option.words.empty() &&
      std::find(option.words.begin(), option.words.end(), text) == option.words.end()) {
    std::string list;
    for (const std::string& word : option.words) list += (list.empty() ? "" : ", ") + word;
    return unexpected(
        Fault{option.name, strikewright::quoted(text), "one of " + list + suggestion(text, option.words)});
  }
  return option.take ? option.take(text) : Result<void>{};
}

Result<void> take_all(const Command& command, const CLI::App& sub) {
  const std::vector<Option> options = options_of(command);
  const std::string place = "strikewright " + command.name;
  for (const std::string& extra : sub.remaining()) {
    const std::string word = extra.substr(0, extra.find('='));
    const bool dashed = word.size() > 1 && word.front() == '-';
    return unexpected(Fault{
        place, strikewright::quoted(extra),
        dashed ? "one of its options (see --help)" + suggestion(word, names_of(options)) : "nothing more"});
  }
  for (const Option& option : options) {
    const CLI::Option* given = sub.get_option(option.name);
    if (given->count() == 0) continue;
    if (Result<void> taken = take_one(option, *given); !taken) return taken;
  }
  for (const Option& option : options) {
    if (option.needed && sub.get_option(option.name)->count() == 0) {
      return unexpected(
          Fault{place, "no " + option.name,
                option.name + " " + (option.is_positional() ? "" : option.value) + ": " + option.says});
    }
  }
  return {};
}

Result<int> run_named(const std::vector<Command>& commands, const CLI::App& app, Doors& doors) {
  const std::vector<CLI::App*> named = app.get_subcommands();
  if (named.empty()) {
    if (app.get_option("--version")->count() > 0) {
      doors.out << "strikewright " STRIKEWRIGHT_VERSION "\n";
      return kGood;
    }
    if (app.get_option("--help")->count() > 0) {
      doors.out << help_of(commands);
      return kGood;
    }
    const std::vector<std::string> extras = app.remaining();
    if (extras.empty())
      return unexpected(Fault{"strikewright", "no command", "one (see strikewright --help)"});
    return unexpected(
        Fault{"strikewright", strikewright::quoted(extras.front()),
              "a command (see strikewright --help)" + suggestion(extras.front(), names_of(commands))});
  }
  const CLI::App& sub = *named.front();
  const auto command = std::find_if(commands.begin(), commands.end(),
                                    [&](const Command& c) { return c.name == sub.get_name(); });
  if (sub.get_option("--help")->count() > 0) {
    doors.out << help_of(*command);
    return kGood;
  }
  if (Result<void> taken = take_all(*command, sub); !taken) return unexpected(taken.error());
  doors.units_given = sub.get_option("--units")->count() > 0;
  if (doors.units_given && sub.get_option("--units")->results().front() == "yards") {
    doors.units = UnitSystem::yards;
  }
  return command->run(doors);
}

}  // namespace

int run_strikewright(const std::vector<std::string>& arguments, Doors& doors) {
  std::vector<std::string> words = arguments;
  if (!words.empty() && words.front() == "help") {  // "help flight" = "flight --help"
    words.erase(words.begin());
    words.emplace_back("--help");
  }
  doors.json = std::find(words.begin(), words.end(), "--json") != words.end();
  const std::vector<Command> commands = all_commands();
  CLI::App app;
  declare(app, commands);
  try {
    app.parse(backwards(words));
  } catch (const CLI::ParseError& wrong) {
    report(Fault{"strikewright", wrong.what(), "a line as --help shows"}, doors);
    return doors.exit_code;
  }
  const Result<int> code = run_named(commands, app, doors);
  if (code) {
    doors.exit_code = *code;
  } else {
    report(code.error(), doors);
  }
  doors.out.flush();
  return doors.exit_code;
}

}  // namespace strikewright
