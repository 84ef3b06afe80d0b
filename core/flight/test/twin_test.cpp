// The same equations by GSL, the tabled runs, and the step's own error.
#include "twin.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "flight/flight.hpp"
#include "numeric/draws.hpp"
#include "quantity/angle.hpp"
#include "rows.hpp"

using namespace strikewright;
using strikewright::test::rows_of;
using strikewright::test::twin_flight;
using strikewright::test::TwinFlight;
using strikewright::test::TwinSetup;

namespace {

FlightLaw law_named(const std::string& name) {
  if (name == "UR06") return FlightLaw::iron;
  if (name == "F22") return FlightLaw::played;
  return FlightLaw::naruo;
}

Day still_day() {
  Day day;
  day.density = 1.22552;
  return day;
}

TwinFlight twin_of(TwinSetup setup, const Launch<double>& launch) {
  setup.spin_x = launch.w_WB_W.x();
  setup.spin_y = launch.w_WB_W.y();
  setup.spin_z = launch.w_WB_W.z();
  return twin_flight(setup, launch.v_WB_W.x(), launch.v_WB_W.y(), launch.v_WB_W.z());
}

double worst_off(const Flight<double>& a, const Flight<double>& b) {
  return std::max({std::abs(a.carry - b.carry), std::abs(a.side - b.side), std::abs(a.apex - b.apex)});
}

struct Errors {
  double typical, most, worst;
};

/// Errors [m] of carry, side and apex against a step of 2 ms: median, 99 of 100, all.
Errors errors_of(const FlightOptions& options, bool windy) {
  Draws draws{20251125};
  const auto between = [&draws](double low, double high) { return low + (high - low) * draws.uniform(); };
  std::vector<double> off;
  for (int i = 0; i < 1500; ++i) {
    Day day;
    day.density = between(0.9, 1.3);
    day.wind_along = windy ? between(-10.0, 10.0) : 0.0;
    day.wind_across = windy ? between(-6.0, 6.0) : 0.0;
    day.roughness = between(0.01, 0.09);
    const auto launch = launched(between(8.0, 80.0), between(1.0, 50.0) * kDegree, between(-0.2, 0.2),
                                 between(0.0, 10000.0) * kRpm, between(-0.4, 0.4));
    off.push_back(
        worst_off(flight_of(launch, Ball{}, day, options), flight_of(launch, Ball{}, day, {0.002})));
  }
  std::sort(off.begin(), off.end());
  return {off[off.size() / 2], off[off.size() * 99 / 100], off.back()};
}

}  // namespace

TEST_CASE("flights are those of the tabled runs") {
  // The runs hold the spin decay at 2.0e-5; ours grows with the air's density, 2.04e-5 here. Run with the
  // decay of the table, GSL must give the table to its last digit (and the table is thereby what it says);
  // ours may then differ by the effect of 2 % more decay, largest on a drive: switching all decay off moves
  // its carry by 1.6 m (0.03 m for 2 %) and 2 % of its spin loss of 22 % is 0.5 % of the landing spin; half a
  // last digit comes on top.
  for (const auto& row : rows_of("flight_runs.csv")) {
    CAPTURE(row.text("case"));
    CAPTURE(row.text("law"));
    const auto launch =
        launched(row.number("v_ms"), row.number("launch_deg") * kDegree, 0.0, row.number("rpm") * kRpm, 0.0);
    TwinSetup setup;
    setup.law = row.text("law");
    setup.decay_per_density = 2.0e-5 / setup.density;
    const TwinFlight twin = twin_of(setup, launch);
    // One unit of the last digit instead of half: the table's own steps and landing, whose error is not
    // stated.
    CHECK(std::abs(twin.along - row.number("carry_m")) <= 0.01);
    CHECK(std::abs(twin.apex - row.number("apex_m")) <= 0.01);
    CHECK(std::abs(twin.time - row.number("time_s")) <= 0.001);
    CHECK(std::abs(twin.angle / kDegree - row.number("land_deg")) <= 0.01);
    CHECK(std::abs(twin.spin_left * row.number("rpm") - row.number("land_rpm")) <= 1.0);
    Day day = still_day();
    day.law = law_named(setup.law);
    const auto ours = flight_of(launch, Ball{}, day);
    CHECK(std::abs(ours.carry - row.number("carry_m")) <= 0.05);
    CHECK(std::abs(ours.apex - row.number("apex_m")) <= 0.035);
    CHECK(std::abs(ours.time - row.number("time_s")) <= 0.0065);
    CHECK(std::abs(ours.landing_angle / kDegree - row.number("land_deg")) <= 0.05);
    CHECK(std::abs(ours.landing_speed - row.number("land_speed_ms")) <= 0.03);
    CHECK(ours.landing_spin / kRpm == doctest::Approx(row.number("land_rpm")).epsilon(0.006));
  }
}

TEST_CASE("another integrator gives the same flight, in wind and with a tilted axis") {
  // Ours within its stated 0.002 m (accurate); the twin's error is far below. With height-dependent wind the
  // twin has the textbook's ln(z/z0), cut off at z0; ours runs smoothly to 0, which moves the landing by up
  // to 7 mm.
  for (const std::string law : {"N04", "UR06", "F22"}) {
    for (const double roughness : {0.0, 0.03, 0.09}) {
      TwinSetup setup;
      setup.law = law;
      setup.wind_along = -5.0;
      setup.wind_right = 3.0;
      setup.roughness = roughness;
      Day day = still_day();
      day.law = law_named(law);
      day.wind_along = -5.0;
      day.wind_across = 3.0;
      day.uniform_wind = roughness == 0.0;
      if (roughness > 0.0) day.roughness = roughness;
      const auto launch = launched(58.0, 13.0 * kDegree, -0.03, 5400.0 * kRpm, 0.15);
      const TwinFlight twin = twin_of(setup, launch);
      const auto ours = flight_of(launch, Ball{}, day);
      CAPTURE(law);
      CAPTURE(roughness);
      const double limit = roughness == 0.0 ? 0.002 : 0.009;
      CHECK(std::abs(ours.along - twin.along) <= limit);
      CHECK(std::abs(ours.side - twin.right) <= limit);
      CHECK(std::abs(ours.apex - twin.apex) <= limit);
      CHECK(std::abs(ours.time - twin.time) <= 0.0002);
      CHECK(std::abs(ours.landing_angle - twin.angle) <= 0.0002);
    }
  }
}

TEST_CASE("steps of 0.05 s give the flight of steps of 0.001 s within 2 mm") {
  const auto launch = launched(74.7, 11.0 * kDegree, 0.0, 2600.0 * kRpm, 0.0);
  CHECK(worst_off(flight_of(launch, Ball{}, Day{}, {0.05}), flight_of(launch, Ball{}, Day{}, {0.001})) <=
        0.002);
}

TEST_CASE("the stated errors of accurate and fast hold over all launches") {
  // Stated in flight.hpp: 99 of 100 within 0.002 m and 0.03 m.
  for (const bool windy : {false, true}) {
    const Errors accurate = errors_of(FlightOptions::accurate(), windy);
    const Errors fast = errors_of(FlightOptions::fast(), windy);
    MESSAGE(std::string{windy ? "wind" : "still"}
            << ": accurate median " << accurate.typical << " m, 99 % " << accurate.most << " m, worst "
            << accurate.worst << " m; fast " << fast.typical << ", " << fast.most << ", " << fast.worst);
    CHECK(accurate.most <= 0.002);
    CHECK(fast.most <= 0.03);
  }
}
