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

/// Smooth positive part: 0 for x <= -width, x for x >= width, a quartic between (3/16 width at 0). Value,
/// slope and curvature are continuous; nothing is felt at all beyond `width` on the other side.
///
///     w (q + 1)^3 (3 - q) / 16,  q = x / w     for |q| < 1
///
/// @param per_width  1 / width, which callers in inner loops have at hand
template <class T, class W>
T positive_part(const T& x, const W& width, const W& per_width) {
  if (value_of(x) <= -value_of(width)) return T(0.0);
  if (value_of(x) >= value_of(width)) return x;
  const T q = x * per_width;
  const T up = q + 1.0;
  return width * (up * up) * (up * (3.0 - q)) * (1.0 / 16.0);
}
template <class T, class W>
T positive_part(const T& x, const W& width) {
  return positive_part(x, width, W(1.0 / width));
}

/// Smooth step: 0 for x <= 0, 1 for x >= width, 3 q^2 - 2 q^3 with q = x / width between.
template <class T>
T step(const T& x, double width) {
  if (value_of(x) <= 0.0) return T(0.0);
  if (value_of(x) >= width) return T(1.0);
  const T q = x * (1.0 / width);
  return q * q * (3.0 - 2.0 * q);
}

}  // namespace strikewright::safe
