#pragma once
// The standard normal law.

#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>

namespace strikewright {

/// P(Z < z).
inline double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// z with P(Z < z) = p, 0 < p < 1 (Boost.Math).
inline double normal_quantile_of(double p) { return -std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * p); }

/// ln P(Z < z), good far into the lower tail: there by the continued fraction's first terms (Abramowitz &
/// Stegun, Handbook of Mathematical Functions, 1964, 26.2.12; relative error of the probability below 1e-6
/// for z < -20).
inline double log_normal_below(double z) {
  if (z > -20.0) return std::log(normal_below(z));
  const double q = 1.0 / (z * z);
  return -0.5 * z * z - std::log(-z * std::sqrt(2.0 * std::numbers::pi)) +
         std::log1p(-q + 3.0 * q * q - 15.0 * q * q * q);
}

}  // namespace strikewright
