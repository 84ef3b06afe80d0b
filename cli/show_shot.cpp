#include "show_shot.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "quantity/angle.hpp"
#include "show_flight.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

constexpr double kMm = 1e-3;
constexpr auto kAngle = Dimension::angle;
constexpr auto kSmall = Dimension::small_length;

std::string contact_sentence(const Shot<double>& shot, const Setting& setting) {
  const Strike<double>& strike = shot.strike;
  if (!setting.with_ball)
    return strike.divot.any ? "The club cuts the turf." : "The club stays over the turf.";
  if (strike.missed) return "The club passes over the ball.";
  if (strike.strike_up < 0.0) return "Thin: the leading edge meets the ball.";
  const double lost = 100.0 * (1.0 - strike.speed_left);
  if (lost >= 1.0) return fmt::format("Turf first: {:.0f} % of the club's speed is gone at the ball.", lost);
  if (!strike.divot.any) return "Ball only, no turf.";
  constexpr double kBehind =
      -0.015;  // m: the edge itself is about a centimetre behind the ball's centre at contact
  return strike.divot.start < kBehind ? "The turf is brushed before the ball." : "Ball first, then turf.";
}

}  // namespace

std::vector<Figure> delivery_figures(const Shot<double>& shot) {
  const Delivery<double>& d = shot.delivery;
  const Pass<double>& p = shot.pass;
  return {
      {"club_speed_mps", 1.0, "club speed", Dimension::speed, "", "", p.club_speed},
      {"low_point_mm", kMm, "low point", kSmall, "ahead of the ball", "behind the ball", p.low_point},
      {"low_point_depth_mm", kMm, "low point depth", kSmall, "over the turf", "under the turf",
       p.low_point_depth},
      {"attack_deg", kDegree, "attack angle", kAngle, "up", "down", d.attack},
      {"path_deg", kDegree, "club path", kAngle, "in to out", "out to in", d.path},
      {"face_deg", kDegree, "face angle", kAngle, "open", "closed", d.face},
      {"face_to_path_deg", kDegree, "face to path", kAngle, "open", "closed", d.face - d.path},
      {"delivered_loft_deg", kDegree, "delivered loft", kAngle, "", "", d.loft},
      {"delivered_lie_deg", kDegree, "delivered lie", kAngle, "toe up", "toe down", d.lie},
      {"shaft_lean_deg", kDegree, "shaft lean", kAngle, "forward", "backward", d.lean},
      {"handle_lead_mm", kMm, "handle lead", kSmall, "ahead of the ball", "behind the ball", d.handle_lead},
      {"face_turn_deg", kDegree, "face turn", kAngle, "closing", "opening", p.face_turn},
      {"closing_rate_degps", kDegree, "closing rate", Dimension::none, "", "", d.closing_rate},
      {"plane_direction_deg", kDegree, "plane direction", kAngle, "out", "in", p.plane_direction},
      {"plane_tilt_deg", kDegree, "plane tilt", kAngle, "", "", p.plane_tilt},
      {"exposed_bounce_deg", kDegree, "exposed bounce", kAngle, "", "", d.exposed_bounce},
      {"strike_toe_mm", kMm, "strike point, across", kSmall, "toward the toe", "toward the heel",
       d.strike_toe},
      {"strike_up_mm", kMm, "strike point, up", kSmall, "up the face", "under the edge", d.strike_up},
  };
}

std::vector<Figure> turf_figures(const Shot<double>& shot) {
  const Divot<double>& divot = shot.strike.divot;
  return {
      {"divot_start_mm", kMm, "divot start", kSmall, "ahead of the ball", "behind the ball", divot.start},
      {"divot_end_mm", kMm, "divot end", kSmall, "ahead of the ball", "behind the ball", divot.end},
      {"divot_direction_deg", kDegree, "divot direction", kAngle, "right", "left", divot.direction},
      {"divot_depth_mm", kMm, "divot depth", kSmall, "", "", divot.depth},
      {"divot_deepest_at_mm", kMm, "deepest", kSmall, "ahead of the ball", "behind the ball",
       divot.deepest_at},
      {"divot_toe_depth_mm", kMm, "toe side", kSmall, "deeper", "shallower", divot.toe_depth},
  };
}

std::vector<Figure> launch_figures(const Shot<double>& shot) {
  const Launch<double>& launch = shot.strike.launch;
  return {
      {"ball_speed_mps", 1.0, "ball speed", Dimension::speed, "", "", launch.speed},
      {"launch_angle_deg", kDegree, "launch angle", kAngle, "", "", launch.elevation},
      {"start_direction_deg", kDegree, "start direction", kAngle, "right", "left", launch.azimuth},
      {"spin_rpm", kRpm, "spin", Dimension::spin, "", "", launch.spin},
      {"spin_axis_tilt_deg", kDegree, "spin axis tilt", kAngle, "right", "left", launch.axis_tilt},
  };
}

nlohmann::ordered_json json_of(const std::vector<Figure>& figures) {
  nlohmann::ordered_json out;
  for (const Figure& f : figures) out[f.key] = f.value / f.scale;
  return out;
}

std::string lines_of(const std::vector<Figure>& figures, UnitSystem units) {
  std::string out;
  for (const Figure& f : figures) {
    std::string value = *f.plus == '\0' ? show(f.value, f.dimension, units)
                                        : sided(f.value, f.dimension, units, f.plus, f.minus);
    if (f.dimension == Dimension::none) value = figure(f.value / f.scale, 0) + " deg/s";
    out += "  " + padded(f.says, 22) + value + '\n';
  }
  return out;
}

std::string json_text(const Shot<double>& shot, const Setting& setting) {
  const Strike<double>& strike = shot.strike;
  nlohmann::ordered_json out;
  out["club"] = setting.club.name;
  out["delivery"] = json_of(delivery_figures(shot));
  nlohmann::ordered_json& s = out["strike"] = json_of(turf_figures(shot));
  s["divot"] = strike.divot.any;
  s["speed_left"] = strike.speed_left;
  s["grass"] = strike.grass;
  s["attack_at_ball_deg"] = strike.attack_at_ball / kDegree;
  s["energy_lost"] = strike.energy_lost;
  s["regime"] = strike.sliding ? "slide" : "stick";
  s["missed"] = strike.missed;
  out["launch"] = nullptr;
  out["flight"] = nullptr;
  if (!shot.flew) return out.dump(2);
  out["launch"] = json_of(launch_figures(shot));
  out["flight"] = json_of(shot.flight, run_of(shot.flight, setting.ball, setting.day));
  return out.dump(2);
}

std::string lines_of(const Shot<double>& shot, const Setting& setting, UnitSystem units) {
  std::string out = contact_sentence(shot, setting) + "\n\nClub (" + setting.club.name + ")\n";
  std::vector<Figure> delivery = delivery_figures(shot);
  if (!setting.with_ball) delivery.resize(delivery.size() - 2);  // no ball, no strike point
  out += lines_of(delivery, units);
  out += "\nTurf\n";
  out += shot.strike.divot.any ? lines_of(turf_figures(shot), units) : "  no divot\n";
  if (!shot.flew) return out;
  out += "\nBall off the face\n" + lines_of(launch_figures(shot), units);
  return out + "\nFlight\n" + lines_of(shot.flight, run_of(shot.flight, setting.ball, setting.day), units);
}

}  // namespace strikewright
