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
#include <limits>

#include "quantity/dual.hpp"

// GCC notes that wide vectors pass differently with and without wide registers; all of it is inlined here.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"
#endif

#define STRIKEWRIGHT_INLINE inline __attribute__((always_inline))

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

}  // namespace strikewright
