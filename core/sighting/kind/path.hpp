#pragma once
// Club path from a measuring device, in to out +.

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Path {
  static constexpr Facts facts{.kind = Kind::path,
                               .column = "path",
                               .measure = Measure::angle,
                               .sd = 1.5 * kDegree,
                               .low = -45 * kDegree,
                               .high = 45 * kDegree,
                               .source = "assumption: device 1.5 deg"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.path;
  }
};

}  // namespace strikewright::kind
