// The flail against runs that another program made, against closed forms, and against its own laws.

#include <doctest/doctest.h>

#include <cmath>

#include "swing/test/flails.hpp"
#include "swing/test/rows.hpp"

using namespace strikewright;
using namespace strikewright::testing;

namespace {

Flail<double> flail_of(const Row& row) {
  Flail<double> f = reference_flail();
  f.start_arm = row.number("theta0") * kDegree;
  f.start_cock = row.number("beta0") * kDegree;
  f.shoulder = {row.number("tau_s"), row.number("activation"), row.maybe("speed_limit"), 3.0};
  f.wrist.drive = row.number("drive");
  if (const auto after = row.maybe("drive_after")) f.wrist.drive_after_arm = *after * kDegree;
  return f;
}

}  // namespace

TEST_CASE("the reference runs come out, release and end") {
  double worst = 0.0;
  for (const Row& row : rows_of("swing_runs.csv")) {
    CAPTURE(row.text("case"));
    const Flail<double> f = flail_of(row);
    const auto run = run_flail(f, fine());
    REQUIRE(run.has_value());
    const auto agree = [&](const char* key, double value) {
      CAPTURE(key);
      const double off = std::fabs(value / row.number(key) - 1.0);
      worst = std::max(worst, off);
      CHECK(off < 1e-4);
    };
    const PlanePoint<double> head = point_at(f, run->end, f.club.length);
    agree("t_rel", run->release.time);
    agree("th_rel", run->release.arm / kDegree);
    agree("w_rel", run->release.arm_rate / kDegree);
    agree("t_end", run->end.time);
    agree("th_end", run->end.arm / kDegree);
    agree("thdot_end", run->end.arm_rate);
    agree("psidot_end", run->end.club_rate);
    agree("head_speed", head.v.norm());
    agree("head_vx", head.v[0]);
    agree("inplane_dir", std::atan2(head.v[1], head.v[0]) / kDegree);
    agree("hand_speed", point_at(f, run->end, 0.0).v.norm());
  }
  MESSAGE("worst relative difference over all runs and figures: ", worst);
}

TEST_CASE("a free fall without a wrist stop ends where nine digits say") {
  // From another program at tolerance 1e-11: theta -26.70067744, psi -199.4010845 deg, 6.44310709, 2.28627842
  // rad/s.
  Flail<double> f = reference_flail();
  f.shoulder.torque = 0.0;
  f.start_arm = -120.0 * kDegree;
  f.wrist.stop = false;
  const auto run = run_flail(f, fine(End::at_time, 0.5));
  REQUIRE(run.has_value());
  CHECK(run->end.arm / kDegree == doctest::Approx(-26.70067744).epsilon(1e-9));
  CHECK(run->end.club / kDegree == doctest::Approx(-199.4010845).epsilon(1e-9));
  CHECK(run->end.arm_rate == doctest::Approx(6.44310709).epsilon(2e-9));
  CHECK(run->end.club_rate == doctest::Approx(2.28627842).epsilon(3e-9));
}

TEST_CASE("an undriven flail ends as energy and angular momentum say") {
  const Flail<double> f = reference_flail();
  const Lumped<double> k = lumped(f.arm, f.club);
  for (const Row& row : rows_of("swing_undriven.csv")) {
    const double cock = row.number("beta0_deg") * kDegree;
    CAPTURE(row.number("beta0_deg"));
    // Rest is built in, so this run starts from a turning state by hand; no gravity, no torque.
    const auto rate = [&k](double, const State<double, 4>& y) {
      const Load<double> load = load_of(k, 0.0, y[0], y[1], HubMotion<double>{});
      const Turning<double> q = turning_free(k, load, y[2], y[3], 0.0, 0.0);
      return State<double, 4>(y[2], y[3], q.arm, q.club);
    };
    const auto straight = [](double, const State<double, 4>& y) {
      return std::array<double, 1>{y[1] - y[0]};
    };
    const State<double, 4> start(0.0, -cock, 10.0, 10.0);
    const auto c = integrate<double, 4>(rate, start, 0.0, 1.0, fine().pace, straight, [](const auto&) {});
    REQUIRE(c.ending == Ending::event);
    CHECK(c.y[2] == doctest::Approx(row.number("thdot")).epsilon(1e-6));
    CHECK(c.y[3] == doctest::Approx(row.number("psidot")).epsilon(1e-6));
    CHECK(c.y[0] / kDegree == doctest::Approx(row.number("arm_swept_deg")).epsilon(1e-5));
    CHECK(c.t == doctest::Approx(row.number("time_s")).epsilon(3e-5));
    CHECK(f.arm.length * c.y[2] + f.club.length * c.y[3] ==
          doctest::Approx(row.number("head_speed")).epsilon(3e-6));
    // The closed form itself: theta' and psi' from L and E, the root with the faster club.
    const double both = k.j1 + k.j2 + 2.0 * k.p * std::cos(cock);
    CHECK((k.j1 + k.p) * c.y[2] + (k.j2 + k.p) * c.y[3] == doctest::Approx(both * 10.0).epsilon(1e-10));
    CHECK(k.j1 * c.y[2] * c.y[2] + k.j2 * c.y[3] * c.y[3] + 2.0 * k.p * c.y[2] * c.y[3] ==
          doctest::Approx(both * 100.0).epsilon(1e-10));
  }
}

