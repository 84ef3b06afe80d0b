#pragma once
// What a coach writes down of what can be seen. Errors and habits are this file's own assumptions: how people
// look, remember and round; none is taken from the tool.

#include <array>
#include <vector>

#include "sighting/sighting.hpp"
#include "traced_world_player.hpp"

namespace traced_world {

enum class Looking { clean, biased, slips };

/// A coach in one lesson.
struct Eye {
  double care = 1.0;  ///< times every error
  bool marks_in_numbers = true, flight_in_numbers = true, counts_grooves = false;
  double least_depth = 0.001;                       ///< m of cut from which turf looks torn
  double straight = 0.03, far = 0.1;                ///< rad, limits of his words for the start
  double no_curve = 3.0, big_curve = 12.0;          ///< m
  double even = 0.002;                              ///< m between toe and heel side
  double at_ball = 0.015;                           ///< m about the ball
  double fat_from = 0.03;                           ///< m of turf before the ball
  double slips = 0.0;                               ///< share of gross slips
  std::array<double, strikewright::kKinds> bias{};  ///< constant error, in units of the kind's noise
};
[[nodiscard]] Eye eye_of(Looking looking, Draws& draws);

/// One swing as written down, in the right-hander's frame.
/// @param full  clip and measuring device, too   @param before  what was written of the swing before
[[nodiscard]] std::vector<strikewright::Sighting> looked_at(const Seeable& shot, const Base& base,
                                                            double side, const Eye& eye, bool full,
                                                            const std::vector<strikewright::Sighting>& before,
                                                            Draws& draws);

}  // namespace traced_world
