// Bounce, run and roll against published parameters and rows.
#include "flight/landing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "flight/air.hpp"
#include "quantity/angle.hpp"
#include "rows.hpp"

using namespace strikewright;
using strikewright::test::rows_of;

namespace {

Turf turf_named(const std::string& name) {
  if (name == "Biber natural") return Turf::biber_natural();
  if (name == "Biber artificial") return Turf::biber_artificial();
  return Turf::penner_green();
}

BallMotionW landing(double speed, double angle, double backspin) {
  return {{speed * std::cos(angle), 0.0, -speed * std::sin(angle)}, {0.0, -backspin, 0.0}, false};
}

/// The Overall Distance Standard's launch and air since 2004: 256 ft/s, 10 degrees, 42 rev/s; 75 degF, 30
/// inHg, 50 %.
Flight<double> standard_drive(Day& day) {
  day = air_of({.celsius = 23.889, .pressure = 101591.7, .altitude = {}, .humidity = 0.5}).value();
  return flight_of(launched(78.03, 10.0 * kDegree, 0.0, 2520.0 * kRpm, 0.0), Ball{}, day);
}

}  // namespace

TEST_CASE("the first bounce leaves as the published parameters say") {
  // Tolerances: half a unit of the last printed digit.
  for (const auto& row : rows_of("landing_first_bounce.csv")) {
    CAPTURE(row.text("case"));
    CAPTURE(row.text("model"));
    const BallMotionW out =
        bounce(landing(row.number("V_ms"), row.number("phi_deg") * kDegree, row.number("rpm") * kRpm), Ball{},
               turf_named(row.text("model")));
    CHECK(out.slid == (row.text("regime") != "grip"));
    CHECK(std::abs(out.v.x() - row.number("vx_out")) <= 0.005);
    CHECK(std::abs(out.v.z() - row.number("vz_out")) <= 0.005);
    CHECK(std::abs(-out.w.y() / kRpm - row.number("rpm_out(+back)")) <= 0.5);
    CHECK(std::abs(2.0 * out.v.x() * out.v.z() / 9.81 - row.number("hop_m")) <= 0.005);
  }
}

TEST_CASE("turf gives back less, the harder it is hit") {
  for (const auto& row : rows_of("landing_restitution.csv")) {
    CHECK(std::abs(turf_restitution(row.number("v_ms")) - row.number("e")) <= 0.00006);
  }
}

TEST_CASE("just enough friction grips") {
  // Daish 1972, as Penner 2003 eq 5: mu_min = 2 (v_x + r omega) / (7 (1+e) v_y); 10, 10, 0, 0.2 gives 0.2381.
  Turf turf = Turf::biber_natural();
  turf.beta = 0.0;
  turf.restitution = 0.2;
  const BallMotionW in{{10.0, 0.0, -10.0}, {0.0, 0.0, 0.0}, false};
  turf.friction = 0.2380;
  CHECK(bounce(in, Ball{}, turf).slid);
  turf.friction = 0.2382;
  CHECK_FALSE(bounce(in, Ball{}, turf).slid);
}

TEST_CASE("a green's reading in feet and its rolling resistance agree") {
  for (const auto& row : rows_of("landing_green.csv")) {
    const double rolling = rolling_of_green(row.number("stimp_ft"));
    CHECK(std::abs(rolling - row.number("rho_g")) <= 0.00005);
    CHECK(std::abs(rolling_deceleration(rolling) - row.number("decel_ms2")) <= 0.00005);
  }
  // Penner 2002 prints 0.131 for the average and 0.065 for a fast green: readings of 6 and 12 feet.
  CHECK(rolling_of_green(6.0) == doctest::Approx(0.131).epsilon(0.005));
  CHECK(rolling_of_green(12.0) == doctest::Approx(0.065).epsilon(0.005));
}

TEST_CASE("the longest drive allowed stays near the limit on turf of middle firmness") {
  // Overall Distance Standard 2004: limit 317 yd + 3 yd tolerance; good balls sit close below it: 300-320 yd.
  Day day;
  const Flight<double> drive = standard_drive(day);
  const Run run = run_of(drive, Ball{}, day);
  MESSAGE("carry " << drive.carry / kYard << " yd, total " << run.total / kYard << " yd");
  CHECK(run.total / kYard >= 300.0);
  CHECK(run.total / kYard <= 320.0);
}

TEST_CASE("firm turf runs further than soft, a drive further than a wedge") {
  Day day;
  double before = 0.0;
  for (const double firmness : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const Flight<double> drive = standard_drive(day);
    day.firmness = firmness;
    const double run = run_of(drive, Ball{}, day).run;
    CHECK(run > before);
    before = run;
  }
  day.firmness = 0.5;
  const auto wedge = flight_of(launched(42.0, 26.0 * kDegree, 0.0, 9500.0 * kRpm, 0.0), Ball{}, day);
  CHECK(run_of(wedge, Ball{}, day).run < 0.5 * run_of(standard_drive(day), Ball{}, day).run);
}

TEST_CASE("a fade kicks on to the right, and its mirror to the left, bit for bit") {
  const Day day;
  const auto run = [&day](double tilt) {
    return run_of(flight_of(launched(60.0, 13.0 * kDegree, 0.0, 3500.0 * kRpm, tilt), Ball{}, day), Ball{},
                  day);
  };
  const Run fade = run(0.2);
  const Run draw = run(-0.2);
  CHECK(fade.side > flight_of(launched(60.0, 13.0 * kDegree, 0.0, 3500.0 * kRpm, 0.2), Ball{}, day).side);
  CHECK(draw.side == -fade.side);
  CHECK(draw.along == fade.along);
  CHECK(draw.bounces == fade.bounces);
}

TEST_CASE("a ball dropped straight down, or at rest, stays where it is") {
  const Day day;
  Flight<double> drop;
  drop.v_landing_W = {0.0, 0.0, -10.0};
  const Run run = run_of(drop, Ball{}, day);
  CHECK(run.total == doctest::Approx(0.0).epsilon(1e-12));
  CHECK(run.bounces > 1);
  CHECK(run_of(Flight<double>{}, Ball{}, day).total == 0.0);
}
