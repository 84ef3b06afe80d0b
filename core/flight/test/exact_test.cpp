// Answers that need no aerodynamics: closed forms and symmetries.
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "flight/flight.hpp"
#include "flight/flight_any.hpp"
#include "quantity/angle.hpp"

using namespace strikewright;

namespace {

Launch<double> iron(double tilt = 0.0, double azimuth = 0.0) {
  return launched(53.0, 17.0 * kDegree, azimuth, 7000.0 * kRpm, tilt);
}

}  // namespace

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
  // The same figures as printed numbers (range 235.966 m, top 21.4711 m, 4.18516 s).
  CHECK(std::abs(flight.carry - 235.966) <= 0.0005);
  CHECK(std::abs(flight.apex - 21.4711) <= 0.00005);
  CHECK(std::abs(flight.time - 4.18516) <= 0.000005);
}

TEST_CASE("a shot in a steady wind is the shot through still air, carried along") {
  // In the frame of the air the launch is v - W; the ground position adds W t. Both runs take the same steps
  // on slightly different numbers: only rounding and the two last steps' interpolation are left.
  Day windy;
  windy.uniform_wind = true;
  windy.wind_along = -6.0;
  windy.wind_across = 4.0;
  const Launch<double> launch = iron(0.1);
  Launch<double> relative = launch;
  relative.v_WB_W -= Vec3<double>{-6.0, -4.0, 0.0};
  const auto ground = flight_of(launch, Ball{}, windy);
  const auto air = flight_of(relative, Ball{}, Day{});
  CHECK(ground.time == doctest::Approx(air.time).epsilon(1e-12));
  CHECK(ground.along == doctest::Approx(air.along - 6.0 * air.time).epsilon(1e-10));
  CHECK(ground.side == doctest::Approx(air.side + 4.0 * air.time).epsilon(1e-10));
  CHECK(ground.apex == doctest::Approx(air.apex).epsilon(1e-12));
}

TEST_CASE("a fade is a draw in the mirror, bit for bit") {
  const auto fade = flight_of(iron(0.2, 0.05), Ball{}, Day{});
  const auto draw = flight_of(iron(-0.2, -0.05), Ball{}, Day{});
  CHECK(fade.side > 0.0);
  CHECK(fade.curve > 0.0);
  CHECK(draw.side == -fade.side);
  CHECK(draw.curve == -fade.curve);
  CHECK(draw.carry == fade.carry);
  CHECK(draw.apex == fade.apex);
  CHECK(draw.landing_angle == fade.landing_angle);
}

TEST_CASE("turning the whole shot turns the landing and leaves carry and curve") {
  const auto straight = flight_of(iron(0.15), Ball{}, Day{});
  const auto turned = flight_of(iron(0.15, 0.3), Ball{}, Day{});
  CHECK(turned.carry == doctest::Approx(straight.carry).epsilon(1e-12));
  CHECK(turned.curve == doctest::Approx(straight.curve).epsilon(1e-10));
  CHECK(turned.side ==
        doctest::Approx(straight.side * std::cos(0.3) + straight.along * std::sin(0.3)).epsilon(1e-10));
}

TEST_CASE("a long fall ends at the speed where drag is weight") {
  // No spin: CD 0.2049 for ever. v = sqrt(2 m g / (rho A CD)); a fall of 2 km leaves exp(-2 g h / v^2) ~
  // 1e-9.
  Day day;
  day.target_height = -2000.0;
  const Ball ball;
  const auto fall = flight_of(launched(1.0, 0.0, 0.0, 0.0, 0.0), ball, day);
  const double area = std::numbers::pi * ball.radius * ball.radius;
  const double terminal = std::sqrt(2.0 * ball.mass * kGravity / (day.density * area * 0.2049));
  CHECK(fall.reached);
  CHECK(fall.landing_speed == doctest::Approx(terminal).epsilon(1e-6));
  CHECK(fall.apex == 0.0);
  // Printed: CD 0.25, 1.225 kg/m3 gives 45.35 m/s; CD 0.50 gives 32.07. Speed goes with 1/sqrt(CD).
  day.density = 1.225;
  for (const auto& [cd, speed] : {std::pair{0.25, 45.35}, std::pair{0.50, 32.07}}) {
    Ball other;
    other.drag_scale = cd / 0.2049;
    const auto slow = flight_of(launched(1.0, 0.0, 0.0, 0.0, 0.0), other, day);
    CHECK(std::abs(slow.landing_speed - speed) <= 0.005);
  }
}

