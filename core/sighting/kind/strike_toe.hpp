#pragma once
// Strike mark toward the toe from the middle of the grooves.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct StrikeToe {
  static constexpr Facts facts{.kind = Kind::strike_toe,
                               .column = "strike_toe",
                               .measure = Measure::small_length,
                               .needs = Needs::ball,
                               .sd = 0.003,
                               .low = -0.08,
                               .high = 0.08,
                               .source = "assumption: strike mark 3 mm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.strike_toe;
  }
};

}  // namespace strikewright::kind
