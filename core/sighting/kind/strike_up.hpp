#pragma once
// Strike mark up the face from the leading edge.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct StrikeUp {
  static constexpr Facts facts{.kind = Kind::strike_up,
                               .column = "strike_up",
                               .measure = Measure::small_length,
                               .needs = Needs::ball,
                               .sd = 0.003,
                               .low = -0.03,
                               .high = 0.08,
                               .source = "assumption: strike mark 3 mm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.strike_up;
  }
};

}  // namespace strikewright::kind
