#pragma once
// A lesson's reading in the coach's words.

#include <string>
#include <vector>

#include "quantity/angle.hpp"
#include "quantity/unit.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// Centimetres for lengths along the ground, millimetres on the face; inches where yards are wanted.
struct Ruler {
  double scale;      ///< SI units in one shown unit
  int places;        ///< decimals
  const char* unit;  ///< "cm"
};
/// @param width  of the interval that is shown [m]: a narrow one gets a decimal
Ruler ground_ruler(UnitSystem units, double width);
Ruler face_ruler(UnitSystem units);
inline constexpr Ruler kDegrees{kDegree, 0, "degrees"};

/// "3", without sign and unit.
std::string size_on(const Ruler& ruler, double value);
/// "3 cm", "1 degree", without sign.
std::string measured_on(const Ruler& ruler, double value);
/// Would it be shown as 0?
bool is_nought(const Ruler& ruler, double value);

/// The words for + and - of a quantity, and for neither.
struct Sides {
  const char *plus, *minus, *at;
};
/// "3 cm behind the ball".
std::string placed(const Ruler& ruler, double value, const Sides& sides);
/// "80 % sure between 1 and 5 cm behind", "80 % sure between 2 cm behind and 1 cm ahead".
std::string between(const Ruler& ruler, double low, double high, const char* plus, const char* minus);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& names);

/// "weight on the lead leg", "feet together"; "as usual".
const char* phrase_of(Condition condition);

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
