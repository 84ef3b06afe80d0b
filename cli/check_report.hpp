#pragma once
// What this build gives beside what was published, row by row.

#include <iosfwd>
#include <string>
#include <vector>

#include "check_reference.hpp"

namespace strikewright {

/// One figure, measured on this build and published. The published one may be a band.
struct CheckRow {
  std::string group{}, table{}, what{}, unit{};
  double measured = 0.0;
  double low = 0.0, high = 0.0;  ///< published; equal unless a band; infinite = open
  double allowed = 0.0;          ///< how far outside the band may be
  std::string reason{};          ///< why so far
  std::string source{}, tag{};
  bool gated = true;  ///< false: shown beside each other, never counted as pass or not

  /// Measured minus the nearest published figure; 0 inside a band.
  [[nodiscard]] double difference() const;
  /// Within what is allowed. A NaN is not.
  [[nodiscard]] bool pass() const;
};

struct CheckSum {
  std::size_t pass = 0, not_pass = 0, shown = 0;
};

struct CheckReport {
  std::vector<CheckRow> rows;
  [[nodiscard]] CheckSum sum(const std::string& group = "") const;  ///< "" = all groups
};

/// Adds the rows of one reference table to a report, with its source and reason.
class CheckTable {
 public:
  CheckTable(CheckReport& report, std::string group, std::string_view table);
  [[nodiscard]] const std::vector<ReferenceRow>& rows() const { return table_.rows; }
  /// Gated, one published figure with what is allowed beside it; `reason` "" = the table's tolerance line.
  void compare(const std::string& what, const std::string& unit, double measured, double published,
               double allowed, const std::string& reason = "");
  /// The same for a printed figure: half of its last digit is allowed.
  void printed(const std::string& what, const std::string& unit, double measured, const ReferenceRow& row,
               const std::string& column);
  /// Gated, a published band.
  void band(const std::string& what, const std::string& unit, double measured, double low, double high,
            double allowed = 0.0, const std::string& reason = "");
  /// Shown only.
  void show(const std::string& what, const std::string& unit, double measured, double low, double high,
            const std::string& reason = "");

 private:
  void add(CheckRow row, const std::string& reason);
  CheckReport& report_;
  std::string group_;
  ReferenceTable table_;
};

/// Rows under their tables, one summary line a group, then "N rows, N pass, N not".
/// @param verbose  every table with its source, tag and note
void print_report(const CheckReport& report, bool verbose, std::ostream& out);
void print_report_json(const CheckReport& report, std::ostream& out);

}  // namespace strikewright
