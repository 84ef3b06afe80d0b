#include "delivery/from_swing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "delivery/delivery_of.hpp"
#include "delivery/test/sample_swing.hpp"

using namespace strikewright;

namespace {

using Causes = Eigen::Matrix<double, kSampleCauses, 1>;

RunOptions fine() { return {.pace = {.relative = 1e-12, .absolute = 1e-13}}; }

Passing<double> passing(const Causes& c) {
  const auto p = passing_of(sample_swing<double>(c), sample_seven_iron(), Ball{}, 0.0, fine());
  REQUIRE(p.has_value());
  return *p;
}

Causes with(SwingCause which, double change) {
  Causes c = sample_causes();
  c[which] += change;
  return c;
}

constexpr int kOut = 8;
template <class T>
Eigen::Matrix<T, kOut, 1> outcome(const Passing<T>& p) {
  Eigen::Matrix<T, kOut, 1> out;
  out << p.pass.club_speed, p.pass.low_point, p.pass.low_point_depth, p.pass.shaft_lean, p.attack, p.path,
      p.arc_radius, p.run.contact.time;
  return out;
}

/// Worst relative difference between dual slopes and central differences at one point; a NaN is the worst of
/// all.
double worst_slope_error(const Causes& at) {
  using D = Dual<kSampleCauses>;
  Eigen::Matrix<D, kSampleCauses, 1> c;
  for (int i = 0; i < kSampleCauses; ++i) c[i] = D(at[i], i);
  const auto p = passing_of(sample_swing<D>(c), sample_seven_iron(), Ball{}, 0.0, fine());
  REQUIRE(p.has_value());
  const auto exact = outcome(*p);
  double worst = 0.0;
  for (int i = 0; i < kSampleCauses; ++i) {
    const double h = i == kShoulder || i == kDrive ? 1e-3 : 1e-5;
    Causes up = at, down = at;
    up[i] += h;
    down[i] -= h;
    const Eigen::Matrix<double, kOut, 1> rough = (outcome(passing(up)) - outcome(passing(down))) / (2.0 * h);
    for (int k = 0; k < kOut; ++k) {
      const double error = std::fabs(exact[k].v[i] - rough[k]) / (1e-3 + std::fabs(rough[k]));
      if (!std::isfinite(error)) return std::numeric_limits<double>::infinity();
      worst = std::max(worst, error);
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("releasing the wrists earlier moves the low point back and takes lean away") {
  const auto base = passing(sample_causes());
  const auto early = passing(with(kRelease, -10.0 * kDegree));
  CHECK(early.pass.low_point < base.pass.low_point - 0.02);
  CHECK(early.pass.shaft_lean < base.pass.shaft_lean - 2.0 * kDegree);
  const auto loft = [](const Passing<double>& p) {
    return delivery_of(p.pass, sample_seven_iron(), Ball{}, 0.0).loft;
  };
  CHECK(loft(early) > loft(base) + 2.0 * kDegree);
}

TEST_CASE("casting with strong wrists from the top leans the shaft back") {
  Causes c = with(kRelease, -60.0 * kDegree);  // earlier than the stop lets go: natural
  c[kDrive] = 20.0;
  CHECK(passing(c).pass.shaft_lean < 0.0);
  CHECK(passing(c).pass.low_point < 0.02);
}

TEST_CASE("a release set earlier than the natural one changes nothing") {
  Causes natural = with(kRelease, -60.0 * kDegree);
  Causes earlier = with(kRelease, -65.0 * kDegree);
  // The steps are cut at the set release: rounding differs, nothing else.
  CHECK((outcome(passing(natural)) - outcome(passing(earlier))).norm() < 1e-12);
}

TEST_CASE("standing with the hub further forward moves the low point as much and leans the shaft") {
  const auto base = passing(sample_causes());
  const auto ahead = passing(with(kHubAlong, 0.03));
  CHECK(ahead.pass.low_point - base.pass.low_point == doctest::Approx(0.03).epsilon(1e-9));
  CHECK(ahead.pass.shaft_lean > base.pass.shaft_lean + 1.0 * kDegree);
}

TEST_CASE("shifting the weight further during the downswing moves the low point by a like amount") {
  const double moved = passing(with(kShift, 0.03)).pass.low_point - passing(sample_causes()).pass.low_point;
  CHECK(moved > 0.015);
  CHECK(moved < 0.045);
}

TEST_CASE("contact is where the face touches the ball, by height, loft and lean together") {
  Causes c = sample_causes();
  c[kFaceTurn] = 0.0;
  const auto p = passing(c);
  const Club club = sample_seven_iron();
  const Delivery<double> d = [&] {
    Club local = club;
    local.arc_radius = p.arc_radius;
    local.turn_radius = p.turn_radius;
    return delivery_of(p.pass, local, Ball{}, 0.0);
  }();
  const auto edge = point_at(sample_swing<double>(c).flail, p.run.contact, 0.855);
  const double along = c[kHubAlong] + edge.p[0];
  const double height = (c[kHubUp] + edge.p[1]) * std::sin(c[kTilt]);
  const Ball ball;
  // The ball's centre is one radius from the face plane along the normal, above the edge by R - height.
  const double gap = -along * d.normal_W.x() + (ball.radius - height) * d.normal_W.z();
  CHECK(gap == doctest::Approx(ball.radius)
                   .epsilon(0.01));  // 1 %: the pose turns the normal a little off the plane y = 0
}

TEST_CASE("the flail's own motion and the arc made from its numbers give the same delivery") {
  Causes c = sample_causes();
  c[kDirection] = 2.0 * kDegree;
  const auto p = passing(c);
  Club club = sample_seven_iron();
  club.arc_radius = p.arc_radius;
  club.turn_radius = p.turn_radius;
  const Delivery<double> d = delivery_of(p.pass, club, Ball{}, 0.0);
  // A circle stands in for an arc whose radius changes by some per cent between contact and low point.
  CHECK(std::fabs(d.attack - p.attack) < 0.25 * kDegree);
  CHECK(std::fabs(d.path - p.path) < 0.15 * kDegree);
  CHECK(d.v_WH_W.norm() == doctest::Approx(p.pass.club_speed).epsilon(1e-12));
}

TEST_CASE("the low point is where the leading edge stops falling") {
  const auto p = passing(sample_causes());
  const auto low = point_at(sample_swing<double>(sample_causes()).flail, p.run.low_point, 0.855);
  CHECK(std::fabs(low.v[1]) < 1e-9);
  CHECK(low.a[1] > 0.0);
}

TEST_CASE("the plane's direction turns path and low point and nothing else") {
  const auto base = passing(sample_causes());
  const auto turned = passing(with(kDirection, 3.0 * kDegree));
  CHECK(turned.path - base.path == doctest::Approx(3.0 * kDegree).epsilon(0.05));
  CHECK(turned.pass.club_speed == doctest::Approx(base.pass.club_speed).epsilon(0.005));
}

TEST_CASE("slopes of the pass are those that differences give, at ordinary points and at the edges") {
  // 1e-5: what central differences of a motion known to about 1e-11 can show.
  CHECK(worst_slope_error(sample_causes()) < 1e-5);
  Causes still = sample_causes();
  still[kShift] = 0.0;
  still[kRise] = 0.0;
  still[kDrive] = 1e-2;
  CHECK(worst_slope_error(still) < 1e-5);
  Causes thin = with(kHubUp, 0.05);  // the leading edge meets the ball
  CHECK(worst_slope_error(thin) < 1e-5);
  Causes natural = with(kRelease, -60.0 * kDegree);
  CHECK(worst_slope_error(natural) < 1e-5);
}

TEST_CASE("a swing that goes over the top of nothing says so") {
  Swing<double> s = sample_swing<double>(sample_causes());
  s.flail.shoulder.torque = -200.0;
  const auto p = passing_of(s, sample_seven_iron(), Ball{}, 0.0);
  REQUIRE_FALSE(p.has_value());
  CHECK(p.error().place == "end");
}
