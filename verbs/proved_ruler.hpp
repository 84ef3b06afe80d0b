#pragma once
// The ruler of what an exercise is to move.

#include "quantity/angle.hpp"
#include "verbs/given_swings.hpp"
#include "verbs/lesson_words.hpp"

namespace strikewright {

/// Centimetres or inches for the low point, millimetres or inches for its depth, degrees.
inline Ruler ruler_of(const Proved& proved, UnitSystem units) {
  if (proved.member == &Reported::low_point) return ground_ruler(units, 0.0);
  if (proved.member == &Reported::low_point_depth) return face_ruler(units);
  return kDegrees;
}

}  // namespace strikewright
