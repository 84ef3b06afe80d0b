#pragma once
// What the turf does to the head along its path, before the ball and after it: the same function twice.
//
// Along the arc length s of the leading edge's free arc (s = 0 at its low point) four things are followed:
//   y  [m]    lift of the head over its free arc     dy/ds = q
//   q  [-]    slope of that lift                     dq/ds = F_up / (M c^2) - 2 q / L - y / L^2,   L = tau
//   c^2 / v u  [s/m]  one over the speed v                   d(ln u)/ds = (F_still / c^2 + F_moving / v^2) /
//   M A  [m2]   section of turf cut so far             dA/ds = depth of the leading edge
// F_moving grows with v^2, F_still does not; c^2 = v^2 + (6 m/s)^2, so that a club that stops in the ground
// stops smoothly (c^2 is 2.8 % over v^2 at 36 m/s, 16 % at 15 m/s). Turf's resistance lies along the motion
// and so leaves the slope q alone. Turf pushes in three ways:
//   cut   leading edge and face: cut_resistance (cutting.hpp) times depth times blade length
//   plough  kPloughed x density x blade length x depth x v^2 x angle of the sole to its path, up: turf ahead
//           is turned down under the sole; with the bounce gone it is not
//   sole  bearing k times the depth pressed in + half the momentum flux of the turf pushed down, on sole
//         width times blade length. Pressed in: at the middle of the sole, the lesser of its depth under
//         the surface and its depth under the groove that the leading edge has cut (sole width / 2 times
//         the exposed bounce). With the bounce gone the second is 0: the leading edge digs.
// The hands and the shaft pull the head back to its arc: critically damped, time constant tau = 2 ms times
// the pass's own factor. That is an assumption; without it the kick that the ball gives would send the head
// centimetres deep.
//
// How much turf goes under the sole and how much over the edge is not known, nor how stiffly hands and shaft
// hold the head: of all forces here these two are what a pass may carry its own factor for (lift_factor,
// shaft_factor). They decide how far a mark runs.
//
// Left out: weight of the chip, root fibres, the head's turning by the turf's push off its centre of mass,
// grass above the surface, closing of the face by grass round the hosel, a change of delivered loft along the
// mark.

#include <array>
#include <cmath>

#include "delivery/meet.hpp"
#include "strike/cutting.hpp"
#include "strike/safe_math.hpp"
#include "strike/soil.hpp"

