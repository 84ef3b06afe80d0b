#pragma once
// Where the divot begins, ahead of the ball +; in millimetres, or before / at / after.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// The edge comes down by a millimetre in a centimetre or so, and presses leaf before it cuts turf: it is
/// missing from about a centimetre behind where the edge enters, a twentieth of the mark's length. From just
/// where is one thing for a turf and a coach. Assumption.
template <class T>
T turf_missing_from(const Shot<T>& shot) {
  constexpr double kPressed = 0.05;
  return shot.strike.divot.start + kPressed * (shot.strike.divot.end - shot.strike.divot.start);
}

struct DivotStart {
  static constexpr Facts facts{
      .kind = Kind::divot_start,
      .column = "divot_start",
      .measure = Measure::small_length,
      .sd = 0.025,
      .bias = 0.7,
      .low = -1.0,
      .high = 0.5,
      .source = "assumption: by eye 25 mm (with a tape 10 mm: say so in sure_divot_start_mm)"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return turf_missing_from(shot);
  }
};

/// before < -15 mm < at < 15 mm < after, edges soft by 12 mm. Assumption: `at` is within a ball's radius or
/// so, and from just where a coach says so lasts his lesson.
struct DivotBeginsWord {
  static constexpr Facts facts{.kind = Kind::divot_begins_word,
                               .column = "divot_begins",
                               .measure = Measure::word,
                               .bias = 1.0,
                               .source = "assumption"};
  static WordScale scale(const Setting&) { return {3, {"before", "at", "after"}, {-0.015, 0.015}, 0.012}; }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return turf_missing_from(shot);
  }
};

}  // namespace strikewright::kind
