#pragma once
// From the flail to the numbers of the pass.

#include <cmath>

#include "delivery/delivery.hpp"
#include "delivery/meet.hpp"
#include "delivery/pose.hpp"
#include "swing/bulk.hpp"
#include "swing/run.hpp"
#include "swing/swing.hpp"

namespace strikewright {

/// What a swing does at the ball, without turf.
template <class T>
struct Passing {
  Pass<T> pass;          ///< the numbers that delivery_of takes
  T arc_radius{};        ///< m, |v|^3 / |v x a| of the leading edge at contact
  T turn_radius{};       ///< m, club speed over the club's in-plane angular speed at contact
  T low_point_radius{};  ///< m, radius of curvature at the low point
  T attack{}, path{};    ///< rad, of the head's centre of mass at contact
  FlailRun<T> run;       ///< release, contact, low point, trace
};

namespace detail {

/// World place and velocity of something in the plane: base line turned by the plane direction, slope up to
/// the golfer.
template <class T>
struct PlaneAxes {
  Vec3<T> along, slope, normal;
};

template <class T>
PlaneAxes<T> plane_axes(const T& tilt, const T& direction) {
  using std::cos;
  using std::sin;
  const Vec3<T> along(cos(direction), -sin(direction), T(0.0));
  const Vec3<T> slope(cos(tilt) * sin(direction), cos(tilt) * cos(direction), sin(tilt));
  return {along, slope, along.cross(slope)};
}

template <class T>
T radius_of(const PlanePoint<T>& p) {
  const T v2 = p.v.squaredNorm();
  using std::sqrt;
  return v2 * sqrt(v2) / (p.v[0] * p.a[1] - p.v[1] * p.a[0]);
}

/// Axes of the face, and the arm from the leading edge to the head's centre of mass, for a club angle in the
/// plane.
template <class T>
struct FacePose {
  Vec3<T> normal, up, toe, shaft, edge_to_com;
};

template <class T>
FacePose<T> face_pose(const Swing<T>& s, const Club& club, const T& club_angle) {
  const T tilt = s.flail.plane_tilt + s.stance.lie_offset;
  const Mat3<T> turn =
      pose_of<T>(club.lie, tilt, s.stance.face.contact, T(-club_angle), s.stance.plane_direction);
  const double sl = std::sin(club.loft), cl = std::cos(club.loft);
  FacePose<T> f{.normal = turn * Vec3<T>(T(cl), T(0.0), T(sl)),
                .up = turn * Vec3<T>(T(-sl), T(0.0), T(cl)),
                .toe = turn * Vec3<T>(T(0.0), T(-1.0), T(0.0)),
                .shaft = turn * Vec3<T>(T(0.0), T(std::cos(club.lie)), T(std::sin(club.lie))),
                .edge_to_com = {}};
  f.edge_to_com = club.com_up * f.up + club.com_toe * f.toe - club.com_depth * f.normal;
  return f;
}

}  // namespace detail

/// How far [m, x] the leading edge is past the place where the face meets the ball, with the edge at `p` in
/// the plane (from the turf under the ball) and the club at its angle.
template <class T>
T past_contact(const Swing<T>& s, const Club& club, const Ball& ball, double ball_lift, const Vec2<T>& p,
               const T& club_angle) {
  const auto axes = detail::plane_axes<T>(s.flail.plane_tilt, s.stance.plane_direction);
  const detail::FacePose<T> f = detail::face_pose(s, club, club_angle);
  const Vec3<T> edge = p[0] * axes.along + p[1] * axes.slope;
  return edge.x() - detail::touch_at(f.normal, f.toe, f.up, s.stance.strike_toe, edge.z(), ball.radius,
                                     T(ball_lift + ball.radius))
                        .x_edge;
}

/// Runs the swing to the ball and through its low point.
///
/// Contact: the leading edge is where the face, at its pose of that moment and at the edge's height of that
/// moment, touches the ball. For a square face that is x = -(R cos(loft) - s sin(loft)) with s the strike's
/// height up the face; where the edge is too high for the face it is the edge itself that touches (touch_at
/// in meet.hpp). One root of one function along the motion, so height, pose and place agree. Low point: root
/// of the leading edge's height rate on the free motion, before or after the ball. In-plane lean = -(club
/// angle) at contact; face-on lean by face_on_lean with the shaft's tilt. Slopes: exact to first order, with
/// the contact's own time.
///
/// @param ball_lift [m] the ball's lowest point over the turf
/// @returns a Fault when the swing cannot be or never passes ball and low point
template <class T>
Result<Passing<T>> passing_of(const Swing<T>& s, const Club& club, const Ball& ball, double ball_lift,
                              RunOptions options = {}) {
  using std::sqrt;
  const Stance<T>& stance = s.stance;
  const auto axes = detail::plane_axes<T>(s.flail.plane_tilt, stance.plane_direction);
  const Vec2<T> hub(stance.hub_along, stance.hub_up);
  const auto contact = [&](const Vec2<T>& p, const T& club_angle) {
    return past_contact<T>(s, club, ball, ball_lift, hub + p, club_angle);
  };
  options.end = End::contact;
  auto run = run_flail(s.flail, options, contact);
  if (!run) return unexpected(run.error());

  const Moment<T>& m = run->contact;
  const PlanePoint<T> edge = point_at(s.flail, m, s.flail.club.length);
  const PlanePoint<T> low = point_at(s.flail, run->low_point, s.flail.club.length);
  const detail::FacePose<T> f = detail::face_pose(s, club, m.club);
  const Vec3<T> turning = m.club_rate * axes.normal + stance.face.closing_rate * f.shaft;
  const Vec3<T> v = edge.v[0] * axes.along + edge.v[1] * axes.slope + turning.cross(f.edge_to_com);
  const Vec2<T> deepest = hub + low.p;
  const Vec3<T> lowest = deepest[0] * axes.along + deepest[1] * axes.slope;
  const T speed = sqrt(v.squaredNorm());
  Passing<T> out{.pass = {.club_speed = speed,
                          .plane_direction = stance.plane_direction,
                          .plane_tilt = s.flail.plane_tilt,
                          .low_point = lowest.x(),
                          .low_point_depth = lowest.z(),
                          .shaft_lean = face_on_lean(T(-m.club), T(s.flail.plane_tilt + stance.lie_offset)),
                          .face_turn = stance.face.contact,
                          .strike_toe = stance.strike_toe,
                          .lie_offset = stance.lie_offset,
                          .closing_rate = stance.face.closing_rate},
                 .arc_radius = detail::radius_of(edge),
                 .turn_radius = speed / m.club_rate,
                 .low_point_radius = detail::radius_of(low),
                 .attack = elevation_of(v),
                 .path = azimuth_of(v),
                 .run = {}};
  out.run = std::move(*run);
  return out;
}

/// The plane that touches the true contact at one swing, for swings_of.
/// @param at  what passing_of made of the same swing
inline ContactLine contact_line_of(const Swing<double>& s, const Passing<double>& at, const Club& club,
                                   const Ball& ball, double ball_lift) {
  using D = Dual<3>;
  const Vec2<double> edge = Vec2<double>(s.stance.hub_along, s.stance.hub_up) +
                            point_at(s.flail, at.run.contact, s.flail.club.length).p;
  Swing<D> slopes;
  slopes.flail.plane_tilt = D(s.flail.plane_tilt);
  slopes.stance.plane_direction = D(s.stance.plane_direction);
  slopes.stance.lie_offset = D(s.stance.lie_offset);
  slopes.stance.strike_toe = D(s.stance.strike_toe);
  slopes.stance.face.contact = D(s.stance.face.contact);
  const D gap = past_contact<D>(slopes, club, ball, ball_lift, Vec2<D>(D(edge[0], 0), D(edge[1], 1)),
                                D(at.run.contact.club, 2));
  return {.along = edge[0],
          .up = edge[1],
          .club = at.run.contact.club,
          .per_up = -gap.v[1] / gap.v[0],
          .per_club = -gap.v[2] / gap.v[0]};
}

}  // namespace strikewright
