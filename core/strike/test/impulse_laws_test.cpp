// Laws that every strike keeps, and what the trade sees when the ball is met off the middle.

#include <doctest/doctest.h>

#include <cmath>

#include "heads.hpp"
#include "strike/impulse.hpp"

using namespace strikewright;
using namespace strikewright::test;

namespace {

double energy(const HeadInRigidMotion<double>& h, const Vec3<double>& v, const Vec3<double>& w, const Ball& b,
              const BallMotion<double>& m) {
  const double I = b.inertia_factor * b.mass * b.radius * b.radius;
  return 0.5 * (h.mass * v.squaredNorm() + w.dot(h.inertia_W * w) + b.mass * m.v_WB_W.squaredNorm() +
                I * m.w_WB_W.squaredNorm());
}

HeadInRigidMotion<double> driver_struck(double toe_mm, double up_mm, double depth_mm = 35.0,
                                        double inertia_z = 5000e-7) {
  HeadInRigidMotion<double> h = point_head(0.200, 45.0, 0.0, 12.0 * kDegree, 0.8, 0.0, 0.4);
  h.inertia_W = Vec3<double>(2500e-7, 3000e-7, inertia_z).asDiagonal();
  const Vec3<double> toe(0.0, -1.0, 0.0);
  h.p_HC_W = 1e-3 * (depth_mm * h.normal_W + toe_mm * toe + up_mm * toe.cross(h.normal_W));
  return h;
}

Launch<double> launch_off(const HeadInRigidMotion<double>& h) { return launch_of(impact_of(h, Ball{}).ball); }

}  // namespace

TEST_CASE("no strike makes momentum or energy, and friction stays in its cone") {
  Draws draws(2026);
  double worst_momentum = 0.0, worst_spin = 0.0, worst_gain = -1.0, worst_cone = -1.0,
         worst_restitution = 0.0;
  int closing = 0;
  for (int k = 0; k < 100000; ++k) {
    const DrawnStrike s = drawn_strike(draws);
    const HeadInRigidMotion<double>& h = s.head;
    const Impact<double> after = impact_of(h, s.ball, s.before);
    if (after.regime == Regime::none) continue;
    ++closing;
    const double I = s.ball.inertia_factor * s.ball.mass * s.ball.radius * s.ball.radius;
    const Vec3<double> p = h.mass * (after.v_WH_W - h.v_WH_W) + s.ball.mass * after.ball.v_WB_W;
    worst_momentum = std::max(worst_momentum, p.norm());
    // Angular momentum about the contact point is kept: neither body feels a torque there.
    const Vec3<double> turning = h.inertia_W * (after.w_WH_W - h.w_WH_W) -
                                 h.mass * h.p_HC_W.cross(after.v_WH_W - h.v_WH_W) + I * after.ball.w_WB_W +
                                 s.ball.radius * s.ball.mass * h.normal_W.cross(after.ball.v_WB_W);
    worst_spin = std::max(worst_spin, turning.norm());
    const double before = energy(h, h.v_WH_W, h.w_WH_W, s.ball, s.before);
    worst_gain =
        std::max(worst_gain, energy(h, after.v_WH_W, after.w_WH_W, s.ball, after.ball) / before - 1.0);
    const double Jn = h.normal_W.dot(after.impulse_W);
    const double Jt = (after.impulse_W - Jn * h.normal_W).norm();
    worst_cone = std::max(worst_cone, Jt - h.friction * Jn);
    HeadInRigidMotion<double> moved = h;
    moved.v_WH_W = after.v_WH_W;
    moved.w_WH_W = after.w_WH_W;
    const double u0 = h.normal_W.dot(meeting_velocity(h, s.ball, s.before));
    const double u1 = h.normal_W.dot(meeting_velocity(moved, s.ball, after.ball));
    worst_restitution = std::max(worst_restitution, std::abs(u1 + h.restitution * u0));
  }
  CHECK(closing > 90000);
  // Rounding only: impulses are below 5 N s, speeds below 100 m/s, some dozens of operations.
  CHECK(worst_momentum < 1e-12);
  CHECK(worst_spin < 1e-13);
  CHECK(worst_cone < 1e-13);
  CHECK(worst_restitution < 1e-11);
  CHECK(worst_gain < 0.0);
}

