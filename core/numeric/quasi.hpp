#pragma once
// Evenly spread normal draws: a Sobol sequence, shifted by the seed, through the normal quantile.

#include <boost/math/special_functions/erf.hpp>
#include <boost/random/sobol.hpp>
#include <cmath>
#include <cstdint>
#include <vector>

#include "numeric/draws.hpp"

namespace strikewright {

/// Standard normal quantile, 0 < p < 1 (Boost.Math).
inline double normal_quantile(double p) { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * p); }

/// `count` points in `dimension` coordinates, uniform in (0,1): Sobol's sequence (Boost, direction numbers of
/// Joe & Kuo) with a random shift modulo 1, which keeps every estimate unbiased. Row-major.
inline std::vector<double> spread_uniforms(std::size_t count, std::size_t dimension, std::uint64_t seed) {
  boost::random::sobol engine(dimension);
  const double span = static_cast<double>(engine.max()) + 1.0;
  Draws draws(seed);
  std::vector<double> shift(dimension);
  for (double& s : shift) s = draws.uniform();
  std::vector<double> points(count * dimension);
  constexpr double kEdge = 1e-12;  // keeps the quantiles finite
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double u = static_cast<double>(engine()) / span + shift[i % dimension];
    const double v = u - std::floor(u);
    points[i] = kEdge + (1.0 - 2.0 * kEdge) * v;
  }
  return points;
}

}  // namespace strikewright
