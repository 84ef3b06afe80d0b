#pragma once
// Delivered loft from a measuring device.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Loft {
  static constexpr Facts facts{.kind = Kind::loft,
                               .column = "loft",
                               .measure = Measure::angle,
                               .sd = 2 * kDegree,
                               .low = -20 * kDegree,
                               .high = 85 * kDegree,
                               .source = "assumption: device 2 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.loft;
  }
};

}  // namespace strikewright::kind
