#include "verbs/pass_json.hpp"

#include <fmt/format.h>

#include <array>

#include "delivery/pass_vector.hpp"
#include "quantity/angle.hpp"

namespace strikewright {
namespace {

struct PassMember {
  const char* key;
  double Pass<double>::*at;
  double scale;      ///< SI value of one shown unit
  double low, high;  ///< in the shown unit: beyond, no human swing is meant
};

constexpr std::array<PassMember, kPassSize> kMembers{{
    {"club_speed_mps", &Pass<double>::club_speed, 1.0, 1.0, 80.0},
    {"plane_direction_deg", &Pass<double>::plane_direction, kDegree, -60.0, 60.0},
    {"plane_tilt_deg", &Pass<double>::plane_tilt, kDegree, 20.0, 85.0},
    {"low_point_mm", &Pass<double>::low_point, 1e-3, -600.0, 600.0},
    {"low_point_depth_mm", &Pass<double>::low_point_depth, 1e-3, -100.0, 150.0},
    {"shaft_lean_deg", &Pass<double>::shaft_lean, kDegree, -60.0, 60.0},
    {"face_turn_deg", &Pass<double>::face_turn, kDegree, -70.0, 70.0},
    {"strike_toe_mm", &Pass<double>::strike_toe, 1e-3, -90.0, 90.0},
    {"lie_offset_deg", &Pass<double>::lie_offset, kDegree, -20.0, 20.0},
    {"closing_rate_degps", &Pass<double>::closing_rate, kDegree, -6000.0, 9000.0},
    {"ball_sits_mm", &Pass<double>::ball_sits, 1e-3, -40.0, 80.0},
    {"turf_log", &Pass<double>::turf, 1.0, -4.0, 4.0},
    {"turf_lift_log", &Pass<double>::turf_lift, 1.0, -4.0, 4.0},
    {"shaft_time_log", &Pass<double>::shaft_time, 1.0, -4.0, 4.0},
    {"arc_log", &Pass<double>::arc, 1.0, -0.8, 0.8},
}};

}  // namespace

nlohmann::ordered_json pass_document(const Pass<double>& pass) {
  nlohmann::ordered_json out = nlohmann::ordered_json::object();
  for (const PassMember& m : kMembers) out[m.key] = pass.*m.at / m.scale;
  return out;
}

Pass<double> pass_from(JsonDoor door) {
  Pass<double> pass;
  for (const PassMember& m : kMembers) {
    const double value = door.number(m.key);
    // What is missing has been refused already, and reads as 0.
    if (value != 0.0 && (value < m.low || value > m.high))
      door.wrong(m.key, fmt::format("{}", value), fmt::format("{} to {}", m.low, m.high));
    pass.*m.at = value * m.scale;
  }
  door.done();
  if (pass.club_speed <= 0.0) door.wrong("club_speed_mps", "0", "1 to 80");
  if (pass.plane_tilt <= 0.0) door.wrong("plane_tilt_deg", "0", "20 to 85");
  return pass;
}

}  // namespace strikewright
