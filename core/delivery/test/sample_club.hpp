#pragma once
// A round-figured 7-iron for the tests of this room and those after it: invented, no product.

#include "bag/club.hpp"
#include "delivery/delivery.hpp"
#include "quantity/angle.hpp"

namespace strikewright {

inline Club sample_seven_iron() {
  Club c;
  c.name = "7i";
  c.loft = 33.0 * kDegree;
  c.lie = 62.5 * kDegree;
  c.length = 0.94;
  c.head_mass = 0.270;
  c.inertia = {2300e-7, 600e-7, 2500e-7};
  c.com_depth = 0.005;
  c.com_up = 0.020;
  c.face_height = 0.050;
  c.heel_reach = 0.035;
  c.toe_reach = 0.040;
  c.bounce = 5.0 * kDegree;
  c.sole_width = 0.019;
  c.blade_length = 0.060;
  c.groove_pitch = 0.0036;
  c.first_groove = 0.005;
  c.arc_radius = 1.5;
  c.turn_radius = 1.3;
  return c;
}

/// A sound strike: hands ahead, low point in front of the ball.
template <class T>
Pass<T> sample_pass() {
  Pass<T> p;
  p.club_speed = T(36.0);
  p.plane_tilt = T(62.5 * kDegree);
  p.low_point = T(0.060);
  p.low_point_depth = T(-0.010);
  p.shaft_lean = T(6.0 * kDegree);
  p.face_turn = T(3.0 * kDegree);
  p.closing_rate = T(1500.0 * kDegree);
  return p;
}

}  // namespace strikewright
