// The bulk kernel against one swing at a time. Here and not in the swing room, because contact needs the
// delivery's geometry.

#include <doctest/doctest.h>

#include <cmath>
#include <cstring>

#include "bag/generic.hpp"
#include "delivery/default_swing.hpp"
#include "numeric/draws.hpp"
#include "swing/bulk.hpp"

using namespace strikewright;

namespace {

struct Many {
  SwingBatch batch;
  std::vector<Swing<double>> singles;
  Club club;
};

/// A county 7-iron with its causes scattered widely.
Many scattered(std::size_t n) {
  Many m;
  m.club = club_named(generic_bag(), "7i").value();
  // Low enough that the face, not the edge, meets the ball in all of them: one touching plane for both cannot
  // be.
  Pass<double> aim = usual_pass(m.club, SwingBand::county);
  aim.low_point = 0.050;
  aim.low_point_depth = -0.008;
  const Swing<double> base = swing_for(aim, usual_manner(SwingBand::county), m.club, Ball{}, 0.0).value();
  const auto exact = passing_of(base, m.club, Ball{}, 0.0).value();
  m.batch.contact = contact_line_of(base, exact, m.club, Ball{}, 0.0);
  m.batch.base = base.flail;
  m.batch.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const auto swing = [i](int k) {
      return std::sin(1.7 * static_cast<double>(i) + 2.3 * k);
    };  // any spread will do
    Swing<double> s = base;
    s.flail.shoulder.torque *= 1.0 + 0.10 * swing(1);
    s.flail.wrist.release.value += 6.0 * kDegree * swing(2);
    s.flail.wrist.drive *= 1.0 + 0.3 * swing(3);
    s.flail.hub.shift.size += 0.03 * swing(4);
    s.flail.hub.rise.size += 0.02 * swing(5);
    s.flail.plane_tilt += 3.0 * kDegree * swing(6);
    s.stance.hub_along += 0.03 * swing(7);
    s.stance.hub_up += 0.01 * swing(8);
    m.batch.set(i, s);
    m.singles.push_back(s);
  }
  return m;
}

}  // namespace

TEST_CASE("swings in bulk are the swings one by one") {
  const Many m = scattered(101);
  SwingBatchEnds ends;
  swings_of(m.batch, ends);
  double speed_off = 0.0, low_off = 0.0, angle_off = 0.0, release_off = 0.0;
  for (std::size_t i = 0; i < m.batch.size(); ++i) {
    REQUIRE(ends.arrived[i] == 1);
    const Flail<double>& f = m.singles[i].flail;
    const Vec2<double> hub(m.singles[i].stance.hub_along, m.singles[i].stance.hub_up);
    const ContactLine& l = m.batch.contact;
    const auto run =
        run_flail(f, RunOptions{.pace = {.relative = 1e-12, .absolute = 1e-13}, .end = End::contact},
                  [&](const Vec2<double>& edge, double club) {
                    const Vec2<double> p = hub + edge;
                    return p[0] - l.along - l.per_up * (p[1] - l.up) - l.per_club * (club - l.club);
                  })
            .value();
    const auto at = point_at(f, run.contact, f.club.length), low = point_at(f, run.low_point, f.club.length);
    speed_off = std::max(speed_off, std::fabs(ends.edge_speed[i] / at.v.norm() - 1.0));
    low_off = std::max(low_off,
                       std::hypot(ends.low_along[i] - hub[0] - low.p[0], ends.low_up[i] - hub[1] - low.p[1]));
    angle_off = std::max(angle_off, std::fabs(ends.club[i] - run.contact.club));
    release_off = std::max(release_off, std::fabs(ends.release_time[i] - run.release.time));
  }
  MESSAGE("worst of 101 swings, step 5 ms: speed ", speed_off, " relative, low point ", low_off,
          " m, club angle ", angle_off, " rad, release ", release_off, " s");
  CHECK(speed_off < 1e-6);
  CHECK(low_off < 1e-5);
  CHECK(angle_off < 1e-5);
  CHECK(release_off < 1e-7);
}

TEST_CASE("half the step has a sixteenth of the error") {
  const Many m = scattered(16);
  SwingBatchEnds coarse, middle, fine;
  swings_of(m.batch, coarse, 8e-3);
  swings_of(m.batch, middle, 4e-3);
  swings_of(m.batch, fine, 2.5e-4);
  double off_coarse = 0.0, off_middle = 0.0;
  for (std::size_t i = 0; i < 16; ++i) {
    off_coarse += std::fabs(coarse.low_along[i] - fine.low_along[i]);
    off_middle += std::fabs(middle.low_along[i] - fine.low_along[i]);
  }
  const double order = std::log2(off_coarse / off_middle);
  MESSAGE("order of the bulk kernel: ", order);
  CHECK(order > 3.5);
}

TEST_CASE("a swing's bits do not depend on its neighbours") {
  const Many m = scattered(7);
  SwingBatchEnds together, alone;
  swings_of(m.batch, together);
  for (std::size_t i = 0; i < 7; ++i) {
    SwingBatch one;
    one.base = m.batch.base;
    one.resize(1);
    one.contact = m.batch.contact;
    one.set(0, m.singles[i]);
    swings_of(one, alone);
    CHECK(std::memcmp(&alone.low_along[0], &together.low_along[i], sizeof(double)) == 0);
    CHECK(std::memcmp(&alone.edge_speed[0], &together.edge_speed[i], sizeof(double)) == 0);
  }
}

TEST_CASE("contact by its touching plane is contact by the ball, to second order") {
  const Many m = scattered(50);
  SwingBatchEnds ends;
  swings_of(m.batch, ends);
  double lean_off = 0.0;
  for (std::size_t i = 0; i < m.batch.size(); ++i) {
    const auto p = passing_of(m.singles[i], m.club, Ball{}, 0.0).value();
    lean_off = std::max(lean_off, std::fabs(ends.club[i] - p.run.contact.club));
  }
  MESSAGE("club angle at the touching plane against the ball, worst of 50 widely scattered swings: ",
          lean_off / kDegree, " deg");
  CHECK(lean_off < 0.3 * kDegree);  // a strike of these mostly differs in height by a centimetre
}

TEST_CASE("natural releases and a start that is free at once run in bulk too") {
  SwingBatch b;
  b.base = {.arm = usual_arms(),
            .club = {0.394, 0.753, 1.10, 0.0756},
            .plane_tilt = 0.9,
            .start_arm = -2.7,
            .start_cock = 1.5};
  b.base.shoulder.torque = 80.0;
  b.resize(1);
  b.set(0, {.flail = b.base, .stance = {}});
  SwingBatchEnds ends;
  swings_of(b, ends);
  REQUIRE(ends.arrived[0] == 1);
  const auto run =
      run_flail(b.base, RunOptions{.pace = {.relative = 1e-12, .absolute = 1e-13}, .end = End::contact},
                [](const Vec2<double>& edge, double) { return edge[0]; })
          .value();
  CHECK(ends.release_time[0] == doctest::Approx(run.release.time).epsilon(1e-6));
  CHECK(ends.club[0] == doctest::Approx(run.contact.club).epsilon(1e-5));
  b.torque[0] = -50.0;
  swings_of(b, ends);
  CHECK(ends.arrived[0] == 0);
}
