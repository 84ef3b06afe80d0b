#pragma once
// From a downswing to a shot: pose of the club, turf, impact and flight by laws of their own.
//
// World: x to the target, y left of it, z up, origin on the turf under the ball's centre.

#include <Eigen/Core>

#include "other_world_swing.hpp"

namespace other_world {

using Three = Eigen::Vector3d;

/// How the swing's plane and the club in it are turned. A right-hander's terms; a left-hander's world is the
/// mirror of it (side = -1).
struct Pose {
  double tilt = 0.0;       ///< rad, of the plane
  double direction = 0.0;  ///< rad, of the plane, right +
  double toe_up = 0.0;     ///< rad, shaft steeper than the plane
  double face_turn = 0.0;  ///< rad about the shaft, closing +
  double closing = 0.0;    ///< rad/s about the shaft
  double toe = 0.0;        ///< m, where on the face, toe +
  double side = 1.0;       ///< -1: a left-hander
};

/// What the club does at the ball. Angles right + in the world.
struct Delivered {
  double low_point = 0.0, low_depth = 0.0, lean = 0.0, attack = 0.0, path = 0.0, face = 0.0, loft = 0.0;
  double speed = 0.0, edge_height = 0.0;  ///< of the free leading edge under the ball's centre
};

struct Mark {
  bool cut = false;  ///< there is a mark to measure
  double start = 0.0, end = 0.0, depth = 0.0, direction = 0.0;
  double before_ball = 0.0;  ///< m2 of turf's section cut before the ball
};

struct Flown {
  bool flew = false;
  double carry = 0.0, curve = 0.0, apex = 0.0;
};

struct Seeable {
  Delivered club;
  Mark mark;
  Flown flight;
  double start = 0.0, launch = 0.0, ball_speed = 0.0, spin = 0.0;
  double strike_toe = 0.0, strike_up = 0.0, edge_at_contact = 0.0;
};

/// What the free club does: no turf, no ball.
[[nodiscard]] Delivered delivered(const Downswing& swing, const Pose& pose, const strikewright::Club& club);

/// The whole shot.
[[nodiscard]] Seeable shot(const Downswing& swing, const Pose& pose, const strikewright::Club& club);

}  // namespace other_world
