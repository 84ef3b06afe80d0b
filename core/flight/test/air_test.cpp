// Air against CIPM-2007 and the standard atmosphere.
#include "flight/air.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "rows.hpp"

using namespace strikewright;
using strikewright::test::rows_of;

TEST_CASE("moist air weighs what the metrologists say") {
  // Half a unit of the last printed digit, and a ten-thousandth of it for a value printed on the edge.
  for (const auto& row : rows_of("air_moist.csv")) {
    const auto day = air_of({.celsius = row.number("t_C"),
                             .pressure = row.number("p_Pa"),
                             .altitude = {},
                             .humidity = row.number("RH")});
    REQUIRE(day);
    CHECK(std::abs(day->density - row.number("rho_kg_m3")) <= 0.5001e-5);
    CHECK(std::abs(day->viscosity - row.number("mu_Pa_s")) <= 0.5001e-9);
    CHECK(std::abs(day->viscosity / day->density - row.number("nu_m2_s")) <= 0.5001e-9);
  }
}

TEST_CASE("altitude thins the air as in the standard atmosphere") {
  for (const auto& row : rows_of("air_standard.csv")) {
    const double altitude = row.number("h_m");
    CHECK(std::abs(standard_celsius(altitude) + 273.15 - row.number("T_K")) <= 0.0006);
    CHECK(std::abs(standard_pressure(altitude) - row.number("p_Pa")) <= 0.06);
    const auto day = air_of({.celsius = {}, .pressure = {}, .altitude = altitude, .humidity = 0.0});
    REQUIRE(day);
    CHECK(std::abs(day->viscosity - row.number("mu_Pa_s")) <= 0.5001e-9);
    // CIPM-2007 counts compressibility and composition, the standard an ideal gas: + 0.04 % at sea level.
    CHECK(day->density == doctest::Approx(row.number("rho_kg_m3")).epsilon(6e-4));
  }
}

TEST_CASE("dry air at 20 degrees is what Penner prints") {
  // Penner, Am. J. Phys., 2001: 1.204 kg/m3.
  CHECK(std::abs(air_of({.celsius = 20.0, .pressure = {}, .altitude = {}, .humidity = 0.0})->density -
                 1.204) <= 0.001);
}

TEST_CASE("without a word about the weather it is 15 degrees and dry at sea level") {
  CHECK(std::abs(air_of({})->density - 1.22552) <= 0.000005);
}

TEST_CASE("weather that cannot be is refused with its range") {
  CHECK(air_of({.celsius = 200.0, .pressure = {}, .altitude = {}, .humidity = 0.0}).error().place ==
        "temperature");
  CHECK(air_of({.celsius = {}, .pressure = 1013.25, .altitude = {}, .humidity = 0.0}).error().place ==
        "pressure");
  CHECK(air_of({.celsius = {}, .pressure = {}, .altitude = 9000.0, .humidity = 0.0}).error().place ==
        "altitude");
  const auto fault = air_of({.celsius = {}, .pressure = {}, .altitude = {}, .humidity = 50.0}).error();
  CHECK(fault.sentence() == "humidity: found 50, expected 0 to 1 (relative)");
  CHECK_FALSE(air_of({.celsius = std::nan(""), .pressure = {}, .altitude = {}, .humidity = 0.0}));
}
