#pragma once
// Roots and angles whose slopes stay finite where the textbook form divides by zero. Internal to this room.

#include <cmath>

#include "quantity/dual.hpp"
#include "quantity/frame.hpp"

namespace strikewright::safe {

/// Square root of x >= 0; at (and within rounding of) 0 it is 0 with slope 0 instead of an infinite one.
template <class T>
T root(const T& x) {
  using std::sqrt;
  if (value_of(x) < 1e-24) return T(0.0);
  return sqrt(x);
}

/// |v|, with slope 0 at v = 0.
template <class T>
T length(const Vec3<T>& v) {
  return root(T(v.dot(v)));
}

/// atan2 [rad], 0 with slope 0 at the origin.
template <class T>
T angle(const T& y, const T& x) {
  using std::atan2;
  if (value_of(x) == 0.0 && value_of(y) == 0.0) return T(0.0);
  return atan2(y, x);
}

/// Smooth positive part: scale * ln(1 + exp(x / scale)). Tends to x above and to 0 below; scale*ln2 at 0.
/// Values and slopes are finite for every finite x.
template <class T>
T positive_part(const T& x, double scale) {
  using std::exp;
  using std::log;
  const T u = x * (1.0 / scale);
  if (value_of(u) > 30.0) return x;
  if (value_of(u) < -60.0) return T(0.0);
  return scale * log(T(1.0) + exp(u));
}

/// Smooth step from 0 (x << 0) to 1 (x >> 0): the logistic function of x / scale.
template <class T>
T step(const T& x, double scale) {
  using std::exp;
  const T u = x * (1.0 / scale);
  if (value_of(u) > 40.0) return T(1.0);
  if (value_of(u) < -60.0) return T(0.0);
  return T(1.0) / (T(1.0) + exp(-u));
}

}  // namespace strikewright::safe
