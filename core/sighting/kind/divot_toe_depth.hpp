#pragma once
// Toe side of the divot minus heel side, toe deeper +; in millimetres, or toe / even / heel.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct DivotToeDepth {
  static constexpr Facts facts{.kind = Kind::divot_toe_depth,
                               .column = "divot_toe_depth",
                               .measure = Measure::small_length,
                               .sd = 0.004,
                               .low = -0.08,
                               .high = 0.08,
                               .source = "assumption: 4 mm, as the depth"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.toe_depth;
  }
};

/// heel < -2 mm < even < 2 mm < toe (deeper), edges soft by 2.5 mm. Assumption.
struct ToeHeelWord {
  static constexpr Facts facts{
      .kind = Kind::toe_heel_word, .column = "toe_heel", .measure = Measure::word, .source = "assumption"};
  static WordScale scale(const Setting&) { return {3, {"heel", "even", "toe"}, {-0.002, 0.002}, 0.0025}; }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.toe_depth;
  }
};

}  // namespace strikewright::kind
