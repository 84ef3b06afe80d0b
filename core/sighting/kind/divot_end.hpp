#pragma once
// Where the divot ends, ahead of the ball +: where turf is last seen to be missing.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// The edge leaves the ground with a run-out that bruises and cuts no turf, and how much the sole glides is
/// known to nobody: the mark of the model is up to twice as long as those that were measured
/// (docs/models/strike.md), and as the banknote, 15 cm, that a good iron's mark is likened to (common
/// practice, no source). So of its length kShown is seen, and `model_share` of where it ends is not known.
/// Both: assumption.
struct DivotEnd {
  static constexpr double kShown = 0.8;
  static constexpr Facts facts{.kind = Kind::divot_end,
                               .column = "divot_end",
                               .measure = Measure::small_length,
                               .sd = 0.030,
                               .model_share = 0.2,
                               .low = -1.0,
                               .high = 1.0,
                               .source = "assumption: 30 mm and 20 %"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.start + kShown * (shot.strike.divot.end - shot.strike.divot.start);
  }
};

}  // namespace strikewright::kind
