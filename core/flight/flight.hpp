#pragma once
// What the air does with the ball, from the face to the landing.

#include "bag/club.hpp"
#include "flight/law.hpp"
#include "quantity/frame.hpp"
#include "strike/strike.hpp"

namespace strikewright {

/// Which drag and lift law flies the ball (flight/law.hpp). `naruo` is the default for every club.
enum class FlightLaw { naruo, iron, played };

/// The day. Wind is the wind at 10 m height, in the direction it blows to.
struct Day {
  double density = 1.2255;       ///< kg/m3 (air_of() gives it from temperature, pressure, humidity, altitude)
  double viscosity = 1.7894e-5;  ///< Pa s
  double wind_along = 0.0;       ///< m/s at 10 m, with the shot +
  double wind_across = 0.0;      ///< m/s at 10 m, to the right +
  double roughness = 0.09;       ///< m, roughness length z0 of the log profile
  bool uniform_wind = false;     ///< the same wind at every height (for exact checks)
  double target_height = 0.0;    ///< m, landing surface above (+) or below (-) the ball
  double firmness = 0.5;         ///< 0 soft .. 1 firm, for bounce and roll only
  FlightLaw law = FlightLaw::naruo;
};

/// One flight, ball's centre from the face to the landing surface.
template <class T>
struct Flight {
  T carry{};          ///< m, straight from ball to landing (horizontal distance)
  T along{};          ///< m, landing point along the target line
  T side{};           ///< m, landing point right of the target line +
  T curve{};          ///< m, landing point right of where the start direction points +
  T apex{};           ///< m above the start
  T time{};           ///< s
  T landing_angle{};  ///< rad, downward +
  T landing_speed{};  ///< m/s
  T landing_spin{};   ///< rad/s
  Vec3<T> v_landing_W = Vec3<T>::Constant(T(0.0));  ///< m/s
  Vec3<T> w_landing_W = Vec3<T>::Constant(T(0.0));  ///< rad/s
  bool reached =
      true;  ///< false: the ball never came up to a raised surface (the landing is then the one at the
             ///< height of the start), or was still up after 60 s (the landing is then its last place)
  bool beyond = false;  ///< the spin parameter left the law's measured range on the way
};

struct FlightOptions {
  /// s, longest step of the classical Runge-Kutta method. Measured over launches of 8-80 m/s, 1-50 degrees,
  /// 0-10,000 rpm, still and in wind of up to 12 m/s, against a step of 0.002 s (test/twin_test.cpp): 99 of
  /// 100 flights have carry, side and apex within 0.002 m with `accurate` (worst 0.003 m) and within 0.03 m
  /// with `fast` (worst 0.13 m).
  double step = 0.05;
  [[nodiscard]] static FlightOptions accurate() { return {0.05}; }
  [[nodiscard]] static FlightOptions fast() { return {0.40}; }
};

/// The flight of a ball under drag, lift and gravity.
///
///     dv/dt = -g z - rho A CD |u| u / 2m + rho A r (CL/S) (w x u) / 2m,   u = v_WB - wind(height)
///     dw/dt = -lambda |u| w / r                                          (the spin axis keeps its direction)
///
/// w x u is lengthened to |w| |u|, so that lift has its full size CL(S) while the axis is more than 17
/// degrees off the flow; nearer it fades linearly to none (no source measures a ball that flies along its
/// axis).
///
/// Classical Runge-Kutta with a fixed step, shorter at the start of short flights; apex and landing are roots
/// of the quintic through both ends of their step (place, velocity, acceleration), so neither is a sample,
/// and the slopes of a dual number include that of the landing time. For Dual<N> the flight is differentiated
/// by its six inputs and chained. Wind: W ln(z/z0) / ln(10 m/z0) above z0, none below; z over the lower of
/// start and target (Naruo & Mizota, JSME Sports Engineering Symposium 2009, A-29). Or uniform. Only `v_WB_W`
/// and `w_WB_W` of the launch are used; they must be finite. Edges: a ball struck down or along the ground
/// lands where it lies, at once; zero spin and zero speed are ordinary.
template <class T>
[[nodiscard]] Flight<T> flight_of(const Launch<T>& launch, const Ball& ball, const Day& day,
                                  const FlightOptions& options = {});

/// A launch from the numbers that are seen of it. Spin frame: backspin about the horizontal axis to the right
/// of the launch direction; a positive tilt lowers that axis' right end, so that the ball curves to the
/// right.
/// @param speed [m/s]  @param elevation, azimuth, axis_tilt [rad]; azimuth and tilt right +  @param spin
/// [rad/s]
template <class T>
[[nodiscard]] Launch<T> launched(const T& speed, const T& elevation, const T& azimuth, const T& spin,
                                 const T& axis_tilt) {
  using std::cos;
  using std::sin;
  const Vec3<T> right{-sin(azimuth), -cos(azimuth), T(0.0)};
  const Vec3<T> up{-cos(azimuth) * sin(elevation), sin(azimuth) * sin(elevation), cos(elevation)};
  Launch<T> out;
  out.v_WB_W = speed * direction(azimuth, elevation);
  out.w_WB_W = spin * (cos(axis_tilt) * right - sin(axis_tilt) * up);
  out.speed = speed;
  out.elevation = elevation;
  out.azimuth = azimuth;
  out.spin = spin;
  out.axis_tilt = axis_tilt;
  return out;
}

}  // namespace strikewright
