#pragma once
// Drag and lift of a spinning golf ball: coefficients by spin parameter and Reynolds number.
//
//     drag = 1/2 rho A CD |u|^2 against u,   lift = 1/2 rho A CL |u|^2 along (spin axis x u)
//     S = omega r / |u|,   Re = |u| 2 r / nu,   u = velocity of the ball relative to the air
//
// A law gives CL / S instead of CL, because lift then reads 1/2 rho A r (CL/S) (w x u): no spin axis is
// divided by a spin that may be zero, and slopes stay finite at zero spin.

#include <cmath>

#include "numeric/lanes.hpp"

namespace strikewright {

/// CD and CL / S.
template <class T>
struct Coefficients {
  T drag;
  T lift_per_s;
};

/// Naruo, Mizota & Shimozono, Trans. JSME B 70(697):2371-2377, 2004, eqs 12 and 13 (conventional 432-dimple
/// ball, open-jet tunnel, 25-44 m/s, no dependence on Re seen). Fitted for S 0.03-1.13.
///
///     CD = 0.7510 S^4 - 1.760 S^3 + 1.098 S^2 + 0.2148 S + 0.2049
///     CL = -0.2158 S^4 + 1.006 S^3 - 1.644 S^2 + 1.250 S + 0.0616
///
/// Edges: below S = 0.03 CL goes linearly to 0 (ours); beyond 1.13 both keep their value at 1.13 and the
/// flight is marked `beyond`.
struct NaruoLaw {
  static constexpr double lowest = 0.03;
  static constexpr double highest = 1.13;
  static constexpr bool uses_reynolds = false;

  /// @param s [-] >= 0   @param per_s [-] 1 / s, may be huge   @param re unused
  template <class T>
  STRIKEWRIGHT_INLINE static Coefficients<T> at(const T& s, const T& per_s, const T& /*re*/) {
    const T x = select(s > highest, T(highest), s);
    // Powers in pairs: half the depth of a nested product, and depth is what a flight waits for.
    const T xx = x * x;
    const T drag = ((0.7510 * x - 1.760) * x + 1.098) * xx + (0.2148 * x + 0.2049);
    const T smooth = ((-0.2158 * x + 1.006) * x - 1.644) * xx + (1.250 * x + 0.0616);
    constexpr double low = lowest;
    constexpr double low_lift = (((-0.2158 * low + 1.006) * low - 1.644) * low + 1.250) * low + 0.0616;
    return {drag, select(s < low, T(low_lift / low), smooth * per_s)};
  }
};

/// USGA and R&A, Second Report on the Study of Spin Generation, 2006, appendix C, eqs 7 and 8 (outdoor
/// tracking of iron shots, three-piece urethane ball). For irons and wedges; not for drivers: at S < 0.1 its
/// drag is too low.
///
///     CD = 0.06639 + 0.3963 S^2 - 0.6312 S ln S
///     CL = max(0, 0.4221 + 0.1134 ln S + 0.03225 S^2.5 - 0.1208 (ln (Re / 1e5))^2)
///
/// Good for S 0-1.8, Re 2e4-2e5. Edges (ours): S and Re are held at their bounds outside; at S = 0 there is
/// no lift.
struct IronLaw {
  static constexpr double lowest = 0.0;
  static constexpr double highest = 1.8;
  static constexpr bool uses_reynolds = true;

  /// @param s [-] >= 0   @param per_s [-] 1 / s, may be huge   @param re [-] Reynolds number, > 0
  template <class T>
  STRIKEWRIGHT_INLINE static Coefficients<T> at(const T& s, const T& per_s, const T& re) {
    using std::log;
    using std::sqrt;
    constexpr double floor = 1e-9;  // ln S: far below where CL has already reached 0
    const T x = select(s > highest, T(highest), select(s < floor, T(floor), s));
    const T log_s = log(x);
    const T log_re = log(select(re > 2e5, T(2.0), select(re < 2e4, T(0.2), re * 1e-5)));
    const T drag = 0.06639 + x * (0.3963 * x - 0.6312 * log_s);
    const T lift = 0.4221 + 0.1134 * log_s + 0.03225 * (x * x * sqrt(x)) - 0.1208 * (log_re * log_re);
    return {drag, select(lift > 0.0, lift * per_s, T(0.0))};
  }
};

/// Ferguson, McNally & McPhee, Engineering of Sport 14, 2022, doi 10.5703/1288284317493: fitted to 1040
/// played shots, S 0.02-0.75. A third, independent law: it shows the spread between laws.
///
///     CD = 0.1304 + 0.9287 S - 0.8259 S^2,   CL = 0.0504 + 1.2031 S - 1.1490 S^2
///
/// Edges (ours): CL linear to 0 below 0.02, both held beyond 0.75.
struct PlayedLaw {
  static constexpr double lowest = 0.02;
  static constexpr double highest = 0.75;
  static constexpr bool uses_reynolds = false;

  /// @param s [-] >= 0   @param per_s [-] 1 / s, may be huge   @param re unused
  template <class T>
  STRIKEWRIGHT_INLINE static Coefficients<T> at(const T& s, const T& per_s, const T& /*re*/) {
    const T x = select(s > highest, T(highest), s);
    const T drag = (-0.8259 * x + 0.9287) * x + 0.1304;
    const T smooth = (-1.1490 * x + 1.2031) * x + 0.0504;
    constexpr double low_lift = (-1.1490 * lowest + 1.2031) * lowest + 0.0504;
    return {drag, select(s < lowest, T(low_lift / lowest), smooth * per_s)};
  }
};

/// Spin decay: d(omega)/dt = -lambda omega |u| / r with lambda = 2.0e-5 at 1.2 kg/m3.
/// Smits & Smith, Science and Golf II, 1994, pp. 340-347; as a skin-friction torque it grows with the air's
/// density.
inline constexpr double kSpinDecay = 2.0e-5;
inline constexpr double kSpinDecayDensity = 1.2;  ///< kg/m3

/// One standard deviation of carry, as a share of it, that stands for not knowing which law this ball obeys:
/// three independent laws (the three above) agree within +-2.5 % for irons and +-4 % for a wedge and the
/// driver (docs/models/flight.md has the table and its command). Ball-to-ball differences of +-0.02 in both
/// coefficients (Lyu, Kensrud, Smith & Tosaya, Proceedings 2(6):238, 2018) are of the same size.
inline constexpr double kModelSpread = 0.03;

}  // namespace strikewright
