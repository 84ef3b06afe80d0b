#pragma once
// Where the divot ends, ahead of the ball +: where turf is last seen to be missing.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// The edge leaves the ground with a run-out that bruises and cuts no turf: marks differ by `model` beyond
/// the eye. How far that is taken for the mark is one thing for a turf and a coach, and no mean of ten marks
/// finds it: once the scale, with the eye's own. How far the sole glides is the pass's (turf_lift,
/// shaft_time). All: assumption.
struct DivotEnd {
  static constexpr Facts facts{.kind = Kind::divot_end,
                               .column = "divot_end",
                               .measure = Measure::small_length,
                               .sd = 0.025,
                               .model = 0.025,
                               .bias = 1.0,
                               .low = -1.0,
                               .high = 1.0,
                               .source = "assumption: 25 mm, and 25 mm of the model"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.end;
  }
};

}  // namespace strikewright::kind
