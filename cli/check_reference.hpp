#pragma once
// A table of reference/ as rows that can be asked by column name.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace strikewright {

/// One row. Asking for a column that the table lacks, or for a number where none stands, is our own bug.
class ReferenceRow {
 public:
  explicit ReferenceRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& column) const;
  [[nodiscard]] double number(const std::string& column) const;
  /// Is something written there?
  [[nodiscard]] bool has(const std::string& column) const;
  /// Half a unit of the last printed digit: "9.540" -> 0.0005, "247" -> 0.5, "1.5e3" -> 50.
  [[nodiscard]] double half_digit(const std::string& column) const;

 private:
  std::map<std::string, std::string> cells_;
};

struct ReferenceTable {
  std::string name;
  std::string source;     ///< "# source:"
  std::string tag;        ///< "# tag:"; a derived source without one is "computed"
  std::string tolerance;  ///< "# tolerance:"
  std::string note;       ///< "# note:"
  std::vector<ReferenceRow> rows;
};

/// Comment lines, header row, rows; several lines of one kind are joined.
ReferenceTable parse_reference(std::string_view name, std::string_view text);

/// The embedded table of that name; a missing one is our own bug.
ReferenceTable reference_table(std::string_view name);
bool has_reference_table(std::string_view name);

}  // namespace strikewright
