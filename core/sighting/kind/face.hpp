#pragma once
// Face angle from a measuring device, open +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Face {
  static constexpr Facts facts{.kind = Kind::face,
                               .column = "face",
                               .measure = Measure::angle,
                               .sd = 1.5 * kDegree,
                               .low = -60 * kDegree,
                               .high = 60 * kDegree,
                               .source = "assumption: device 1.5 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.face;
  }
};

}  // namespace strikewright::kind
