// Flights against two general-purpose ODE libraries: the same law, the same landing, the same error, one
// core. Before anything is timed, each road's own error is measured against a reference of Boost.Odeint at
// 1e-12; the peers run at the loosest tolerance that keeps them within the error of `fast`. Counter
// "error_mm" is that error (99 of 100 flights), "flights" the rate of flights a second of processor time.
#include <benchmark/benchmark.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include <algorithm>
#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <vector>

#include "flight/flight_any.hpp"
#include "flight/flights.hpp"
#include "numeric/draws.hpp"
#include "quantity/angle.hpp"

namespace {

using namespace strikewright;
using State = std::array<double, 7>;  // place, velocity, spin share

/// The equations once more, as a user of a library would write them down.
struct Rates {
  AirForces k;
  std::array<double, 3> axis{};
  double rim = 0.0;

  void operator()(const State& y, State& dy, double) const {
    const double u = std::sqrt(y[3] * y[3] + y[4] * y[4] + y[5] * y[5]);
    const double s = y[6] * rim / u;
    const double x = std::min(s, 1.13);
    const double cd = (((0.7510 * x - 1.760) * x + 1.098) * x + 0.2148) * x + 0.2049;
    const double cl =
        s < 0.03 ? s * (0.0976 / 0.03) : (((-0.2158 * x + 1.006) * x - 1.644) * x + 1.250) * x + 0.0616;
    const double lx = axis[1] * y[5] - axis[2] * y[4];
    const double ly = axis[2] * y[3] - axis[0] * y[5];
    const double lz = axis[0] * y[4] - axis[1] * y[3];
    const double lift = k.drag * cl * u * u / std::sqrt(lx * lx + ly * ly + lz * lz);
    const double drag = -k.drag * cd * u;
    dy = {y[3],
          y[4],
          y[5],
          drag * y[3] + lift * lx,
          drag * y[4] + lift * ly,
          drag * y[5] + lift * lz - kGravity,
          -k.decay * u * y[6]};
  }
};

constexpr std::size_t kCount = 4096;

const Launches& launches() {
  static const Launches all = [] {
    Draws draws{3};
    Launches out;
    for (std::size_t i = 0; i < kCount; ++i) {  // a mid iron, scattered as a player scatters it
      const auto launch =
          launched(draws.normal(53.0, 1.0), draws.normal(17.0, 1.5) * kDegree, draws.normal(0.0, 0.04),
                   draws.normal(6800.0, 400.0) * kRpm, draws.normal(0.0, 0.08));
      out.add(launch.v_WB_W, launch.w_WB_W);
    }
    return out;
  }();
  return all;
}

Rates rates_of(std::size_t i, State& y) {
  const Launches& all = launches();
  Rates r{air_forces(Ball{}, Day{}), {}, 0.0};
  const double w = std::sqrt(all.wx[i] * all.wx[i] + all.wy[i] * all.wy[i] + all.wz[i] * all.wz[i]);
  r.axis = {all.wx[i] / w, all.wy[i] / w, all.wz[i] / w};
  r.rim = w * r.k.radius;
  y = {0.0, 0.0, 0.0, all.vx[i], all.vy[i], all.vz[i], 1.0};
  return r;
}

/// Carry by Odeint's Dormand-Prince with dense output; the landing by bisection on it.
double odeint_carry(std::size_t i, double tolerance) {
  namespace ode = boost::numeric::odeint;
  State y;
  const Rates rates = rates_of(i, y);
  auto stepper = ode::make_dense_output(tolerance, tolerance, ode::runge_kutta_dopri5<State>());
  stepper.initialize(y, 0.0, 0.1);
  do {
    stepper.do_step(rates);
  } while (stepper.current_state()[2] > 0.0);
  double low = stepper.previous_time();
  double high = stepper.current_time();
  for (int k = 0; k < 20; ++k) {
    const double middle = 0.5 * (low + high);
    stepper.calc_state(middle, y);
    (y[2] > 0.0 ? low : high) = middle;
  }
  return std::hypot(y[0], y[1]);
}

int gsl_rates(double t, const double y[], double dy[], void* data) {
  State in;
  State out;
  std::copy(y, y + 7, in.begin());
  (*static_cast<Rates*>(data))(in, out, t);
  std::copy(out.begin(), out.end(), dy);
  return GSL_SUCCESS;
}

/// Carry by GSL's Runge-Kutta-Fehlberg with error control; no dense output there: the last step by a cubic.
double gsl_carry(std::size_t i, double tolerance) {
  State y;
  Rates rates = rates_of(i, y);
  static gsl_odeiv2_step* step = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rkf45, 7);
  static gsl_odeiv2_evolve* evolve = gsl_odeiv2_evolve_alloc(7);
  gsl_odeiv2_control* control = gsl_odeiv2_control_y_new(tolerance, tolerance);
  gsl_odeiv2_evolve_reset(evolve);
  gsl_odeiv2_step_reset(step);
  gsl_odeiv2_system system{gsl_rates, nullptr, 7, &rates};
  double t = 0.0;
  double h = 0.1;
  State before = y;
  double t_before = 0.0;
  do {
    before = y;
    t_before = t;
    gsl_odeiv2_evolve_apply(evolve, control, step, &system, &t, 30.0, &h, y.data());
  } while (y[2] > 0.0);
  gsl_odeiv2_control_free(control);
  const double span = t - t_before;
  const auto cubic = [&](std::size_t axis, double x) {
    const double d = y[axis] - before[axis];
    const double v0 = span * before[axis + 3];
    const double v1 = span * y[axis + 3];
    return before[axis] + x * (v0 + x * (3.0 * d - 2.0 * v0 - v1 + x * (v0 + v1 - 2.0 * d)));
  };
  double low = 0.0;
  double high = 1.0;
  for (int k = 0; k < 20; ++k) {
    const double middle = 0.5 * (low + high);
    (cubic(2, middle) > 0.0 ? low : high) = middle;
  }
  return std::hypot(cubic(0, low), cubic(1, low));
}

