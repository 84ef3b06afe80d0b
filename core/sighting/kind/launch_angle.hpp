#pragma once
// Launch angle of the ball from a measuring device, up +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct LaunchAngle {
  static constexpr Facts facts{.kind = Kind::launch_angle,
                               .column = "launch_angle",
                               .measure = Measure::angle,
                               .needs = Needs::ball,
                               .sd = 1 * kDegree,
                               .low = -45 * kDegree,
                               .high = 85 * kDegree,
                               .source = "assumption: device 1 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.elevation;
  }
};

}  // namespace strikewright::kind
