#pragma once
// Several numbers side by side, used as one scalar in the templated rooms: the same source computes one
// flight with double, its slopes with Dual<N>, or N flights at once with Lanes<N>.
//
// Lanes<N> stands on the vector extension of GCC and clang. Each operation is the same IEEE operation in
// every lane, so a lane's bits depend neither on N nor on its neighbours nor on how wide the machine's
// registers are.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <limits>
#ifdef __SSE2__
#include <emmintrin.h>
#endif

#include "quantity/dual.hpp"

// GCC notes that wide vectors pass differently with and without wide registers; all of it is inlined here.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"
#endif

#define STRIKEWRIGHT_INLINE inline __attribute__((always_inline))

/// Compiles a function twice, for any x86-64 and for one with 256-bit registers; the machine chooses at the
/// first call. `flatten` draws everything that it calls into both. Elsewhere (other compilers, WebAssembly,
/// sanitizers, which the choosing code cannot run under) it means nothing.
#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define STRIKEWRIGHT_WIDE __attribute__((target_clones("arch=x86-64-v3", "default"), flatten))
#else
#define STRIKEWRIGHT_WIDE
#endif

namespace strikewright {

// ---- One number: conditions are bool.
// -----------------------------------------------------------------------------

/// `yes` where the condition holds, else `no`. Both are computed; with dual numbers only the chosen one's
/// slopes count.
template <class T>
STRIKEWRIGHT_INLINE T select(bool condition, const T& yes, const T& no) {
  return condition ? yes : no;
}
STRIKEWRIGHT_INLINE bool any(bool condition) { return condition; }

/// The scalar that carries the values of T without slopes, and the type of its conditions.
template <class T>
struct ScalarOf {
  using Plain = double;
  using Mask = bool;
};
template <class T>
using Plain = typename ScalarOf<T>::Plain;
template <class T>
using Mask = typename ScalarOf<T>::Mask;

STRIKEWRIGHT_INLINE double plain(double x) { return x; }
template <int N>
STRIKEWRIGHT_INLINE double plain(const Dual<N>& x) {
  return x.a;
}

// ---- Lanes.
// -------------------------------------------------------------------------------------------------------

/// The registers behind N lanes, one by one: compilers do not take a vector's size from a template's argument
/// in all places.
template <int N>
struct LaneStore;
template <>
struct LaneStore<2> {
  typedef double Values __attribute__((vector_size(16)));
  typedef std::int64_t Bits __attribute__((vector_size(16)));
};
template <>
struct LaneStore<4> {
  typedef double Values __attribute__((vector_size(32)));
  typedef std::int64_t Bits __attribute__((vector_size(32)));
};
template <>
struct LaneStore<8> {
  typedef double Values __attribute__((vector_size(64)));
  typedef std::int64_t Bits __attribute__((vector_size(64)));
};

/// N conditions: every bit of a lane is set where it holds.
template <int N>
struct LaneMask {
  using Bits = typename LaneStore<N>::Bits;
  Bits bits{};

  [[nodiscard]] STRIKEWRIGHT_INLINE bool at(int lane) const { return bits[lane] != 0; }
  STRIKEWRIGHT_INLINE friend LaneMask operator&(const LaneMask& a, const LaneMask& b) {
    return {a.bits & b.bits};
  }
  STRIKEWRIGHT_INLINE friend LaneMask operator|(const LaneMask& a, const LaneMask& b) {
    return {a.bits | b.bits};
  }
  STRIKEWRIGHT_INLINE friend LaneMask operator!(const LaneMask& a) { return {~a.bits}; }
};

template <int N>
STRIKEWRIGHT_INLINE bool any(const LaneMask<N>& mask) {
  typename LaneStore<2>::Bits pairs[N / 2];
  std::memcpy(pairs, &mask.bits, sizeof(pairs));
  typename LaneStore<2>::Bits all = pairs[0];
  for (int i = 1; i < N / 2; ++i) all |= pairs[i];
  return (all[0] | all[1]) != 0;
}

/// N doubles; N is 2, 4 or 8.
template <int N>
struct Lanes {
  using Values = typename LaneStore<N>::Values;
  Values v{};

  Lanes() = default;
  STRIKEWRIGHT_INLINE Lanes(double x)
      : v{x - Values{}} {}  // NOLINT: a number is the same number in every lane
  STRIKEWRIGHT_INLINE explicit Lanes(const Values& values) : v{values} {}

  [[nodiscard]] STRIKEWRIGHT_INLINE double at(int lane) const { return v[lane]; }
  STRIKEWRIGHT_INLINE void set(int lane, double x) { v[lane] = x; }

