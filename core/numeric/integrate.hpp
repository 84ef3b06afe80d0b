#pragma once
// An error-controlled integrator with dense output and event location, for small systems of ordinary
// differential equations, templated on the scalar (double, or dual numbers for slopes).
//
// Method: explicit Runge-Kutta 5(4) with first-same-as-last and a fourth-order continuous extension.
// Source: Dormand & Prince, A family of embedded Runge-Kutta formulae, J. Comp. Appl. Math. 6 (1980) 19-26,
// Table 2; continuous extension: Hairer, Norsett & Wanner, Solving Ordinary Differential Equations I, 2nd ed.
// (1993), II.6. Measured: error against the tolerance, and order 5, in test/integrate_test.cpp.
//
// Time runs as a plain double; slopes with respect to an event's time enter by the implicit function theorem:
// see Course::when.

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "numeric/root.hpp"
#include "quantity/dual.hpp"

namespace strikewright {

template <class T, int N>
using State = Eigen::Matrix<T, N, 1>;

/// How fine to go. Errors are counted as root mean square of (error / (absolute + relative |y|)) a step.
struct Pace {
  double relative = 1e-9;
  double absolute = 1e-11;  ///< in the state's own units
  double fixed = 0.0;       ///< > 0: steps of this size without error control (the last one shorter)
  double longest = std::numeric_limits<double>::infinity();  ///< no step longer than this
  int max_steps = 100000;
};

enum class Ending {
  reached,       ///< the end time
  event,         ///< an event function rose through zero
  out_of_steps,  ///< max_steps were not enough
  not_finite     ///< the state left the numbers, or the step shrank to nothing
};

/// One accepted step with its dense output.
template <class T, int N>
struct Step {
  double t0 = 0.0, h = 0.0;
  State<T, N> y0, y1;
  std::array<State<T, N>, 7> k;  ///< rates at the stages; k[0] at t0, k[6] at t0 + h

  /// State at t in [t0, t0 + h], good to fourth order.
  [[nodiscard]] State<T, N> at(double t) const {
    const double s = h == 0.0 ? 0.0 : (t - t0) / h;
    const State<T, N> r2 = y1 - y0;
    const State<T, N> r3 = h * k[0] - r2;
    const State<T, N> r4 = r2 - h * k[6] - r3;
    const State<T, N> r5 =
        h * ((-12715105075.0 / 11282082432.0) * k[0] + (87487479700.0 / 32700410799.0) * k[2] +
             (-10690763975.0 / 1880347072.0) * k[3] + (701980252875.0 / 199316789632.0) * k[4] +
             (-1453857185.0 / 822651844.0) * k[5] + (69997945.0 / 29380423.0) * k[6]);
    return y0 + s * (r2 + (1.0 - s) * (r3 + s * (r4 + (1.0 - s) * r5)));
  }
};

/// How an integration ended and where.
template <class T, int N>
struct Course {
  Ending ending = Ending::not_finite;
  int event = -1;    ///< which event function, when ending == event
  double t = 0.0;    ///< plain time of the end
  T when{};          ///< the same time with its slopes: at an event, t - g / (dg/dt), so that slopes of the
                     ///< event's time with respect to whatever the state depends on come out right
  State<T, N> y;     ///< state at the plain time t
  State<T, N> rate;  ///< dy/dt there
  int steps = 0;     ///< accepted
  int rejected = 0;

