#pragma once
// Ball speed off the face from a measuring device.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct BallSpeed {
  static constexpr Facts facts{.kind = Kind::ball_speed,
                               .column = "ball_speed",
                               .measure = Measure::speed,
                               .needs = Needs::ball,
                               .sd = 1.0,
                               .low = 0,
                               .high = 100,
                               .source = "assumption: device 1 m/s"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.speed;
  }
};

}  // namespace strikewright::kind
