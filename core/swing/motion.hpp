#pragma once
// The flail's equations of motion: hub, torques, accelerations, energy. Angles and axes as in
// swing/flail.hpp.

#include <cmath>

#include "swing/flail.hpp"

namespace strikewright {

/// The hub's place in the plane relative to where it started, and how it moves.
template <class T>
struct HubMotion {
  Vec2<T> p = Vec2<T>::Zero();  ///< m; (along the base line, up the slope)
  Vec2<T> v = Vec2<T>::Zero();  ///< m/s
  Vec2<T> a = Vec2<T>::Zero();  ///< m/s2
};

namespace detail {

template <class T>
void add_move(const HubMove<T>& m, const T& t, int axis, HubMotion<T>& h) {
  const T s = (t - m.start) / m.duration;
  if (value_of(s) <= 0.0) return;
  if (value_of(s) >= 1.0) {
    h.p[axis] += m.size;
    return;
  }
  h.p[axis] += m.size * s * s * s * (10.0 + s * (-15.0 + 6.0 * s));
  h.v[axis] += m.size / m.duration * s * s * (30.0 + s * (-60.0 + 30.0 * s));
  h.a[axis] += m.size / (m.duration * m.duration) * s * (60.0 + s * (-180.0 + 120.0 * s));
}

template <class T>
void add_push(const HubPush<T>& push, const T& t, double active_at, HubMotion<T>& h) {
  if (active_at < push.from) return;
  const Vec2<T> a(push.along, push.up);
  const bool on = active_at < push.to;
  const T lasting = on ? T(t - push.from) : T(push.to - push.from);
  const T after = on ? T(0.0) : T(t - push.to);
  h.p += a * (0.5 * lasting * lasting + lasting * after);
  h.v += a * lasting;
  if (on) h.a += a;
}

}  // namespace detail

/// Hub at time t. `active_at` says which side of a push's edge t belongs to: the integrator runs from edge to
/// edge and gives the middle of its stretch, so that the last moment of a stretch still has that stretch's
/// acceleration.
template <class T>
HubMotion<T> hub_at(const Hub<T>& hub, const T& t, double active_at) {
  HubMotion<T> h;
  detail::add_move(hub.shift, t, 0, h);
  detail::add_move(hub.rise, t, 1, h);
  for (const HubPush<T>& push : hub.pushes) detail::add_push(push, t, active_at, h);
  return h;
}

/// Torque-velocity law of muscle, 1 at rest.
///
///     shortening, w >= 0:  (limit - w) / (limit + hill w), 0 beyond the limit
///     lengthening, w < 0:  rises with the same slope at rest to a plateau of 1.4
///
/// Sources: the hyperbola is Hill's (The heat of shortening, Proc. R. Soc. B 126, 1938, 136-195); the plateau
/// is from memory, 1.3 to 1.5. Continuous with a continuous slope but for the corner at the limit.
template <class T>
T torque_velocity(const T& w, const std::optional<double>& limit, double hill) {
  if (!limit) return T(1.0);
  const double w0 = value_of(w);
  if (w0 >= *limit) return T(0.0);
  if (w0 >= 0.0) return (*limit - w) / (*limit + hill * w);
  constexpr double kGain = 0.4;
  const T u = -w * ((1.0 + hill) / *limit);
  return 1.0 + kGain * u / (kGain + u);
}

/// Trunk on arm [N m] at time t and arm rate w. Activation 1 - exp(-t / activation).
template <class T>
T shoulder_torque(const Shoulder<T>& s, const T& t, const T& w) {
  using std::exp;
  const T active = s.activation > 0.0 ? T(1.0 - exp(-t / s.activation)) : T(1.0);
  return s.torque * active * torque_velocity(w, s.speed_limit, s.hill);
}

/// Hands on club [N m] while the drive is on; `w` = uncocking rate, club rate - arm rate. Braking is the
/// muscle's lengthening side.
template <class T>
T drive_torque(const Wrist<T>& s, const T& w) {
  return s.drive * torque_velocity(value_of(s.drive) < 0.0 ? T(-w) : w, s.speed_limit, s.hill);
}

/// Accelerations of the two angles and what holds the wrist.
template <class T>
struct Turning {
  T arm, club;  ///< rad/s2
};

/// Forces that do not depend on the wrist: right-hand sides of equations (1) and (2) without torques.
template <class T>
struct Load {
  Vec2<T> arm_dir, club_dir;  ///< (cos, sin) of the angles: where their lower ends go
  T arm, club;                ///< N m
  T c, s;                     ///< P cos(cock), P sin(cock)
};

template <class T>
Load<T> load_of(const Lumped<T>& k, const T& gravity_in_plane, const T& arm, const T& club,
                const HubMotion<T>& h) {
  using std::cos;
  using std::sin;
  const Vec2<T> a(cos(arm), sin(arm));
  const Vec2<T> c(cos(club), sin(club));
  const Vec2<T> felt(h.a[0], h.a[1] + gravity_in_plane);
  return {.arm_dir = a,
          .club_dir = c,
          .arm = -k.s1 * felt.dot(a),
          .club = -k.s2 * felt.dot(c),
          .c = k.p * a.dot(c),
          .s = k.p * (a[1] * c[0] - a[0] * c[1])};
}

/// Free hinge. Equations of motion (checked symbolically in the sources of docs/models/swing.md):
///
///     (1) J1 arm'' + P cos(cock) club'' + P sin(cock) club'^2 + S1 [X'' cos(arm) + (Y'' + g') sin(arm)] = ts
///     - tw (2) P cos(cock) arm'' + J2 club'' - P sin(cock) arm'^2 + S2 [X'' cos(club) + (Y'' + g')
///     sin(club)] = tw
///
/// The determinant J1 J2 - P^2 cos^2(cock) is positive for every legal flail.
template <class T>
Turning<T> turning_free(const Lumped<T>& k, const Load<T>& f, const T& arm_rate, const T& club_rate,
                        const T& shoulder, const T& wrist) {
  const T a = shoulder - wrist + f.arm - f.s * club_rate * club_rate;
  const T b = wrist + f.club + f.s * arm_rate * arm_rate;
  const T inverse = 1.0 / (k.j1 * k.j2 - f.c * f.c);
  return {.arm = (k.j2 * a - f.c * b) * inverse, .club = (k.j1 * b - f.c * a) * inverse};
}

/// Wrist locked at its cock: (J1 + J2 + 2 P cos(cock)) arm'' = ts + loads.
template <class T>
T turning_locked(const Lumped<T>& k, const Load<T>& f, const T& shoulder) {
  return (shoulder + f.arm + f.club) / (k.j1 + k.j2 + 2.0 * f.c);
}

/// Torque on the club [N m] that keeps a locked wrist locked, pushing the club forward +.
template <class T>
T hold_torque(const Lumped<T>& k, const Load<T>& f, const T& acceleration, const T& rate) {
  return (f.c + k.j2) * acceleration - f.s * rate * rate - f.club;
}

}  // namespace strikewright
