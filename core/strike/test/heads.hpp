#pragma once
// Heads for the impact tests: point masses for the planar formulas, the synthetic heads of the 3-D vectors,
// and drawn ones.

#include <string>

#include "numeric/draws.hpp"
#include "quantity/angle.hpp"
#include "strike/impulse.hpp"

namespace strikewright::test {

/// A head that cannot turn in effect: contact at its centre of mass. Square face, moving along +x with
/// `attack` up.
inline HeadInRigidMotion<double> point_head(double mass, double speed, double attack, double loft, double e,
                                            double et, double mu) {
  HeadInRigidMotion<double> h;
  h.mass = mass;
  h.inertia_W = Mat3<double>::Identity() * 2e-4;
  h.v_WH_W = speed * direction(0.0, attack);
  h.w_WH_W.setZero();
  h.normal_W = direction(0.0, loft);
  h.p_HC_W.setZero();
  h.restitution = e;
  h.tangential_restitution = et;
  h.friction = mu;
  return h;
}

/// The heads of reference/impact_vectors.csv: mass [kg] and inertia [kg m2].
inline std::pair<double, Vec3<double>> synthetic_head(const std::string& name) {
  if (name == "DRV") return {0.200, Vec3<double>(2500e-7, 3000e-7, 5000e-7)};
  if (name == "IRN") return {0.270, Vec3<double>(2300e-7, 600e-7, 2500e-7)};
  return {0.300, Vec3<double>(2600e-7, 800e-7, 2700e-7)};
}

struct DrawnStrike {
  HeadInRigidMotion<double> head;
  Ball ball;
  BallMotion<double> before;
};

/// Any head from blade to driver, struck anywhere on the face at any sane angle, inertia axes turned at will.
inline DrawnStrike drawn_strike(Draws& d) {
  const auto between = [&d](double low, double high) { return low + (high - low) * d.uniform(); };
  DrawnStrike s;
  HeadInRigidMotion<double>& h = s.head;
  h.mass = between(0.18, 0.32);
  Vec3<double> axis(d.normal(), d.normal(), d.normal());
  axis.normalize();
  const Mat3<double> R = turn_about<double>(axis, between(-0.6, 0.6));
  const Vec3<double> principal(between(2000e-7, 3500e-7), between(500e-7, 4200e-7),
                               between(2200e-7, 5900e-7));
  h.inertia_W = R * principal.asDiagonal() * R.transpose();
  h.normal_W = direction(between(-0.3, 0.3), between(0.0, 1.05));
  h.v_WH_W = between(5.0, 55.0) * direction(between(-0.2, 0.2), between(-0.2, 0.15));
  h.w_WH_W = Vec3<double>(between(-30.0, 30.0), between(-60.0, 60.0), between(-60.0, 60.0));
  const Vec3<double> toe = Vec3<double>(0.0, 0.0, 1.0).cross(h.normal_W).normalized() * -1.0;
  const Vec3<double> up = h.normal_W.cross(toe) * -1.0;
  h.p_HC_W = between(0.002, 0.045) * h.normal_W + between(-0.03, 0.03) * toe + between(-0.02, 0.02) * up;
  h.restitution = between(0.4, 0.86);
  h.tangential_restitution = between(-0.1, 0.25);
  h.friction = between(0.0, 0.5);
  return s;
}

}  // namespace strikewright::test
