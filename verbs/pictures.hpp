#pragma once
// What a reading looks like: clouds, arcs, marks, all in the player's terms and ready to be drawn.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "reading/lesson.hpp"

namespace strikewright {

/// What the pictures need to know of the swings beyond their reading; as many as the lesson's swings, or
/// none.
struct SwingNames {
  std::vector<std::string> ids;
  std::vector<int> numbers;
};

/// The picture of one pattern: docs/contract.md, `pictures[]`. Clouds are draws of its swings' readings, at
/// most kCloud of them, the same number from each swing.
/// @param pattern  index into lesson.patterns
nlohmann::ordered_json picture_of(const LessonReading& lesson, std::size_t pattern,
                                  const std::vector<SeenSwing>& seen, const SwingNames& names, bool ball);

inline constexpr std::size_t kCloud = 120, kArcs = 20;

/// The leading edge's free arc as points (x, z) in mm, a hand's breadth to either side of the ball and of the
/// low point.
nlohmann::ordered_json arc_points(const Pass<double>& pass, double arc_radius);

/// Rounded so that documents stay small: to 0.1 mm, 0.01 degrees, and so on.
/// @param step  1 over a whole number
double rounded(double value, double step);

/// The clubface from the front: `blade {length_mm, height_mm, grooves, first_groove_mm, groove_spacing_mm}`.
nlohmann::ordered_json blade_of(const Club& club);

}  // namespace strikewright
