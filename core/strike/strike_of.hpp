#pragma once
// Turf, ball, turf: the whole strike from the club's delivery.

#include "strike/strike.hpp"

namespace strikewright {

/// What the delivery does to turf and ball.
///
///     turf before the ball (turf.hpp) -> where face and ball meet with the head lifted and slowed (meet) ->
///     face normal with the face's curvature -> restitution (club's law at the closing speed of face and
///     ball, times the ball's own) -> grass lowers friction -> impulse (impulse.hpp) -> turf after the ball
///     -> mark (mark.hpp)
///
/// Grass between face and ball: g = g0 + (1 - g0)(1 - exp(-A / 1 cm2)), A = section of turf cut before the
/// ball, g0 of the surface. Friction = (1 - g) club's + g covered; restitution times (1 - g cushion).
/// Assumptions. Beyond the heel's reach the normal turns right by up to 50 deg over 10 mm and restitution
/// halves (shank); beyond the toe and over the top line restitution falls to 0.3 times over 10 mm.
/// Assumptions, continuous. A leading edge that passes over the ball: the launch fades to nothing over 2 mm
/// and `missed` says so.
///
/// @param with_ball  false: a swing over a chalk line; the same turf, no impulse, launch all zero
/// @pre  delivery as `delivery_of` makes it with the ball on this ground (ball_lift_on); speed over 1 m/s
/// Slopes are finite everywhere; they jump where the face turns to leading edge and where sticking turns to
/// sliding. Defined for T = double and Dual<kPassSize>.
template <class T>
Strike<T> strike_of(const Delivery<T>& delivery, const Club& club, const Ball& ball, const Ground& ground,
                    bool with_ball = true);

}  // namespace strikewright
