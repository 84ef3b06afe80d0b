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
    constexpr double kGrazing = -0.98;  // over the top of the ball: a miss
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
  using std::asin;
  using std::cos;
  const double usual_centre = ball_lift + ball.radius;
  const T centre = usual_centre + d.ball_sits;
  const auto gap = [&]<class S>(const S& angle, const auto& pose) {
    const EdgePlace<S> e = edge_at(pose.arc, angle, pose.lift);
    return S(
        e.x -
        detail::touch_at(pose.n, pose.toe, pose.up, pose.strike_toe, e.z, ball.radius, pose.centre).x_edge);
  };
  using Slope = Dual<1>;
  const auto plain = [](const Vec3<T>& v) {
    return Vec3<Slope>(Slope(value_of(v.x())), Slope(value_of(v.y())), Slope(value_of(v.z())));
  };
  struct Pose {
    Arc<Slope> arc;
    Vec3<Slope> n, toe, up;
    Slope strike_toe, lift, centre;
  } const here{{Slope(value_of(d.arc.radius)), Slope(value_of(d.arc.tilt)), Slope(value_of(d.arc.direction)),
                Slope(value_of(d.arc.low_point)), Slope(value_of(d.arc.low_point_depth))},
               plain(d.normal_W),
               plain(d.toe_W),
               plain(d.up_W),
               Slope(value_of(d.strike_toe)),
               Slope(value_of(path_lift)),
               Slope(value_of(centre))};
  double angle = asin(std::clamp(-value_of(d.arc.low_point) / value_of(d.arc.radius), -0.7, 0.7));
  double slope = 1.0;
  for (int step = 0; step < 12; ++step) {
    const Slope g = gap(Slope(angle, 0), here);
    slope = std::max(g.v[0], 0.1 * here.arc.radius.a);
    const double change = std::clamp(g.a / slope, -0.2, 0.2);
    angle = std::clamp(angle - change, -1.2, 1.2);
    if (std::abs(change) < 1e-13) break;
  }
  struct Full {
    Arc<T> arc;
    Vec3<T> n, toe, up;
    T strike_toe, lift, centre;
  } const full{d.arc, d.normal_W, d.toe_W, d.up_W, d.strike_toe, path_lift, centre};
  Meeting<T> m;
  m.arc_angle = T(angle) - gap(T(angle), full) / slope;
  const EdgePlace<T> edge = edge_at(d.arc, m.arc_angle, path_lift);
  const auto touch = detail::touch_at(d.normal_W, d.toe_W, d.up_W, d.strike_toe, edge.z, ball.radius, centre);
  m.edge_along = edge.x;
  m.edge_height = edge.z;
  m.strike_up = touch.strike_up;
  m.bladed = touch.bladed;
  m.missed = touch.missed;
  Vec3<T> normal = touch.normal;
  if (!m.bladed) {
    // A curved face: open toward the toe by toe distance over bulge, more loft by height over roll.
    if (club.bulge > 0.0) normal += (d.strike_toe / club.bulge) * d.toe_W;
    if (club.roll > 0.0) normal += ((m.strike_up - club.face_up_middle) / club.roll) * d.up_W;
    using std::sqrt;
    normal /= sqrt(normal.squaredNorm());
  }
  m.normal_W = normal;
  m.point_W = Vec3<T>(T(0.0), T(0.0), centre) - ball.radius * normal;
  return m;
}

}  // namespace strikewright
