#include "verbs/pictures.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "delivery/delivery_of.hpp"
#include "quantity/angle.hpp"
#include "shot/shot_of.hpp"
#include "verbs/pass_json.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

constexpr double kTenth = 0.1, kHundredth = 0.01;

std::vector<std::size_t> swings_of(const LessonReading& lesson, const Pattern& pattern) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < lesson.swings.size(); ++i) {
    const SwingReading& s = lesson.swings[i];
    if (s.club == pattern.club && s.condition == pattern.condition && s.hand == pattern.hand)
      out.push_back(i);
  }
  return out;
}

/// Pairs of reported quantities from the swings' draws, spread evenly over each swing's.
class Cloud {
 public:
  Cloud(const LessonReading& lesson, const std::vector<std::size_t>& swings)
      : lesson_{lesson},
        swings_{swings},
        each_{swings.empty() ? 0 : std::max<std::size_t>(1, kCloud / swings.size())} {}

  [[nodiscard]] Json pairs(double Reported::*x, double x_unit, double x_step, double Reported::*y,
                           double y_unit, double y_step) const {
    Json out = Json::array();
    each_draw([&](const Reading& reading, std::size_t k) {
      const Reported& draw = reading.draws[k];
      out.push_back({rounded(draw.*x / x_unit, x_step), rounded(draw.*y / y_unit, y_step)});
    });
    return out;
  }

  template <class Do>
  void each_draw(const Do& what) const {
    std::size_t given = 0;
    for (const std::size_t i : swings_) {
      const Reading& reading = lesson_.swings[i].reading;
      for (std::size_t k = 0; k < each_ && given < kCloud; ++k, ++given)
        what(reading, k * reading.draws.size() / each_);
    }
  }

 private:
  const LessonReading& lesson_;
  const std::vector<std::size_t>& swings_;
  std::size_t each_;
};

Json estimate_json(const Pattern& pattern, std::size_t k) {
  const double scale = kReportedFields[k].scale;
  const Estimate& e = pattern.mean[k];
  return {{"mean", e.mean / scale}, {"p10", e.p10 / scale}, {"p90", e.p90 / scale}};
}

std::size_t place_of(const char* key) {
  for (std::size_t k = 0; k < kReported; ++k)
    if (std::string_view(kReportedFields[k].key) == key) return k;
  ensure(false, "a picture of a quantity that is not reported");
  return 0;
}

Json named(const Pattern& pattern, const char* key) { return estimate_json(pattern, place_of(key)); }

/// What was measured of a kind in the player's terms, in its shown unit.
std::optional<double> value_of(const SeenSwing& swing, Kind kind, double unit) {
  for (const Sighting& s : swing.sightings)
    if (s.kind == kind) return s.value / unit;
  return std::nullopt;
}

Json or_null(const std::optional<double>& value) {
  return value ? Json(rounded(*value, kHundredth)) : Json(nullptr);
}

void name_swing(const SwingNames& names, std::size_t i, Json& into) {
  into["id"] = i < names.ids.size() ? Json(names.ids[i]) : Json(nullptr);
  into["number"] = i < names.numbers.size() ? Json(names.numbers[i]) : Json(i + 1);
}

Json divots_of(const std::vector<std::size_t>& swings, const std::vector<SeenSwing>& seen,
               const SwingNames& names) {
  Json out = Json::array();
  for (const std::size_t i : swings) {
    const auto start = value_of(seen[i], Kind::divot_start, kMillimetre);
    const auto end = value_of(seen[i], Kind::divot_end, kMillimetre);
    if (!start && !end) continue;
    Json divot = Json::object();
    name_swing(names, i, divot);
    divot["start_mm"] = or_null(start);
    divot["end_mm"] = or_null(end);
    divot["direction_deg"] = or_null(value_of(seen[i], Kind::divot_direction, kDegree));
    divot["depth_mm"] = or_null(value_of(seen[i], Kind::divot_depth, kMillimetre));
    out.push_back(std::move(divot));
  }
  return out;
}

Json marks_of(const std::vector<std::size_t>& swings, const std::vector<SeenSwing>& seen,
              const SwingNames& names, const Club& club) {
  Json out = Json::array();
  for (const std::size_t i : swings) {
    const auto toe = value_of(seen[i], Kind::strike_toe, kMillimetre);
    auto up = value_of(seen[i], Kind::strike_up, kMillimetre);
    if (const auto groove = value_of(seen[i], Kind::strike_groove, 1.0);
        groove && !up && club.groove_pitch > 0.0)
      up = (club.first_groove + (*groove - 1.0) * club.groove_pitch) / kMillimetre;
    if (!toe && !up) continue;
    Json mark = Json::object();
    name_swing(names, i, mark);
    mark["toe_mm"] = or_null(toe);
    mark["up_mm"] = or_null(up);
    out.push_back(std::move(mark));
  }
  return out;
}

const Group& group_with(const LessonReading& lesson, std::size_t pattern) {
  for (const Group& group : lesson.groups)
    if (std::find(group.patterns.begin(), group.patterns.end(), pattern) != group.patterns.end())
      return group;
  ensure(false, "a pattern of no group");
  return lesson.groups.front();
}

/// The pass in the middle of a pattern.
Pass<double> middle_of(const Group& group, std::size_t pattern) {
  const auto at = static_cast<std::size_t>(std::find(group.patterns.begin(), group.patterns.end(), pattern) -
                                           group.patterns.begin());
  return pass_at(group.prior, within_reach(mean_of(group.fit.patterns[at].centre)));
}

