// Slopes by dual numbers against central differences, at ordinary strikes and at the edges; and the mirror.

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>

#include "delivery/pass_vector.hpp"
#include "heads.hpp"
#include "passes.hpp"
#include "quantity/dual.hpp"

using namespace strikewright;
using namespace strikewright::test;

namespace {

using D = Dual<kPassSize>;
constexpr int kIn = kPassSize;

/// Everything of a strike that a likelihood may look at, each brought to about one.
template <class T>
using Seen = Eigen::Matrix<T, 18, 1>;

template <class T>
Seen<T> seen(const Strike<T>& s) {
  Seen<T> y;
  y << s.launch.speed * 0.02, s.launch.elevation, s.launch.azimuth, s.launch.spin * 1e-3, s.launch.axis_tilt,
      s.divot.start * 10.0, s.divot.end * 10.0, s.divot.direction, s.divot.depth * 100.0,
      s.divot.deepest_at * 10.0, s.divot.toe_depth * 100.0, s.speed_left, s.turf_before * 1e4,
      s.attack_at_ball, s.strike_up * 100.0, s.edge_height * 100.0, s.grass, s.energy_lost;
  return y;
}

struct Place {
  Pass<double> pass;
  Surface surface = Surface::fairway;
  Club club = sample_seven_iron();
  bool with_ball = true;
};

/// Worst difference over all inputs, relative to 1 + size of the column. A NaN is the worst error, not a lost
/// one.
double worst_slope_error(const Place& at) {
  // Steps: 1e-6 of each number's natural size; the outputs bend over 1 mm and 1 deg, so that the difference's
  // own error is about (1e-6 / 1e-3)^2 plus rounding 1e-15 / 1e-7.
  const PassVector<double> size{10.0, 0.1,  0.1,  0.1, 0.01, 0.1, 0.1, 0.01,
                                0.1,  10.0, 0.01, 1.0, 1.0,  1.0, 0.1};
  const PassVector<double> x = vector_of(at.pass);
  PassVector<D> xd;
  for (int k = 0; k < kIn; ++k) xd[k] = D(x[k], k);
  const auto value_at = [&](const PassVector<double>& v) {
    return seen(struck(pass_of(v), at.surface, at.club, at.with_ball));
  };
  const Seen<D> exact = seen(struck(pass_of(xd), at.surface, at.club, at.with_ball));
  double worst = 0.0;
  for (int k = 0; k < kIn; ++k) {
    const double h = 1e-6 * size[k];
    PassVector<double> up = x, down = x;
    up[k] += h;
    down[k] -= h;
    const Seen<double> rough = (value_at(up) - value_at(down)) * (size[k] / (2.0 * h));
    double miss = 0.0;
    for (int i = 0; i < 18; ++i) {
      const double d = exact(i).v[k] * size[k] - rough(i);
      if (!std::isfinite(d)) return std::numeric_limits<double>::infinity();
      miss += d * d;
    }
    worst = std::max(worst, std::sqrt(miss) / (1.0 + rough.norm()));
  }
  return worst;
}

Pass<double> pass_with(Pass<double> p, double Pass<double>::*what, double value) {
  p.*what = value;
  return p;
}

}  // namespace

TEST_CASE("slopes are right at ordinary strikes") {
  // A drawn pass can sit within a difference's step of a kink (a face turning to leading edge, sticking to
  // sliding): none of these does. 2e-5 = rounding of the differences, see worst_slope_error.
  Draws draws(32);
  for (int k = 0; k < 300; ++k) {
    const DrawnPass d = drawn_pass(draws);
    CAPTURE(k);
    CAPTURE(int(d.surface));
    CHECK(worst_slope_error({d.pass, d.surface}) < 2e-5);
    if (k % 5 == 0) CHECK(worst_slope_error({d.pass, d.surface, sample_wedge()}) < 2e-5);
    if (k % 5 == 1) CHECK(worst_slope_error({d.pass, d.surface, sample_driver()}) < 2e-5);
    if (k % 5 == 2) CHECK(worst_slope_error({d.pass, d.surface, sample_seven_iron(), false}) < 2e-5);
  }
}

