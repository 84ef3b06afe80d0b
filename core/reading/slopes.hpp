#pragma once
// The chain with slopes, from the coordinates of a prior.

#include "quantity/dual.hpp"
#include "reading/prior.hpp"
#include "shot/shot.hpp"

namespace strikewright {

using PassSlopes = Dual<kPassSize>;

/// The shot at standard-normal coordinates `z`, its slopes along the numbers of kPriorRows; fast flight.
Shot<PassSlopes> shot_with_slopes(const Prior& prior, const Coordinates& z, const Setting& setting,
                                  bool with_flight);

/// The slope of one of its numbers along the coordinates, `factor` the prior's at that place.
inline Coordinates along(const Factor& factor, const PassSlopes& number) {
  return factor.transpose() * number.v;
}

}  // namespace strikewright
