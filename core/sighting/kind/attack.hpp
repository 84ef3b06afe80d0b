#pragma once
// Attack angle from a measuring device, up +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Attack {
  static constexpr Facts facts{.kind = Kind::attack,
                               .column = "attack",
                               .measure = Measure::angle,
                               .sd = 1 * kDegree,
                               .low = -30 * kDegree,
                               .high = 30 * kDegree,
                               .source = "assumption: device 1 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.attack;
  }
};

}  // namespace strikewright::kind
