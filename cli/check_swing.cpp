// The flail against runs of another program, closed forms and its own energy law.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "bag/generic.hpp"
#include "check_groups.hpp"
#include "delivery/default_swing.hpp"
#include "quantity/angle.hpp"
#include "quantity/fault.hpp"
#include "swing/run.hpp"

namespace strikewright {
namespace {

constexpr const char* kSwingGroup = "swing";
constexpr Pace kFine{.relative = 1e-12, .absolute = 1e-13};

/// Arms and club of the reference runs (their note line).
Flail<double> reference_flail() {
  Flail<double> f{.arm = {7.0, 0.31, 0.62, 0.4773},
                  .club = {0.394, 0.753, 1.10, 0.0756},
                  .gravity = 9.81,
                  .plane_tilt = 50.0 * kDegree,
                  .start_arm = -120.0 * kDegree,
                  .start_cock = 90.0 * kDegree,
                  .shoulder = {},
                  .wrist = {},
                  .hub = {}};
  return f;
}

FlailRun<double> run_of(const Flail<double>& flail, End end, double end_time = 0.0) {
  const auto run = run_flail(flail, RunOptions{.pace = kFine, .end = end, .end_time = end_time});
  ensure(run.has_value(), "a reference run of the flail gets to its end");
  return *run;
}

Flail<double> flail_of(const ReferenceRow& row) {
  Flail<double> f = reference_flail();
  f.start_arm = row.number("theta0") * kDegree;
  f.start_cock = row.number("beta0") * kDegree;
  f.shoulder.torque = row.number("tau_s");
  f.shoulder.activation = row.number("activation");
  if (row.has("speed_limit")) f.shoulder.speed_limit = row.number("speed_limit");
  f.wrist.drive = row.number("drive");
  if (row.has("drive_after")) f.wrist.drive_after_arm = row.number("drive_after") * kDegree;
  return f;
}

void swing_run_rows(CheckReport& report) {
  CheckTable table(report, kSwingGroup, "swing_runs");
  for (const ReferenceRow& row : table.rows()) {
    const Flail<double> f = flail_of(row);
    const FlailRun<double> run = run_of(f, End::club_vertical);
    const PlanePoint<double> head = point_at(f, run.end, f.club.length);
    const auto add = [&](const char* what, const char* unit, double measured, const char* column) {
      const double published = row.number(column);
      table.compare(row.text("case") + ": " + what, unit, measured, published, 1e-4 * std::abs(published));
    };
    add("release, time", "s", run.release.time, "t_rel");
    add("release, arm", "deg", run.release.arm / kDegree, "th_rel");
    add("release, arm rate", "deg/s", run.release.arm_rate / kDegree, "w_rel");
    add("shaft vertical, time", "s", run.end.time, "t_end");
    add("shaft vertical, arm", "deg", run.end.arm / kDegree, "th_end");
    add("shaft vertical, arm rate", "rad/s", run.end.arm_rate, "thdot_end");
    add("shaft vertical, club rate", "rad/s", run.end.club_rate, "psidot_end");
    add("head speed", "m/s", head.v.norm(), "head_speed");
    add("head speed along the base line", "m/s", head.v[0], "head_vx");
    add("direction in the plane", "deg", std::atan2(head.v[1], head.v[0]) / kDegree, "inplane_dir");
    add("hand speed", "m/s", point_at(f, run.end, 0.0).v.norm(), "hand_speed");
  }
}

/// Levers turning together at 10 rad/s, then free, without gravity and torque, until they are in line.
Course<double, 4> undriven(const Lumped<double>& k, double cock) {
  const auto rate = [&k](double, const State<double, 4>& y) {
    const Load<double> load = load_of(k, 0.0, y[0], y[1], HubMotion<double>{});
    const Turning<double> q = turning_free(k, load, y[2], y[3], 0.0, 0.0);
    return State<double, 4>(y[2], y[3], q.arm, q.club);
  };
  const auto straight = [](double, const State<double, 4>& y) { return std::array<double, 1>{y[1] - y[0]}; };
  return integrate<double, 4>(rate, State<double, 4>(0.0, -cock, 10.0, 10.0), 0.0, 1.0, kFine, straight,
                              [](const auto&) {});
}

void undriven_rows(CheckReport& report) {
  CheckTable table(report, kSwingGroup, "swing_undriven");
  const Flail<double> f = reference_flail();
  const Lumped<double> k = lumped(f.arm, f.club);
  for (const ReferenceRow& row : table.rows()) {
    const Course<double, 4> c = undriven(k, row.number("beta0_deg") * kDegree);
    const double arm = c.y[2], club = c.y[3];
    const double club_share = (k.j2 * club * club + f.club.mass * f.arm.length * f.arm.length * arm * arm +
                               2.0 * k.p * arm * club) /
                              (k.j1 * arm * arm + k.j2 * club * club + 2.0 * k.p * arm * club);
    const std::string name = fmt::format("cock {}: ", row.text("beta0_deg"));
    table.printed(name + "arm rate in line", "rad/s", arm, row, "thdot");
    table.printed(name + "club rate in line", "rad/s", club, row, "psidot");
    table.printed(name + "arm swept", "deg", c.y[0] / kDegree, row, "arm_swept_deg");
    table.printed(name + "time", "s", c.t, row, "time_s");
    table.printed(name + "head speed", "m/s", f.arm.length * arm + f.club.length * club, row, "head_speed");
    table.printed(name + "club's share of the energy", "", club_share, row, "club_share");
  }
}

/// Hub of the shaken-hub row at time t.
HubMotion<double> shaken(double t) {
  return {.p = {0.04 * std::sin(8 * t), 0.02 * std::pow(std::sin(8 * t), 2)},
          .v = {0.32 * std::cos(8 * t), 0.16 * std::sin(16 * t)},
          .a = {-2.56 * std::sin(8 * t), 2.56 * std::cos(16 * t)}};
}

/// Arms and club on the shaken hub: the moment with its accelerations.
Moment<double> shaken_moment(const Flail<double>& f, double t, const State<double, 5>& y) {
  const double g = f.gravity * std::sin(f.plane_tilt);
  const Lumped<double> k = lumped(f.arm, f.club);
  Moment<double> m;
  m.hub = shaken(t);
  m.arm = y[0], m.club = y[1], m.arm_rate = y[2], m.club_rate = y[3];
  const Turning<double> q = turning_free(k, load_of(k, g, y[0], y[1], m.hub), y[2], y[3], 60.0, 5.0);
  m.arm_gain = q.arm, m.club_gain = q.club;
  return m;
}

/// Energy gained and work done; the hub's work from Newton's second law for both masses.
std::pair<double, double> shaken_hub(const Flail<double>& f) {
  const double g = f.gravity * std::sin(f.plane_tilt);
  const auto rate = [&](double t, const State<double, 5>& y) {
    const Moment<double> m = shaken_moment(f, t, y);
    Flail<double> to_com = f;
    to_com.arm.length = f.arm.com;
    const Vec2<double> weight(0.0, (f.arm.mass + f.club.mass) * g);
    const Vec2<double> force =
        f.arm.mass * point_at(to_com, m, 0.0).a + f.club.mass * point_at(f, m, f.club.com).a + weight;
    State<double, 5> d;
    d << y[2], y[3], m.arm_gain, m.club_gain, force.dot(m.hub.v) + 60.0 * y[2] + 5.0 * (y[3] - y[2]);
    return d;
  };
  State<double, 5> start;
  start << -120.0 * kDegree, -210.0 * kDegree, 0.0, 0.0, 0.0;
  const auto c = integrate<double, 5>(rate, start, 0.0, 0.4, kFine);
  return {energy_of(f, shaken_moment(f, 0.4, c.y)) - energy_of(f, shaken_moment(f, 0.0, start)), c.y[4]};
}

void swing_exact_rows(CheckReport& report) {
  Flail<double> f = reference_flail();
  const auto [gain, work] = shaken_hub(f);
  f.wrist.stop = false;
  const Moment<double> fallen = run_of(f, End::at_time, 0.5).end;
  const std::map<std::string, double> measured{
      {"arm", fallen.arm / kDegree}, {"club", fallen.club / kDegree},
      {"arm rate", fallen.arm_rate}, {"club rate", fallen.club_rate},
      {"energy gained", gain},       {"energy gained minus work done", gain - work}};
  CheckTable table(report, kSwingGroup, "swing_exact");
  for (const ReferenceRow& row : table.rows()) {
    const std::string& figure = row.text("figure");
    const std::string what = row.text("case") + ": " + figure;
    const double value = row.number("value");
    if (figure == "energy gained") {
      table.show(what, row.text("unit"), measured.at(figure), value, value, "see the table's note");
    } else if (figure == "energy gained minus work done") {
      table.compare(what, row.text("unit"), measured.at(figure), value, 1e-9 * gain,
                    "1e-9 of the energy gained: the integrator's tolerance");
    } else {
      table.compare(what, row.text("unit"), measured.at(figure), value,
                    row.half_digit("value") + 2e-8 * std::abs(value));
    }
  }
}

/// Highest club and wrist rates [rad/s] of a downswing, and what stands at contact.
struct Rates {
  double club = 0.0, wrist = 0.0, head_speed = 0.0, hand_speed = 0.0;
};

Rates driver_rates() {
  const Club driver = club_named(generic_bag(), "driver").value();
  const auto swing = default_swing(driver, SwingBand::tour);
  ensure(swing.has_value(), "the default swing of the driver exists");
  RunOptions options;
  options.trace_every = 1e-3;
  const auto passing = passing_of(*swing, driver, Ball{}, usual_ball_lift(driver), options);
  ensure(passing.has_value(), "the default swing of the driver meets the ball");
  Rates rates{.club = 0.0,
              .wrist = 0.0,
              .head_speed = passing->pass.club_speed,
              .hand_speed = point_at(swing->flail, passing->run.contact, 0.0).v.norm()};
  for (const Sample& s : passing->run.trace) {
    if (s.time > passing->run.contact.time) break;
    rates.club = std::max(rates.club, s.club_rate);
    rates.wrist = std::max(rates.wrist, s.club_rate - s.arm_rate);
  }
  return rates;
}

/// Head speed [m/s] when the shaft is vertical, of the reference run of that name.
double head_speed_of(const std::string& name) {
  for (const ReferenceRow& row : reference_table("swing_runs").rows) {
    if (row.text("case") != name) continue;
    const Flail<double> f = flail_of(row);
    return point_at(f, run_of(f, End::club_vertical).end, f.club.length).v.norm();
  }
  ensure(false, "the reference run is in its table");
  return 0.0;
}

void swing_published_rows(CheckReport& report) {
  const Rates rates = driver_rates();
  const std::map<std::string, double> measured{
      {"C5", rates.club / kDegree},
      {"C6", rates.wrist / kDegree},
      {"C1", 100.0 * (head_speed_of("R4") / head_speed_of("R2") - 1.0)},
      {"C2", head_speed_of("R4")},
      {"C12", rates.head_speed},
      {"C13", rates.hand_speed}};
  CheckTable table(report, kSwingGroup, "swing_published");
  for (const ReferenceRow& row : table.rows()) {
    const std::string what = row.text("id") + ": " + row.text("what");
    const double value = measured.at(row.text("id"));
    if (row.has("sd")) {
      table.compare(what, row.text("unit"), value, row.number("value"), 2.0 * row.number("sd"));
    } else if (row.has("value")) {
      table.show(what, row.text("unit"), value, row.number("value"), row.number("value"),
                 "another model: three segments, torques not printed");
    } else {
      table.show(what, row.text("unit"), value, row.number("low"), row.number("high"), "from memory");
    }
  }
}

}  // namespace

void check_swing(CheckReport& report) {
  swing_run_rows(report);
  undriven_rows(report);
  swing_exact_rows(report);
  swing_published_rows(report);
}

}  // namespace strikewright
