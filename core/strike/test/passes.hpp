#pragma once
// Strikes by the numbers of the pass, for tests that speak the trade's words.

#include "delivery/delivery_of.hpp"
#include "delivery/test/sample_club.hpp"
#include "numeric/draws.hpp"
#include "strike/soil.hpp"
#include "strike/strike_of.hpp"

namespace strikewright::test {

/// A round-figured 56-degree wedge: invented.
inline Club sample_wedge() {
  Club c = sample_seven_iron();
  c.name = "sw";
  c.family = Family::wedge;
  c.loft = 56.0 * kDegree;
  c.lie = 64.0 * kDegree;
  c.head_mass = 0.300;
  c.inertia = {2600e-7, 800e-7, 2700e-7};
  c.bounce = 12.0 * kDegree;
  c.sole_width = 0.024;
  c.face_height = 0.060;
  return c;
}

/// A round-figured driver: invented.
inline Club sample_driver() {
  Club c = sample_seven_iron();
  c.name = "driver";
  c.family = Family::driver;
  c.loft = 10.0 * kDegree;
  c.lie = 58.0 * kDegree;
  c.head_mass = 0.200;
  c.inertia = {2700e-7, 3200e-7, 4900e-7};
  c.com_depth = 0.036;
  c.com_up = 0.031;
  c.bulge = 0.305;
  c.roll = 0.305;
  c.face_up_middle = 0.028;
  c.face_height = 0.056;
  c.bounce = 0.0;
  c.sole_width = 0.09;
  c.restitution0 = 0.82;
  c.restitution_slope = 0.0;
  return c;
}

/// A clean iron: the leading edge reaches the turf as it reaches the ball, and goes on down.
inline Pass<double> clean_pass() {
  Pass<double> p = sample_pass<double>();
  p.low_point = 0.100;
  p.low_point_depth = -0.003;
  p.plane_direction = -2.0 * kDegree;
  return p;
}

template <class T>
Strike<T> struck(const Pass<T>& pass, Surface surface = Surface::fairway,
                 const Club& club = sample_seven_iron(), bool with_ball = true) {
  const Ball ball;
  return strike_of(delivery_of(pass, club, ball, ball_lift_on(surface, club.family)), club, ball,
                   Ground{surface, 1.0}, with_ball);
}

/// Any pass that a coach may meet: clean, fat, thin, closed, open, on any surface.
struct DrawnPass {
  Pass<double> pass;
  Surface surface = Surface::fairway;
};
inline DrawnPass drawn_pass(Draws& d) {
  const auto between = [&d](double low, double high) { return low + (high - low) * d.uniform(); };
  DrawnPass out;
  Pass<double>& p = out.pass;
  p.club_speed = between(15.0, 45.0);
  p.plane_direction = d.normal(0.0, 0.06);
  p.plane_tilt = between(0.95, 1.15);
  p.low_point = between(-0.12, 0.16);
  p.low_point_depth = between(-0.015, 0.010);
  p.shaft_lean = between(-0.08, 0.22);
  p.face_turn = d.normal(0.03, 0.05);
  p.strike_toe = d.normal(0.0, 0.008);
  p.lie_offset = d.normal(0.0, 0.03);
  p.closing_rate = between(10.0, 45.0);
  p.ball_sits = d.normal(0.0, 0.002);
  p.turf = d.normal(0.0, 0.3);
  p.turf_lift = d.normal(0.0, 0.3);
  out.surface = static_cast<Surface>(static_cast<int>(7.0 * d.uniform()));
  p.shaft_time = d.normal(0.0, 0.3);
  return out;
}

}  // namespace strikewright::test
