#pragma once
// Club speed at contact from a measuring device.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct ClubSpeed {
  static constexpr Facts facts{.kind = Kind::club_speed,
                               .column = "club_speed",
                               .measure = Measure::speed,
                               .sd = 1.0,
                               .low = 0,
                               .high = 70,
                               .source = "assumption: device 1 m/s"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.pass.club_speed;
  }
};

}  // namespace strikewright::kind
