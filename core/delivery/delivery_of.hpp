#pragma once
// From the numbers of the pass to the club at contact.

#include <cmath>

#include "delivery/delivery.hpp"
#include "delivery/meet.hpp"
#include "delivery/pose.hpp"

namespace strikewright {

/// Butt to the middle of the hands [m] (swing.md 2.3: 0.08 to 0.12 below the butt).
inline constexpr double kHandsBelowButt = 0.10;

namespace detail {

template <class T>
void place_club(const Pass<T>& p, const Club& club, Delivery<T>& d) {
  using std::asin;
  const T tilt = p.plane_tilt + p.lie_offset;
  const Mat3<T> turn =
      pose_of<T>(club.lie, tilt, p.face_turn, in_plane_lean(p.shaft_lean, tilt), p.plane_direction);
  const double sl = std::sin(club.loft), cl = std::cos(club.loft);
  d.normal_W = turn * Vec3<T>(T(cl), T(0.0), T(sl));
  d.up_W = turn * Vec3<T>(T(-sl), T(0.0), T(cl));
  d.toe_W = turn * Vec3<T>(T(0.0), T(-1.0), T(0.0));
  d.shaft_W = turn * Vec3<T>(T(0.0), T(std::cos(club.lie)), T(std::sin(club.lie)));
  const Vec3<T> inertia = club.inertia.template cast<T>();
  d.inertia_W = turn * inertia.asDiagonal() * turn.transpose();
  const Vec3<T> sole = turn * Vec3<T>(T(-std::cos(club.bounce)), T(0.0), T(-std::sin(club.bounce)));
  d.sole_to_ground = asin(-sole.z());
  d.lie = asin(d.toe_W.z());
  d.lean = p.shaft_lean;
  d.closing_rate = p.closing_rate;
}

template <class T>
void move_club(const Pass<T>& p, const Club& club, const T& arc_angle, const T& turn_rate, Delivery<T>& d) {
  using std::cos;
  using std::sin;
  using std::sqrt;
  const Vec3<T> along(cos(p.plane_direction), -sin(p.plane_direction), T(0.0));
  const Vec3<T> slope(cos(p.plane_tilt) * sin(p.plane_direction), cos(p.plane_tilt) * cos(p.plane_direction),
                      sin(p.plane_tilt));
  const Vec3<T> plane_normal = along.cross(slope);
  d.w_WH_W = turn_rate * plane_normal + p.closing_rate * d.shaft_W;
  const Vec3<T> edge_to_com = club.com_up * d.up_W + club.com_toe * d.toe_W - club.com_depth * d.normal_W;
  const Vec3<T> spin_part = d.w_WH_W.cross(edge_to_com);
  const Vec3<T> heading = cos(arc_angle) * along + sin(arc_angle) * slope;
  // The leading edge's speed that gives the centre of mass the stated speed.
  const T overlap = heading.dot(spin_part);
  const T room = overlap * overlap - spin_part.squaredNorm() + p.club_speed * p.club_speed;
  // A club that barely moves but turns fast has no such speed: the edge then stands still.
  const T edge_speed = value_of(room) > 0.0 ? T(-overlap + sqrt(room)) : T(0.0);
  d.v_WH_W = edge_speed * heading + spin_part;
  d.attack = elevation_of(d.v_WH_W);
  d.path = azimuth_of(d.v_WH_W);
  d.exposed_bounce = d.sole_to_ground - d.attack;
}

}  // namespace detail

/// The club at contact from the numbers of its pass.
///
///     pose: pose_of;  arc of the leading edge: radius club.arc_radius x exp(arc) in the plane (tilt,
///     direction); attack and path: direction of the centre of mass's velocity = leading edge along the arc +
///     w x (edge to centre); w = club_speed / club.turn_radius about the plane's normal + closing rate about
///     the shaft.
///
/// For a point on the arc itself sin(attack) = sin(b) sin(tilt), path - direction = -atan(tan(b) cos(tilt)),
/// low point ahead of contact = -r sin(b) (T. Jorgensen, The Physics of Golf, 1994; geometry, exact).
///
/// @param ball_lift [m] the ball's lowest point over the turf
/// @pre club_speed > 0, 0 < plane_tilt < pi/2, club.turn_radius > 0
template <class T>
Delivery<T> delivery_of(const Pass<T>& p, const Club& club, const Ball& ball, double ball_lift) {
  using std::exp;
  Delivery<T> d;
  d.arc = {T(club.arc_radius * exp(p.arc)), p.plane_tilt, p.plane_direction, p.low_point, p.low_point_depth};
  d.strike_toe = p.strike_toe;
  d.ball_sits = p.ball_sits;
  d.turf_factor = exp(p.turf);
  d.lift_factor = exp(p.turf_lift);
  d.shaft_factor = exp(p.shaft_time);
  detail::place_club(p, club, d);
  const Meeting<T> m = meet(d, club, ball, ball_lift, T(0.0));
  detail::move_club(p, club, m.arc_angle, T(p.club_speed / club.turn_radius), d);
  d.edge_along = m.edge_along;
  d.edge_height = m.edge_height;
  d.strike_up = m.strike_up;
  d.face = azimuth_of(m.bladed ? d.normal_W : m.normal_W);
  d.loft = elevation_of(m.bladed ? d.normal_W : m.normal_W);
  const T shaft_foot = m.edge_along - club.heel_reach * d.toe_W.x();
  d.handle_lead = shaft_foot + (club.length - kHandsBelowButt) * d.shaft_W.x();
  return d;
}

}  // namespace strikewright
