#pragma once
// Carry, straight from ball to landing.

#include "sighting/facts.hpp"

namespace strikewright::kind {

/// Range balls, the ball's age, the air: all carries of a lesson may be off by one spread for them, hence the
/// bias.
struct Carry {
  static constexpr Facts facts{.kind = Kind::carry,
                               .column = "carry",
                               .measure = Measure::long_length,
                               .needs = Needs::flight,
                               .sd = 0.5,
                               .share = 0.08,
                               .model_share = 0.03,
                               .bias = 1.0,
                               .low = 0,
                               .high = 400,
                               .source = "assumption: by eye 8 %; and 3 % spread of the flight model"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.flight.carry;
  }
};

}  // namespace strikewright::kind
