#pragma once
// Dual numbers: a value with its slopes. Everything from delivery to landing is templated on the scalar, so
// that the inverse gets exact slopes. Ceres' header needs nothing but Eigen.

#include <ceres/jet.h>

namespace strikewright {

template <int N>
using Dual = ceres::Jet<double, N>;

/// The plain value of a scalar, dual or not.
inline double value_of(double x) { return x; }
template <int N>
double value_of(const Dual<N>& x) {
  return x.a;
}

}  // namespace strikewright
