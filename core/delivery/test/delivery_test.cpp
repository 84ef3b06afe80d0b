#include "delivery/delivery_of.hpp"

#include <doctest/doctest.h>

#include <array>

#include "numeric/draws.hpp"
#include "sample_club.hpp"

using namespace strikewright;
using doctest::Approx;

namespace {

struct Face {
  double loft, face, lie;
};

/// Loft, face and delivered lie in degrees of a club posed with an in-plane lean and a face turn in degrees.
Face posed(const Club& c, double lean, double turn, double direction = 0.0) {
  const Mat3<double> r = pose_of(c.lie, c.lie, turn * kDegree, lean * kDegree, direction * kDegree);
  const Vec3<double> n = r * Vec3<double>(std::cos(c.loft), 0.0, std::sin(c.loft));
  const Vec3<double> toe = r * Vec3<double>(0.0, -1.0, 0.0);
  return {elevation_of(n) / kDegree, azimuth_of(n) / kDegree, std::asin(toe.z()) / kDegree};
}

Pass<double> on_arc(double tilt_deg, double low_point) {
  Pass<double> p = sample_pass<double>();
  p.plane_tilt = tilt_deg * kDegree;
  p.low_point = low_point;
  return p;
}

}  // namespace

// Figures computed from the rotations as docs/models.md defines them; two decimals printed, so half a unit in
// the last.
TEST_CASE("leaning the handle forward alone takes loft off and opens the face") {
  const Face f = posed(sample_seven_iron(), 10.0, 0.0);
  CHECK(std::abs(f.loft - 24.14) < 0.005);
  CHECK(std::abs(f.face - 4.44) < 0.005);
  CHECK(std::abs(face_on_lean(10.0 * kDegree, 62.5 * kDegree) / kDegree - 11.24) < 0.005);
}

TEST_CASE("turning the face closed alone takes a little loft off and points it left") {
  const Face f = posed(sample_seven_iron(), 0.0, 5.0);
  CHECK(std::abs(f.loft - 30.69) < 0.005);
  CHECK(std::abs(f.face + 4.38) < 0.005);
}

TEST_CASE("a closed face with the handle forward is a square face with less loft") {
  const Face f = posed(sample_seven_iron(), 10.0, 5.49);
  CHECK(std::abs(f.face) < 0.005);
  CHECK(std::abs(f.loft - 21.61) < 0.005);
}

TEST_CASE("the toe drops a little by face turn, more with the handle forward") {
  const Club c = sample_seven_iron();
  // printed to 0.01 (0.1 where one decimal is printed)
  CHECK(std::abs(posed(c, 0.0, 5.0).lie + 0.09) < 0.005);
  CHECK(std::abs(posed(c, 0.0, 20.0).lie + 1.4) < 0.05);
  CHECK(std::abs(posed(c, 10.0, 0.0).lie - 0.36) < 0.005);
  CHECK(std::abs(posed(c, 10.0, 5.49).lie + 0.50) < 0.005);
  CHECK(std::abs(posed(c, 10.0, 20.0).lie + 3.7) < 0.05);
}

// Rodrigues' formula about the shaft, exact (derived; see reference/delivery_turn.csv for the rows in words).
TEST_CASE("opening the face about the shaft adds loft and closing removes it") {
  struct Row {
    double turn, lie, loft, delivered, face;
  };
  // turn closing +; rows: opened 5, closed 5, opened 20, opened 5
  for (const Row r : {Row{-5, 62, 34, 36.3450, 4.4800}, Row{5, 62, 34, 31.6549, -4.3578},
                      Row{-20, 64, 56, 64.5913, 20.7762}, Row{-5, 58, 10.5, 13.1472, 4.2616}}) {
    Club c = sample_seven_iron();
    c.lie = r.lie * kDegree;
    c.loft = r.loft * kDegree;
    const Face f = posed(c, 0.0, r.turn);
    CHECK(std::abs(f.loft - r.delivered) < 5e-5);  // four decimals printed
    CHECK(std::abs(f.face - r.face) < 5e-5);
  }
}

TEST_CASE("a toe hanging down points the face right") {
  struct Row {
    double toe_down, lie, loft, delivered, face;
  };
  for (const Row r : {Row{2, 62, 34, 33.9765, 1.3485}, Row{5, 64, 56, 55.6781, 7.3626}}) {
    // toe down = shaft steeper than the design lie
    const Mat3<double> m = pose_of(r.lie * kDegree, (r.lie + r.toe_down) * kDegree, 0.0, 0.0, 0.0);
    const double loft = r.loft * kDegree;
    const Vec3<double> n = m * Vec3<double>(std::cos(loft), 0.0, std::sin(loft));
    CHECK(std::abs(elevation_of(n) / kDegree - r.delivered) < 5e-5);
    CHECK(std::abs(azimuth_of(n) / kDegree - r.face) < 5e-5);
  }
}

