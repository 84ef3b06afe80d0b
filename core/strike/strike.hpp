#pragma once
// What turf and ball do to the club, and what the club does to the ball.

#include "bag/club.hpp"
#include "bag/surface.hpp"
#include "delivery/delivery.hpp"

namespace strikewright {

/// How the ground resists. All of it is wide and adjustable (docs/models.md, turf).
struct Ground {
  Surface surface = Surface::fairway;
  double strength = 1.0;  ///< times the surface's own cutting force; the coach's "how hard is it today"
};

/// The ball as it leaves the face.
template <class T>
struct Launch {
  Vec3<T> v_WB_W;  ///< m/s
  Vec3<T> w_WB_W;  ///< rad/s
  T speed{};       ///< m/s
  T elevation{};   ///< rad, launch angle
  T azimuth{};     ///< rad, start direction, right +
  T spin{};        ///< rad/s, size of the spin
  T axis_tilt{};   ///< rad, spin axis tilt in the launch frame, fade (ball curves right) +
};

/// The turf mark.
template <class T>
struct Divot {
  bool any = false;  ///< is there a mark at all (plain value; likelihoods use `depth`, which is smooth)
  T start{}, end{};  ///< m along the target line from the ball's centre
  T direction{};     ///< rad, right +
  T depth{};         ///< m, deepest, deeper +; negative = how far the sole stayed above the turf
  T deepest_at{};    ///< m along the target line
  T toe_depth{};     ///< m, toe side minus heel side, toe deeper +
};

/// Turf and ball together.
template <class T>
struct Strike {
  Launch<T> launch;
  Divot<T> divot;
  T speed_left{};               ///< head speed at the ball over free head speed, 1 = no turf before the ball
  T turf_before{};              ///< m2, area of the turf section cut before the ball (0 = ball first)
  T attack_at_ball{};           ///< rad, after the turf
  T strike_toe{}, strike_up{};  ///< m, where the ball met the face; strike_up < 0 = leading edge met the ball
  T edge_height{};              ///< m, leading edge over the turf at the ball
  T grass{};                    ///< 0..1, how much grass is between face and ball
  T energy_lost{};       ///< share of the head's kinetic energy that the turf took, before and after the ball
  Vec3<T> v_WH_after_W;  ///< m/s, head's centre of mass just after the ball
  bool sliding = false;  ///< the ball slid on the face to the end
  bool missed = false;   ///< the leading edge passed over the ball
  bool bladed = false;   ///< the leading edge, not the face, met the ball
  bool off_face = false;  ///< past the heel (shank), past the toe or over the top line
};

}  // namespace strikewright
