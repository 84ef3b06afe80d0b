#pragma once
// Spin of the ball from a measuring device.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Spin {
  static constexpr Facts facts{.kind = Kind::spin,
                               .column = "spin",
                               .measure = Measure::spin,
                               .needs = Needs::ball,
                               .sd = 400 * kRpm,
                               .low = 0,
                               .high = 20000 * kRpm,
                               .source = "assumption: device 400 rpm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.spin;
  }
};

}  // namespace strikewright::kind
