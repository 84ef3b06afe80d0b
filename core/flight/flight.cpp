#include "flight/flight.hpp"

#include <cmath>
#include <numbers>

#include "flight/flight_any.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

AirForces air_forces(const Ball& ball, const Day& day) {
  ensure(ball.mass > 0.0 && ball.radius > 0.0, "air_forces: a ball without mass or size");
  ensure(day.density >= 0.0 && day.viscosity > 0.0, "air_forces: air without viscosity");
  const double area = std::numbers::pi * ball.radius * ball.radius;
  const double share = day.density * area / (2.0 * ball.mass);
  AirForces k;
  k.drag = share * ball.drag_scale;
  k.lift = share * ball.radius * ball.lift_scale;
  k.decay = kSpinDecay * (day.density / kSpinDecayDensity) / ball.radius;
  k.radius = ball.radius;
  k.reynolds = 2.0 * ball.radius * day.density / day.viscosity;
  k.target = day.target_height;
  k.wind_floor = std::min(0.0, day.target_height);
  k.windy = day.wind_along != 0.0 || day.wind_across != 0.0;
  k.uniform = day.uniform_wind;
  constexpr double mast = 10.0;  // m, the height at which wind is reported
  const double share_of_mast = day.uniform_wind ? 1.0 : 1.0 / std::log(mast / day.roughness);
  k.wind_x = day.wind_along * share_of_mast;
  k.wind_y = -day.wind_across * share_of_mast;
  k.per_roughness = 1.0 / day.roughness;
  return k;
}

template Flight<double> flight_of(const Launch<double>&, const Ball&, const Day&, const FlightOptions&);
template Flight<Dual<15>> flight_of(const Launch<Dual<15>>&, const Ball&, const Day&, const FlightOptions&);

}  // namespace strikewright
