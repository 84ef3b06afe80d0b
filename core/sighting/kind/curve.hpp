#pragma once
// Curve of the flight, landing point right of where the start direction points +; as a number or in words.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// Air that moves across by 0.6 m/s is felt by nobody (assumption) and moves a 7-iron's ball by 2 m
/// (core/flight), all lesson long: hence the bias.
struct Curve {
  static constexpr Facts facts{.kind = Kind::curve,
                               .column = "curve",
                               .measure = Measure::long_length,
                               .needs = Needs::flight,
                               .mirror = Mirror::yes,
                               .sd = 3.0,
                               .share = 0.20,
                               .bias = 0.8,
                               .low = -150,
                               .high = 150,
                               .source = "assumption: by eye 3 m and 20 %"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.flight.curve;
  }
};

/// Curve as a share of the carry (10 m more, so that a topped ball has one too): big_left < -7 % < left < -2
/// % < none < 2 % < right < 7 % < big_right, edges soft by 1.5 %. Assumption: at 150 m carry the edges lie at
/// 3 m and 11 m.
struct CurveWord {
  static constexpr Facts facts{.kind = Kind::curve_word,
                               .column = "curve",
                               .measure = Measure::word,
                               .needs = Needs::flight,
                               .mirror = Mirror::yes,
                               .bias = Curve::facts.bias,
                               .source = "assumption"};
  static WordScale scale(const Setting&) {
    return {5, {"big_left", "left", "none", "right", "big_right"}, {-0.07, -0.02, 0.02, 0.07}, 0.015};
  }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.flight.curve / (soft_positive(shot.flight.carry, 1.0) + 10.0);
  }
};

}  // namespace strikewright::kind
