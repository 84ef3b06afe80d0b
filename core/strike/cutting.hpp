#pragma once
// The force that it takes to cut turf with a blade.

#include "quantity/frame.hpp"
#include "strike/safe_math.hpp"
#include "strike/soil.hpp"

namespace strikewright {

/// Numbers of the blade-cutting form for one rake.
///
///     den = cos(a + d_s) + sin(a + d_s) cot(b + phi)
///     N_g = (cot a + cot b) / (2 den)                  N_c  = (1 + cot b cot(b + phi)) / den
///     N_ca = (1 - cot a cot(b + phi)) / den            N_a  = (tan b + cot(b + phi)) / (den (1 + tan b cot
///     a)) b: the failure plane for which N_g is least; with t = cot b, k = cot phi, A = cot a this is t = -R
///     + sqrt((R - A)(R - k)),  R = (k cos(a + d_s) - sin(a + d_s)) / (cos(a + d_s) + k sin(a + d_s))
///
/// Source: A. R. Reece 1965; E. McKyes, Soil Cutting and Tillage, Elsevier 1985; N_a and the closed form of b
/// derived.
template <class T>
struct CutNumbers {
  T gravity{}, cohesion{}, adhesion{}, inertia{};  ///< N_g, N_c, N_ca, N_a
  T back{}, down{};   ///< sin(a + d_s), cos(a + d_s): shares of the force that push the blade back and down
  T cot_rake{};       ///< cot a
  T failure_plane{};  ///< rad, b
};

/// @param face_rise  vertical component of the face's unit normal = sin(delivered loft) = cos(rake a);
/// clamped to
///                   -0.3..0.95 (rakes of 107..18 deg), beyond which the form is not meant to hold
template <class T>
CutNumbers<T> cut_numbers(const T& face_rise, const Soil& soil) {
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  T ca = face_rise;
  if (value_of(ca) < -0.3) ca = T(-0.3);
  if (value_of(ca) > 0.95) ca = T(0.95);
  const T sa = sqrt(1.0 - ca * ca);
  const double sd = sin(soil.steel_friction);
  const double cd = cos(soil.steel_friction);
  CutNumbers<T> n;
  n.back = sa * cd + ca * sd;
  n.down = ca * cd - sa * sd;
  n.cot_rake = ca / sa;
  const double k = cos(soil.inner_friction) / sin(soil.inner_friction);
  const T R = (k * n.down - n.back) / (n.down + k * n.back);
  const T t = sqrt((R - n.cot_rake) * (R - k)) - R;
  const T q = (k * t - 1.0) / (t + k);  // cot(b + phi)
  const T den = n.down + n.back * q;
  n.gravity = (n.cot_rake + t) / (2.0 * den);
  n.cohesion = (1.0 + t * q) / den;
  n.adhesion = (1.0 - n.cot_rake * q) / den;
  n.inertia = (1.0 + t * q) / (den * (t + n.cot_rake));
  n.failure_plane = atan2(T(1.0), t);
  return n;
}

/// Force of the turf on the blade per area of cut section (width times depth).
template <class T>
struct CutPressure {
  T back{};  ///< Pa
  T up{};    ///< Pa, negative: pulled down
};

/// Resistance per area of section: a part that is always there and one that grows with speed squared. The
/// weight of the chip is left out (0.1 N against 800 N at club speed).
template <class T>
struct CutResistance {
  CutPressure<T> still;   ///< Pa
  CutPressure<T> moving;  ///< Pa per (m/s)^2
};

template <class T>
CutResistance<T> cut_resistance(const CutNumbers<T>& n, const Soil& soil) {
  const T still = soil.cohesion * n.cohesion + soil.adhesion * n.adhesion;
  const T moving = soil.inertia_share * soil.density * n.inertia;
  return {{still * n.back + soil.adhesion * n.cot_rake, soil.adhesion - still * n.down},
          {moving * n.back, -moving * n.down}};
}

}  // namespace strikewright