namespace {

struct ArcRow {
  double tilt, attack, path, low_point, height, radius;
};

/// Attack and path [deg] of the arc itself at the angle that has its low point `ahead`.
ArcRow arc_row(double tilt, double radius, double ahead) {
  Club c = sample_seven_iron();
  c.com_up = c.com_depth = 0.0;  // a point on the arc
  c.arc_radius = radius;
  Pass<double> p = on_arc(tilt, ahead);
  p.closing_rate = 0.0;
  const Delivery<double> d = delivery_of(p, c, Ball{}, 0.0);
  return {tilt,
          d.attack / kDegree,
          d.path / kDegree,
          p.low_point - d.edge_along,
          d.edge_height - p.low_point_depth,
          radius};
}

}  // namespace

TEST_CASE("a club still going down on an inclined plane travels outward") {
  // T. Jorgensen's plane geometry: sin a = sin b sin T, path = -atan(tan b cos T), x = -r sin b, h = r (1 -
  // cos b) sin T. Rows printed to 1e-4 deg, 1e-4 m and 1e-3 mm; we look the attack up by bisection over the
  // low point.
  struct Row {
    double tilt, attack, path, x, h, r;
  };
  for (const Row row : {Row{60, -5, 2.8953, 0.1510, 6.595, 1.5}, Row{60, -3, 1.7339, 0.0906, 2.374, 1.5},
                        Row{62, -4, 0.0, 0.1106, 3.864, 1.4}, Row{47, 3, 0.0, -0.1252, 3.281, 1.75}}) {
    double low = -0.4, high = 0.4;
    for (int k = 0; k < 60; ++k) {
      const double mid = 0.5 * (low + high);
      (arc_row(row.tilt, row.r, mid).attack > row.attack ? low : high) = mid;
    }
    const ArcRow got = arc_row(row.tilt, row.r, low);
    CHECK(std::abs(got.attack - row.attack) < 1e-6);
    CHECK(std::abs(got.low_point - row.x) < 6e-5);
    CHECK(std::abs(1e3 * got.height - row.h) < 6e-4);
    const double b = std::asin(std::sin(row.attack * kDegree) / std::sin(row.tilt * kDegree));
    CHECK(std::abs(got.path + std::atan(std::tan(b) * std::cos(row.tilt * kDegree)) / kDegree) < 1e-6);
    if (row.tilt == 60) CHECK(std::abs(got.path - row.path) < 6e-5);
  }
}

TEST_CASE("at the low point the club travels along the plane, after it inward") {
  Club c = sample_seven_iron();
  c.com_up = c.com_depth = 0.0;
  Pass<double> p = on_arc(60.0, 0.0);
  p.closing_rate = 0.0;
  for (int k = 0; k < 40; ++k) p.low_point = delivery_of(p, c, Ball{}, 0.0).edge_along;
  CHECK(std::abs(delivery_of(p, c, Ball{}, 0.0).path) < 1e-9);
  const double before = delivery_of(on_arc(60.0, 0.06), c, Ball{}, 0.0).path;
  const double after = delivery_of(on_arc(60.0, -0.08), c, Ball{}, 0.0).path;
  CHECK(before > 0.0);
  CHECK(after < 0.0);
}

TEST_CASE("the meeting point lies on the face and on the ball") {
  const Club c = sample_seven_iron();
  const Ball ball;
  Draws draws(7);
  for (int k = 0; k < 2000; ++k) {
    Pass<double> p = sample_pass<double>();
    p.low_point = draws.normal(0.03, 0.06);
    p.low_point_depth = draws.normal(-0.006, 0.008);
    p.shaft_lean = draws.normal(0.08, 0.08);
    p.face_turn = draws.normal(0.0, 0.08);
    p.plane_direction = draws.normal(0.0, 0.08);
    p.strike_toe = draws.normal(0.0, 0.01);
    const Delivery<double> d = delivery_of(p, c, ball, 0.0);
    const Meeting<double> m = meet(d, c, ball, 0.0, 0.0);
    CHECK(std::abs((m.point_W - Vec3<double>(0, 0, ball.radius)).norm() - ball.radius) < 1e-12);
    const EdgePlace<double> e = edge_at(d.arc, m.arc_angle, 0.0);
    if (m.missed) continue;
    const double up = m.bladed ? 0.0 : m.strike_up;
    // the contact point seen from the leading edge, x and z (the sideways place is the strike offset's)
    CHECK(std::abs(e.x + up * d.up_W.x() + p.strike_toe * d.toe_W.x() - m.point_W.x()) < 1e-9);
    CHECK(std::abs(e.z + up * d.up_W.z() + p.strike_toe * d.toe_W.z() - m.point_W.z()) < 1e-9);
  }
}

