#pragma once
// The rows of a file in reference/, cells by the name in the header; an empty cell is "nothing".

#include <doctest/doctest.h>

#include <fstream>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace strikewright::testing {

struct Row {
  std::map<std::string, std::string> cells;
  [[nodiscard]] const std::string& text(const std::string& key) const { return cells.at(key); }
  [[nodiscard]] double number(const std::string& key) const { return std::stod(cells.at(key)); }
  [[nodiscard]] std::optional<double> maybe(const std::string& key) const {
    return cells.at(key).empty() ? std::nullopt : std::optional(number(key));
  }
};

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> out(1);
  for (const char c : line) {
    if (c == ',')
      out.emplace_back();
    else
      out.back() += c;
  }
  return out;
}

inline std::vector<Row> rows_of(const std::string& name) {
  std::ifstream file(std::string(SOURCE_DIR) + "/reference/" + name);
  REQUIRE_MESSAGE(file.good(), name);
  std::vector<std::string> head;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto cells = cells_of(line);
    if (head.empty()) {
      head = cells;
      continue;
    }
    REQUIRE(cells.size() == head.size());
    Row row;
    for (std::size_t i = 0; i < head.size(); ++i) row.cells[head[i]] = cells[i];
    rows.push_back(row);
  }
  REQUIRE(!rows.empty());
  return rows;
}

}  // namespace strikewright::testing
