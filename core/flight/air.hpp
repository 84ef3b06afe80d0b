#pragma once
// Air from what a thermometer, a barometer or a map say.

#include <optional>

#include "flight/flight.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

/// Density of moist air [kg/m3], CIPM-2007.
///
///     rho = p Ma / (Z R T) [1 - xv (1 - Mv/Ma)]
///
/// Picard, Davis, Glaeser & Fujii, "Revised formula for the density of moist air (CIPM-2007)", Metrologia
/// 45:149-155, 2008, doi 10.1088/0026-1394/45/2/004; carbon dioxide 400 parts per million. Its stated range
/// is 600-1100 hPa and 15-27 degC; outside, the error stays far below that of a day's weather.
/// @param pressure [Pa]  @param celsius [degC]  @param humidity relative, 0-1
[[nodiscard]] double moist_air_density(double pressure, double celsius, double humidity);

/// Dynamic viscosity [Pa s] by Sutherland's law with the constants of the U.S. Standard Atmosphere 1976 (from
/// memory; they give that standard's 1.7894e-5 at 15 degC).  @param celsius [degC]
[[nodiscard]] double air_viscosity(double celsius);

/// Standard pressure [Pa] and temperature [degC] at an altitude [m] of up to 11,000 m (ICAO / U.S. Standard
/// Atmosphere 1976, troposphere).
[[nodiscard]] double standard_pressure(double altitude);
[[nodiscard]] double standard_celsius(double altitude);

/// What is known of the air; the rest is the standard's.
struct Weather {
  std::optional<double>
      celsius;  ///< degC, -40..60; without it the standard's at the altitude (15 at sea level)
  std::optional<double> pressure;  ///< Pa at the place itself (not reduced to sea level), 50,000-110,000
  std::optional<double> altitude;  ///< m, -430..5000; ignored when the pressure is given
  double humidity = 0.0;           ///< relative, 0-1
};

/// The day's air: `start` with density and viscosity set from the weather. Without any weather: dry, 15 degC,
/// 101325 Pa, 1.22552 kg/m3.
[[nodiscard]] Result<Day> air_of(const Weather& weather, const Day& start = {});

}  // namespace strikewright
