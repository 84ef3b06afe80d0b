#pragma once
// Where the divot points, right +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

/// Where the coach stands adds about a degree for the whole lesson, hence the bias; assumption.
struct DivotDirection {
  static constexpr Facts facts{.kind = Kind::divot_direction,
                               .column = "divot_direction",
                               .measure = Measure::angle,
                               .mirror = Mirror::yes,
                               .sd = 3 * kDegree,
                               .bias = 0.6,
                               .low = -60 * kDegree,
                               .high = 60 * kDegree,
                               .source =
                                   "assumption: by eye 3 deg (with a stick on the ground 1.5 deg: say so in "
                                   "sure_divot_direction_deg)"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.direction;
  }
};

}  // namespace strikewright::kind
