// Swings in bulk: the kernel against Boost.Odeint at the same law and about the same error, one core, in one
// run. Every case checks its own answers against a tight run before it is timed.

#include <benchmark/benchmark.h>

#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "bag/generic.hpp"
#include "delivery/default_swing.hpp"
#include "numeric/draws.hpp"

using namespace strikewright;

namespace {

constexpr std::size_t kSwings = 256;

struct Truth {
  double low_along, edge_speed;
};

struct Case {
  SwingBatch batch;
  std::vector<Swing<double>> singles;
  std::vector<Truth> truth;
};

Swing<double> varied(const Swing<double>& base, std::size_t i) {
  const auto part = [i](int k) { return std::sin(1.7 * static_cast<double>(i) + 2.3 * k); };
  Swing<double> s = base;
  s.flail.shoulder.torque *= 1.0 + 0.05 * part(1);
  s.flail.wrist.release.value += 3.0 * kDegree * part(2);
  s.flail.wrist.drive *= 1.0 + 0.1 * part(3);
  s.flail.hub.shift.size += 0.02 * part(4);
  s.flail.hub.rise.size += 0.01 * part(5);
  s.flail.plane_tilt += 1.5 * kDegree * part(6);
  return s;
}

/// The touching plane's value at the edge of one swing: contact where it rises through zero.
double past_line(const Swing<double>& s, const ContactLine& l, double x, double y, double club) {
  return s.stance.hub_along + x - l.along - l.per_up * (s.stance.hub_up + y - l.up) -
         l.per_club * (club - l.club);
}

Result<FlailRun<double>> tight_or(const Swing<double>& s, const ContactLine& l, Pace pace) {
  return run_flail(s.flail, RunOptions{.pace = pace, .end = End::contact},
                   [&](const Vec2<double>& e, double club) { return past_line(s, l, e[0], e[1], club); });
}

const Case& the_case() {
  static const Case made = [] {
    Case c;
    const Club club = club_named(generic_bag(), "7i").value();
    const Swing<double> base = default_swing(club, SwingBand::county).value();
    c.batch.base = base.flail;
    c.batch.contact = contact_line_of(base, passing_of(base, club, Ball{}, 0.0).value(), club, Ball{}, 0.0);
    c.batch.resize(kSwings);
    for (std::size_t i = 0; i < kSwings; ++i) {
      c.singles.push_back(varied(base, i));
      c.batch.set(i, c.singles.back());
      const Flail<double>& f = c.singles.back().flail;
      const auto run =
          tight_or(c.singles.back(), c.batch.contact, {.relative = 1e-12, .absolute = 1e-13}).value();
      c.truth.push_back({c.singles.back().stance.hub_along + point_at(f, run.low_point, f.club.length).p[0],
                         point_at(f, run.contact, f.club.length).v.norm()});
    }
    return c;
  }();
  return made;
}

/// Largest error of low point [m] and relative error of edge speed; the answer check of every case.
struct Worst {
  double low = 0.0, speed = 0.0;
  void add(const Truth& t, double low_along, double edge_speed) {
    low = std::max(low, std::fabs(low_along - t.low_along));
    speed = std::max(speed, std::fabs(edge_speed / t.edge_speed - 1.0));
  }
  void report(benchmark::State& state) const {
    if (!(low < 2e-6 && speed < 2e-6)) state.SkipWithError("answers are off");
    state.counters["low_point_error_m"] = low;
    state.counters["speed_error"] = speed;
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(kSwings));
  }
};

void swings_in_bulk(benchmark::State& state) {
  const Case& c = the_case();
  SwingBatchEnds ends;
  for (auto _ : state) {
    swings_of(c.batch, ends, 8e-3);  // the peer's error, about 1e-6
    benchmark::DoNotOptimize(ends.low_along.data());
  }
  Worst worst;
  for (std::size_t i = 0; i < kSwings; ++i) worst.add(c.truth[i], ends.low_along[i], ends.edge_speed[i]);
  worst.report(state);
}
BENCHMARK(swings_in_bulk)->Unit(benchmark::kMillisecond);

void swings_one_by_one(benchmark::State& state) {
  const Case& c = the_case();
  Worst worst;
  for (auto _ : state) {
    for (std::size_t i = 0; i < kSwings; ++i) {
      const Flail<double>& f = c.singles[i].flail;
      const auto run = tight_or(c.singles[i], c.batch.contact, {.relative = 1e-7, .absolute = 1e-8}).value();
      worst.add(c.truth[i], c.singles[i].stance.hub_along + point_at(f, run.low_point, f.club.length).p[0],
                point_at(f, run.contact, f.club.length).v.norm());
    }
  }
  worst.report(state);
}
BENCHMARK(swings_one_by_one)->Unit(benchmark::kMillisecond);

// ---- The peer: Boost.Odeint's Dormand-Prince stepper with dense output, the law in plain scalars.

using Angles = std::array<double, 4>;

struct Law {
  Lumped<double> k;
  double g, torque, activation, limit, curve, drive, wrist_limit, wrist_curve;
  HubMove<double> shift, rise;
  bool locked = true;

