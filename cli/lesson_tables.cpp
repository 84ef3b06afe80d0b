#include "lesson_tables.hpp"

#include <fmt/format.h>

#include "quantity/angle.hpp"
#include "show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string on(const Shown& s, double value) { return figure(value / s.scale, s.places); }

struct Column {
  const char* head;
  double Reported::*at;
};

/// What fits beside one another on 80 columns.
constexpr std::array<Column, 8> kColumnsOfSwings{{{"low point", &Reported::low_point},
                                                  {"lean", &Reported::shaft_lean},
                                                  {"attack", &Reported::attack},
                                                  {"path", &Reported::path},
                                                  {"face", &Reported::face},
                                                  {"loft", &Reported::loft},
                                                  {"toe", &Reported::strike_toe},
                                                  {"up", &Reported::strike_up}}};

std::size_t index_of(double Reported::*at) {
  std::size_t k = 0;
  while (kReportedFields[k].at != at) ++k;
  return k;
}

bool belongs(const SwingReading& swing, const Pattern& pattern) {
  return swing.club == pattern.club && swing.condition == pattern.condition && swing.hand == pattern.hand;
}

}  // namespace

Shown shown_field(std::size_t k, UnitSystem units) {
  const auto& field = kReportedFields[k];
  const std::string says = field.says;
  const std::size_t comma = says.find(", ");
  Shown out{says.substr(0, comma), field.unit, field.scale, 0};
  if (comma != std::string::npos) out.name += " (" + says.substr(comma + 2) + ")";
  const std::string unit = field.unit;
  if (unit == "m/s") out.places = 1;
  if (units == UnitSystem::metric) return out;
  if (unit == "mm") return {out.name, "in", kInch, 1};
  if (unit == "m/s") return {out.name, "mph", kMph, 1};
  return out;
}

std::string pattern_table(const Pattern& pattern, UnitSystem units) {
  Rows rows;
  for (std::size_t k = 0; k < kReported; ++k) {
    const Shown s = shown_field(k, units);
    const Estimate& mean = pattern.mean[k];
    std::vector<std::string> row{s.name, s.unit, on(s, mean.mean), on(s, mean.p10), on(s, mean.p90)};
    if (pattern.n > 1) row.push_back(on(s, pattern.scatter[k].mean));
    rows.push_back(row);
  }
  std::vector<std::string> head{"", "", "mean", "80 % from", "to"};
  if (pattern.n > 1) head.emplace_back("swing to swing");
  return table(head, rows, 2);
}

std::string swing_table(const LessonReading& lesson, const Pattern& pattern, UnitSystem units) {
  std::vector<std::string> head{"swing"}, unit{""};
  for (const Column& column : kColumnsOfSwings) {
    head.emplace_back(column.head);
    unit.push_back(shown_field(index_of(column.at), units).unit);
  }
  Rows rows{unit};
  for (const SwingReading& swing : lesson.swings) {
    if (!belongs(swing, pattern)) continue;
    std::vector<std::string> row{std::to_string(swing.row) + (swing.reading.health.rough ? "*" : "")};
    for (const Column& column : kColumnsOfSwings) {
      const Shown s = shown_field(index_of(column.at), units);
      const Estimate& e = swing.reading.at[index_of(column.at)];
      row.push_back(on(s, e.mean) + " ±" + padded(on(s, e.sd), 2, true));
    }
    rows.push_back(row);
  }
  return table(head, rows, 2);
}

std::string prior_table(const Pattern& pattern, const Prior& prior, UnitSystem units) {
  Rows rows;
  for (std::size_t k = 0; k < kReported; ++k) {
    const Shown s = shown_field(k, units);
    const Estimate& e = pattern.mean[k];
    rows.push_back({s.name, s.unit, on(s, e.prior_mean) + " ±" + padded(on(s, e.prior_sd), 3, true),
                    on(s, e.mean) + " ±" + padded(on(s, e.sd), 3, true),
                    fmt::format("{:.0f} %", 100.0 * e.owed_to_prior)});
  }
  std::string out = table({"", "", "before", "after", "owed to before"}, rows, 2);
  out += "\n  Where 'before' comes from\n";
  for (std::size_t k = 0; k < kNumbers; ++k) {
    const std::string name = kPriorRows[k].says;
    out += "  " + name.substr(0, name.find(',')) + '\n';
    for (const std::string& line : wrapped(prior.source[k], 80 - 6)) out += "      " + line + '\n';
  }
  return out;
}

}  // namespace strikewright
