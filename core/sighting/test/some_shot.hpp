#pragma once
// A shot filled by hand, every number its own, so that a mistaken member shows.

#include "bag/generic.hpp"
#include "quantity/angle.hpp"
#include "shot/shot.hpp"

namespace strikewright {

inline Setting some_setting(const char* club = "7i") {
  Setting s;
  s.club = club_named(generic_bag(), club).value();
  return s;
}

template <class T = double>
Shot<T> some_shot() {
  Shot<T> s;
  s.pass.club_speed = T(36.0);
  s.delivery.attack = T(-4.1 * kDegree);
  s.delivery.path = T(2.2 * kDegree);
  s.delivery.face = T(1.3 * kDegree);
  s.delivery.loft = T(27.4 * kDegree);
  s.delivery.lean = T(6.5 * kDegree);
  s.delivery.handle_lead = T(0.081);
  s.strike.launch.speed = T(48.0);
  s.strike.launch.elevation = T(19.7 * kDegree);
  s.strike.launch.azimuth = T(1.8 * kDegree);
  s.strike.launch.spin = T(6400 * kRpm);
  s.strike.launch.axis_tilt = T(-3.9 * kDegree);
  s.strike.divot.any = true;
  s.strike.divot.start = T(0.012);
  s.strike.divot.end = T(0.114);
  s.strike.divot.direction = T(2.5 * kDegree);
  s.strike.divot.depth = T(0.0085);
  s.strike.divot.toe_depth = T(0.0015);
  s.strike.turf_before = T(0.00002);
  s.strike.speed_left = T(0.995);
  s.strike.strike_toe = T(0.004);
  s.strike.strike_up = T(0.0145);
  s.flight.carry = T(133.0);
  s.flight.curve = T(-5.5);
  s.flight.apex = T(24.5);
  s.flew = true;
  return s;
}

}  // namespace strikewright
