// Density, viscosity and the standard atmosphere.

#include <fmt/format.h>

#include "check_groups.hpp"
#include "flight/air.hpp"

namespace strikewright {
namespace {

constexpr const char* kAirGroup = "air";

}  // namespace

void check_air(CheckReport& report) {
  CheckTable moist(report, kAirGroup, "air_moist");
  for (const ReferenceRow& row : moist.rows()) {
    const double celsius = row.number("t_C");
    const double density = moist_air_density(row.number("p_Pa"), celsius, row.number("RH"));
    const double viscosity = air_viscosity(celsius);
    const std::string name =
        fmt::format("{} Pa, {} degC, humidity {}: ", row.text("p_Pa"), row.text("t_C"), row.text("RH"));
    moist.printed(name + "density", "kg/m3", density, row, "rho_kg_m3");
    moist.compare(name + "viscosity", "Pa s", viscosity, row.number("mu_Pa_s"), row.half_digit("mu_Pa_s"));
    moist.compare(name + "kinematic viscosity", "m2/s", viscosity / density, row.number("nu_m2_s"),
                  row.half_digit("nu_m2_s"));
  }
  CheckTable standard(report, kAirGroup, "air_standard");
  for (const ReferenceRow& row : standard.rows()) {
    const double altitude = row.number("h_m");
    const double celsius = standard_celsius(altitude);
    const double pressure = standard_pressure(altitude);
    const std::string name = row.text("h_m") + " m: ";
    standard.printed(name + "temperature", "K", celsius + 273.15, row, "T_K");
    standard.compare(name + "pressure", "Pa", pressure, row.number("p_Pa"), 1.0);
    standard.compare(name + "density", "kg/m3", moist_air_density(pressure, celsius, 0.0),
                     row.number("rho_kg_m3"), 6e-4 * row.number("rho_kg_m3"));
    standard.compare(name + "viscosity", "Pa s", air_viscosity(celsius), row.number("mu_Pa_s"),
                     row.half_digit("mu_Pa_s"));
  }
}

}  // namespace strikewright
