#pragma once
// The rows of reference/single_case.csv: comment lines skipped, cells by the name in the header.

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace strikewright::test {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::stringstream stream(line + ",");
  for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
  return cells;
}

inline std::vector<Row> rows_of(const std::string& file) {
  std::ifstream stream(std::string(SOURCE_DIR "/reference/") + file);
  std::vector<std::string> names;
  std::vector<Row> rows;
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto cells = cells_of(line);
    if (names.empty()) {
      names = cells;
      continue;
    }
    Row row;
    for (std::size_t k = 0; k < names.size(); ++k) row[names[k]] = k < cells.size() ? cells[k] : "";
    rows.push_back(row);
  }
  return rows;
}

inline std::vector<double> numbers_of(const std::string& text) {
  std::vector<double> out;
  std::stringstream stream(text);
  for (double x = 0.0; stream >> x;) out.push_back(x);
  return out;
}

/// A printed figure and how far off one may be: half a unit of its last digit; a fraction is exact.
struct Printed {
  double value = 0.0, tolerance = 1e-12;
};
inline Printed printed(const std::string& text) {
  const auto slash = text.find('/');
  if (slash != std::string::npos)
    return {std::stod(text.substr(0, slash)) / std::stod(text.substr(slash + 1)), 1e-12};
  const auto point = text.find('.');
  double unit = 1.0;
  if (point != std::string::npos)
    for (std::size_t k = point + 1; k < text.size(); ++k) unit /= 10.0;
  return {std::stod(text), 0.5 * unit};
}

}  // namespace strikewright::test
