#pragma once
// A lesson's reading in the coach's words.

#include <string>

#include "quantity/unit.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// Plain sentences about one club and condition: low point, turf, lean and loft, path and face, strike, how
/// sure.
/// @param club  the club itself, for its own loft
/// @param ball  false: swings at a chalk line; it takes the ball's place, and nothing is said of strike or
/// curve
std::string sentences_of(const Pattern& pattern, const Club& club, bool ball, UnitSystem units);

/// "7i, 12 swings", "7i, left-handed, weight on the lead leg, 3 swings".
std::string heading_of(const Pattern& pattern);

/// One sentence on how far the readings' own arithmetic can be trusted; "" when there is nothing to say.
std::string health_sentence(const LessonReading& lesson);

}  // namespace strikewright