  /// State at the event's own time (value of y; slopes moved along with the event).
  [[nodiscard]] State<T, N> y_when() const { return y + rate * (when - T(t)); }
};

namespace detail {

/// One step from y (with its rate k0) of size h; `error` gets the embedded error estimate.
template <class T, int N, class Rate>
Step<T, N> step_from(const Rate& rate, double t, const State<T, N>& y, const State<T, N>& k0, double h,
                     State<T, N>& error) {
  Step<T, N> s{.t0 = t, .h = h, .y0 = y, .y1 = y, .k = {}};
  auto& k = s.k;
  k[0] = k0;
  k[1] = rate(t + h / 5.0, State<T, N>(y + (h / 5.0) * k[0]));
  k[2] = rate(t + 0.3 * h, State<T, N>(y + h * ((3.0 / 40.0) * k[0] + (9.0 / 40.0) * k[1])));
  k[3] = rate(t + 0.8 * h,
              State<T, N>(y + h * ((44.0 / 45.0) * k[0] + (-56.0 / 15.0) * k[1] + (32.0 / 9.0) * k[2])));
  k[4] =
      rate(t + (8.0 / 9.0) * h, State<T, N>(y + h * ((19372.0 / 6561.0) * k[0] + (-25360.0 / 2187.0) * k[1] +
                                                     (64448.0 / 6561.0) * k[2] + (-212.0 / 729.0) * k[3])));
  k[5] = rate(t + h, State<T, N>(y + h * ((9017.0 / 3168.0) * k[0] + (-355.0 / 33.0) * k[1] +
                                          (46732.0 / 5247.0) * k[2] + (49.0 / 176.0) * k[3] +
                                          (-5103.0 / 18656.0) * k[4])));
  s.y1 = y + h * ((35.0 / 384.0) * k[0] + (500.0 / 1113.0) * k[2] + (125.0 / 192.0) * k[3] +
                  (-2187.0 / 6784.0) * k[4] + (11.0 / 84.0) * k[5]);
  k[6] = rate(t + h, s.y1);
  error = h * ((71.0 / 57600.0) * k[0] + (-71.0 / 16695.0) * k[2] + (71.0 / 1920.0) * k[3] +
               (-17253.0 / 339200.0) * k[4] + (22.0 / 525.0) * k[5] + (-1.0 / 40.0) * k[6]);
  return s;
}

template <class T, int N>
double size_in(const Pace& pace, const State<T, N>& e, const State<T, N>& a, const State<T, N>& b) {
  double sum = 0.0;
  for (int i = 0; i < N; ++i) {
    const double scale =
        pace.absolute + pace.relative * std::max(std::fabs(value_of(a[i])), std::fabs(value_of(b[i])));
    const double part = value_of(e[i]) / scale;
    sum += part * part;
  }
  return std::sqrt(sum / N);
}

/// A first step that moves the state by about a hundredth of what the tolerance scale and the rate suggest.
template <class T, int N>
double first_step(const Pace& pace, const State<T, N>& y, const State<T, N>& k0, double span) {
  const double d0 = size_in<T, N>(pace, y, y, y);
  const double d1 = size_in<T, N>(pace, k0, y, y);
  const double h = d0 > 1e-5 && d1 > 1e-5 ? 0.01 * d0 / d1 : 1e-3 * span;
  return std::min({h, 0.01 * span, pace.longest});
}

/// Value of one event function along the short true step from the step's start to t, and that step.
template <class T, int N, class Rate, class Events>
double event_value(const Rate& rate, const Events& events, std::size_t which, const Step<T, N>& s, double t,
                   Step<T, N>& shorter) {
  State<T, N> unused;
  shorter = step_from<T, N>(rate, s.t0, s.y0, s.k[0], t - s.t0, unused);
  return value_of(events(t, shorter.y1)[which]);
}

/// dg/dt along the motion, by a fourth-order difference along the rate (both in time and in state).
template <class T, int N, class Events>
double event_rate(const Events& events, std::size_t which, double t, const State<T, N>& y,
                  const State<T, N>& rate, double span) {
  const double e = std::max(1e-3 * span, 1e-9);
  const auto g = [&](double a) { return value_of(events(t + a, State<T, N>(y + a * rate))[which]); };
  return (8.0 * (g(e) - g(-e)) - (g(2.0 * e) - g(-2.0 * e))) / (12.0 * e);
}

/// Cuts the step at the first event in it. Returns the event's number, or -1.
template <class T, int N, class Rate, class Events>
int cut_at_event(const Rate& rate, const Events& events, Step<T, N>& s) {
  const auto before = events(s.t0, s.y0);
  const auto after = events(s.t0 + s.h, s.y1);
  int first = -1;
  double at = s.t0 + s.h;
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!(value_of(before[i]) < 0.0 && value_of(after[i]) >= 0.0)) continue;
    const auto along = [&](double t) { return value_of(t >= s.t0 + s.h ? after[i] : events(t, s.at(t))[i]); };
    const double t = root_between(along, s.t0, s.t0 + s.h).value_or(s.t0 + s.h);
    if (first < 0 || t < at) {
      first = static_cast<int>(i);
      at = t;
    }
  }
  if (first < 0) return -1;
  // The dense output is of fourth order; polish with true steps to the root (secant, two rounds are enough).
  const auto which = static_cast<std::size_t>(first);
  Step<T, N> shorter;
  double value = event_value<T, N>(rate, events, which, s, at, shorter);
  for (int round = 0; round < 3 && value != 0.0; ++round) {
    const double slope = event_rate<T, N>(events, which, at, shorter.y1, shorter.k[6], s.h);
    const double next = at - value / slope;
    if (!std::isfinite(next) || next < s.t0 || next > s.t0 + 1.5 * s.h) break;
    at = next;
    value = event_value<T, N>(rate, events, which, s, at, shorter);
  }
  s = shorter;
  return first;
}

}  // namespace detail