TEST_CASE("work and energy agree to 1e-9 with torques, a moving hub, a stop and a late drive") {
  Flail<double> f = reference_flail();
  f.shoulder = {140.0, 0.04, 30.0, 3.0};
  f.wrist.drive = 8.0;
  f.wrist.drive_after_arm = -60.0 * kDegree;
  f.hub.shift = {.size = 0.09, .start = 0.05, .duration = 0.25};
  f.hub.rise = {.size = 0.04, .start = 0.20, .duration = 0.20};
  f.hub.pushes = {{0.0, 0.1, 1.0, -0.5}, {0.1, 0.2, -1.0, 0.5}};
  const auto start = run_flail(f, fine(End::at_time, 1e-12));
  const auto run = run_flail(f, fine());
  REQUIRE(start.has_value());
  REQUIRE(run.has_value());
  const double gain = energy_of(f, run->end) - energy_of(f, start->end);
  const double work = run->end.shoulder_work + run->end.wrist_work + run->end.hub_work;
  MESSAGE("energy gained ", gain, " J, work done ", work, " J, difference ", gain - work);
  CHECK(std::fabs(gain - work) < 1e-9 * gain);
  CHECK(run->end.hub_work != 0.0);
  CHECK(run->end.wrist_work > 1.0);
}

TEST_CASE("a shaken hub does the work that the flail gains") {
  // X = 0.04 sin 8t, Y = 0.02 sin^2 8t, torques 60 and 5 N m, free wrist, 0.4 s from -120, -210 deg at rest,
  // with the force on the hub from Newton's second law for the whole flail, not from the room's own account
  // of work.
  Flail<double> f = reference_flail();
  const Lumped<double> k = lumped(f.arm, f.club);
  const double g = 9.81 * std::sin(f.plane_tilt);
  const auto hub = [](double t) {
    HubMotion<double> h;
    h.p = {0.04 * std::sin(8 * t), 0.02 * std::pow(std::sin(8 * t), 2)};
    h.v = {0.32 * std::cos(8 * t), 0.16 * std::sin(16 * t)};
    h.a = {-2.56 * std::sin(8 * t), 2.56 * std::cos(16 * t)};
    return h;
  };
  const auto moment = [&](double t, const State<double, 5>& y) {
    Moment<double> m;
    m.hub = hub(t);
    m.arm = y[0], m.club = y[1], m.arm_rate = y[2], m.club_rate = y[3];
    const Turning<double> q = turning_free(k, load_of(k, g, y[0], y[1], m.hub), y[2], y[3], 60.0, 5.0);
    m.arm_gain = q.arm, m.club_gain = q.club;
    return m;
  };
  const auto rate = [&](double t, const State<double, 5>& y) {
    const Moment<double> m = moment(t, y);
    const Flail<double> upper{.arm = {.mass = 1, .com = 1, .length = f.arm.com, .inertia_com = 1},
                              .club = f.club};
    const Vec2<double> arm_a = point_at(upper, m, 0.0).a, club_a = point_at(f, m, f.club.com).a;
    const Vec2<double> weight(0.0, (f.arm.mass + f.club.mass) * g);
    const double power = (f.arm.mass * arm_a + f.club.mass * club_a + weight).dot(m.hub.v);
    State<double, 5> d;
    d << y[2], y[3], m.arm_gain, m.club_gain, power + 60.0 * y[2] + 5.0 * (y[3] - y[2]);
    return d;
  };
  State<double, 5> start;
  start << -120.0 * kDegree, -210.0 * kDegree, 0.0, 0.0, 0.0;
  const auto c = integrate<double, 5>(rate, start, 0.0, 0.4, fine().pace);
  const double gain = energy_of(f, moment(0.4, c.y)) - energy_of(f, moment(0.0, start));
  MESSAGE("gain of energy ", gain, " J, minus work ", gain - c.y[4]);
  CHECK(std::fabs(gain - c.y[4]) < 1e-9 * gain);
}

TEST_CASE("halving the step changes the head speed by less than 1e-8") {
  const Flail<double> f = reference_flail();
  const auto speed = [&f](double step) {
    RunOptions o;
    o.pace.fixed = step;
    const auto run = run_flail(f, o);
    REQUIRE(run.has_value());
    return head_speed(f, run->end);
  };
  const double a = speed(1e-3);
  const double b = speed(5e-4);
  CHECK(std::fabs(a / b - 1.0) < 1e-8);
}