  STRIKEWRIGHT_INLINE Lanes operator-() const { return Lanes(-v); }
  STRIKEWRIGHT_INLINE friend Lanes operator+(const Lanes& a, const Lanes& b) { return Lanes(a.v + b.v); }
  STRIKEWRIGHT_INLINE friend Lanes operator-(const Lanes& a, const Lanes& b) { return Lanes(a.v - b.v); }
  STRIKEWRIGHT_INLINE friend Lanes operator*(const Lanes& a, const Lanes& b) { return Lanes(a.v * b.v); }
  STRIKEWRIGHT_INLINE friend Lanes operator/(const Lanes& a, const Lanes& b) { return Lanes(a.v / b.v); }
  STRIKEWRIGHT_INLINE Lanes& operator+=(const Lanes& b) { return *this = *this + b; }
  STRIKEWRIGHT_INLINE Lanes& operator-=(const Lanes& b) { return *this = *this - b; }
  STRIKEWRIGHT_INLINE Lanes& operator*=(const Lanes& b) { return *this = *this * b; }
  STRIKEWRIGHT_INLINE Lanes& operator/=(const Lanes& b) { return *this = *this / b; }
  STRIKEWRIGHT_INLINE friend LaneMask<N> operator<(const Lanes& a, const Lanes& b) { return {a.v < b.v}; }
  STRIKEWRIGHT_INLINE friend LaneMask<N> operator>(const Lanes& a, const Lanes& b) { return {a.v > b.v}; }
  STRIKEWRIGHT_INLINE friend LaneMask<N> operator<=(const Lanes& a, const Lanes& b) { return {a.v <= b.v}; }
  STRIKEWRIGHT_INLINE friend LaneMask<N> operator>=(const Lanes& a, const Lanes& b) { return {a.v >= b.v}; }
};

template <int N>
struct ScalarOf<Lanes<N>> {
  using Plain = Lanes<N>;
  using Mask = LaneMask<N>;
};
template <int N>
STRIKEWRIGHT_INLINE const Lanes<N>& plain(const Lanes<N>& x) {
  return x;
}

template <int N>
STRIKEWRIGHT_INLINE Lanes<N> select(const LaneMask<N>& condition, const Lanes<N>& yes, const Lanes<N>& no) {
  using Bits = typename LaneMask<N>::Bits;
  using Values = typename Lanes<N>::Values;
  return Lanes<N>((Values)((condition.bits & (Bits)yes.v) | (~condition.bits & (Bits)no.v)));
}

template <int N>
STRIKEWRIGHT_INLINE Lanes<N> abs(const Lanes<N>& x) {
  using Bits = typename LaneMask<N>::Bits;
  const Bits sign = Bits{} + std::numeric_limits<std::int64_t>::max();
  return Lanes<N>((typename Lanes<N>::Values)((Bits)x.v & sign));
}

/// Correctly rounded, as IEEE wants it. @param x >= 0
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> sqrt(const Lanes<N>& x) {
  Lanes<N> y;
#ifdef __SSE2__
  // Compilers do not join lone roots into wide ones. Two at a time cost no more each than four.
  __m128d pairs[N / 2];
  std::memcpy(pairs, &x.v, sizeof(pairs));
  for (int i = 0; i < N / 2; ++i) pairs[i] = _mm_sqrt_pd(pairs[i]);
  std::memcpy(&y.v, pairs, sizeof(pairs));
#else
  for (int i = 0; i < N; ++i) y.v[i] = __builtin_sqrt(x.v[i]);
#endif
  return y;
}

namespace lanes {

/// Nearest whole number, halves to even, |x| < 2^51: adding 1.5 * 2^52 leaves no bits after the point.
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> nearest(const Lanes<N>& x) {
  const Lanes<N> magic(6755399441055744.0);
  return (x + magic) - magic;
}

/// The low bits of a whole number held in a double, |x| < 2^51.
template <int N>
STRIKEWRIGHT_INLINE typename LaneMask<N>::Bits whole(const Lanes<N>& x) {
  return (typename LaneMask<N>::Bits)((x + Lanes<N>(6755399441055744.0)).v);
}

}  // namespace lanes

/// e^x. Error below 2 units in the last place for -708 < x < 709; 0 below, infinity above.
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> exp(const Lanes<N>& x) {
  using Bits = typename LaneMask<N>::Bits;
  using Values = typename Lanes<N>::Values;
  const Lanes<N> held =
      select(x > Lanes<N>(709.0), Lanes<N>(709.0), select(x < Lanes<N>(-708.0), Lanes<N>(-708.0), x));
  const Lanes<N> k = lanes::nearest(held * Lanes<N>(1.4426950408889634));
  // ln 2 in two parts, the first with zeros at its end: k times it is exact.
  const Lanes<N> r =
      (held - k * Lanes<N>(6.93147180369123816490e-01)) - k * Lanes<N>(1.90821492927058770002e-10);
  Lanes<N> p(1.0 / 6227020800.0);  // Taylor to r^13: |r| <= 0.347, the rest is below 5e-18
  for (const double c : {1.0 / 479001600.0, 1.0 / 39916800.0, 1.0 / 3628800.0, 1.0 / 362880.0, 1.0 / 40320.0,
                         1.0 / 5040.0, 1.0 / 720.0, 1.0 / 120.0, 1.0 / 24.0, 1.0 / 6.0, 0.5}) {
    p = p * r + Lanes<N>(c);
  }
  const Lanes<N> near = Lanes<N>(1.0) + (r + r * r * p);
  const Lanes<N> scaled((Values)((Bits)near.v + (lanes::whole(k) << 52)));
  const Lanes<N> high =
      select(x > Lanes<N>(709.0), Lanes<N>(std::numeric_limits<double>::infinity()), scaled);
  return select(x < Lanes<N>(-708.0), Lanes<N>(0.0), high);
}

/// Natural logarithm. Error below 2 units in the last place for normal x > 0; not for 0, negative or
/// subnormal x.
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> log(const Lanes<N>& x) {
  using Bits = typename LaneMask<N>::Bits;
  using Values = typename Lanes<N>::Values;
  // x = 2^k m, m in sqrt(1/2)..sqrt(2): the exponent is taken relative to sqrt(1/2).
  const Bits offset = Bits{} + 0x3fe6a09e667f3bcdLL;
  const Bits shifted = ((Bits)x.v - offset) >> 52;
  const Lanes<N> m((Values)((Bits)x.v - (shifted << 52)));
  const Bits magic_bits = Bits{} + 0x4338000000000000LL;
  const Lanes<N> k = Lanes<N>((Values)(shifted + magic_bits)) - Lanes<N>(6755399441055744.0);
  // ln m = f - s (f - R), s = f / (2 + f): f = m - 1 is exact, what is added to it is small (as 2 atanh(s)).
  const Lanes<N> f = m - Lanes<N>(1.0);
  const Lanes<N> s = f / (Lanes<N>(2.0) + f);
  const Lanes<N> z = s * s;
  Lanes<N> p(2.0 / 23.0);  // 2 atanh(s)/s - 2 in powers of s^2: |s| <= 0.172, the rest is below 1e-20
  for (const double c : {2.0 / 21.0, 2.0 / 19.0, 2.0 / 17.0, 2.0 / 15.0, 2.0 / 13.0, 2.0 / 11.0, 2.0 / 9.0,
                         2.0 / 7.0, 2.0 / 5.0, 2.0 / 3.0}) {
    p = p * z + Lanes<N>(c);
  }
  const Lanes<N> small = k * Lanes<N>(1.90821492927058770002e-10) - s * (f - z * p);
  return k * Lanes<N>(6.93147180369123816490e-01) + (f + small);
}

namespace lanes {

/// Sine and cosine of r + quarter turns; |r| <= pi/4. Taylor to r^17 and r^16: the rest is below 1e-18.
template <int N>
struct Turned {
  Lanes<N> sine, cosine;
  typename LaneMask<N>::Bits quarter;
};
template <int N>
STRIKEWRIGHT_INLINE Turned<N> turned(const Lanes<N>& x) {
  const Lanes<N> k = nearest(x * Lanes<N>(0.63661977236758134308));
  // pi/2 in three parts, the first two with zeros at their ends: exact products for |k| < 2^20.
  Lanes<N> r = x - k * Lanes<N>(1.57079632673412561417e+00);
  r = r - k * Lanes<N>(6.07710050630396597660e-11);
  r = r - k * Lanes<N>(2.02226624879595063154e-21);
  const Lanes<N> z = r * r;
  Lanes<N> s(1.0 / 355687428096000.0);
  for (const double c : {-1.0 / 1307674368000.0, 1.0 / 6227020800.0, -1.0 / 39916800.0, 1.0 / 362880.0,
                         -1.0 / 5040.0, 1.0 / 120.0, -1.0 / 6.0}) {
    s = s * z + Lanes<N>(c);
  }
  Lanes<N> c(1.0 / 20922789888000.0);
  for (const double d :
       {-1.0 / 87178291200.0, 1.0 / 479001600.0, -1.0 / 3628800.0, 1.0 / 40320.0, -1.0 / 720.0, 1.0 / 24.0}) {
    c = c * z + Lanes<N>(d);
  }
  return {r + r * z * s, Lanes<N>(1.0) - (Lanes<N>(0.5) * z - z * z * c), whole(k)};
}

/// One of the two by the parity of the quarter, with the sign of its second bit.
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> by_quarter(const Turned<N>& t, const typename LaneMask<N>::Bits& quarter) {
  using Bits = typename LaneMask<N>::Bits;
  const LaneMask<N> odd{(Bits)((quarter & 1) == 1)};
  const LaneMask<N> back{(Bits)((quarter & 2) == 2)};
  const Lanes<N> y = select(odd, t.cosine, t.sine);
  return select(back, -y, y);
}

}  // namespace lanes

/// Sine and cosine [rad], absolute error below 2.5e-16 for |x| < 1e5.
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> sin(const Lanes<N>& x) {
  const auto t = lanes::turned(x);
  return lanes::by_quarter(t, t.quarter);
}
template <int N>
STRIKEWRIGHT_INLINE Lanes<N> cos(const Lanes<N>& x) {
  const auto t = lanes::turned(x);
  return lanes::by_quarter<N>(t, t.quarter + 1);
}

}  // namespace strikewright
