#pragma once
// Where the face, or the leading edge, meets the ball.

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "delivery/delivery.hpp"
#include "quantity/dual.hpp"

namespace strikewright {

/// The instant of contact between club and ball.
template <class T>
struct Meeting {
  T arc_angle{};     ///< rad along the arc from its low point, negative before it
  T edge_along{};    ///< m, x of the leading edge (middle of the grooves)
  T edge_height{};   ///< m, z of the leading edge
  T strike_up{};     ///< m, up the face; negative: how far the face's own contact would lie under the leading
                     ///< edge
  Vec3<T> normal_W;  ///< unit outward normal at the contact point, the face's curvature included
  Vec3<T> point_W;   ///< m, contact point
  bool bladed = false;  ///< the leading edge met the ball, not the face
  bool missed =
      false;  ///< the leading edge passes over the ball (the normal then points straight down, nearly)
};

/// Horizontal place [m, x] and height [m, z] of the leading edge at an angle [rad] along the arc, the path
/// raised by `lift` [m].
template <class T>
struct EdgePlace {
  T x{}, z{};
};
template <class T>
EdgePlace<T> edge_at(const Arc<T>& arc, const T& angle, const T& lift) {
  using std::cos;
  using std::sin;
  // (1 - cos b) written so that nothing cancels near the low point.
  const T half = sin(0.5 * angle);
  const T rise = arc.radius * (2.0 * half * half);
  return {arc.low_point + arc.radius * sin(angle) * cos(arc.direction) +
              rise * cos(arc.tilt) * sin(arc.direction),
          arc.low_point_depth + rise * sin(arc.tilt) + lift};
}

namespace detail {

/// Everything about the contact except along-arc position, for a leading edge at height z.
template <class T>
struct Touch {
  T x_edge{}, strike_up{};
  Vec3<T> normal;
  bool bladed = false, missed = false;
};

template <class T>
Touch<T> touch_at(const Vec3<T>& n, const Vec3<T>& toe, const Vec3<T>& up, const T& strike_toe, const T& z,
                  double radius, const std::type_identity_t<T>& centre_height) {
  using std::asin;
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  Touch<T> touch;
  const T z_here = z + strike_toe * toe.z();  // the leading edge under the strike point
  touch.strike_up = (centre_height - radius * n.z() - z_here) / up.z();
  touch.normal = n;
  T reach = touch.strike_up * up.x();
  if (value_of(touch.strike_up) < 0.0) {
    // The leading edge meets the ball: the normal stays square to the edge and turns down from the face
    // normal.
    touch.bladed = true;
    const T amplitude = sqrt(n.z() * n.z() + up.z() * up.z());
    T share = (centre_height - z_here) / (radius * amplitude);
    constexpr double kGrazing = -0.98;               // over the top of the ball: a miss
    const bool laid_back = value_of(up.z()) <= 0.0;  // more than 90 deg of loft: there is no face to hit with
    if (value_of(share) < kGrazing || laid_back) {
      touch.missed = true;
      share = T(kGrazing);
    }
    const T turn = atan2(n.z(), up.z()) - asin(share);
    touch.normal = cos(turn) * n - sin(turn) * up;
    reach = T(0.0);
  }
  touch.x_edge = -radius * touch.normal.x() - reach - strike_toe * toe.x();
  return touch;
}

/// What the equation of contact depends on, in one scalar type.
template <class T>
struct ContactPose {
  Arc<T> arc;
  Vec3<T> n, toe, up;
  T strike_toe{}, lift{}, centre{};
};

template <class T>
ContactPose<Dual<1>> without_slopes(const ContactPose<T>& p) {
  using S = Dual<1>;
  const auto plain = [](const T& x) { return S(value_of(x)); };
  const auto vector = [&](const Vec3<T>& v) { return Vec3<S>(plain(v.x()), plain(v.y()), plain(v.z())); };
  return {{plain(p.arc.radius), plain(p.arc.tilt), plain(p.arc.direction), plain(p.arc.low_point),
           plain(p.arc.low_point_depth)},
          vector(p.n),
          vector(p.toe),
          vector(p.up),
          plain(p.strike_toe),
          plain(p.lift),
          plain(p.centre)};
}

/// How far [m] the leading edge at this arc angle is past the place where face or edge would touch the ball.
template <class T>
T past_contact(const ContactPose<T>& p, const T& angle, double radius) {
  const EdgePlace<T> e = edge_at(p.arc, angle, p.lift);
  return e.x - touch_at(p.n, p.toe, p.up, p.strike_toe, e.z, radius, p.centre).x_edge;
}

/// Arc angle of contact: Newton steps on plain values, then one step that carries the slopes.
template <class T>
T contact_angle(const ContactPose<T>& pose, double radius) {
  const ContactPose<Dual<1>> here = without_slopes(pose);
  double angle = std::asin(std::clamp(-here.arc.low_point.a / here.arc.radius.a, -0.7, 0.7));
  double slope = 1.0;
  for (int step = 0; step < 12; ++step) {
    const Dual<1> past = past_contact(here, Dual<1>(angle, 0), radius);
    slope = std::max(past.v[0], 0.1 * here.arc.radius.a);
    const double change = std::clamp(past.a / slope, -0.2, 0.2);
    angle = std::clamp(angle - change, -1.2, 1.2);
    if (std::abs(change) < 1e-13) break;
  }
  return angle - past_contact(pose, T(angle), radius) / slope;
}

/// A curved face turns the normal: open toward the toe by toe distance over bulge, more loft by height over
/// roll.
template <class T>
Vec3<T> curved(const Delivery<T>& d, const Club& club, const T& strike_up, Vec3<T> normal) {
  using std::sqrt;
  if (club.bulge > 0.0) normal += (d.strike_toe / club.bulge) * d.toe_W;
  if (club.roll > 0.0) normal += ((strike_up - club.face_up_middle) / club.roll) * d.up_W;
  return normal / sqrt(normal.squaredNorm());
}

}  // namespace detail

/// Where face and ball meet when the leading edge's arc is raised by `path_lift`.
///
/// The pose is the delivery's (it does not turn further over the few millimetres in question); the leading
/// edge moves on the delivery's arc; the ball's centre is at (0, 0, ball_lift + d.ball_sits + radius). Root
/// of one equation in the arc angle, solved by Newton steps on plain values and one step with slopes, which
/// gives exact first derivatives.
///
/// @param ball_lift [m] height of the ball's lowest point over the turf   @param path_lift [m]
template <class T>
Meeting<T> meet(const Delivery<T>& d, const Club& club, const Ball& ball, double ball_lift,
                const T& path_lift) {
  const double usual_centre = ball_lift + ball.radius;
  const T centre = usual_centre + d.ball_sits;
  const detail::ContactPose<T> pose{d.arc, d.normal_W, d.toe_W, d.up_W, d.strike_toe, path_lift, centre};
  Meeting<T> m;
  m.arc_angle = detail::contact_angle(pose, ball.radius);
  const EdgePlace<T> edge = edge_at(d.arc, m.arc_angle, path_lift);
  const auto touch = detail::touch_at(d.normal_W, d.toe_W, d.up_W, d.strike_toe, edge.z, ball.radius, centre);
  m.edge_along = edge.x;
  m.edge_height = edge.z;
  m.strike_up = touch.strike_up;
  m.bladed = touch.bladed;
  m.missed = touch.missed;
  m.normal_W = m.bladed ? touch.normal : detail::curved(d, club, m.strike_up, touch.normal);
  m.point_W = Vec3<T>(T(0.0), T(0.0), centre) - ball.radius * m.normal_W;
  return m;
}

}  // namespace strikewright
