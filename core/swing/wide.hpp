#pragma once
// Four doubles side by side, for the bulk kernel. Every operation is the plain one in each lane, so that the
// results are the same bits on every register width (no contraction into fused operations: the build forbids
// it).

#include <cstdint>

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"
#endif
#define STRIKEWRIGHT_INLINE_ALWAYS inline __attribute__((always_inline))

namespace strikewright::wide {

inline constexpr int kLanes = 4;
using V = double __attribute__((vector_size(32)));
using M = std::int64_t __attribute__((vector_size(32)));  ///< a condition: all bits or none in each lane

STRIKEWRIGHT_INLINE_ALWAYS V all(double x) { return V{x, x, x, x}; }
STRIKEWRIGHT_INLINE_ALWAYS V pick(M where, V yes, V no) {
  return reinterpret_cast<V>((where & reinterpret_cast<M>(yes)) | (~where & reinterpret_cast<M>(no)));
}
STRIKEWRIGHT_INLINE_ALWAYS bool any(M m) { return (m[0] | m[1] | m[2] | m[3]) != 0; }
STRIKEWRIGHT_INLINE_ALWAYS V least(V a, V b) { return pick(a < b, a, b); }
STRIKEWRIGHT_INLINE_ALWAYS V most(V a, V b) { return pick(a > b, a, b); }

/// Added to a double below 2^51 it leaves the nearest whole number in the low bits.
inline constexpr double kWholeShift = 6755399441055744.0;  // 1.5 * 2^52

struct SinCos {
  V sin, cos;
};

/// Sine and cosine for |x| < 1000, to about one unit in the last place.
/// Method: nearest multiple of pi/2 taken off in two parts, then the minimax polynomials of degree 13 and 14
/// on
/// [-pi/4, pi/4]. Source of the coefficients: Sun Microsystems, FDLIBM 5.3 (1995), k_sin.c and k_cos.c,
/// facts.
STRIKEWRIGHT_INLINE_ALWAYS SinCos sin_cos(V x) {
  const V shifted = x * 0.63661977236758134308 + kWholeShift;
  const V n = shifted - kWholeShift;
  const M quadrant = reinterpret_cast<M>(shifted);
  const V r = (x - n * 1.57079632673412561417e+00) - n * 6.07710050650619224932e-11;
  const V z = r * r;
  const V ps = 8.33333333332248946124e-03 +
               z * (-1.98412698298579493134e-04 +
                    z * (2.75573137070700676789e-06 +
                         z * (-2.50507602534068634195e-08 + z * 1.58969099521155010221e-10)));
  const V s = r + r * z * (-1.66666666666666324348e-01 + z * ps);
  const V pc = 4.16666666666666019037e-02 +
               z * (-1.38888888888741095749e-03 +
                    z * (2.48015872894767294178e-05 +
                         z * (-2.75573143513906633035e-07 +
                              z * (2.08757232129817482790e-09 + z * -1.13596475577881948265e-11))));
  const V c = 1.0 - 0.5 * z + z * z * pc;
  const M odd = (quadrant & 1) != 0;
  const M sine_negative = (quadrant & 2) != 0;
  const M cosine_negative = ((quadrant + 1) & 2) != 0;
  const V a = pick(odd, c, s);
  const V b = pick(odd, s, c);
  return {pick(sine_negative, -a, a), pick(cosine_negative, -b, b)};
}

/// exp(x) for x <= 0, to about two units in the last place; below -700 it is held at exp(-700), nearly
/// nothing. Method: x = n ln 2 + r, Taylor's series of degree 12 in |r| < 0.35, times 2^n.
STRIKEWRIGHT_INLINE_ALWAYS V exp_falling(V x) {
  const V held = most(x, all(-700.0));
  const V shifted = held * 1.44269504088896338700 + kWholeShift;
  const V n = shifted - kWholeShift;
  const V r = (held - n * 6.93147180369123816490e-01) - n * 1.90821492927058770002e-10;
  V sum = all(1.0 / 479001600.0);
  constexpr double factorials[] = {39916800.0, 3628800.0, 362880.0, 40320.0, 5040.0, 720.0,
                                   120.0,      24.0,      6.0,      2.0,     1.0};
  for (const double f : factorials) sum = sum * r + 1.0 / f;
  sum = sum * r + 1.0;
  const M power = (reinterpret_cast<M>(shifted) << 52) + (std::int64_t{1023} << 52);
  return sum * reinterpret_cast<V>(power);
}

}  // namespace strikewright::wide
