#pragma once
// Where the divot begins, ahead of the ball +; in millimetres, or before / at / after.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct DivotStart {
  static constexpr Facts facts{
      .kind = Kind::divot_start,
      .column = "divot_start",
      .measure = Measure::small_length,
      .sd = 0.025,
      .low = -1.0,
      .high = 0.5,
      .source = "assumption: by eye 25 mm (with a tape 10 mm: say so in sure_divot_start_mm)"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.start;
  }
};

/// before < -15 mm < at < 15 mm < after, edges soft by 12 mm. Assumption: `at` is within a ball's radius or
/// so.
struct DivotBeginsWord {
  static constexpr Facts facts{.kind = Kind::divot_begins_word,
                               .column = "divot_begins",
                               .measure = Measure::word,
                               .source = "assumption"};
  static WordScale scale(const Setting&) { return {3, {"before", "at", "after"}, {-0.015, 0.015}, 0.012}; }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.start;
  }
};

}  // namespace strikewright::kind
