#pragma once
// Tilt of the spin axis from a measuring device, curving right +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct SpinAxis {
  static constexpr Facts facts{.kind = Kind::spin_axis,
                               .column = "spin_axis",
                               .measure = Measure::angle,
                               .needs = Needs::ball,
                               .mirror = Mirror::yes,
                               .sd = 3 * kDegree,
                               .low = -90 * kDegree,
                               .high = 90 * kDegree,
                               .source = "assumption: device 3 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.axis_tilt;
  }
};

}  // namespace strikewright::kind