Launch<double> launch_at(std::size_t i) {
  const Launches& all = launches();
  Launch<double> out;
  out.v_WB_W = {all.vx[i], all.vy[i], all.vz[i]};
  out.w_WB_W = {all.wx[i], all.wy[i], all.wz[i]};
  return out;
}

/// 99 of 100 carries are within this many millimetres of the reference.
template <class Carry>
double error_mm(const Carry& carry) {
  static const std::vector<double> reference = [] {
    std::vector<double> out;
    for (std::size_t i = 0; i < 512; ++i) out.push_back(odeint_carry(i, 1e-12));
    return out;
  }();
  std::vector<double> off;
  for (std::size_t i = 0; i < reference.size(); ++i) off.push_back(1e3 * std::abs(carry(i) - reference[i]));
  std::sort(off.begin(), off.end());
  return off[off.size() * 99 / 100];
}

double own_error(const FlightOptions& options) {
  return error_mm(
      [&options](std::size_t i) { return flight_of(launch_at(i), Ball{}, Day{}, options).carry; });
}

/// The loosest power of two in tolerance at which a peer is as exact as we are.
template <class Carry>
double tolerance_for(double wanted_mm, const Carry& carry) {
  double tolerance = 1.0;
  while (tolerance > 1e-13 && error_mm([&](std::size_t i) { return carry(i, tolerance); }) > wanted_mm) {
    tolerance *= 0.5;
  }
  return tolerance;
}

FlightOptions options_of(const benchmark::State& state) {
  return state.range(0) == 0 ? FlightOptions::fast() : FlightOptions::accurate();
}

template <class Carry>
void run_peer(benchmark::State& state, const Carry& carry) {
  const double tolerance = tolerance_for(own_error(options_of(state)), carry);
  for (auto _ : state) {
    for (std::size_t i = 0; i < 256; ++i) benchmark::DoNotOptimize(carry(i, tolerance));
  }
  state.counters["flights"] =
      benchmark::Counter(256.0 * static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
  state.counters["error_mm"] = error_mm([&](std::size_t i) { return carry(i, tolerance); });
}

void by_odeint(benchmark::State& state) { run_peer(state, odeint_carry); }
void by_gsl(benchmark::State& state) { run_peer(state, gsl_carry); }

void one_by_one(benchmark::State& state) {
  const FlightOptions options = options_of(state);
  for (auto _ : state) {
    for (std::size_t i = 0; i < 256; ++i)
      benchmark::DoNotOptimize(flight_of(launch_at(i), Ball{}, Day{}, options));
  }
  state.counters["flights"] =
      benchmark::Counter(256.0 * static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
  state.counters["error_mm"] = own_error(options);
}

void with_slopes(benchmark::State& state) {
  const FlightOptions options = options_of(state);
  using D = Dual<10>;
  const auto launch = launched(D(53.0, 0), D(0.3, 1), D(0.0, 2), D(730.0, 3), D(0.0, 4));
  for (auto _ : state) benchmark::DoNotOptimize(flight_of(launch, Ball{}, Day{}, options));
  state.counters["flights"] =
      benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}

void in_bulk(benchmark::State& state) {
  const FlightOptions options = options_of(state);
  for (auto _ : state) benchmark::DoNotOptimize(flights_of(launches(), Ball{}, Day{}, options, 1));
  state.counters["flights"] = benchmark::Counter(
      static_cast<double>(kCount) * static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
  const Flights all = flights_of(launches(), Ball{}, Day{}, options, 1);
  state.counters["error_mm"] = error_mm([&all](std::size_t i) { return all.carry[i]; });
}

// 0 = as exact as `fast`, 1 = as exact as `accurate`.
BENCHMARK(by_odeint)->Arg(0)->Arg(1);
BENCHMARK(by_gsl)->Arg(0)->Arg(1);
BENCHMARK(one_by_one)->Arg(0)->Arg(1);
BENCHMARK(with_slopes)->Arg(0)->Arg(1);
BENCHMARK(in_bulk)->Arg(0)->Arg(1);

}  // namespace
