// `strikewright columns`: what a sightings file may hold, from the kinds' own descriptions.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "bag_option.hpp"
#include "commands.hpp"
#include "sighting/columns.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

std::string number_of(double value) { return fmt::format("{:.6g}", value); }

/// The first column of each kind: the unit that the documentation shows.
std::vector<Column> main_columns() {
  std::vector<Column> out;
  for (const Column& column : known_columns()) {
    const bool seen = column.role == Role::measured || column.role == Role::word;
    if (seen && column.name == column_of(column.kind)) out.push_back(column);
  }
  return out;
}

/// How sure an ordinary look is: "25 mm", "8 %", "3 m + 20 %".
std::string spread_of(const Column& column) {
  const Facts& facts = facts_of(column.kind);
  const std::string unit = column.unit.empty() ? "" : " " + column.unit;
  std::string out = facts.sd > 0.0 ? number_of(facts.sd / column.scale) + unit : "";
  if (facts.share > 0.0) out += (out.empty() ? "" : " + ") + number_of(100.0 * facts.share) + " %";
  return out;
}

std::string lines() {
  std::vector<std::vector<std::string>> measured;
  std::string words;
  for (const Column& column : main_columns()) {
    if (column.role == Role::word) {
      words += "  " + padded(column.name, 18) + joined(words_of(column.kind)) + '\n';
      continue;
    }
    const Facts& facts = facts_of(column.kind);
    measured.push_back({column.name, number_of(facts.low / column.scale),
                        number_of(facts.high / column.scale), spread_of(column)});
  }
  std::string out = "About the swing\n";
  const auto line = [&](const char* name, const std::string& says) {
    out += "  " + padded(name, 18) + says + '\n';
  };
  line("club", "7i, pw, driver ...");
  line("hand", "right, left");
  line("condition", joined(condition_names()));
  line("ball", "yes, no");
  line("surface", joined(surface_names()));
  line("time", "2026-11-25T10:30:00");
  line("swing", "a number of your own");
  out += "\nMeasured: accepted from, to, and how sure an ordinary look is\n" +
         table({"", "from", "to", "spread"}, measured, 2);
  out += "\nIn words\n" + words;
  return out +
         "\nsure_COLUMN overrides a spread. Lengths also end in _m _cm _mm _yd _ft _in,\nspeeds in _mps _mph "
         "_kmh. "
         "Blank = not seen. Where the spreads come from: --json.\n";
}

std::string json_lines() {
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (const Column& column : main_columns()) {
    const Facts& facts = facts_of(column.kind);
    nlohmann::ordered_json one{{"column", column.name}};
    if (column.role == Role::word) {
      one["words"] = words_of(column.kind);
    } else {
      one["unit"] = column.unit;
      one["from"] = facts.low / column.scale;
      one["to"] = facts.high / column.scale;
      one["spread"] = facts.sd / column.scale;
      one["spread_share"] = facts.share;
    }
    one["source"] = facts.source;
    out.push_back(one);
  }
  return out.dump(2) + '\n';
}

}  // namespace

Command columns_command() {
  return {.name = "columns",
          .says = "the columns that a sightings file may have",
          .more = "Each with what is accepted and how sure an ordinary look is taken to be.",
          .options = {},
          .examples = {{.says = "the list", .line = "strikewright columns"}},
          .run = [](Doors& doors) -> Result<int> {
            doors.out << (doors.json ? json_lines() : lines());
            return kGood;
          }};
}

}  // namespace strikewright
