#include "check_reference.hpp"

#include <cmath>
#include <cstdlib>
#include <sstream>

#include "check_embedded.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::string cell;
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.push_back(std::move(cell));
      cell.clear();
    } else if (c != '\r') {
      cell += c;
    }
  }
  cells.push_back(std::move(cell));
  return cells;
}

void take_comment(const std::string& line, ReferenceTable& table) {
  const std::pair<const char*, std::string*> kinds[] = {{"# source:", &table.source},
                                                        {"# tag:", &table.tag},
                                                        {"# tolerance:", &table.tolerance},
                                                        {"# note:", &table.note}};
  for (const auto& [mark, into] : kinds) {
    if (line.rfind(mark, 0) != 0) continue;
    const std::size_t start = line.find_first_not_of(' ', std::string_view(mark).size());
    if (start == std::string::npos) return;
    if (!into->empty()) *into += "; ";
    *into += line.substr(start);
  }
}

}  // namespace

const std::string& ReferenceRow::text(const std::string& column) const {
  const auto at = cells_.find(column);
  ensure(at != cells_.end(), ("reference table has column " + column).c_str());
  return at->second;
}

bool ReferenceRow::has(const std::string& column) const {
  const auto at = cells_.find(column);
  return at != cells_.end() && !at->second.empty();
}

double ReferenceRow::number(const std::string& column) const {
  const std::string& cell = text(column);
  char* end = nullptr;
  const double value = std::strtod(cell.c_str(), &end);
  ensure(!cell.empty() && *end == '\0', ("reference cell is a number: " + column + " = " + cell).c_str());
  return value;
}

double ReferenceRow::half_digit(const std::string& column) const {
  const std::string& cell = text(column);
  const std::size_t e = cell.find_first_of("eE");
  const std::string digits = cell.substr(0, e);
  const std::size_t point = digits.find('.');
  const int decimals = point == std::string::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  const int power = e == std::string::npos ? 0 : std::atoi(cell.c_str() + e + 1);
  return 0.5 * std::pow(10.0, power - decimals);
}

ReferenceTable parse_reference(std::string_view name, std::string_view text) {
  ReferenceTable table;
  table.name = name;
  std::vector<std::string> columns;
  std::istringstream stream{std::string(text)};
  for (std::string line; std::getline(stream, line);) {
    if (line.empty()) continue;
    if (line.front() == '#') {
      take_comment(line, table);
    } else if (columns.empty()) {
      columns = cells_of(line);
    } else {
      const std::vector<std::string> cells = cells_of(line);
      std::map<std::string, std::string> row;
      for (std::size_t k = 0; k < columns.size(); ++k) row[columns[k]] = k < cells.size() ? cells[k] : "";
      table.rows.emplace_back(std::move(row));
    }
  }
  if (table.tag.empty() && table.source.rfind("derived", 0) == 0) table.tag = "computed";
  return table;
}

bool has_reference_table(std::string_view name) {
  for (const EmbeddedTable& table : embedded_tables())
    if (table.name == name) return true;
  return false;
}

ReferenceTable reference_table(std::string_view name) {
  for (const EmbeddedTable& table : embedded_tables())
    if (table.name == name) return parse_reference(table.name, table.text);
  ensure(false, ("reference table " + std::string(name) + " is built in").c_str());
  return {};
}

}  // namespace strikewright
