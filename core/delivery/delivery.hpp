#pragma once
// What the club does at contact: pose, velocity and local arc.

#include "bag/club.hpp"
#include "quantity/frame.hpp"

namespace strikewright {

/// The numbers that say how the club passes through the ball (docs/models.md, delivery). This is what a
/// reading estimates. SI, radians, signs of the glossary for a right-hander.
template <class T>
struct Pass {
  T club_speed{};       ///< m/s, head's centre of mass at contact, before the turf takes any
  T plane_direction{};  ///< rad, right of the target +
  T plane_tilt{};       ///< rad, inclination of the arc's plane to the horizontal
  T low_point{};        ///< m, ahead of the ball's centre along the target line +
  T low_point_depth{};  ///< m, height of the leading edge's lowest point over the turf, up +
  T shaft_lean{};       ///< rad, face-on, forward +
  T face_turn{};        ///< rad about the shaft since the reference grip, closing +
  T strike_toe{};       ///< m, toward the toe from the middle of the grooves
  // Nuisances: not reported, but not known either.
  T lie_offset{};    ///< rad, tilt of the shaft minus tilt of the arc at contact
  T closing_rate{};  ///< rad/s, rate of the face turn at contact
  T ball_sits{};     ///< m, how much higher than the surface's usual the ball lies
  T turf{};          ///< natural logarithm of today's turf resistance over the surface's usual
  T turf_lift{};   ///< natural logarithm of how much turf is ploughed under the sole over the usual: it lifts
  T shaft_time{};  ///< natural logarithm of the time in which the head is brought back over the usual
  T arc{};         ///< natural logarithm of the arc's radius over the club's usual
};

/// Gives a pass what another one's ball, ground and hands were like: what no change of the swing changes.
template <class T>
void take_circumstances(const Pass<T>& from, Pass<T>& pass) {
  pass.ball_sits = from.ball_sits;
  pass.turf = from.turf;
  pass.turf_lift = from.turf_lift;
  pass.shaft_time = from.shaft_time;
}

/// The leading edge's free arc: a circle in the swing plane.
template <class T>
struct Arc {
  T radius{};           ///< m
  T tilt{};             ///< rad
  T direction{};        ///< rad, right +
  T low_point{};        ///< m, x of the lowest point (world), ahead of the ball +
  T low_point_depth{};  ///< m, z of the lowest point (world)
};

/// The club at contact, as if no turf were there. Computed by delivery_of (delivery_of.hpp).
template <class T>
struct Delivery {
  // Pose: axes of the face frame in the world.
  Vec3<T> normal_W;   ///< unit outward normal of the face plane (at face_up_middle, middle of the grooves)
  Vec3<T> toe_W;      ///< unit, along the grooves toward the toe
  Vec3<T> up_W;       ///< unit, up the face
  Vec3<T> shaft_W;    ///< unit, from the head to the handle
  Mat3<T> inertia_W;  ///< kg m2 about the head's centre of mass
  // Motion at free contact (as if no turf were there).
  Vec3<T> v_WH_W;  ///< m/s, head's centre of mass
  Vec3<T> w_WH_W;  ///< rad/s
  Arc<T> arc;
  // Where the leading edge is when the face (or, bladed, the leading edge) meets the ball, without turf.
  T edge_along{};   ///< m, x of the leading edge (middle of the grooves)
  T edge_height{};  ///< m, z of the leading edge
  T strike_toe{};   ///< m, strike point toward the toe
  T strike_up{};    ///< m, strike point up the face; negative = under the leading edge, i.e. bladed
  // What a coach calls it.
  T attack{}, path{}, face{}, loft{}, lie{}, lean{};  ///< rad; face and loft at the strike point
  T handle_lead{};                                    ///< m, hands ahead of the ball's centre
  T exposed_bounce{};  ///< rad, sole to its velocity in the vertical plane through the velocity; > 0 lifts
  T sole_to_ground{};  ///< rad, bounce that is left to the ground (trailing edge down +)
  T closing_rate{};    ///< rad/s about the shaft
  // Of the ground, not of the club: carried along from the pass.
  T ball_sits{};           ///< m, ball higher than the surface's usual
  T turf_factor = T(1.0);  ///< times the surface's usual turf resistance
  T lift_factor = T(1.0);  ///< times the turf that is ploughed under the sole
  // Of the hands: carried along, too.
  T shaft_factor = T(1.0);  ///< times the usual time in which hands and shaft bring the head back
};

}  // namespace strikewright
