#pragma once
// What is common to all kinds: how a kind describes itself.

#include <array>
#include <cmath>
#include <span>
#include <string_view>

#include "shot/shot.hpp"
#include "sighting/kinds.hpp"

namespace strikewright {

/// What a column's number is, so that the right unit endings are accepted.
enum class Measure { angle, small_length, long_length, speed, spin, count, word };

enum class Needs { nothing, ball, flight };
/// What changes for a left-hander when what was seen is brought into the right-hander's frame.
enum class Mirror { no, yes };

/// A coach's eye for one kind of sighting, or the chain about it, may be off by a constant: normal, standard
/// deviation in units of the sighting's own scale. Assumption.
inline constexpr double kEyeBias = 0.5;

/// A kind describes itself. SI, radians.
struct Facts {
  Kind kind;
  const char* column;  ///< without the unit's ending: "divot_start"
  Measure measure;
  Needs needs = Needs::nothing;
  Mirror mirror = Mirror::no;
  double sd = 0.0;               ///< default absolute part of the scale
  double share = 0.0;            ///< default relative part
  double model = 0.0;            ///< the model's own, absolute: of how far a mark runs out
  double model_share = 0.0;      ///< the model's own, relative: of flight
  double bias = kEyeBias;        ///< more where the chain itself is far from sure
  double low = 0.0, high = 0.0;  ///< accepted values; outside is absurd
  const char* source = "";       ///< where the default comes from
};

inline constexpr std::size_t kMostWords = 5;

/// Ordered words with soft edges on one latent: P(word k) = F((edge[k] - x) / soft) - F((edge[k-1] - x) /
/// soft), F logistic, edge[-1] = -infinity, edge[last] = +infinity. `soft` is the standard deviation of the
/// coach's eye.
struct WordScale {
  std::size_t count = 0;
  std::array<const char*, kMostWords> words{};  ///< ascending latent
  std::array<double, kMostWords - 1> edges{};   ///< ascending, count - 1 of them
  double soft = 1.0;                            ///< > 0
};

/// x where x is large, smoothly 0 below; width [same unit] of the bend. Slope 0..1.
template <class T>
T soft_positive(const T& x, double width) {
  using std::sqrt;
  return 0.5 * (x + sqrt(x * x + width * width));
}

}  // namespace strikewright
