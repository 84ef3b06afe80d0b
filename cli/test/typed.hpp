#pragma once
// A command as somebody types it, run without a process.

#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "command.hpp"
#include "commands.hpp"

namespace strikewright {

struct Typed {
  int code = 0;
  std::string out, err;
  [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(out); }
  [[nodiscard]] bool says(const std::string& text) const { return out.find(text) != std::string::npos; }
  [[nodiscard]] bool complains(const std::string& text) const { return err.find(text) != std::string::npos; }
};

/// Words split at blanks; no quoting.
inline std::vector<std::string> words_in(const std::string& line) {
  std::istringstream stream(line);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

inline Typed typed_from(const std::string& line, std::istream& in) {
  std::ostringstream out, err;
  Doors doors{.in = in, .out = out, .err = err};
  Typed typed;
  typed.code = run_strikewright(words_in(line), doors);
  typed.out = out.str();
  typed.err = err.str();
  return typed;
}

/// `line` without the program's name, `input` on standard input. Relative files are those of the project's
/// folder.
inline Typed typed(const std::string& line, const std::string& input = "") {
  std::istringstream in(input);
  return typed_from(line, in);
}

}  // namespace strikewright
