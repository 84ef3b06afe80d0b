// The impact of club and ball against published and derived figures.

#include "strike/impulse.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "heads.hpp"
#include "rows.hpp"

using namespace strikewright;
using namespace strikewright::test;

namespace {

const Ball ball;

/// The head of one row of impact_vectors.csv.
HeadInRigidMotion<double> head_of(const Row& row) {
  const auto [mass, inertia] = synthetic_head(row.text("head"));
  HeadInRigidMotion<double> h;
  h.mass = mass;
  h.inertia_W = inertia.asDiagonal();
  h.v_WH_W = row.number("V") * direction(row.number("path") * kDegree, row.number("att") * kDegree);
  h.w_WH_W = Vec3<double>(0.0, 0.0, row.number("Omz"));
  const double face = row.number("face") * kDegree;
  const double loft = row.number("delivered_loft") * kDegree;
  h.normal_W = direction(face, loft);
  const Vec3<double> toe(-std::sin(face), -std::cos(face), 0.0);
  const Vec3<double> up = toe.cross(h.normal_W);
  h.p_HC_W = 1e-3 * (row.number("D_mm") * h.normal_W + row.number("toe_mm") * toe + row.number("up_mm") * up);
  h.restitution = row.number("e");
  h.tangential_restitution = row.number("et");
  h.friction = row.number("mu");
  return h;
}

Launch<double> launch_from(const HeadInRigidMotion<double>& h) { return launch_of(impact_of(h, ball).ball); }

}  // namespace

