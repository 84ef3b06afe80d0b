// The flail against general-purpose libraries that know nothing of it.

#include <doctest/doctest.h>

#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "swing/test/flails.hpp"
#include "swing/test/peer/multibody.hpp"

using namespace strikewright;
using namespace strikewright::testing;

namespace {

struct ShakenHub {
  double along, up, rate;
  [[nodiscard]] HubMotion<double> at(double t) const {
    const double s = std::sin(rate * t), c = std::cos(rate * t);
    HubMotion<double> h;
    h.p = {along * s, up * s * s};
    h.v = {along * rate * c, 2.0 * up * rate * s * c};
    h.a = {-along * rate * rate * s, 2.0 * up * rate * rate * (c * c - s * s)};
    return h;
  }
};

}  // namespace

TEST_CASE(
    "two pinned bodies in a multibody library swing as the flail does, on a hub that moves in a tilted "
    "plane") {
  double worst = 0.0;
  for (const ShakenHub hub :
       {ShakenHub{0.0, 0.0, 8.0}, ShakenHub{0.04, 0.02, 8.0}, ShakenHub{-0.06, 0.05, 6.0}}) {
    for (const double tilt : {50.0, 62.5, 90.0}) {
      Flail<double> f = reference_flail();
      f.plane_tilt = tilt * kDegree;
      const Lumped<double> k = lumped(f.arm, f.club);
      const double g = f.gravity * std::sin(f.plane_tilt);
      const auto rate = [&](double t, const State<double, 4>& y) {
        const Turning<double> q =
            turning_free(k, load_of(k, g, y[0], y[1], hub.at(t)), y[2], y[3], 60.0, 5.0);
        return State<double, 4>(y[2], y[3], q.arm, q.club);
      };
      const State<double, 4> start(-120.0 * kDegree, -210.0 * kDegree, 0.0, 0.0);
      const auto ours = integrate<double, 4>(rate, start, 0.0, 0.4, fine().pace);
      const multibody::State theirs =
          multibody::after({f.arm.mass, f.arm.com, f.arm.length, f.arm.inertia_com, f.club.mass, f.club.com,
                            f.club.inertia_com, f.plane_tilt, f.gravity, start[0], start[1], 60.0, 5.0,
                            hub.along, hub.up, hub.rate},
                           0.4, 1e-11);
      const State<double, 4> peer(theirs.arm, theirs.club, theirs.arm_rate, theirs.club_rate);
      const double off = (ours.y - peer).norm() / peer.norm();
      CAPTURE(tilt);
      CAPTURE(hub.along);
      CHECK(off < 1e-9);  // both integrate to about 1e-11
      worst = std::max(worst, off);
    }
  }
  MESSAGE("worst relative difference from Simbody over nine motions: ", worst);
}

TEST_CASE("a general-purpose integrator finds the same motion from the sum and difference of the equations") {
  // The equations in arm angle and cock (T. Jorgensen, The Physics of Golf, 1994, technical appendix: the sum
  // of (1) and (2) and (2) itself), solved by elimination, with the muscle laws written out again: no line of
  // the room is used.
  using Angles = std::array<double, 4>;  // arm, cock, rates
  const double j1 = 1.3014536, j2 = 0.299001546, p = 0.18394284, s1 = 2.41428, s2 = 0.296682;
  const double g = 9.81 * std::sin(50.0 * kDegree);
  const auto law = [&](const Angles& y, Angles& d, double t) {
    const double a = y[0], b = y[1], w = y[2], u = y[3];
    const double shoulder = 140.0 * (1.0 - std::exp(-t / 0.04)) * (30.0 - w) / (30.0 + 3.0 * w);
    const double pb = p * std::cos(b), ps = p * std::sin(b);
    const double club = s2 * g * std::sin(a - b);
    // (J1 + J2 + 2 P cos b) a'' - (J2 + P cos b) b'' = r1;  (J2 + P cos b) a'' - J2 b'' = r2
    const double r1 = shoulder - s1 * g * std::sin(a) - club - ps * ((w - u) * (w - u) - w * w);
    const double r2 = 8.0 + ps * w * w - club;
    const double m11 = j1 + j2 + 2.0 * pb, m12 = -(j2 + pb), m21 = j2 + pb, m22 = -j2;
    const double det = m11 * m22 - m12 * m21;
    d = {w, u, (r1 * m22 - m12 * r2) / det, (m11 * r2 - m21 * r1) / det};
  };
  Angles y{-160.0 * kDegree, 90.0 * kDegree, 0.0, 0.0};
  namespace odeint = boost::numeric::odeint;
  odeint::bulirsch_stoer<Angles> stepper(1e-13, 1e-13);
  odeint::integrate_adaptive(stepper, law, y, 0.0, 0.3, 1e-3);

  Flail<double> f = reference_flail();
  f.shoulder = {140.0, 0.04, 30.0, 3.0};
  f.wrist.drive = 8.0;
  f.wrist.stop = false;
  const auto run = run_flail(f, fine(End::at_time, 0.3));
  REQUIRE(run.has_value());
  const double off = std::hypot(std::hypot(run->end.arm - y[0], run->end.club - (y[0] - y[1])),
                                std::hypot(run->end.arm_rate - y[2], run->end.club_rate - (y[2] - y[3])));
  MESSAGE("difference from Boost.Odeint: ", off, " (rad, rad/s)");
  CHECK(off < 1e-8);
}