Json side_of(const Group& group, std::size_t pattern, const Pattern& shown, const Cloud& cloud) {
  const Pass<double> middle = middle_of(group, pattern);
  const Setting& setting = group.setting;
  const double radius = setting.club.arc_radius;
  Json arcs = Json::array();
  std::size_t k = 0;
  cloud.each_draw([&](const Reading& reading, std::size_t draw) {
    if (k++ % (kCloud / kArcs) == 0 && arcs.size() < kArcs)
      arcs.push_back(arc_points(reading.passes[draw], radius));
  });
  const double lift = setting.with_ball ? ball_lift_on(setting.ground.surface, setting.club.family) : 0.0;
  const Delivery<double> d = delivery_of(middle, setting.club, setting.ball, lift);
  const double up_the_shaft = setting.club.length - kHandsBelowButt;
  Json out{{"arc", arc_points(middle, radius)},
           {"arcs", std::move(arcs)},
           {"handle",
            {{"lead_mm", rounded(d.handle_lead / kMillimetre, kTenth)},
             {"height_mm", rounded((d.edge_height + up_the_shaft * d.shaft_W.z()) / kMillimetre, kTenth)}}}};
  for (const char* key : {"shaft_lean_deg", "attack_deg", "low_point_mm", "low_point_depth_mm"})
    out[key] = named(shown, key);
  return out;
}

Json above_of(const Pattern& shown, const Cloud& cloud) {
  Json out{
      {"cloud", cloud.pairs(&Reported::path, kDegree, kHundredth, &Reported::face, kDegree, kHundredth)}};
  for (const char* key : {"path_deg", "face_deg", "face_to_path_deg", "plane_direction_deg"})
    out[key] = named(shown, key);
  return out;
}

Json sure_of(const Pattern& shown) {
  Json out = Json::array();
  for (std::size_t k = 0; k < kReported; ++k) {
    Json one{{"key", kReportedFields[k].key},
             {"says", kReportedFields[k].says},
             {"unit", kReportedFields[k].unit}};
    one.update(estimate_json(shown, k));
    one["seen"] = std::clamp(1.0 - shown.mean[k].owed_to_prior, 0.0, 1.0);
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

double rounded(double value, double step) {
  const double per_unit = std::round(1.0 / step);
  return std::round(value * per_unit) / per_unit + 0.0;  // no -0
}

Json arc_points(const Pass<double>& pass, double arc_radius) {
  constexpr double kReach = 0.25;  // m to either side of ball and low point
  constexpr int kSteps = 24;
  const double radius = arc_radius * std::exp(pass.arc);
  const double from = std::min(pass.low_point, 0.0) - kReach, to = std::max(pass.low_point, 0.0) + kReach;
  const double c = std::cos(pass.plane_direction), s = std::sin(pass.plane_direction);
  Json out = Json::array();
  for (int k = 0; k <= kSteps; ++k) {
    const double wanted = from + (to - from) * k / kSteps - pass.low_point;
    const double angle = std::asin(std::clamp(wanted / (radius * c), -0.9, 0.9));
    const double rise = radius * (1.0 - std::cos(angle));
    const double x = pass.low_point + radius * std::sin(angle) * c + rise * std::cos(pass.plane_tilt) * s;
    const double z = pass.low_point_depth + rise * std::sin(pass.plane_tilt);
    out.push_back({rounded(x / kMillimetre, kTenth), rounded(z / kMillimetre, kTenth)});
  }
  return out;
}

Json blade_of(const Club& club) {
  const double grooved = club.face_height - club.first_groove;
  const int grooves = club.groove_pitch > 0.0 ? static_cast<int>(grooved * 0.75 / club.groove_pitch) : 0;
  return {{"length_mm", (club.heel_reach + club.toe_reach) / kMillimetre},
          {"heel_mm", club.heel_reach / kMillimetre},
          {"toe_mm", club.toe_reach / kMillimetre},
          {"height_mm", club.face_height / kMillimetre},
          {"grooves", grooves},
          {"first_groove_mm", club.first_groove / kMillimetre},
          {"groove_spacing_mm", club.groove_pitch / kMillimetre}};
}

Json picture_of(const LessonReading& lesson, std::size_t pattern, const std::vector<SeenSwing>& seen,
                const SwingNames& names, bool ball) {
  const Pattern& shown = lesson.patterns[pattern];
  const Group& group = group_with(lesson, pattern);
  const std::vector<std::size_t> swings = swings_of(lesson, shown);
  const Cloud cloud(lesson, swings);
  return {{"club", shown.club},
          {"condition", name_of(shown.condition)},
          {"hand", shown.hand == Hand::left ? "left" : "right"},
          {"ball", ball},
          {"n", shown.n},
          {"pass", pass_document(middle_of(group, pattern))},
          {"strip",
           {{"cloud", cloud.pairs(&Reported::low_point, kMillimetre, kTenth, &Reported::plane_direction,
                                  kDegree, kHundredth)},
            {"low_point_mm", named(shown, "low_point_mm")},
            {"divots", divots_of(swings, seen, names)}}},
          {"side", side_of(group, pattern, shown, cloud)},
          {"above", above_of(shown, cloud)},
          {"face",
           {{"cloud", cloud.pairs(&Reported::strike_toe, kMillimetre, kTenth, &Reported::strike_up,
                                  kMillimetre, kTenth)},
            {"marks", marks_of(swings, seen, names, group.setting.club)},
            {"blade", blade_of(group.setting.club)}}},
          {"sure", sure_of(shown)}};
}

}  // namespace strikewright