TEST_CASE("the strike is the same seen from a moving train") {
  // Adding one velocity to head and ball adds it to the answer; 1e-11 m/s is rounding at 100 m/s.
  Draws draws(7);
  for (int k = 0; k < 1000; ++k) {
    DrawnStrike s = drawn_strike(draws);
    const Vec3<double> train(30.0 * draws.normal(), 30.0 * draws.normal(), 30.0 * draws.normal());
    const Impact<double> still = impact_of(s.head, s.ball, s.before);
    s.head.v_WH_W += train;
    s.before.v_WB_W += train;
    const Impact<double> moving = impact_of(s.head, s.ball, s.before);
    CHECK((moving.ball.v_WB_W - train - still.ball.v_WB_W).norm() < 1e-11);
    CHECK((moving.v_WH_W - train - still.v_WH_W).norm() < 1e-11);
    CHECK((moving.ball.w_WB_W - still.ball.w_WB_W).norm() < 1e-9);
  }
}

TEST_CASE("a left-hander's strike is the right-hander's in the mirror") {
  // Bit for bit: mirroring only flips signs, so no tolerance is owed.
  Draws draws(8);
  const Mat3<double> flip = Vec3<double>(1.0, -1.0, 1.0).asDiagonal();
  for (int k = 0; k < 1000; ++k) {
    const DrawnStrike s = drawn_strike(draws);
    HeadInRigidMotion<double> m = s.head;
    m.inertia_W = flip * s.head.inertia_W * flip;
    m.v_WH_W = mirrored_vector(s.head.v_WH_W);
    m.w_WH_W = mirrored_axial(s.head.w_WH_W);
    m.normal_W = mirrored_vector(s.head.normal_W);
    m.p_HC_W = mirrored_vector(s.head.p_HC_W);
    const Impact<double> right = impact_of(s.head, s.ball);
    const Impact<double> left = impact_of(m, s.ball);
    CHECK(mirrored_vector(left.ball.v_WB_W) == right.ball.v_WB_W);
    CHECK(mirrored_axial(left.ball.w_WB_W) == right.ball.w_WB_W);
    CHECK(mirrored_vector(left.v_WH_W) == right.v_WH_W);
    CHECK(mirrored_axial(left.w_WH_W) == right.w_WH_W);
    const Launch<double> a = launch_of(right.ball);
    const Launch<double> b = launch_of(left.ball);
    CHECK(b.azimuth == -a.azimuth);
    CHECK(b.axis_tilt == -a.axis_tilt);
    CHECK(b.elevation == a.elevation);
  }
}

TEST_CASE("off the toe the ball starts right and draws, off the heel it starts left and fades") {
  // Flat face; signs as A. R. Penner, The convex face of a driver, Am. J. Phys. 69(10), 1073, 2001 (from
  // memory).
  const Launch<double> toe = launch_off(driver_struck(20.0, 0.0));
  const Launch<double> heel = launch_off(driver_struck(-20.0, 0.0));
  CHECK(toe.azimuth > 0.0);
  CHECK(toe.axis_tilt < 0.0);
  CHECK(heel.azimuth < 0.0);
  CHECK(heel.axis_tilt > 0.0);
}

TEST_CASE("high on a driver's face launches higher with less spin, low on it lower with more") {
  const Launch<double> middle = launch_off(driver_struck(0.0, 0.0));
  const Launch<double> high = launch_off(driver_struck(0.0, 10.0));
  const Launch<double> low = launch_off(driver_struck(0.0, -10.0));
  CHECK(high.elevation > middle.elevation);
  CHECK(high.spin < middle.spin);
  CHECK(low.elevation < middle.elevation);
  CHECK(low.spin > middle.spin);
}