TEST_CASE("slopes stay right as the turf is just grazed, just missed, and far below") {
  for (double depth = -0.006; depth < 0.006; depth += 0.00025) {
    CAPTURE(depth);
    const Pass<double> p = pass_with(clean_pass(), &Pass<double>::low_point_depth, depth);
    CHECK(worst_slope_error({p}) < 2e-5);
    CHECK(worst_slope_error({p, Surface::mat}) < 2e-5);
    CHECK(worst_slope_error({p, Surface::fairway, sample_seven_iron(), false}) < 2e-5);
  }
}

TEST_CASE("slopes are finite at the straight, square, still edges") {
  Pass<double> p;
  p.club_speed = 36.0;
  p.plane_tilt = sample_seven_iron().lie;
  p.low_point_depth = 0.004;
  // Everything else exactly 0: straight face, no lean, low point under the ball, no closing.
  CHECK(worst_slope_error({p}) < 2e-5);
  CHECK(worst_slope_error({p, Surface::fairway, sample_seven_iron(), false}) < 2e-5);
  p.low_point_depth = -0.004;
  CHECK(worst_slope_error({p}) < 2e-5);
}

TEST_CASE("slopes are right on either side of the cone, of the blade and of the hosel") {
  Club wedge = sample_wedge();
  for (const double friction : {0.05, 0.15, 0.25, 0.35, 0.45}) {
    wedge.friction = friction;
    CHECK(worst_slope_error({clean_pass(), Surface::fairway, wedge}) < 2e-5);
  }
  for (double depth = 0.0051; depth < 0.035; depth += 0.002) {
    CAPTURE(depth);
    CHECK(worst_slope_error({pass_with(clean_pass(), &Pass<double>::low_point_depth, depth)}) < 2e-5);
  }
  for (double toe = -0.055; toe < 0.06; toe += 0.004) {
    CAPTURE(toe);
    CHECK(worst_slope_error({pass_with(clean_pass(), &Pass<double>::strike_toe, toe)}) < 2e-5);
  }
}

TEST_CASE("slopes are finite where the ball begins to slide and where nothing rubs") {
  // At the kink itself only finiteness can be asked; without tangential impulse the cone's norm has no
  // direction.
  HeadInRigidMotion<D> h;
  h.mass = 0.2;
  h.inertia_W = Mat3<D>::Identity() * D(3e-4);
  h.v_WH_W = Vec3<D>(D(40.0, 0), D(0.0, 1), D(0.0, 2));
  h.w_WH_W = Vec3<D>(D(0.0), D(0.0, 3), D(0.0, 4));
  h.normal_W = Vec3<D>(D(1.0), D(0.0), D(0.0));
  h.p_HC_W = Vec3<D>(D(0.03), D(0.0, 5), D(0.0, 6));
  h.restitution = D(0.8, 7);
  h.tangential_restitution = D(0.0, 8);
  for (const double mu : {0.0, 0.4}) {
    h.friction = D(mu, 9);
    const Launch<D> l = launch_of(impact_of(h, Ball{}).ball);
    for (const D& y : {l.speed, l.elevation, l.azimuth, l.spin, l.axis_tilt}) {
      CHECK(std::isfinite(y.a));
      CHECK(y.v.allFinite());
    }
  }
  const Launch<D> still = launch_of(BallMotion<D>{});
  CHECK(still.speed.v.isZero());
  CHECK(still.axis_tilt.v.isZero());
}