namespace strikewright {

/// s, usual time constant of the pull back to the arc (assumption)
inline constexpr double kShaftTime = 0.002;
inline constexpr double kPloughed = 2.5;  ///< times the momentum of turf turned down by the sole (assumption)
inline constexpr double kClockSpeed = 6.0;  ///< m/s, see c above
inline constexpr int kTurfSteps = 16;       ///< fixed steps in each of the two phases

/// Everything about club, arc and turf that stays the same along the path.
template <class T>
struct TurfSetting {
  Soil soil;
  double mass = 0.0;   ///< kg, head
  double blade = 0.0;  ///< m, width of cut: the whole blade length (about 5 cm), at any depth
  double sole = 0.0;   ///< m, leading to trailing edge
  Arc<T> arc;
  T sin_tilt{};
  double rub = 0.0;        ///< friction of the sole on the turf
  T per_radius{};          ///< 1/m
  T smear{}, per_smear{};  ///< m, height over which contact begins: unevenness and the blade's tilt
  T sole_angle{};          ///< rad, sole to the ground at `at_ball`, trailing edge down +
  T sole_rate{};           ///< rad/m, how it grows along the path
  T at_ball{};             ///< m, arc length where the pose is the delivery's
  // Forces per kilogram of head, today's strength included.
  T spring{};            ///< 1/s2, sole area times bearing
  T flux{};              ///< 1/m, sole area times the share of the momentum flux
  CutResistance<T> cut;  ///< per metre of depth
  T plough{};            ///< 1/m2, up, per metre of depth, (m/s)^2 and radian of the sole
  T per_shaft_time{};    ///< 1/s, one over the time constant of the pull back to the arc
};

/// The head on its path.
template <class T>
struct TurfState {
  T lift{};      ///< m over the free arc
  T slope{};     ///< rise of that lift per length of path
  T slowness{};  ///< s/m, one over the speed, > 0; as a rate: of its logarithm
  T section{};   ///< m2 of turf cut
};

/// A place that the leading edge passed: arc length, height and slope of the height.
template <class T>
struct PathNode {
  T s{}, height{}, slope{};
};

template <class T>
using PathNodes = std::array<PathNode<T>, kTurfSteps + 1>;

/// Fills the forces from soil, sizes and mass, `strength` times.
template <class T>
void load_turf(TurfSetting<T>& t, const T& strength, const CutNumbers<T>& numbers) {
  const T per_mass = strength * (1.0 / t.mass);
  t.spring = (t.sole * t.blade * t.soil.bearing) * per_mass;
  t.flux = (t.sole * t.blade * t.soil.inertia_share * t.soil.density) * per_mass;
  t.cut = cut_resistance(numbers, t.soil);
  for (T* x : {&t.cut.still.back, &t.cut.still.up, &t.cut.moving.back, &t.cut.moving.up})
    *x *= t.blade * per_mass;
}

template <class T>
TurfSetting<T> turf_setting(const Delivery<T>& d, const Club& club, const Soil& soil, const T& strength,
                            const T& at_ball) {
  using std::cos;
  using std::sin;
  TurfSetting<T> t;
  t.soil = soil;
  t.mass = club.head_mass;
  t.blade = club.blade_length;
  t.sole = club.sole_width;
  t.arc = d.arc;
  t.sin_tilt = sin(d.arc.tilt);
  t.rub = std::tan(soil.steel_friction);
  const T tilt = (0.5 * club.blade_length) * d.toe_W.z();
  using std::sqrt;
  t.smear = sqrt(soil.unevenness * soil.unevenness + tilt * tilt);
  t.per_smear = 1.0 / t.smear;
  t.per_radius = 1.0 / d.arc.radius;
  t.sole_angle = d.sole_to_ground;
  // The club goes on turning: about the horizontal axis to the left of its travel, front down.
  const T front_down = sin(d.arc.direction) * d.w_WH_W.x() + cos(d.arc.direction) * d.w_WH_W.y();
  t.sole_rate = -front_down / safe::length(d.v_WH_W);
  t.at_ball = at_ball;
  load_turf(t, strength, cut_numbers(T(d.normal_W.z()), soil));
  t.plough =
      (soil.cuts ? kPloughed * soil.density * club.blade_length / club.head_mass : 0.0) * d.lift_factor;
  t.per_shaft_time = 1.0 / (kShaftTime * d.shaft_factor);
  return t;
}

/// Height [m] of the free arc's leading edge and its slope at arc length s. Series of 1 - cos and sin to the
/// fifth order: 1e-7 m at 0.4 m from the low point of a 1.5 m arc.
template <class T>
PathNode<T> free_arc(const TurfSetting<T>& t, const T& s) {
  const T b = s * t.per_radius;
  const T b2 = b * b;
  const T rise = t.arc.radius * b2 * (0.5 - b2 * (1.0 / 24.0 - b2 * (1.0 / 720.0)));
  const T slope = b * (1.0 - b2 * (1.0 / 6.0 - b2 * (1.0 / 120.0)));
  return {s, t.arc.low_point_depth + t.sin_tilt * rise, t.sin_tilt * slope};
}

namespace detail {

/// A force with a part that grows with speed squared: [N] and [N per (m/s)^2]; and how the still part falls
/// as the head rises or its path turns up: [N/m] and [N].
template <class T>
struct SplitForce {
  T still{}, moving{};
  T per_lift{}, per_slope{};
};

/// Rates along the path and how stiffly lift and slope answer: dq/ds ~ -per_lift y - per_slope q.
template <class T>
struct TurfRates {
  TurfState<T> rate;
  T per_lift{}, per_slope{};
};

/// Force of the turf on the sole; `height` [m] of the leading edge, `incidence` [rad] of the sole on its
/// path.
template <class T>
SplitForce<T> sole_force(const TurfSetting<T>& t, const T& height, const T& sole_angle, const T& incidence) {
  using std::sqrt;
  constexpr double kHair = 1e-4;  // m, rounds the corner between the two depths
  const T below = safe::positive_part(T(0.5 * t.sole * sole_angle - height), t.smear, t.per_smear);
  if (value_of(below) <= 0.0) return {T(0.0), T(0.0), T(0.0), T(0.0)};
  if (!t.soil.cuts) return {t.spring * below, T(0.0), t.spring, T(0.0)};
  const T groove = 0.5 * t.sole * incidence;
  const T per = 1.0 / sqrt(below * below + groove * groove + kHair * kHair);
  const T g = groove * per;
  const T b = below * per;  // near 1: the groove limits; near 0: only part of the sole is in
  return {t.spring * below * g, t.flux * incidence * incidence * b, t.spring * g * g * g,
          (0.5 * t.sole) * t.spring * b * b * b};
}

template <class T>
TurfRates<T> turf_rates(const TurfSetting<T>& t, const T& s, const TurfState<T>& at, PathNode<T>* node) {
  using std::sqrt;
  constexpr double kNoLift = 1.0 * kDegree;  // rounds the corner where the exposed bounce is gone
  PathNode<T> here = free_arc(t, s);
  here.height += at.lift;
  here.slope += at.slope;
  if (node) *node = here;
  const T u2 = at.slowness * at.slowness;
  const T share = 1.0 / (1.0 + (kClockSpeed * kClockSpeed) * u2);  // v^2 / c^2
  const T clock2 = u2 * share;                                     // 1 / c^2
  const T pull = at.slowness * share * t.per_shaft_time;           // 1 / L
  TurfRates<T> out{
      {at.slope, -pull * (2.0 * at.slope + pull * at.lift), T(0.0), T(0.0)}, pull * pull, 2.0 * pull};
  TurfState<T>& rate = out.rate;
  const T sole_angle = t.sole_angle + t.sole_rate * (s - t.at_ball);
  const T incidence = safe::positive_part(T(sole_angle - here.slope), kNoLift);
  const SplitForce<T> sole = sole_force(t, here.height, sole_angle, incidence);
  SplitForce<T> up = sole;
  const T rub = t.rub + incidence;
  SplitForce<T> back{rub * sole.still, rub * sole.moving};
  if (t.soil.cuts) rate.section = safe::positive_part(T(-here.height), t.smear, t.per_smear);
  if (value_of(rate.section) > 0.0) {
    const T& cut = rate.section;
    back.still += cut * t.cut.still.back;
    back.moving += cut * t.cut.moving.back;
    up.still += cut * t.cut.still.up;
    const T per_depth = t.plough * incidence;
    up.moving += cut * (t.cut.moving.up + per_depth);
    out.per_lift += share * per_depth;
    out.per_slope += share * t.plough * cut;
  }
  out.per_lift += clock2 * sole.per_lift;
  out.per_slope += clock2 * sole.per_slope;
  rate.slope += up.still * clock2 + up.moving * share;
  rate.slowness = back.still * clock2 + back.moving;
  return out;
}

/// Solves (1 - g J) k = f for the stiff pair (lift, slope); the other two are not stiff.
template <class T>
TurfState<T> damped(const TurfState<T>& f, const TurfRates<T>& stiff, const T& g, const T& per_det) {
  TurfState<T> k = f;
  k.slope = (f.slope - g * stiff.per_lift * f.lift) * per_det;
  k.lift = f.lift + g * k.slope;
  return k;
}

/// Slowness times exp(growth), but the hands never let the head come to rest: it tends to 1 / (0.5 m/s).
/// Felt only under 4.5 m/s, when the club is buried.
template <class T>
T still_moving(const T& slowness, const T& growth) {
  using std::exp;
  using std::sqrt;
  constexpr double kBuried = 30.0, kFelt = 0.2236, kLeast = 0.5;
  const T grown = slowness * exp(value_of(growth) < kBuried ? growth : T(kBuried));
  if (value_of(grown) < kFelt) return grown;
  const T q = grown * kLeast;
  const T q2 = q * q;
  const T q4 = q2 * q2;
  return grown / sqrt(sqrt(sqrt(1.0 + q4 * q4)));
}

}  // namespace detail

/// Follows the head from arc length `from` to `to` [m] in N - 1 equal steps. The nodes are what a mark is
/// read off.
///
/// Two-stage Rosenbrock-W method of second order, L-stable (gamma = 1 - 1/sqrt 2): J. G. Verwer, E. J. Spee,
/// J. G. Blom & W. Hundsdorfer, A second-order Rosenbrock method applied to photochemical dispersion
/// problems, SIAM J. Sci. Comput. 20(4), 1999 (from memory). Firm turf under a slow club is stiff: explicit
/// steps would throw the head into the air. Measured step error: docs/models/strike.md.
template <class T, std::size_t N = kTurfSteps + 1>
TurfState<T> through_turf(const TurfSetting<T>& t, const T& from, const T& to, TurfState<T> at,
                          std::array<PathNode<T>, N>& nodes) {
  constexpr double kGamma = 0.29289321881345254;  // 1 - 1/sqrt 2
  const T h = (to - from) * (1.0 / double(N - 1));
  const T g = kGamma * h;
  for (std::size_t k = 0; k + 1 < N; ++k) {
    const T s = from + double(k) * h;
    const detail::TurfRates<T> a = detail::turf_rates(t, s, at, &nodes[k]);
    const T per_det = 1.0 / (1.0 + g * (a.per_slope + g * a.per_lift));
    const TurfState<T> k1 = detail::damped(a.rate, a, g, per_det);
    const T grown = h * a.rate.slowness;
    const TurfState<T> mid{at.lift + h * k1.lift, at.slope + h * k1.slope,
                           at.slowness * (1.0 + grown * (1.0 + 0.5 * grown)), T(0.0)};
    const TurfState<T> b = detail::turf_rates<T>(t, s + h, mid, nullptr).rate;
    const TurfState<T> rest{b.lift - 2.0 * k1.lift, b.slope - 2.0 * k1.slope, T(0.0), T(0.0)};
    const TurfState<T> k2 = detail::damped(rest, a, g, per_det);
    at.lift += h * (1.5 * k1.lift + 0.5 * k2.lift);
    at.slope += h * (1.5 * k1.slope + 0.5 * k2.slope);
    at.slowness = detail::still_moving(at.slowness, T((0.5 * h) * (a.rate.slowness + b.slowness)));
    at.section += (0.5 * h) * (k1.section + b.section);
  }
  nodes[N - 1] = free_arc(t, to);
  nodes[N - 1].height += at.lift;
  nodes[N - 1].slope += at.slope;
  return at;
}

/// Half the length [m, along the arc] within which the free arc comes near enough to be felt, `margin` [m]
/// included; 0 when it never does.
template <class T>
T half_chord(const TurfSetting<T>& t, const T& margin) {
  using std::acos;
  const T sole_drop = (0.5 * t.sole) * t.sole_angle;
  T reach = t.smear + margin - t.arc.low_point_depth;
  if (value_of(sole_drop) > 0.0) reach += sole_drop;
  const T share = reach / (t.arc.radius * t.sin_tilt);
  if (value_of(share) < 1e-9) return T(0.0);
  constexpr double kWidest = 0.08;  // 0.4 rad of arc: beyond that the club is buried, not swung
  if (value_of(share) > kWidest) return t.arc.radius * std::acos(1.0 - kWidest);
  return t.arc.radius * acos(1.0 - share);
}

}  // namespace strikewright
