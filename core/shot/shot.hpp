#pragma once
// The four stages in a row: delivery, strike, flight (and the swing before them when it is known).

#include "delivery/delivery.hpp"
#include "flight/flight.hpp"
#include "strike/strike.hpp"

namespace strikewright {

/// Everything about a swing's surroundings that is not the swing.
struct Setting {
  Club club;
  Ball ball;
  Ground ground;
  Day day;
  bool with_ball = true;  ///< no ball: a swing at a chalk line, only the turf answers
};

template <class T>
struct Shot {
  Pass<T> pass;
  Delivery<T> delivery;
  Strike<T> strike;
  Flight<T> flight;
  bool flew = false;  ///< a ball was there, was hit and flew
};

/// The whole forward chain from the numbers of the pass.
/// `with_flight` false leaves `flight` at zero (start direction and launch need none of it).
template <class T>
Shot<T> shot_of(const Pass<T>& pass, const Setting& setting, bool with_flight = true);

}  // namespace strikewright
