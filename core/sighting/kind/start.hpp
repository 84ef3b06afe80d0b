#pragma once
// Start direction of the ball, right +; as a number, or left / straight / right.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

/// Where the coach stands adds about half a degree for the whole lesson, hence the bias; assumption.
struct Start {
  static constexpr Facts facts{.kind = Kind::start,
                               .column = "start",
                               .measure = Measure::angle,
                               .needs = Needs::ball,
                               .mirror = Mirror::yes,
                               .sd = 1.5 * kDegree,
                               .bias = 0.6,
                               .low = -60 * kDegree,
                               .high = 60 * kDegree,
                               .source = "assumption: by eye 1.5 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.azimuth;
  }
};

/// far_left < -5 deg < left < -1.5 deg < straight < 1.5 deg < right < 5 deg < far_right, each edge as soft as
/// the eye (1.5 deg). Assumption: at 1.5 deg a ball starts 4 m beside a flag 150 m away.
struct StartWord {
  static constexpr Facts facts{.kind = Kind::start_word,
                               .column = "start",
                               .measure = Measure::word,
                               .needs = Needs::ball,
                               .mirror = Mirror::yes,
                               .bias = Start::facts.bias,
                               .source = "assumption"};
  static WordScale scale(const Setting&) {
    return {5,
            {"far_left", "left", "straight", "right", "far_right"},
            {-5 * kDegree, -1.5 * kDegree, 1.5 * kDegree, 5 * kDegree},
            1.5 * kDegree};
  }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting& setting) {
    return Start::latent(shot, setting);
  }
};

}  // namespace strikewright::kind