TEST_CASE("where the face meets a ball on firm ground follows from loft and edge height") {
  // Contact height R (1 - sin d), up the face (z - z_edge) / cos d (derived; printed to 0.01 mm).
  struct Row {
    double loft, up0, up_minus5, up_plus4;
  };
  for (const Row r : {Row{20, 14.94, 20.26, 10.68}, Row{28, 12.82, 18.48, 8.29}, Row{45, 8.84, 15.91, 3.18},
                      Row{54, 6.93, 15.44, 0.13}}) {
    Club c = sample_seven_iron();
    c.loft = r.loft * kDegree;
    Pass<double> p = sample_pass<double>();
    p.shaft_lean = p.face_turn = 0.0;
    p.plane_tilt = c.lie;
    const Delivery<double> d = delivery_of(p, c, Ball{}, 0.0);
    for (const auto& [z, up] : {std::pair{0.0, r.up0}, {-0.005, r.up_minus5}, {0.004, r.up_plus4}}) {
      const auto t = detail::touch_at(d.normal_W, d.toe_W, d.up_W, 0.0, z, Ball{}.radius, Ball{}.radius);
      CHECK(std::abs(1e3 * t.strike_up - up) < 0.006);
    }
  }
}

TEST_CASE("an edge above the middle of the ball meets it with the normal pointing down") {
  Pass<double> p = sample_pass<double>();
  p.low_point_depth = 0.028;
  const Meeting<double> m =
      meet(delivery_of(p, sample_seven_iron(), Ball{}, 0.0), sample_seven_iron(), Ball{}, 0.0, 0.0);
  CHECK(m.bladed);
  CHECK(m.normal_W.z() < 0.0);
  p.low_point_depth = 0.06;
  CHECK(meet(delivery_of(p, sample_seven_iron(), Ball{}, 0.0), sample_seven_iron(), Ball{}, 0.0, 0.0).missed);
}

namespace {

constexpr int kPass = 10;

template <class T>
std::array<T*, kPass> numbers(Pass<T>& p) {
  return {&p.club_speed, &p.plane_direction, &p.plane_tilt, &p.low_point,  &p.low_point_depth,
          &p.shaft_lean, &p.face_turn,       &p.strike_toe, &p.lie_offset, &p.closing_rate};
}

template <class T>
std::array<T, 13> looked_at(const Delivery<T>& d) {
  return {d.attack,      d.path,           d.face,           d.loft,        d.lie,
          d.handle_lead, d.exposed_bounce, d.edge_along,     d.edge_height, d.strike_up,
          d.v_WH_W.x(),  d.w_WH_W.y(),     d.inertia_W(0, 1)};
}

}  // namespace

TEST_CASE("every slope of the delivery agrees with a difference, at ordinary points and at the edges") {
  const Club c = sample_seven_iron();
  const Ball ball;
  const double steps[kPass] = {1e-3, 1e-5, 1e-5, 1e-6, 1e-6, 1e-5, 1e-5, 1e-6, 1e-5, 1e-3};
  std::array<Pass<double>, 5> places;
  places.fill(sample_pass<double>());
  places[1].low_point = -0.10;                                                   // far behind
  places[2].low_point_depth = 0.012;                                             // bladed
  places[3].shaft_lean = places[3].face_turn = places[3].plane_direction = 0.0;  // square and straight
  places[4].low_point_depth = 0.030;                                             // topped
  for (const Pass<double>& at : places) {
    Pass<double> base = at;
    Pass<Dual<kPass>> dual;
    const auto plain = numbers(base);
    const auto slots = numbers(dual);
    for (int j = 0; j < kPass; ++j) *slots[j] = Dual<kPass>(*plain[j], j);
    const auto exact = looked_at(delivery_of(dual, c, ball, 0.0));
    for (int j = 0; j < kPass; ++j) {
      Pass<double> more = at, less = at;
      *numbers(more)[j] += steps[j];
      *numbers(less)[j] -= steps[j];
      const auto a = looked_at(delivery_of(more, c, ball, 0.0));
      const auto b = looked_at(delivery_of(less, c, ball, 0.0));
      for (std::size_t i = 0; i < exact.size(); ++i) {
        const double rough = (a[i] - b[i]) / (2.0 * steps[j]);
        // central differences with these steps resolve about 1e-6 of the slope's size
        CHECK(std::abs(exact[i].v[j] - rough) < 2e-5 * (1.0 + std::abs(rough)));
      }
    }
  }
}
