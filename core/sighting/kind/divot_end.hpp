#pragma once
// Where the divot ends, ahead of the ball +.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct DivotEnd {
  static constexpr Facts facts{.kind = Kind::divot_end,
                               .column = "divot_end",
                               .measure = Measure::small_length,
                               .sd = 0.030,
                               .low = -1.0,
                               .high = 1.0,
                               .source = "assumption: 30 mm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.end;
  }
};

}  // namespace strikewright::kind