TEST_CASE("a head that resists turning, or has its weight near the face, curves a toe strike less") {
  // T. Iwatsubo, S. Kawamura, K. Miyamoto & T. Yamaguchi, Numerical analysis of golf club head and ball at
  // various impact points, Sports Engineering 3, 2000 (abstract): less sidespin for larger inertia about the
  // vertical and for a shallower centre of mass; more backspin for a shallower centre of mass. Signs only.
  const Launch<double> plain = launch_off(driver_struck(15.0, 0.0));
  CHECK(std::abs(launch_off(driver_struck(15.0, 0.0, 35.0, 5900e-7)).axis_tilt) < std::abs(plain.axis_tilt));
  CHECK(std::abs(launch_off(driver_struck(15.0, 0.0, 25.0)).axis_tilt) < std::abs(plain.axis_tilt));
  CHECK(launch_off(driver_struck(0.0, 0.0, 25.0)).spin > launch_off(driver_struck(0.0, 0.0, 35.0)).spin);
}

TEST_CASE("a grassy face cuts the spin and sends the ball higher") {
  HeadInRigidMotion<double> wedge = point_head(0.300, 34.0, -6.0 * kDegree, 50.0 * kDegree, 0.75, 0.0, 0.4);
  const Launch<double> clean = launch_off(wedge);
  wedge.friction = 0.15;
  const Launch<double> grassy = launch_off(wedge);
  CHECK(grassy.spin < 0.7 * clean.spin);
  CHECK(grassy.elevation > clean.elevation);
}

TEST_CASE("a ball already rolling away is struck less hard") {
  const HeadInRigidMotion<double> h = driver_struck(0.0, 0.0);
  BallMotion<double> away;
  away.v_WB_W.x() = 5.0;
  CHECK(impact_of(h, Ball{}, away).impulse_W.norm() < impact_of(h, Ball{}).impulse_W.norm());
  away.v_WB_W.x() = 60.0;
  CHECK(impact_of(h, Ball{}, away).regime == Regime::none);
  CHECK(impact_of(h, Ball{}, away).ball.v_WB_W == away.v_WB_W);
}

TEST_CASE("the strike door names the figure that is wrong") {
  RigidStrike s;
  s.mass = 0.2;
  s.inertia = {2500e-7, 3000e-7, 5000e-7};
  s.velocity = {45.0, 0.0, 0.0};
  s.contact = {0.035, 0.0, 0.0};
  REQUIRE(rigid_strike_of(s));
  CHECK(rigid_strike_of(s)->launch.speed > 60.0);
  RigidStrike longer = s;
  longer.face_normal *= 3.0;
  CHECK(rigid_strike_of(longer)->launch.speed == rigid_strike_of(s)->launch.speed);
  RigidStrike wrong = s;
  wrong.mass = -0.2;
  CHECK(rigid_strike_of(wrong).error().place == "head.mass_kg");
  wrong = s;
  wrong.inertia.y() = 0.0;
  CHECK(rigid_strike_of(wrong).error().place == "head.inertia_kgm2[1]");
  wrong = s;
  wrong.velocity.z() = std::nan("");
  CHECK(rigid_strike_of(wrong).error().place == "head.velocity_mps[2]");
  wrong = s;
  wrong.face_normal.setZero();
  CHECK(rigid_strike_of(wrong).error().place == "head.face_normal");
  wrong = s;
  wrong.velocity.x() = -45.0;
  CHECK(rigid_strike_of(wrong).error().place == "head.velocity_mps");
  wrong = s;
  wrong.friction = -0.1;
  CHECK(rigid_strike_of(wrong).error().place == "head.friction");
  wrong = s;
  wrong.ball.inertia_factor = 2.0;
  CHECK(rigid_strike_of(wrong).error().place == "ball.inertia_factor");
}
