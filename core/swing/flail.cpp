#include "swing/flail.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace strikewright {
namespace {

struct Limit {
  const char* field;
  double value, low, high;
  const char* expected;
};

std::optional<Fault> first_outside(std::initializer_list<Limit> limits) {
  for (const Limit& l : limits)
    if (!(l.value >= l.low && l.value <= l.high))
      return Fault{l.field, fmt::format("{:g}", l.value), l.expected};
  return std::nullopt;
}

constexpr double kTiny = 1e-9;

std::optional<Fault> fault_of_lever(const Lever<double>& l, const char* const (&names)[4]) {
  return first_outside({
      {names[0], l.mass, kTiny, 1e3, "a mass in kg, more than 0"},
      {names[1], l.com, kTiny, 10.0, "metres from the lever's upper end, more than 0"},
      {names[2], l.length, kTiny, 10.0, "a length in m, more than 0"},
      {names[3], l.inertia_com, 0.0, 1e3,
       "an inertia about the lever's own centre of mass in kg m2, not negative"},
  });
}

std::optional<Fault> fault_of_torques(const Flail<double>& f) {
  const double big = 1e4;
  const auto limit = [](const std::optional<double>& v) { return v.value_or(1.0); };
  return first_outside({
      {"shoulder.torque_nm", f.shoulder.torque, -big, big, "a torque in N m"},
      {"shoulder.activation_s", f.shoulder.activation, 0.0, 10.0, "a time constant in s, 0 = at once"},
      {"shoulder.speed_limit_radps", limit(f.shoulder.speed_limit), kTiny, big,
       "a rate in rad/s, more than 0, or null"},
      {"shoulder.hill", f.shoulder.hill, 0.0, 100.0, "a curvature, 0 to 100"},
      {"wrist.drive_nm", f.wrist.drive, -big, big, "a torque in N m"},
      {"wrist.speed_limit_radps", limit(f.wrist.speed_limit), kTiny, big,
       "a rate in rad/s, more than 0, or null"},
      {"wrist.hill", f.wrist.hill, 0.0, 100.0, "a curvature, 0 to 100"},
      {"wrist.drive_after_arm_deg", f.wrist.drive_after_arm.value_or(0.0) / kDegree, -720.0, 720.0,
       "an arm angle in degrees"},
      {f.wrist.release.kind == Release<double>::Kind::at_time ? "wrist.release.time_s"
                                                              : "wrist.release.arm_deg",
       f.wrist.release.value, -15.0, 15.0, "a time in s, or an arm angle within two turns"},
  });
}

std::optional<Fault> fault_of_hub(const Hub<double>& hub) {
  const double big = 1e4;
  for (const HubPush<double>& p : hub.pushes) {
    if (!(std::isfinite(p.from) && std::isfinite(p.to) && p.from <= p.to))
      return Fault{"hub.acceleration", fmt::format("from {:g} to {:g}", p.from, p.to),
                   "from_s not after to_s"};
    if (auto fault = first_outside({
            {"hub.acceleration.along_mps2", p.along, -big, big, "an acceleration in m/s2"},
            {"hub.acceleration.up_slope_mps2", p.up, -big, big, "an acceleration in m/s2"},
        }))
      return fault;
  }
  return first_outside({
      {"hub.shift_m", hub.shift.size, -2.0, 2.0, "metres, -2 to 2"},
      {"hub.rise_m", hub.rise.size, -2.0, 2.0, "metres, -2 to 2"},
      {"hub.start_s", hub.shift.start, -10.0, 10.0, "seconds"},
      {"hub.start_s", hub.rise.start, -10.0, 10.0, "seconds"},
      {"hub.duration_s", hub.shift.duration, 1e-3, 10.0, "seconds, at least 0.001"},
      {"hub.duration_s", hub.rise.duration, 1e-3, 10.0, "seconds, at least 0.001"},
  });
}

}  // namespace

std::optional<Fault> fault_of(const Flail<double>& f) {
  if (auto fault =
          fault_of_lever(f.arm, {"arm.mass_kg", "arm.com_m", "arm.length_m", "arm.inertia_com_kgm2"}))
    return fault;
  if (auto fault =
          fault_of_lever(f.club, {"club.mass_kg", "club.com_m", "club.length_m", "club.inertia_com_kgm2"}))
    return fault;
  const Lumped<double> c = lumped(f.arm, f.club);
  if (!(c.j1 * c.j2 - c.p * c.p > 1e-12))
    return Fault{"club.inertia_com_kgm2", fmt::format("{:g}", f.club.inertia_com),
                 "levers that resist turning (J1 J2 > P^2)"};
  if (auto fault = first_outside({
          {"gravity_mps2", f.gravity, 0.0, 100.0, "m/s2, 0 to 100"},
          {"plane_tilt_deg", f.plane_tilt / kDegree, 0.1, 90.0, "degrees to the horizontal, 0.1 to 90"},
          {"start.arm_deg", f.start_arm / kDegree, -360.0, 360.0, "degrees"},
          {"start.cock_deg", f.start_cock / kDegree, -180.0, 180.0, "degrees, -180 to 180"},
      }))
    return fault;
  if (auto fault = fault_of_torques(f)) return fault;
  return fault_of_hub(f.hub);
}

}  // namespace strikewright
