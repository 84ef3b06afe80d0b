#pragma once
// A bracketed root: a thin face over Boost's TOMS 748 (Alefeld, Potra, Shi, ACM Trans. Math. Software 21,
// 1995, 327).

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

namespace strikewright {

/// The place between `a` and `b` where `f` is zero.
///
/// Needs finite values of opposite sign (or a zero) at the ends; gives nothing where they are not. Not a
/// solver for double roots: a curve that only touches zero has no sign change.
///
/// @param tolerance  widest bracket left around the root, in the unit of `a`; 0 = as narrow as doubles go
/// @returns the middle of the last bracket
template <class F>
std::optional<double> root_between(const F& f, double a, double b, double tolerance = 0.0) {
  const double fa = f(a);
  const double fb = f(b);
  if (!std::isfinite(fa) || !std::isfinite(fb)) return std::nullopt;
  if (fa == 0.0) return a;
  if (fb == 0.0) return b;
  if ((fa < 0.0) == (fb < 0.0)) return std::nullopt;
  const auto narrow = [tolerance](double lo, double hi) {
    const double floor =
        4.0 * std::numeric_limits<double>::epsilon() * std::fmax(std::fabs(lo), std::fabs(hi));
    return std::fabs(hi - lo) <= std::fmax(tolerance, floor);
  };
  std::uintmax_t rounds = 200;
  const bool forward = a < b;
  const auto [lo, hi] = boost::math::tools::toms748_solve(
      f, forward ? a : b, forward ? b : a, forward ? fa : fb, forward ? fb : fa, narrow, rounds);
  return 0.5 * (lo + hi);
}

}  // namespace strikewright
