#pragma once
// The rows of a file in reference/: comment lines skipped, cells looked up by the name in the header.

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace strikewright::test {

class Row {
 public:
  Row(const std::vector<std::string>& names, const std::vector<std::string>& cells) {
    for (std::size_t k = 0; k < names.size() && k < cells.size(); ++k) cells_[names[k]] = cells[k];
  }
  [[nodiscard]] const std::string& text(const std::string& name) const { return cells_.at(name); }
  [[nodiscard]] double number(const std::string& name) const { return std::stod(cells_.at(name)); }

 private:
  std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::stringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
  return cells;
}

/// All rows of reference/<name>; an unreadable or empty file fails the test.
inline std::vector<Row> rows_of(const std::string& name) {
  std::ifstream file(std::string(SOURCE_DIR) + "/reference/" + name);
  std::vector<Row> rows;
  std::vector<std::string> names;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (names.empty()) {
      names = cells_of(line);
    } else {
      rows.emplace_back(names, cells_of(line));
    }
  }
  REQUIRE_MESSAGE(!rows.empty(), name);
  return rows;
}

}  // namespace strikewright::test
