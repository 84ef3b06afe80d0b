// Answers that need no aerodynamics: closed forms and symmetries.
#include <doctest/doctest.h>

#include <cmath>

#include "flight/flight.hpp"
#include "quantity/angle.hpp"

using namespace strikewright;

TEST_CASE("without air the ball flies the parabola of Galileo") {
  Day day;
  day.density = 0.0;
  const auto flight = flight_of(launched(60.0, 20.0 * kDegree, 0.0, 3000.0 * kRpm, 0.0), Ball{}, day);
  const double up = 60.0 * std::sin(20.0 * kDegree);
  // A quintic and a fourth-order step are exact for a parabola: only rounding is left.
  CHECK(flight.carry == doctest::Approx(60.0 * 60.0 * std::sin(40.0 * kDegree) / kGravity).epsilon(1e-12));
  CHECK(flight.apex == doctest::Approx(up * up / (2.0 * kGravity)).epsilon(1e-12));
  CHECK(flight.time == doctest::Approx(2.0 * up / kGravity).epsilon(1e-12));
  CHECK(flight.landing_angle == doctest::Approx(20.0 * kDegree).epsilon(1e-12));
  CHECK(flight.landing_speed == doctest::Approx(60.0).epsilon(1e-12));
  CHECK(flight.landing_spin == doctest::Approx(3000.0 * kRpm).epsilon(1e-12));
}
