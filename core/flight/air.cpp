#include "flight/air.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace strikewright {
namespace {

constexpr double kIce = 273.15;             // K at 0 degC
constexpr double kStandardKelvin = 288.15;  // K, standard sea level
constexpr double kStandardPascal = 101325.0;
constexpr double kLapse = 0.0065;  // K/m

std::optional<Fault> outside(const char* place, double value, double low, double high, const char* unit) {
  if (value >= low && value <= high) return std::nullopt;
  return Fault{place, fmt::format("{:g}", value), fmt::format("{:g} to {:g} {}", low, high, unit)};
}

}  // namespace

double moist_air_density(double pressure, double celsius, double humidity) {
  constexpr double gas = 8.314472;       // J/(mol K)
  constexpr double dry = 28.96546e-3;    // kg/mol at 400 ppm of carbon dioxide
  constexpr double water = 18.01528e-3;  // kg/mol
  const double t = celsius;
  const double kelvin = celsius + kIce;
  const double saturation =
      std::exp(1.2378847e-5 * kelvin * kelvin - 1.9121316e-2 * kelvin + 33.93711047 - 6343.1645 / kelvin);
  const double enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * t * t;
  const double xv = humidity * enhancement * saturation / pressure;
  const double per_kelvin = pressure / kelvin;
  const double a = 1.58123e-6 + t * (-2.9331e-8 + t * 1.1043e-10);
  const double b = 5.707e-6 - 2.051e-8 * t;
  const double c = 1.9898e-4 - 2.376e-6 * t;
  const double compressibility =
      1.0 - per_kelvin * (a + xv * (b + xv * c)) + per_kelvin * per_kelvin * (1.83e-11 - 0.765e-8 * xv * xv);
  return pressure * dry / (compressibility * gas * kelvin) * (1.0 - xv * (1.0 - water / dry));
}

double air_viscosity(double celsius) {
  const double kelvin = celsius + kIce;
  return 1.458e-6 * kelvin * std::sqrt(kelvin) / (kelvin + 110.4);
}

double standard_celsius(double altitude) { return kStandardKelvin - kLapse * altitude - kIce; }

double standard_pressure(double altitude) {
  return kStandardPascal * std::pow((standard_celsius(altitude) + kIce) / kStandardKelvin, 5.25588);
}

Result<Day> air_of(const Weather& weather, const Day& start) {
  const double altitude = weather.altitude.value_or(0.0);
  if (const auto fault = outside("altitude", altitude, -430.0, 5000.0, "m")) return unexpected(*fault);
  const double celsius = weather.celsius.value_or(standard_celsius(altitude));
  const double pressure = weather.pressure.value_or(standard_pressure(altitude));
  if (const auto fault = outside("temperature", celsius, -40.0, 60.0, "degC")) return unexpected(*fault);
  if (const auto fault = outside("pressure", pressure, 5e4, 1.1e5, "Pa")) return unexpected(*fault);
  if (const auto fault = outside("humidity", weather.humidity, 0.0, 1.0, "(relative)"))
    return unexpected(*fault);
  Day day = start;
  day.density = moist_air_density(pressure, celsius, weather.humidity);
  day.viscosity = air_viscosity(celsius);
  return day;
}

}  // namespace strikewright