TEST_CASE("a topped ball, a ball at rest and a ball along the ground land where they lie") {
  for (const auto& launch : {launched(30.0, -20.0 * kDegree, 0.0, -1000.0 * kRpm, 0.0),
                             launched(0.0, 0.0, 0.0, 0.0, 0.0), launched(20.0, 0.0, 0.1, 0.0, 0.0)}) {
    const auto flight = flight_of(launch, Ball{}, Day{});
    CHECK(flight.reached);
    CHECK(flight.carry == 0.0);
    CHECK(flight.time == 0.0);
    CHECK(flight.apex == 0.0);
    CHECK(flight.landing_speed == doctest::Approx(launch.speed));
  }
}

TEST_CASE("backspin lifts a ball struck exactly along the ground") {
  const auto flight = flight_of(launched(70.0, 0.0, 0.0, 4000.0 * kRpm, 0.0), Ball{}, Day{});
  CHECK(flight.carry > 100.0);
  CHECK(flight.apex > 1.0);
}

TEST_CASE("a shot up to a green that it cannot reach says so") {
  Day day;
  day.target_height = 40.0;  // the iron's top is at 29 m
  const auto low = flight_of(iron(), Ball{}, day);
  const auto level = flight_of(iron(), Ball{}, Day{});
  CHECK_FALSE(low.reached);
  CHECK(low.carry == doctest::Approx(level.carry).epsilon(1e-12));
  day.target_height = 5.0;
  const auto up = flight_of(iron(), Ball{}, day);
  CHECK(up.reached);
  CHECK(up.carry < level.carry);
  // 5 m lower at a landing angle of about 48 degrees: about 5 / tan 48 = 4.5 m, and the path bends by a few
  // per cent.
  CHECK(level.carry - up.carry == doctest::Approx(5.0 / std::tan(level.landing_angle)).epsilon(0.05));
  CHECK_FALSE(flight_of(launched(20.0, -0.1, 0.0, 0.0, 0.0), Ball{}, day).reached);
}

TEST_CASE("a top just above a raised green is found between two steps") {
  Day day;
  const double top = flight_of(iron(), Ball{}, Day{}).apex;
  for (const double below : {1e-1, 1e-3, 1e-6}) {
    day.target_height = top - below;
    for (const auto& options : {FlightOptions::accurate(), FlightOptions::fast()}) {
      const double own_top = flight_of(iron(), Ball{}, Day{}, options).apex;
      day.target_height = own_top - below;
      const auto flight = flight_of(iron(), Ball{}, day, options);
      CHECK(flight.reached);
      CHECK(std::isfinite(flight.carry));
      CHECK(flight.landing_angle >= 0.0);
      CHECK(flight.landing_angle < 10.0 * kDegree);
    }
  }
}

TEST_CASE("only a spin out of the law's range is marked beyond") {
  CHECK_FALSE(flight_of(iron(), Ball{}, Day{}).beyond);
  CHECK(flight_of(launched(15.0, 0.8, 0.0, 9000.0 * kRpm, 0.0), Ball{}, Day{}).beyond);
  CHECK(flight_of(launched(60.0, 0.2, 0.0, 0.0, 0.0), Ball{}, Day{}).beyond);
}

TEST_CASE("a low number of turns flies like none at all") {
  const auto none = flight_of(launched(50.0, 0.3, 0.0, 0.0, 0.0), Ball{}, Day{});
  const auto few = flight_of(launched(50.0, 0.3, 0.0, 1e-6, 0.0), Ball{}, Day{});
  // At 50 m/s the lift grows by about 0.05 m of carry for each rad/s: 1e-6 rad/s moves it by less than a
  // micrometre.
  CHECK(few.carry == doctest::Approx(none.carry).epsilon(1e-8));
}

TEST_CASE("thinner air takes less of the spin") {
  // lambda grows with density: over the same way through the air, ln(spin left) goes with the density.
  Day thin;
  thin.density = 0.5 * Day{}.density;
  const AirForces full = air_forces(Ball{}, Day{});
  CHECK(air_forces(Ball{}, thin).decay == doctest::Approx(0.5 * full.decay).epsilon(1e-15));
  Day reference;
  reference.density = 1.2;
  // Smits & Smith 1994, as printed by others: time constant r / (lambda V) = 23.8 s at 44.7 m/s (half a last
  // digit).
  CHECK(std::abs(1.0 / (air_forces(Ball{}, reference).decay * 44.7) - 23.8) <= 0.07);
}
