#pragma once
// The four stages in a row: delivery, strike, flight. What comes out of each is kept.

#include "delivery/delivery.hpp"
#include "flight/flight.hpp"
#include "strike/strike.hpp"

namespace strikewright {

/// Everything about a swing's surroundings that is not the swing. Right-hander's frame: for a left-hander use
/// `mirrored` or mirror at the door.
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
  Delivery<T> delivery;  ///< by delivery_of
  Strike<T> strike;      ///< by strike_of
  Flight<T> flight;      ///< by flight_of; zero without a ball, with a miss, or when not asked for
  bool flew = false;     ///< a ball was there and was hit
};

}  // namespace strikewright