TEST_CASE("even a wild guess gives finite numbers and slopes") {
  // Far outside any swing: what an inverse may try on its way. Nothing may become a NaN.
  Draws draws(77);
  const auto between = [&draws](double low, double high) { return low + (high - low) * draws.uniform(); };
  const std::array<Club, 3> clubs{sample_driver(), sample_wedge(), sample_seven_iron()};
  for (std::size_t k = 0; k < 3000; ++k) {
    PassVector<double> x;
    x << between(8.0, 70.0), between(-0.6, 0.6), between(0.5, 1.45), between(-0.5, 0.5), between(-0.1, 0.1),
        between(-0.8, 0.8), between(-0.8, 0.8), between(-0.1, 0.1), between(-0.3, 0.3), between(-60.0, 90.0),
        between(-0.02, 0.05), between(-2.0, 2.0);
    PassVector<D> xd;
    for (int i = 0; i < kIn; ++i) xd[i] = D(x[i], i);
    const auto surface = static_cast<Surface>(static_cast<int>(7.0 * draws.uniform()));
    const Seen<D> y = seen(struck(pass_of(xd), surface, clubs[k % 3], k % 7 != 0));
    bool finite = true;
    for (int i = 0; i < 18; ++i) finite = finite && std::isfinite(y(i).a) && y(i).v.allFinite();
    CHECK(finite);
  }
}

TEST_CASE("the plain answer and the one with slopes are the same") {
  // Dual numbers sum in another order only where Eigen unrolls differently: 1e-10 covers a few hundred
  // operations.
  Draws draws(32);
  for (int k = 0; k < 200; ++k) {
    const DrawnPass d = drawn_pass(draws);
    const auto plain = seen(struck(d.pass, d.surface));
    const PassVector<D> x = vector_of(d.pass).cast<D>();
    const auto dual = seen(struck(pass_of(x), d.surface));
    for (int i = 0; i < 18; ++i) CHECK(std::abs(dual(i).a - plain(i)) < 1e-10);
  }
}

TEST_CASE("the mirrored club strikes the mirrored ball, turf included") {
  // Bit for bit. The swing plane runs along the target line here: an Arc tells on which side of it the player
  // stands by its formula alone, so only what does not lean on that side (all but the divot's direction) has
  // a mirror at this level.
  Draws draws(33);
  for (int k = 0; k < 300; ++k) {
    DrawnPass p = drawn_pass(draws);
    p.pass.plane_direction = 0.0;
    const Club club = sample_seven_iron();
    const Delivery<double> r = delivery_of(p.pass, club, Ball{}, ball_lift_on(p.surface, club.family));
    Delivery<double> l = r;
    const Mat3<double> flip = Vec3<double>(1.0, -1.0, 1.0).asDiagonal();
    l.normal_W = mirrored_vector(r.normal_W);
    l.toe_W = mirrored_vector(r.toe_W);
    l.up_W = mirrored_vector(r.up_W);
    l.shaft_W = mirrored_vector(r.shaft_W);
    l.inertia_W = flip * r.inertia_W * flip;
    l.v_WH_W = mirrored_vector(r.v_WH_W);
    l.w_WH_W = mirrored_axial(r.w_WH_W);
    const Strike<double> a = strike_of(r, club, Ball{}, Ground{p.surface});
    const Strike<double> b = strike_of(l, club, Ball{}, Ground{p.surface});
    CHECK(b.launch.speed == a.launch.speed);
    CHECK(b.launch.elevation == a.launch.elevation);
    CHECK(b.launch.azimuth == -a.launch.azimuth);
    CHECK(b.launch.axis_tilt == -a.launch.axis_tilt);
    CHECK(b.divot.start == a.divot.start);
    CHECK(b.divot.end == a.divot.end);
    CHECK(b.divot.depth == a.divot.depth);
    CHECK(b.divot.toe_depth == a.divot.toe_depth);
    CHECK(b.speed_left == a.speed_left);
    CHECK(b.energy_lost == a.energy_lost);
    CHECK(mirrored_vector(b.v_WH_after_W) == a.v_WH_after_W);
  }
}