/// Runs dy/dt = rate(t, y) from (t0, start) to t1 >= t0 or to the first event.
///
/// @param rate    (double t, const State&) -> State; smooth between t0 and t1: split the run where it is not
/// @param events  (double t, const State&) -> std::array<T, M>; an event is a rise from below zero to zero or
/// more
///                between the ends of a step. One that is zero or more at the start is no event until it has
///                fallen.
/// @param look    (const Step&) for every accepted step, cut at the event
template <class T, int N, class Rate, class Events, class Look>
Course<T, N> integrate(const Rate& rate, const State<T, N>& start, double t0, double t1, const Pace& pace,
                       const Events& events, const Look& look) {
  Course<T, N> c;
  c.t = t0;
  c.y = start;
  c.rate = rate(t0, start);
  c.when = T(t0);
  double h = pace.fixed > 0.0 ? pace.fixed : detail::first_step<T, N>(pace, start, c.rate, t1 - t0);
  double last_error = 1e-4;
  while (c.t < t1) {
    if (c.steps + c.rejected >= pace.max_steps) return c.ending = Ending::out_of_steps, c;
    const bool to_end = c.t + h * (1.0 + 1e-10) >= t1;
    const double tried = to_end ? t1 - c.t : h;
    State<T, N> error;
    Step<T, N> s = detail::step_from<T, N>(rate, c.t, c.y, c.rate, tried, error);
    const double size = pace.fixed > 0.0 ? 0.0 : detail::size_in<T, N>(pace, error, s.y0, s.y1);
    if (!(size <= 1.0)) {  // also a NaN
      ++c.rejected;
      h = tried * (std::isfinite(size) ? std::max(0.2, 0.9 * std::pow(size, -0.2)) : 0.1);
      if (c.t + h <= c.t || h < 1e-15) return c.ending = Ending::not_finite, c;
      continue;
    }
    c.event = detail::cut_at_event<T, N>(rate, events, s);
    look(static_cast<const Step<T, N>&>(s));
    ++c.steps;
    c.t = c.event < 0 && to_end ? t1 : s.t0 + s.h;
    c.y = s.y1;
    c.rate = s.k[6];
    c.when = T(c.t);
    for (int i = 0; i < N; ++i)
      if (!std::isfinite(value_of(c.y[i]))) return c.ending = Ending::not_finite, c;
    if (c.event >= 0) {
      const auto which = static_cast<std::size_t>(c.event);
      const double slope = detail::event_rate<T, N>(events, which, c.t, c.y, c.rate, tried);
      const T g = events(c.t, c.y)[which];
      c.when = T(c.t) - (g - T(value_of(g))) / slope;
      return c.ending = Ending::event, c;
    }
    if (pace.fixed > 0.0) continue;
    const double safe = std::max(size, 1e-10);
    h = std::min(tried * std::clamp(0.9 * std::pow(safe, -0.14) * std::pow(last_error, 0.08), 0.2, 5.0),
                 pace.longest);
    last_error = std::max(safe, 1e-4);
  }
  c.ending = Ending::reached;
  return c;
}

/// The same without events and without a look at the steps.
template <class T, int N, class Rate>
Course<T, N> integrate(const Rate& rate, const State<T, N>& start, double t0, double t1,
                       const Pace& pace = {}) {
  return integrate<T, N>(
      rate, start, t0, t1, pace, [](double, const State<T, N>&) { return std::array<T, 0>{}; },
      [](const Step<T, N>&) {});
}

}  // namespace strikewright
