#pragma once
// What turf, ball and air make of a traced swing. World frame: right of the target +, for both hands. Numbers
// without a source are assumptions.

#include <vector>

#include "traced_world_swing.hpp"

namespace traced_world {

/// The day and the ground, the same for a lesson; a coach does not write them down.
struct Ground {
  double head_wind = 0.0, cross_wind = 0.0;  ///< m/s, against the ball; to the right
  double heavy = 1.0;      ///< times the turf's drag and lift: moist and thick, or dry and thin
  double friction = 0.33;  ///< ball on face, 0.3 to 0.4 clean and dry; from memory
};

/// The turf mark as it is in the ground.
struct Mark {
  bool cut = false;
  double start = 0.0, end = 0.0;  ///< m from the ball, along the target line
  double depth = 0.0;             ///< m, deepest
  double toe_depth = 0.0;         ///< m, toe side minus heel side
  double direction = 0.0;         ///< rad, right +
  std::vector<double> at, deep;   ///< the bottom line: m from the ball, m under the surface
};

struct Flight {
  double carry = 0.0, apex = 0.0, curve = 0.0;  ///< m; curve right +
};

/// All that can be seen of one swing.
struct Seeable {
  Delivered club;              ///< player's terms
  double toe = 0.0, up = 0.0;  ///< m on the face, where the ball was really struck
  double turf_before = 0.0;    ///< m of turf cut before the ball was reached
  double slowed = 1.0;         ///< club's speed at the ball over that without turf
  bool topped = false, shank = false;
  double ball_speed = 0.0, launch = 0.0, start = 0.0, spin = 0.0, spin_axis = 0.0;
  Flight flight;
  Mark mark;
};

/// @param cell m, step of the cut and s * 1e-3, step of the flight
[[nodiscard]] Seeable shot(const Trace& trace, const Ground& ground, double cell = 1e-3);

}  // namespace traced_world
