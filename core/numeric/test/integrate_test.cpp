#include "numeric/integrate.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

using namespace strikewright;

namespace {

// A mass on a spring, y'' = -y, y(0) = 1 at rest: y = cos t exactly.
const auto spring = [](double, const State<double, 2>& y) { return State<double, 2>(y[1], -y[0]); };
const State<double, 2> pulled(1.0, 0.0);
const auto no_look = [](const auto&) {};

double error_at(double end, const Pace& pace) {
  const auto c = integrate<double, 2>(spring, pulled, 0.0, end, pace);
  REQUIRE(c.ending == Ending::reached);
  return std::hypot(c.y[0] - std::cos(end), c.y[1] + std::sin(end));
}

}  // namespace

TEST_CASE("a spring swings as its closed form says, as closely as asked") {
  for (const double tolerance : {1e-4, 1e-6, 1e-8, 1e-10, 1e-12}) {
    // Errors of single steps add up: over three swings at most a hundred tolerances.
    CHECK(error_at(20.0, {.relative = tolerance, .absolute = tolerance}) < 100.0 * tolerance);
  }
}

TEST_CASE("fixed steps converge with the fifth power of the step") {
  const double rough = error_at(2.0, {.fixed = 0.1});
  const double fine = error_at(2.0, {.fixed = 0.05});
  const double order = std::log2(rough / fine);
  CHECK(order > 4.8);
  CHECK(order < 5.4);
}

TEST_CASE("halving the step changes a smooth motion by less than 1e-8") {
  const auto a = integrate<double, 2>(spring, pulled, 0.0, 2.0, {.fixed = 0.02});
  const auto b = integrate<double, 2>(spring, pulled, 0.0, 2.0, {.fixed = 0.01});
  CHECK((a.y - b.y).norm() < 1e-8);
}

TEST_CASE("between the steps the dense output is as good as the fourth order promises") {
  const auto worst_between = [](double step) {
    double worst = 0.0;
    integrate<double, 2>(
        spring, pulled, 0.0, 2.0, {.fixed = step},
        [](double, const State<double, 2>&) { return std::array<double, 0>{}; },
        [&worst](const Step<double, 2>& s) {
          for (const double part : {0.25, 0.5, 0.75}) {
            const double t = s.t0 + part * s.h;
            worst = std::max(worst, std::fabs(s.at(t)[0] - std::cos(t)));
          }
        });
    return worst;
  };
  CHECK(worst_between(0.1) < 1e-8);
  CHECK(std::log2(worst_between(0.2) / worst_between(0.1)) > 3.8);
}

TEST_CASE("an event is found at its time, and only when it is crossed upward") {
  // sin t rises through zero at 2 pi; -y[1] = sin t is zero at the start and falls at pi.
  const auto events = [](double, const State<double, 2>& y) { return std::array<double, 1>{-y[1]}; };
  const auto c = integrate<double, 2>(spring, pulled, 0.0, 20.0, {.relative = 1e-12, .absolute = 1e-12},
                                      events, no_look);
  REQUIRE(c.ending == Ending::event);
  CHECK(c.event == 0);
  CHECK(c.t == doctest::Approx(2.0 * std::numbers::pi).epsilon(1e-11));
  CHECK(std::fabs(c.y[1]) < 1e-13);
}

TEST_CASE("the first of two events in one step wins") {
  const auto events = [](double t, const State<double, 2>&) {
    return std::array<double, 2>{t - 0.52, t - 0.51};
  };
  const auto c = integrate<double, 2>(spring, pulled, 0.0, 2.0, {.fixed = 0.5}, events, no_look);
  CHECK(c.event == 1);
  CHECK(c.t == doctest::Approx(0.51).epsilon(1e-14));
}

TEST_CASE("slopes of an event's time and state are those of the closed form") {
  // A ball thrown up with speed v from height z: lands at t = (v + sqrt(v^2 + 2 g z)) / g with speed
  // -sqrt(v^2 + 2 g z).
  using D = Dual<2>;
  const double g = 9.81;
  const auto fall = [g](double, const State<D, 2>& y) { return State<D, 2>(y[1], D(-g)); };
  const auto ground = [](double, const State<D, 2>& y) { return std::array<D, 1>{-y[0]}; };
  const D z(2.0, 0), v(3.0, 1);
  const auto c = integrate<D, 2>(fall, State<D, 2>(z, v), 0.0, 5.0, {}, ground, no_look);
  REQUIRE(c.ending == Ending::event);
  const D landing_speed = sqrt(v * v + 2.0 * g * z);
  const D landing = (v + landing_speed) / g;
  CHECK(c.t == doctest::Approx(landing.a).epsilon(1e-12));
  for (int i = 0; i < 2; ++i) {
    CHECK(c.when.v[i] == doctest::Approx(landing.v[i]).epsilon(1e-9));
    CHECK(c.y_when()[1].v[i] == doctest::Approx(-landing_speed.v[i]).epsilon(1e-9));
    CHECK(std::fabs(c.y_when()[0].v[i]) < 1e-12);  // it lands on the ground however it was thrown
  }
}

TEST_CASE("a run that cannot go on says so instead of giving numbers") {
  // y' = y^2 from 1 grows beyond all numbers at t = 1.
  const auto burst = [](double, const State<double, 1>& y) { return State<double, 1>(y[0] * y[0]); };
  const auto c = integrate<double, 1>(burst, State<double, 1>(1.0), 0.0, 2.0, {.max_steps = 2000});
  CHECK(c.ending != Ending::reached);
  CHECK(c.t < 1.0 + 1e-6);
  const auto few = integrate<double, 2>(spring, pulled, 0.0, 100.0, {.max_steps = 5});
  CHECK(few.ending == Ending::out_of_steps);
}
