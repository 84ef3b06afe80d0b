#pragma once
// What the air and the ground do with the ball.

#include "bag/club.hpp"
#include "quantity/frame.hpp"
#include "strike/strike.hpp"

namespace strikewright {

enum class FlightLaw { naruo, iron };

/// The day. Wind is the wind at 10 m height, in the direction it blows to.
struct Day {
  double density = 1.2255;         ///< kg/m3 (air_of() gives it from temperature, pressure, humidity, altitude)
  double viscosity = 1.7894e-5;    ///< Pa s
  double wind_along = 0.0;         ///< m/s at 10 m, with the shot +
  double wind_across = 0.0;        ///< m/s at 10 m, to the right +
  double roughness = 0.09;         ///< m, roughness length z0 of the log profile
  bool uniform_wind = false;       ///< the same wind at every height (for exact checks)
  double target_height = 0.0;      ///< m, landing surface above (+) or below (-) the ball
  double firmness = 0.5;           ///< 0 soft .. 1 firm, for bounce and roll only
  FlightLaw law = FlightLaw::naruo;
};

/// One flight, ball's centre from the face to the landing surface.
template <class T>
struct Flight {
  T carry{};           ///< m, straight from ball to landing (horizontal distance)
  T along{};           ///< m, landing point along the target line
  T side{};            ///< m, landing point right of the target line +
  T curve{};           ///< m, landing point right of where the start direction points +
  T apex{};            ///< m above the start
  T time{};            ///< s
  T landing_angle{};   ///< rad, downward +
  T landing_speed{};   ///< m/s
  T landing_spin{};    ///< rad/s
  Vec3<T> v_landing_W; ///< m/s
  Vec3<T> w_landing_W; ///< rad/s
};

}  // namespace strikewright