TEST_CASE("the twelve worked strikes come out to the last printed digit") {
  // Half of the last printed digit, plus 1e-9 for the binary form of a printed half.
  for (const Row& row : rows_of("impact_vectors.csv")) {
    CAPTURE(row.text("id"));
    const Impact<double> impact = impact_of(head_of(row), ball);
    const Launch<double> l = launch_of(impact.ball);
    CHECK((impact.regime == Regime::stick ? "stick" : "slide") == row.text("regime"));
    CHECK(std::abs(l.speed - row.number("ball_v")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(l.elevation / kDegree - row.number("launch_el")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(l.azimuth / kDegree - row.number("launch_az")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(l.spin / kRpm - row.number("spin_tot")) <= 0.5e-2 + 1e-9);
    const double back = std::cos(l.axis_tilt) * l.spin / kRpm;
    const double upspin = -std::sin(l.axis_tilt) * l.spin / kRpm;
    CHECK(std::abs(back - row.number("backspin")) <= 0.5e-2 + 1e-9);
    CHECK(std::abs(upspin - row.number("upspin")) <= 0.5e-2 + 1e-9);
    CHECK(std::abs(l.axis_tilt / kDegree - row.number("spin_axis_tilt")) <= 0.5e-3 + 1e-9);
    CHECK(std::abs(impact.v_WH_W.norm() - row.number("head_v_after")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(elevation_of(impact.v_WH_W) / kDegree - row.number("head_el_after")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(azimuth_of(impact.v_WH_W) / kDegree - row.number("head_az_after")) <= 0.5e-4 + 1e-9);
  }
}

TEST_CASE("the ball starts to slide on the face at the obliquity the friction allows") {
  for (const Row& row : rows_of("impact_slide_limit.csv")) {
    const double limit = row.number("phi_crit_deg");
    const auto regime_at = [&](double phi_deg) {
      return impact_of(point_head(row.number("M_kg"), 40.0, 0.0, phi_deg * kDegree, row.number("e"),
                                  row.number("e_t"), row.number("mu")),
                       ball)
          .regime;
    };
    CHECK(regime_at(limit - 0.0051) == Regime::stick);
    CHECK(regime_at(limit + 0.0051) == Regime::slide);
  }
}

TEST_CASE("the ball starts mostly where the face points, less so with a wedge") {
  for (const Row& row : rows_of("impact_path_share.csv"))
    for (int phi = 10; phi <= 50; phi += 10) {
      const Launch<double> l = launch_from(
          point_head(row.number("M_kg"), 40.0, 0.0, phi * kDegree, row.number("e"), row.number("e_t"), 5.0));
      const double share = (phi - l.elevation / kDegree) / phi;
      CHECK(std::abs(share - row.number("phi" + std::to_string(phi))) <= 0.5e-4 + 1e-9);
    }
}

TEST_CASE("a faster, more lofted blow gives the planar rows") {
  for (const Row& row : rows_of("impact_planar.csv")) {
    const double loft = row.number("loft_deg") * kDegree;
    const double e = 0.86 - 0.0029 * row.number("V_ms") * std::cos(loft);
    CHECK(std::abs(e - row.number("e")) <= 0.5e-4);
    const Launch<double> l = launch_from(point_head(0.200, row.number("V_ms"), 0.0, loft, e, 0.0, 0.4));
    CHECK(std::abs(l.speed - row.number("ball_ms")) <= 0.5e-3 + 1e-9);
    CHECK(std::abs(l.elevation / kDegree - row.number("launch_deg")) <= 0.5e-3 + 1e-9);
    CHECK(std::abs(l.spin / kRpm - row.number("spin_rpm")) <= 0.05 + 1e-9);
  }
}

TEST_CASE("ball speed over club speed falls with obliquity as tabled") {
  for (const Row& row : rows_of("impact_speed_ratio.csv"))
    for (int phi = 0; phi <= 60; phi += 10) {
      const Launch<double> l =
          launch_from(point_head(row.number("M_kg"), 30.0, 0.0, phi * kDegree, row.number("e"), 0.0, 5.0));
      CHECK(std::abs(l.speed / 30.0 - row.number("phi" + std::to_string(phi))) <= 0.5e-4 + 1e-9);
    }
}

TEST_CASE("a strike off the middle loses ball speed as tabled") {
  for (const Row& row : rows_of("impact_off_centre.csv"))
    for (int d = 5; d <= 25; d += 5) {
      HeadInRigidMotion<double> h = point_head(row.number("M_kg"), 40.0, 0.0, 0.0, 0.8, 0.0, 0.0);
      h.inertia_W = Mat3<double>::Identity() * row.number("I_gcm2") * 1e-7;
      const double centre = launch_from(h).speed;
      h.p_HC_W = Vec3<double>(0.0, -1e-3 * d, 0.0);
      const double ratio = launch_from(h).speed / centre;
      CHECK(std::abs(ratio - row.number("d" + std::to_string(d) + "mm")) <= 0.5e-4 + 1e-9);
    }
}

TEST_CASE("after an iron has met the ball the head travels much more steeply down") {
  for (const Row& row : rows_of("impact_head_after.csv")) {
    const HeadInRigidMotion<double> h =
        point_head(row.number("M_kg"), row.number("V"), row.number("attack") * kDegree,
                   row.number("delivered_loft") * kDegree, row.number("e"), 0.0, 0.4);
    const Impact<double> impact = impact_of(h, ball);
    CHECK(std::abs(impact.v_WH_W.norm() - row.number("head_V_after")) <= 0.5e-3 + 1e-9);
    CHECK(std::abs(impact.v_WH_W.norm() / row.number("V") - row.number("ratio")) <= 0.5e-4 + 1e-9);
    CHECK(std::abs(elevation_of(impact.v_WH_W) / kDegree - row.number("attack_after_deg")) <= 0.5e-3 + 1e-9);
    CHECK(std::abs(launch_of(impact.ball).spin / kRpm - row.number("spin_rpm")) <= 0.05 + 1e-9);
  }
}

TEST_CASE("a centre strike spins about the axis square to the plane of path and face") {
  for (const Row& row : rows_of("impact_axis_tilt.csv")) {
    HeadInRigidMotion<double> h = point_head(0.25, 40.0, 0.0, 0.0, 0.8, 0.0, 0.5);
    h.v_WH_W = 40.0 * direction(row.number("path") * kDegree, row.number("attack") * kDegree);
    h.normal_W = direction(row.number("face") * kDegree, row.number("delivered_loft") * kDegree);
    const double obliquity = std::acos(h.v_WH_W.normalized().dot(h.normal_W));
    CHECK(std::abs(obliquity / kDegree - row.number("obliquity_deg")) <= 0.5e-4 + 1e-9);
    const Vec3<double> w = impact_of(h, ball).ball.w_WB_W;
    const double to_ground = std::atan2(-w.z(), std::hypot(w.x(), w.y()));
    CHECK(std::abs(to_ground / kDegree - row.number("tilt_exact_deg")) <= 0.5e-4 + 1e-9);
  }
}

TEST_CASE("speed, path and face follow back from the ball of a centre strike") {
  // Closed-form inverse (derived): v_t = kappa R w; v_n = sqrt(v^2 - v_t^2); each share scaled back to the
  // club. 1e-10 relative: a dozen operations in double precision.
  Draws draws(11);
  for (int k = 0; k < 200; ++k) {
    HeadInRigidMotion<double> h = point_head(0.2 + 0.1 * draws.uniform(), 25.0 + 25.0 * draws.uniform(), 0.0,
                                             0.0, 0.7 + 0.1 * draws.uniform(), 0.2 * draws.uniform(), 5.0);
    h.v_WH_W = h.v_WH_W.norm() * direction(0.1 * draws.normal(), 0.05 * draws.normal());
    h.normal_W = direction(0.05 * draws.normal(), 0.3 + 0.3 * draws.uniform());
    const Launch<double> l = launch_from(h);
    const double ratio = ball.mass / h.mass;
    const double vt = ball.inertia_factor * ball.radius * l.spin;
    const double vn = std::sqrt(l.speed * l.speed - vt * vt);
    const double g = std::atan2(vt, vn);
    const double along_n = vn * (1.0 + ratio) / (1.0 + h.restitution);
    const double across = vt * (1.0 + ratio + 1.0 / ball.inertia_factor) / (1.0 + h.tangential_restitution);
    const double phi = std::atan2(across, along_n);
    const Vec3<double> v = l.v_WB_W.normalized();
    const Vec3<double> s = l.w_WB_W.normalized().cross(v);
    const Vec3<double> n = std::cos(g) * v + std::sin(g) * s;
    const Vec3<double> u = std::cos(phi - g) * v - std::sin(phi - g) * s;
    CHECK((n - h.normal_W).norm() <= 1e-10);
    CHECK((std::hypot(along_n, across) * u - h.v_WH_W).norm() <= 1e-10 * h.v_WH_W.norm());
  }
}

TEST_CASE("the conformance set-up of 120 mph makes a ball of 176 mph") {
  // The governing bodies' Overall Distance Standard as restated December 2023: 120 mph, 10 deg, 2520 rpm, 176
  // mph; head 0.200 kg at restitution 0.82. 1 % is the agreement that the project's design asks for; the
  // obliquity that gives 2520 rpm with the centre of mass 35 mm behind the face is solved here, not assumed.
  HeadInRigidMotion<double> h = point_head(0.200, 120.0 * kMph, 0.0, 0.0, 0.82, 0.0, 0.4);
  h.inertia_W = Vec3<double>(2500e-7, 3000e-7, 5000e-7).asDiagonal();
  double low = 0.0;
  double high = 20.0 * kDegree;
  for (int k = 0; k < 60; ++k) {
    const double phi = 0.5 * (low + high);
    h.normal_W = direction(0.0, phi);
    h.p_HC_W = 0.035 * h.normal_W;
    (launch_from(h).spin / kRpm < 2520.0 ? low : high) = phi;
  }
  CHECK(launch_from(h).speed / kMph == doctest::Approx(176.0).epsilon(0.01));
  CHECK(low / kDegree == doctest::Approx(9.47).epsilon(0.001));  // worked out by hand
}

TEST_CASE("a textbook's worked driver strike is near") {
  // G. Palmer, Physics for Game Programmers, Apress 2005, ch. 7: 50 m/s, loft 10 deg, head 0.2 kg -> 159.6
  // mph, 8.38 deg, 2773 rpm. The book leaves out that the head recoils sideways: 0.3 deg and 7 % of spin are
  // owed to it.
  const Launch<double> l = launch_from(point_head(0.200, 50.0, 0.0, 10.0 * kDegree, 0.78, 0.0, 0.4));
  CHECK(l.speed / kMph == doctest::Approx(159.6).epsilon(0.005));
  CHECK(std::abs(l.elevation / kDegree - 8.38) < 0.3);
  CHECK(l.spin / kRpm == doctest::Approx(2773.0).epsilon(0.07));
}
