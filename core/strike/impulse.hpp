#pragma once
// Club meets ball: the three-dimensional rigid-body impulse with a friction cone and tangential restitution.
//
//   u  = v_WH + w_WH x r_c - (v_WB + w_WB x r_b)            club minus ball at the contact point
//   K  = (1/m + 1/M) 1 - [r_b]x I_b^-1 [r_b]x - [r_c]x I_c^-1 [r_c]x
//   J  = K^-1 (u - u'),   u' = -e (n.u) n - e_t (1 - n n^T) u           the contact sticks
//   if |J_T| > mu n.J:   w = n + mu J_T/|J_T|,   J = (1 + e)(n.u) / (n^T K w) w    it slides to the end
//   ball gets J at r_b = -R n, the head -J at r_c.
//
// Gear effect, the share of face and path in the start direction, and the tilt of the spin axis are
// consequences. Source: same mechanics as W. J. Stronge, Impact Mechanics, Cambridge 2000, and Winfield &
// Tan, Computers & Structures 53(1), 19-25, 1994 (form re-derived; docs/models/strike.md). Not modelled:
// shaft-tip mass, hands, the ball's flattening (a few per cent of spin, up to 10 %), turning of the face
// during the half millisecond of contact.

#include "bag/club.hpp"
#include "quantity/fault.hpp"
#include "quantity/frame.hpp"
#include "strike/safe_math.hpp"
#include "strike/strike.hpp"