  static double gain(const HubMove<double>& m, double t) {
    const double s = std::min(std::max((t - m.start) / m.duration, 0.0), 1.0);
    return m.size / (m.duration * m.duration) * s * (60.0 + s * (-180.0 + 120.0 * s));
  }
  void operator()(const Angles& y, Angles& d, double t) const {
    const double sa = std::sin(y[0]), ca = std::cos(y[0]), sc = std::sin(y[1]), cc = std::cos(y[1]);
    const double ax = gain(shift, t), ay = gain(rise, t) + g;
    const double c = k.p * (ca * cc + sa * sc), s = k.p * (sa * cc - ca * sc);
    const double w = y[2], u = y[3] - y[2];
    const double tired = w < limit ? (limit - w) / (limit + curve * w) : 0.0;
    const double shoulder = torque * (1.0 - std::exp(-t / activation)) * tired;
    const double load_arm = -k.s1 * (ax * ca + ay * sa), load_club = -k.s2 * (ax * cc + ay * sc);
    d[0] = y[2];
    d[1] = y[3];
    if (locked) {
      d[2] = d[3] = (shoulder + load_arm + load_club) / (k.j1 + k.j2 + 2.0 * c);
      return;
    }
    const double wrist = drive * (wrist_limit - u) / (wrist_limit + wrist_curve * u);
    const double a = shoulder - wrist + load_arm - s * y[3] * y[3], b = wrist + load_club + s * y[2] * y[2];
    const double inverse = 1.0 / (k.j1 * k.j2 - c * c);
    d[2] = (k.j2 * a - c * b) * inverse;
    d[3] = (k.j1 * b - c * a) * inverse;
  }
};

Law law_of(const Flail<double>& f) {
  return {lumped(f.arm, f.club),
          f.gravity * std::sin(f.plane_tilt),
          f.shoulder.torque,
          f.shoulder.activation,
          *f.shoulder.speed_limit,
          f.shoulder.hill,
          f.wrist.drive,
          *f.wrist.speed_limit,
          f.wrist.hill,
          f.hub.shift,
          f.hub.rise};
}

/// Edge of a swing: gap to the contact plane, height rate, speed.
struct PeerEdge {
  double gap, fall, x, speed;
};
PeerEdge edge_of(const Swing<double>& s, const ContactLine& line, const Angles& y, double t) {
  const Flail<double>& f = s.flail;
  Moment<double> m;
  m.arm = y[0], m.club = y[1], m.arm_rate = y[2], m.club_rate = y[3];
  m.hub = hub_at(f.hub, t, t);
  const PlanePoint<double> p = point_at(f, m, f.club.length);
  return {past_line(s, line, p.p[0], p.p[1], y[1]), p.v[1], s.stance.hub_along + p.p[0], p.v.norm()};
}

Truth peer_swing(const Swing<double>& s, const ContactLine& line, double tolerance) {
  namespace odeint = boost::numeric::odeint;
  const Flail<double>& f = s.flail;
  Law law = law_of(f);
  Angles y{f.start_arm, f.start_arm - f.start_cock, 0.0, 0.0};
  auto stepper = odeint::make_dense_output(tolerance, tolerance, odeint::runge_kutta_dopri5<Angles>());
  stepper.initialize(y, 0.0, 1e-3);
  Angles at{};
  while (stepper.current_state()[0] < f.wrist.release.value) stepper.do_step(std::ref(law));
  const auto arm_past = [&](double t) { return stepper.calc_state(t, at), at[0] - f.wrist.release.value; };
  const double release =
      root_between(arm_past, stepper.previous_time(), stepper.current_time(), 1e-10).value();
  stepper.calc_state(release, at);
  law.locked = false;
  stepper.initialize(at, release, 2e-3);
  Truth out{};
  bool contact = false, low = false;
  PeerEdge before{-1.0, -1.0, 0.0, 0.0};
  while (!contact || !low) {
    stepper.do_step(std::ref(law));
    if (stepper.current_state()[1] < -1.2) continue;
    const PeerEdge after = edge_of(s, line, stepper.current_state(), stepper.current_time());
    const auto edge = [&](double t) { return stepper.calc_state(t, at), edge_of(s, line, at, t); };
    const double t0 = stepper.previous_time(), t1 = stepper.current_time();
    if (!contact && before.gap < 0.0 && after.gap >= 0.0) {
      out.edge_speed = edge(root_between([&](double t) { return edge(t).gap; }, t0, t1, 1e-10).value()).speed;
      contact = true;
    }
    if (!low && before.fall < 0.0 && after.fall >= 0.0) {
      out.low_along = edge(root_between([&](double t) { return edge(t).fall; }, t0, t1, 1e-10).value()).x;
      low = true;
    }
    before = after;
  }
  return out;
}

void swings_by_odeint(benchmark::State& state) {
  const Case& c = the_case();
  Worst worst;
  for (auto _ : state)
    for (std::size_t i = 0; i < kSwings; ++i) {
      const Truth t = peer_swing(c.singles[i], c.batch.contact, 3e-8);
      worst.add(c.truth[i], t.low_along, t.edge_speed);
    }
  worst.report(state);
}
BENCHMARK(swings_by_odeint)->Unit(benchmark::kMillisecond);

}  // namespace
