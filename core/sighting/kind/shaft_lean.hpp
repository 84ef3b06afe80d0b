#pragma once
// Forward lean of the shaft at contact, face-on.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct ShaftLean {
  static constexpr Facts facts{.kind = Kind::shaft_lean,
                               .column = "shaft_lean",
                               .measure = Measure::angle,
                               .sd = 2 * kDegree,
                               .low = -45 * kDegree,
                               .high = 45 * kDegree,
                               .source =
                                   "assumption: from a face-on clip of 240 frames/s 2 deg (by eye 4 deg: say "
                                   "so in sure_shaft_lean_deg)"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.lean;
  }
};

}  // namespace strikewright::kind
