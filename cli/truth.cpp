#include "truth.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson_tables.hpp"
#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "sighting/csv.hpp"
#include "verbs/lesson_words.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kNoField = kReported;  ///< the column `swing`

std::vector<std::string> known_names() {
  std::vector<std::string> names{"swing"};
  for (const auto& field : kReportedFields) names.emplace_back(field.key);
  return names;
}

/// Which field each column holds.
Result<std::vector<std::size_t>> columns_of(const CsvRow& head, const std::string& file) {
  const std::vector<std::string> names = known_names();
  std::vector<std::size_t> columns;
  for (std::size_t k = 0; k < head.cells.size(); ++k) {
    const std::string name{trimmed(head.cells[k])};
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
      return unexpected(Fault{csv_place(file, head.line, k + 1), strikewright::quoted(name),
                              "swing or a key of a reading" + suggestion(name, names)});
    }
    columns.push_back(at == names.begin() ? kNoField : static_cast<std::size_t>(at - names.begin()) - 1);
  }
  for (std::size_t k = 0; k < names.size(); ++k) {
    const std::size_t field = k == 0 ? kNoField : k - 1;
    if (std::count(columns.begin(), columns.end(), field) != 1) {
      return unexpected(Fault{csv_place(file, head.line, 1), "not one column " + names[k], "every key once"});
    }
  }
  return columns;
}

Result<TrueSwing> swing_of(const CsvRow& row, const std::vector<std::size_t>& columns,
                           const std::string& file) {
  if (row.cells.size() != columns.size()) {
    return unexpected(Fault{csv_place(file, row.line, 1), fmt::format("{} cells", row.cells.size()),
                            fmt::format("{} as in the header", columns.size())});
  }
  TrueSwing out;
  for (std::size_t k = 0; k < columns.size(); ++k) {
    const Result<double> value = plain_number(row.cells[k], "", csv_place(file, row.line, k + 1));
    if (!value) return unexpected(value.error());
    if (columns[k] == kNoField) {
      if (!(*value >= 1.0 && *value <= 1e9)) {
        return unexpected(Fault{csv_place(file, row.line, k + 1), row.cells[k], "the swing's row, from 1"});
      }
      out.row = static_cast<std::size_t>(*value);
    } else {
      const auto& field = kReportedFields[columns[k]];
      out.at.*field.at = *value * field.scale;
    }
  }
  return out;
}

const Reported* truth_of(const std::vector<TrueSwing>& truths, std::size_t row) {
  const auto at =
      std::find_if(truths.begin(), truths.end(), [&](const TrueSwing& t) { return t.row == row; });
  return at == truths.end() ? nullptr : &at->at;
}

struct Tally {
  std::size_t inside = 0, all = 0;
  void add(const Estimate& e, double truth) {
    ++all;
    if (truth >= e.p10 && truth <= e.p90) ++inside;
  }
};

struct Matched {
  const SwingReading* reading;
  const Reported* truth;
};

std::vector<std::string> row_of(std::size_t k, const Pattern& pattern, const std::vector<Matched>& swings,
                                UnitSystem units, Tally& means, Tally& all) {
  const auto member = kReportedFields[k].at;
  double truth = 0.0;
  Tally here;
  for (const Matched& m : swings) {
    truth += m.truth->*member / static_cast<double>(swings.size());
    here.add(m.reading->reading.at[k], m.truth->*member);
  }
  means.add(pattern.mean[k], truth);
  all.inside += here.inside;
  all.all += here.all;
  const Shown s = shown_field(k, units);
  const auto on = [&](double value) { return figure(value / s.scale, s.places); };
  const Estimate& e = pattern.mean[k];
  const bool inside = truth >= e.p10 && truth <= e.p90;
  return {s.name.substr(0, s.name.find(" (")),
          s.unit,
          on(e.mean),
          on(e.p10) + " to " + on(e.p90),
          on(truth),
          inside ? "yes" : "no",
          fmt::format("{} of {}", here.inside, here.all)};
}

}  // namespace

Result<std::vector<TrueSwing>> truth_from(const std::string& text, const std::string& file) {
  std::vector<CsvRow> rows;
  CsvReader reader(file, [&](CsvRow&& row) {
    rows.push_back(std::move(row));
    return true;
  });
  if (const auto fed = reader.feed(text); !fed) return unexpected(fed.error());
  if (const auto done = reader.finish(); !done) return unexpected(done.error());
  if (rows.empty()) return unexpected(Fault{file, "nothing", "a header and one row a swing"});
  const auto columns = columns_of(rows.front(), file);
  if (!columns) return unexpected(columns.error());
  std::vector<TrueSwing> out;
  for (std::size_t k = 1; k < rows.size(); ++k) {
    const Result<TrueSwing> swing = swing_of(rows[k], *columns, file);
    if (!swing) return unexpected(swing.error());
    out.push_back(*swing);
  }
  return out;
}

std::string csv_of(const std::vector<TrueSwing>& truths, const std::string& comment) {
  std::string out = comment + "swing";
  for (const auto& field : kReportedFields) out += std::string(",") + field.key;
  out += '\n';
  for (const TrueSwing& t : truths) {
    out += std::to_string(t.row);
    for (const auto& field : kReportedFields) out += "," + figure(t.at.*field.at / field.scale, 2);
    out += '\n';
  }
  return out;
}

Result<std::string> comparison(const LessonReading& lesson, const std::vector<TrueSwing>& truths,
                               const std::string& file, UnitSystem units) {
  std::string out;
  Tally means, all;
  for (const Pattern& pattern : lesson.patterns) {
    std::vector<Matched> swings;
    for (const SwingReading& s : lesson.swings) {
      if (s.club != pattern.club || s.condition != pattern.condition || s.hand != pattern.hand) continue;
      const Reported* truth = truth_of(truths, s.row);
      if (truth == nullptr)
        return unexpected(Fault{file, "no truth", fmt::format("one for swing {}", s.row)});
      swings.push_back({&s, truth});
    }
    std::vector<std::vector<std::string>> rows;
    for (std::size_t k = 0; k < kReported; ++k) rows.push_back(row_of(k, pattern, swings, units, means, all));
    out += "Reading against truth: " + heading_of(pattern) + "\n" +
           table({"", "", "mean", "80 % between", "truth", "inside", "swings"}, rows, 2) + "\n";
  }
  out += fmt::format("Inside the 80 % intervals: {} of {} means, {} of {} figures of single swings.\n",
                     means.inside, means.all, all.inside, all.all);
  return out;
}

}  // namespace strikewright
