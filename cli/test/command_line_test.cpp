// What every command has in common: help, examples, faults, man page, completion.

#include <doctest/doctest.h>

#include <filesystem>

#include "typed.hpp"
#include "wrap.hpp"

using namespace strikewright;

namespace {

/// The book of an example, where it lies in build/.
void remove_book_of(const std::string& line) {
  const std::string option = "--book build/";
  const std::size_t at = line.find(option);
  if (at == std::string::npos) return;
  const std::size_t from = at + option.size() - std::string("build/").size();
  const std::string book = line.substr(from, line.find(' ', from) - from);
  for (const char* part : {"", "-wal", "-shm"}) std::filesystem::remove(book + part);
}

}  // namespace

TEST_CASE("every help fits 80 columns and has an example") {
  for (const Command& command : all_commands()) {
    CAPTURE(command.name);
    const Typed help = typed(command.name + " --help");
    CHECK(help.code == 0);
    CHECK(help.says("Example: "));
    for (const std::string& line : wrapped(help.out, 10'000)) CHECK(shown_width(line) <= 100);
    std::istringstream lines(help.out);
    for (std::string line; std::getline(lines, line);) {
      if (line.find("strikewright ") == std::string::npos) CHECK(shown_width(line) <= kColumns);
    }
  }
}

TEST_CASE("the examples of the help run") {
  // The books that examples of an earlier run made: a demo goes into an empty one only.
  for (const Command& command : all_commands())
    for (const Example& example : command.examples) remove_book_of(example.line);
  for (const Command& command : all_commands()) {
    for (const Example& example : command.examples) {
      CAPTURE(example.line);
      const std::string line = example.line;
      const std::string program = "strikewright ";
      const bool plain = line.rfind(program, 0) == 0 && line.find('|') == std::string::npos;
      // "strikewright man | man -l -" and "source <(...)" need a shell: what is inside them is typed.
      const std::size_t from = line.find(program) + program.size();
      const std::size_t to = plain ? line.size() : line.find_first_of("|)", from);
      const Typed typed_example = typed(line.substr(from, to - from));
      CHECK(typed_example.err == "");
      CHECK(typed_example.code == 0);
      CHECK(typed_example.out.size() > 20);
    }
  }
}

TEST_CASE("an unknown command or option suggests the nearest") {
  CHECK(typed("flihgt").complains("did you mean 'flight'?"));
  CHECK(typed("flihgt").code == 2);
  const Typed option = typed("flight --ball-sped 60mps");
  CHECK(option.code == 2);
  CHECK(option.complains("'--ball-sped'"));
  CHECK(option.complains("did you mean '--ball-speed'?"));
}

TEST_CASE("a command line without a command says so") {
  CHECK(typed("").code == 2);
  CHECK(typed("").complains("no command"));
}

TEST_CASE("help by either word, and the version") {
  CHECK(typed("--help").says("Commands"));
  CHECK(typed("help flight").out == typed("flight --help").out);
  CHECK(typed("flight -h").out == typed("flight --help").out);
  CHECK(typed("--version").out.rfind("strikewright ", 0) == 0);
}

TEST_CASE("an option without its value, given twice, or with a wrong word is a fault") {
  CHECK(typed("flight --launch-angle 12 --spin 2500 --ball-speed").complains("--ball-speed: found nothing"));
  CHECK(typed("flight --spin 2500 --spin 2600").complains("--spin: found '2600' after '2500'"));
  CHECK(typed("read demo/lesson.csv --hand lefty").complains("did you mean 'left'?"));
  CHECK(typed("read demo/lesson.csv --explain=yes").complains("it is a switch"));
  CHECK(typed("flight --launch-angle 12 --spin 2500").complains("no --ball-speed"));
  CHECK(typed("flight extra --launch-angle 12").complains("found 'extra', expected nothing more"));
}

TEST_CASE("a quantity needs its unit and a sensible size") {
  const std::string rest = " --launch-angle 12deg --spin 2500rpm";
  CHECK(typed("flight --ball-speed 60" + rest).complains("with its unit (mps, mph, kmh)"));
  CHECK(typed("flight --ball-speed 60m" + rest).code == 2);
  CHECK(typed("flight --ball-speed 900mps" + rest).complains("from 1 to 110 mps"));
  CHECK(typed("flight --ball-speed fast" + rest).complains("'fast'"));
  CHECK(typed("flight --ball-speed 60,5mps" + rest).complains("decimals after a point"));
  CHECK(typed("flight --ball-speed nan" + rest).code == 2);
}

TEST_CASE("with --json a fault is JSON too") {
  const Typed wrong = typed("flight --json --ball-speed 900mps --launch-angle 12 --spin 2500");
  CHECK(wrong.code == 2);
  CHECK(wrong.out == "");
  const nlohmann::json fault = nlohmann::json::parse(wrong.err);
  CHECK(fault["error"]["place"] == "--ball-speed");
  CHECK(fault["error"]["found"] == "'900mps'");
  CHECK(fault["error"]["expected"].get<std::string>().find("110 mps") != std::string::npos);
}

TEST_CASE("man page and completion know every command and option") {
  const std::string man = typed("man").out;
  for (const char* shell : {"bash", "zsh", "fish"}) {
    const std::string script = typed(std::string("completion ") + shell).out;
    for (const Command& command : all_commands()) {
      CAPTURE(shell);
      CAPTURE(command.name);
      CHECK(script.find(command.name) != std::string::npos);
      CHECK(man.find(".SS " + command.name) != std::string::npos);
      for (const Option& option : options_of(command)) {
        if (option.is_positional()) continue;
        CAPTURE(option.name);
        CHECK(script.find(shell == std::string("fish") ? "-l " + option.name.substr(2) : option.name) !=
              std::string::npos);
        std::string dashed;
        for (const char c : option.name) dashed += c == '-' ? std::string("\\-") : std::string(1, c);
        CHECK(man.find(dashed) != std::string::npos);
      }
    }
  }
  CHECK(typed("completion tcsh").code == 2);
}
