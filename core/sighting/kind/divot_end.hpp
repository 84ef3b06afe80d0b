#pragma once
// Where the divot ends, ahead of the ball +: where turf is last seen to be missing.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// The edge leaves the ground with a run-out that bruises and cuts no turf, and how much the sole glides is
/// known to nobody: the mark of the model is up to twice as long as those that were measured
/// (docs/models/strike.md), and as the banknote, 15 cm, that a good iron's mark is likened to (common
/// practice, no source). So of its length kShown is seen, and marks differ by `model` beyond the eye. How far
/// a mark is seen is one thing for a pupil, his turf and his coach, and no mean of ten marks finds it: a
/// quarter of 15 to 20 cm, with the eye's own 1.4 of the scale. All: assumption.
struct DivotEnd {
  static constexpr double kShown = 0.8;
  static constexpr Facts facts{.kind = Kind::divot_end,
                               .column = "divot_end",
                               .measure = Measure::small_length,
                               .sd = 0.025,
                               .model = 0.025,
                               .bias = 1.4,
                               .low = -1.0,
                               .high = 1.0,
                               .source = "assumption: 25 mm, and 25 mm of the model"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.start + kShown * (shot.strike.divot.end - shot.strike.divot.start);
  }
};

}  // namespace strikewright::kind