namespace strikewright {

/// The head as a free rigid body at contact, in world axes.
template <class T>
struct HeadInRigidMotion {
  double mass = 0.0;           ///< kg, > 0
  Mat3<T> inertia_W;           ///< kg m2 about the centre of mass, positive definite
  Vec3<T> v_WH_W;              ///< m/s, centre of mass
  Vec3<T> w_WH_W;              ///< rad/s; the closing rate enters here
  Vec3<T> normal_W;            ///< unit outward face normal at the contact point
  Vec3<T> p_HC_W;              ///< m, from the centre of mass to the contact point
  T restitution{};             ///< normal, 0..1
  T tangential_restitution{};  ///< -1..1; 0 = the contact ends without slip
  T friction{};                ///< >= 0
};

/// A ball's motion just before contact; at rest unless said otherwise.
template <class T>
struct BallMotion {
  Vec3<T> v_WB_W = Vec3<T>::Zero();  ///< m/s
  Vec3<T> w_WB_W = Vec3<T>::Zero();  ///< rad/s
};

enum class Regime { none, stick, slide };  ///< none: the face was not closing on the ball

/// What both have after contact.
template <class T>
struct Impact {
  BallMotion<T> ball;
  Vec3<T> v_WH_W;     ///< m/s, head's centre of mass
  Vec3<T> w_WH_W;     ///< rad/s
  Vec3<T> impulse_W;  ///< N s on the ball
  Regime regime = Regime::none;
};

namespace detail {

template <class T>
Mat3<T> cross_matrix(const Vec3<T>& r) {
  Mat3<T> m;
  m << T(0.0), -r.z(), r.y(), r.z(), T(0.0), -r.x(), -r.y(), r.x(), T(0.0);
  return m;
}

/// Impulse on the ball [N s] for a closing contact: the velocity u [m/s] is made good through the matrix K
/// [1/kg].
template <class T>
Vec3<T> contact_impulse(const HeadInRigidMotion<T>& head, const Mat3<T>& K, const Vec3<T>& u,
                        Regime& regime) {
  const Vec3<T>& n = head.normal_W;
  const T closing = n.dot(u);
  const Vec3<T> along = u - closing * n;
  const Vec3<T> change = (1.0 + head.restitution) * closing * n + (1.0 + head.tangential_restitution) * along;
  const Vec3<T> J = K.inverse() * change;
  const T Jn = n.dot(J);
  const Vec3<T> Jt = J - Jn * n;
  const T Jt2 = Jt.dot(Jt);
  const double grip = value_of(head.friction) * value_of(Jn);
  regime = Regime::stick;
  if (grip >= 0.0 && value_of(Jt2) <= grip * grip) return J;
  regime = Regime::slide;
  const Vec3<T> w = n + (head.friction / safe::root(Jt2)) * Jt;
  return ((1.0 + head.restitution) * closing / n.dot(K * w)) * w;
}

}  // namespace detail

/// Velocity of the face minus that of the ball at the contact point [m/s, world axes].
template <class T>
Vec3<T> meeting_velocity(const HeadInRigidMotion<T>& head, const Ball& ball,
                         const BallMotion<T>& before = {}) {
  const Vec3<T> p_BC_W = -ball.radius * head.normal_W;
  return head.v_WH_W + head.w_WH_W.cross(head.p_HC_W) - before.v_WB_W - before.w_WB_W.cross(p_BC_W);
}

/// The impulse. A face that moves away from the ball (or alongside it) changes nothing: regime `none`.
/// Continuous in all inputs; slopes jump only where the contact changes from sticking to sliding.
template <class T>
Impact<T> impact_of(const HeadInRigidMotion<T>& head, const Ball& ball, const BallMotion<T>& before = {}) {
  const Vec3<T>& n = head.normal_W;
  const Vec3<T> u = meeting_velocity(head, ball, before);
  Impact<T> out{before, head.v_WH_W, head.w_WH_W, Vec3<T>::Zero(), Regime::none};
  if (!(value_of(T(n.dot(u))) > 0.0)) return out;
  const Mat3<T> C = detail::cross_matrix(head.p_HC_W);
  const Mat3<T> I_inverse = head.inertia_W.inverse();
  const double turning = 1.0 / (ball.inertia_factor * ball.mass);  // R^2 / I_b
  Mat3<T> K = -(turning * n) * n.transpose() - C * I_inverse * C;
  for (int k = 0; k < 3; ++k) K(k, k) += 1.0 / ball.mass + 1.0 / head.mass + turning;
  const Vec3<T> J = detail::contact_impulse(head, K, u, out.regime);
  const Vec3<T> p_BC_W = -ball.radius * n;
  const double I_b = ball.inertia_factor * ball.mass * ball.radius * ball.radius;
  out.ball.v_WB_W += (1.0 / ball.mass) * J;
  out.ball.w_WB_W += (1.0 / I_b) * p_BC_W.cross(J);
  out.v_WH_W -= (1.0 / head.mass) * J;
  out.w_WH_W -= I_inverse * head.p_HC_W.cross(J);
  out.impulse_W = J;
  return out;
}

/// Speed, launch angle, start direction, spin and axis tilt of a ball's motion.
/// Backspin is the spin about the horizontal axis to the right of the launch, upspin about the axis square to
/// the launch that points up; tilt = atan2(-upspin, backspin), fade +. A ball at rest has all angles 0.
template <class T>
Launch<T> launch_of(const BallMotion<T>& ball) {
  using std::cos;
  using std::sin;
  const Vec3<T>& v = ball.v_WB_W;
  Launch<T> out;
  out.v_WB_W = v;
  out.w_WB_W = ball.w_WB_W;
  out.speed = safe::length(v);
  out.azimuth = safe::angle(T(-v.y()), v.x());
  out.elevation = safe::angle(v.z(), safe::root(T(v.x() * v.x() + v.y() * v.y())));
  out.spin = safe::length(ball.w_WB_W);
  const Vec3<T> right{-sin(out.azimuth), -cos(out.azimuth), T(0.0)};
  const Vec3<T> up = right.cross(direction(out.azimuth, out.elevation));
  out.axis_tilt = safe::angle(T(-up.dot(ball.w_WB_W)), T(right.dot(ball.w_WB_W)));
  return out;
}

/// The same for a door: plain numbers in, checked.
struct RigidStrike {
  double mass = 0.0;                     ///< kg, > 0
  Vec3<double> inertia{0.0, 0.0, 0.0};   ///< kg m2 about the world axes through the centre of mass, each > 0
  Vec3<double> velocity{0.0, 0.0, 0.0};  ///< m/s, centre of mass
  Vec3<double> turning{0.0, 0.0, 0.0};   ///< rad/s
  Vec3<double> face_normal{1.0, 0.0, 0.0};  ///< any length but 0: it is made a unit vector
  Vec3<double> contact{0.0, 0.0, 0.0};      ///< m, from the centre of mass
  double restitution = 0.8;                 ///< 0..1
  double tangential_restitution = 0.0;      ///< -1..1
  double friction = 0.4;                    ///< 0..2
  Ball ball;                                ///< at rest
};

/// A strike as it comes out of that door.
struct RigidStrikeResult {
  Impact<double> impact;
  Launch<double> launch;
};

/// Checks every number, then `impact_of` and `launch_of`. The fault's place is the JSON key ("head.mass_kg").
/// A face that does not close on the ball is a fault of head.velocity_mps.
Result<RigidStrikeResult> rigid_strike_of(const RigidStrike& strike);

}  // namespace strikewright
