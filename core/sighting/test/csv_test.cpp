#include "sighting/csv.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "numeric/draws.hpp"

using namespace strikewright;

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::size_t below(std::size_t n, Draws& draws) {
  return std::min(n - 1, static_cast<std::size_t>(draws.uniform() * static_cast<double>(n)));
}

/// A cell of what people and spreadsheets put into cells, the awkward pieces above all.
std::string drawn_cell(Draws& draws) {
  static const std::array<std::string, 14> pieces{
      "7i", ",", "\"", "\n", "\r\n", "\r", "#", " ", "\t", "M\xc3\xa4rz", "-3.5", ";", "\xe2\x88\x92", "fat"};
  std::string out;
  for (std::size_t k = below(5, draws); k > 0; --k) out += pieces.at(below(pieces.size(), draws));
  return out;
}

std::string written(const Rows& rows, const std::string& line_end) {
  std::string out;
  for (const auto& row : rows) {
    for (std::size_t k = 0; k < row.size(); ++k) out += (k == 0 ? "" : ",") + csv_cell(row[k]);
    out += line_end;
  }
  return out;
}

Rows read(const std::string& text, Draws& draws) {
  Rows rows;
  CsvReader reader{"f", [&](CsvRow&& row) {
                     rows.push_back(std::move(row.cells));
                     return true;
                   }};
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t piece = 1 + below(9, draws);
    REQUIRE(reader.feed(std::string_view(text).substr(at, piece)).has_value());
    at += piece;
  }
  REQUIRE(reader.finish().has_value());
  return rows;
}

}  // namespace

TEST_CASE("whatever is written into cells is read back from them") {
  // 2,000 tables drawn from a fixed seed, cut into pieces at random.
  Draws draws{11};
  for (int table = 0; table < 2000; ++table) {
    Rows rows(1 + below(4, draws));
    for (auto& row : rows) {
      row.push_back("row");  // a row of nothing but blanks would be skipped
      for (std::size_t k = below(4, draws); k > 0; --k) row.push_back(drawn_cell(draws));
    }
    const std::array<std::string, 3> ends{"\n", "\r\n", "\r"};
    CHECK(read(written(rows, ends.at(below(3, draws))), draws) == rows);
  }
}

TEST_CASE("a row knows the line it began on, also after a cell of several lines") {
  std::vector<std::size_t> lines;
  CsvReader reader{"f", [&](CsvRow&& row) {
                     lines.push_back(row.line);
                     return true;
                   }};
  REQUIRE(reader.feed("a\n\"b\nb\r\nb\"\r\n# c\n\nd").has_value());
  REQUIRE(reader.finish().has_value());
  CHECK(lines == std::vector<std::size_t>{1, 2, 7});
}

TEST_CASE("a reader that is told to stop takes nothing more") {
  int rows = 0;
  CsvReader reader{"f", [&](CsvRow&&) { return ++rows < 2; }};
  REQUIRE(reader.feed("a\nb\nc\n\"d").has_value());
  CHECK(reader.finish().has_value());
  CHECK(rows == 2);
}
