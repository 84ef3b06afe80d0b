#include "lesson_tables.hpp"

#include <fmt/format.h>

#include "quantity/angle.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string on(const Shown& s, double value) { return figure(value / s.scale, s.places); }

struct SwingColumn {
  const char* head;
  double Reported::*at;
};

/// What fits beside one another on 80 columns.
constexpr std::array<SwingColumn, 8> kColumnsOfSwings{{{"low point", &Reported::low_point},
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
  if (pattern.n > 1) head.emplace_back("scatter");
  return table(head, rows, 2);
}

std::string swing_table(const LessonReading& lesson, const Pattern& pattern, UnitSystem units) {
  std::vector<std::string> head{"swing"}, unit{""};
  for (const SwingColumn& column : kColumnsOfSwings) {
    head.emplace_back(column.head);
    unit.push_back(shown_field(index_of(column.at), units).unit);
  }
  Rows rows{unit};
  for (const SwingReading& swing : lesson.swings) {
    if (!belongs(swing, pattern)) continue;
    std::vector<std::string> row{std::to_string(swing.row) + (swing.reading.health.rough ? "*" : "")};
    for (const SwingColumn& column : kColumnsOfSwings) {
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

namespace {

Ruler table_ruler(Cause cause, UnitSystem units) {
  const CauseFacts& facts = kCauseFacts[static_cast<std::size_t>(cause)];
  if (std::string_view(facts.unit) == "mm") return face_ruler(units);
  return {facts.scale, 0, facts.unit};
}

/// "face turn (closed +)": what is further or more is so because the figure is.
std::string cause_name(Cause cause, Hand hand) {
  std::string_view plus = sides_of(cause, hand).plus;
  for (const std::string_view degree : {"further ", "more "})
    if (plus.starts_with(degree)) plus.remove_prefix(degree.size());
  return fmt::format("{} ({} +)", plain_name(cause), plus);
}

std::string share_of(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

/// The mean of what scatters is the aim's; only how far it scatters is shown.
struct WayRow {
  const char* name;
  const char* unit;
  double scale;
  int places;
  MeanAndSd WaySwung::*at;
  bool needs_flight;
};

std::vector<WayRow> way_rows(UnitSystem units) {
  const bool yards = units == UnitSystem::yards;
  const char *small = yards ? "in" : "mm", *large = yards ? "yd" : "m";
  const double small_scale = yards ? kInch : 1e-3, large_scale = yards ? kYard : 1.0;
  const int places = yards ? 2 : 1;
  return {{"low point", small, small_scale, places, &WaySwung::low_point, false},
          {"strike up the face", small, small_scale, places, &WaySwung::strike_up, true},
          {"start direction", "deg", kDegree, 1, &WaySwung::start, true},
          {"curve", large, large_scale, 1, &WaySwung::curve, true},
          {"carry", large, large_scale, 1, &WaySwung::carry, true}};
}

std::string ways_table(const WaysSwung& ways, UnitSystem units) {
  const bool flew = ways[0].flew > 0 && ways[1].flew > 0;
  Rows rows;
  for (const WayRow& row : way_rows(units)) {
    if (row.needs_flight && !flew) continue;
    std::vector<std::string> cells{row.name, row.unit};
    for (const WaySwung& way : ways) cells.push_back(figure((way.*row.at).sd / row.scale, row.places));
    rows.push_back(cells);
  }
  rows.push_back({"fat", "", share_of(ways[0].fat), share_of(ways[1].fat)});
  if (flew) rows.push_back({"thin", "", share_of(ways[0].thin), share_of(ways[1].thin)});
  return table({"scatter of", "", ways[0].name, ways[1].name}, rows, 2);
}

std::string paragraph(const std::string& text) {
  std::string out;
  for (const std::string& line : wrapped(text, 80)) out += line + '\n';
  return out;
}

/// Only what scatters: without a ball neither start nor carry.
std::string scatter_table(const CauseReading& causes) {
  std::vector<std::string> head{"share of the scatter"}, rest{"all that is no cause"};
  Rows rows;
  for (const CauseShift& c : causes.causes) rows.push_back({plain_name(c.cause)});
  for (std::size_t o = 0; o < kOutcomes; ++o) {
    const ScatterRow& row = causes.scatter.rows[o];
    if (row.sd == 0.0) continue;
    head.emplace_back(kOutcomeFacts[o].says);
    rest.push_back(share_of(row.rest_first));
    for (std::size_t k = 0; k < rows.size(); ++k) rows[k].push_back(share_of(causes.causes[k].share[o]));
  }
  rows.push_back(rest);
  return table(head, rows, 2);
}

std::string noise_words() {
  const Noise n;
  return fmt::format(
      "release {:.0f} ms, weight {:.0f} mm, height {:.0f} mm, handle {:.1f}, face turn {:.1f} and plane tilt "
      "{:.1f} "
      "degrees, speed {:.0f} %",
      n.release * 1e3, n.weight * 1e3, n.height * 1e3, n.handle / kDegree, n.face_turn / kDegree,
      n.plane_tilt / kDegree, n.speed * 100.0);
}

}  // namespace

std::string cause_table(const Explained& why, const LessonReading& lesson, UnitSystem units) {
  Rows rows;
  for (const CauseShift& c : why.causes.causes) {
    const Ruler ruler = table_ruler(c.cause, units);
    const auto shown = [&](double value) { return figure(value / ruler.scale, ruler.places); };
    rows.push_back({cause_name(c.cause, why.causes.hand), ruler.unit, shown(c.shift.mean), shown(c.shift.p10),
                    shown(c.shift.p90), share_of(c.probability_leading)});
  }
  const std::string out = table({"cause", "", "off by", "80 % from", "to", "furthest off"}, rows, 2);
  return pattern_spoken_of(*why.group, lesson).n < 2 ? out : out + '\n' + scatter_table(why.causes);
}

std::string ways_text(const Explained& why, UnitSystem units) {
  if (!why.ways) return "";
  if (!*why.ways)
    return paragraph(
        "Two ways of swinging cannot be compared: no swing brings the club to the ball as the pupil's. " +
        why.ways->error().sentence() + ".");
  const WaysSwung& ways = **why.ways;
  std::string out = paragraph(
      "The club brought to the ball as the pupil usually does, swung in two ways with the same noise: "
      "wrist-driven, the hub stands still and the wrists do the work; handle-led, the hub moves on and the "
      "handle with it.");
  out += '\n' + ways_table(ways, units) + '\n';
  for (const WaySwung& way : ways)
    if (!way.said.empty()) out += paragraph(std::string(way.name) + ": " + way.said);
  return out + paragraph("Noise from swing to swing, assumed: " + noise_words() +
                         fmt::format("; {} swings each.", ways[0].swings));
}

}  // namespace strikewright
