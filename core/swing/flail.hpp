#pragma once
// The flail: two rigid levers, arms and club, in a tilted plane, on a hub that moves. What goes in.
//
// In-plane axes: x along the plane's base line, to the target +; y up the slope. Angles are absolute, from
// "straight down the slope" (-y), positive in the direction of the downswing (counter-clockwise seen
// face-on), so that a unit vector at angle q is (sin q, -cos q). arm angle: about -90 deg with the arm level
// on the trail side. club angle: 0 with the shaft in line with -y, > 0 with the clubhead past the hands, < 0
// with the shaft leaning forward. cock = arm angle - club angle.

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "quantity/angle.hpp"
#include "quantity/dual.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

template <class T>
using Vec2 = Eigen::Matrix<T, 2, 1>;

/// A rigid lever in the plane.
template <class T>
struct Lever {
  T mass{};         ///< kg, > 0
  T com{};          ///< m from the lever's upper end to its centre of mass, > 0
  T length{};       ///< m from the upper end to the lower one (arm: the wrist; club: the leading edge), > 0
  T inertia_com{};  ///< kg m2 about the centre of mass, at right angles to the plane, >= 0
};

/// Trunk on arm: isometric torque x activation x torque-velocity, see shoulder_torque().
template <class T>
struct Shoulder {
  T torque{};                         ///< N m, isometric maximum
  double activation = 0.0;            ///< s, time constant of 1 - exp(-t / activation); 0 = at once
  std::optional<double> speed_limit;  ///< rad/s at which the torque has fallen to zero; none = no limit
  double hill = 3.0;  ///< curvature of the torque-velocity hyperbola, >= 0 (0 = a straight line)
};

/// When the wrists stop holding the club back.
template <class T>
struct Release {
  enum class Kind { natural, at_time, at_arm };
  Kind kind = Kind::natural;
  T value{};  ///< s after the start, or rad of the arm angle
};

/// Hands on club. Until the release the lag is held, by whatever torque that takes in either direction; after
/// it only the stop holds, which can push the club forward and never pull it back. A release set before the
/// stop lets go by itself therefore changes nothing until it does; one set later is an active hold.
template <class T>
struct Wrist {
  T drive{};  ///< N m after the release, uncocking +; negative = braking
  std::optional<T>
      drive_after_arm;  ///< rad; when given, the drive waits for this arm angle (and not for the release)
  Release<T> release;
  std::optional<double> speed_limit;  ///< rad/s of uncocking at which a positive drive has fallen to zero
  double hill = 3.0;
  bool stop = true;  ///< false = a free hinge from the start
};

/// A steady push of the hub: acceleration (along, up the slope) for from <= t < to.
template <class T>
struct HubPush {
  double from = 0.0, to = 0.0;  ///< s
  T along{}, up{};              ///< m/s2
};

/// One smooth hub displacement: minimum jerk from rest to rest, size x (10 s^3 - 15 s^4 + 6 s^5), s = (t -
/// start) / duration. Source of the law: Flash & Hogan, The coordination of arm movements, J. Neurosci. 5
/// (1985) 1688-1703.
template <class T>
struct HubMove {
  T size{};            ///< m
  T start{};           ///< s
  T duration{T(1.0)};  ///< s, > 0
};

/// How the hub moves in the plane: at rest at the origin at t = 0; pushes and moves add up.
template <class T>
struct Hub {
  std::vector<HubPush<T>> pushes;
  HubMove<T> shift;  ///< along the base line, to the target +
  HubMove<T> rise;   ///< up the slope +
};

/// Everything that the motion depends on. At rest at the start.
template <class T>
struct Flail {
  Lever<T> arm, club;
  double gravity = kGravity;  ///< m/s2
  T plane_tilt{};  ///< rad to the horizontal, 0 < tilt <= pi/2; gravity in the plane is gravity x sin(tilt)
  T start_arm{}, start_cock{};  ///< rad
  Shoulder<T> shoulder{};
  Wrist<T> wrist{};
  Hub<T> hub{};
};

/// The plain values of a flail, slopes dropped.
template <class T>
Flail<double> values_of(const Flail<T>& f) {
  const auto v = [](const auto& x) { return value_of(x); };
  const auto lever = [&v](const Lever<T>& l) {
    return Lever<double>{v(l.mass), v(l.com), v(l.length), v(l.inertia_com)};
  };
  const auto move = [&v](const HubMove<T>& m) {
    return HubMove<double>{v(m.size), v(m.start), v(m.duration)};
  };
  Flail<double> out{.arm = lever(f.arm),
                    .club = lever(f.club),
                    .gravity = f.gravity,
                    .plane_tilt = v(f.plane_tilt),
                    .start_arm = v(f.start_arm),
                    .start_cock = v(f.start_cock)};
  out.shoulder = {v(f.shoulder.torque), f.shoulder.activation, f.shoulder.speed_limit, f.shoulder.hill};
  out.wrist.drive = v(f.wrist.drive);
  if (f.wrist.drive_after_arm) out.wrist.drive_after_arm = v(*f.wrist.drive_after_arm);
  out.wrist.release = {static_cast<Release<double>::Kind>(f.wrist.release.kind), v(f.wrist.release.value)};
  out.wrist.speed_limit = f.wrist.speed_limit;
  out.wrist.hill = f.wrist.hill;
  out.wrist.stop = f.wrist.stop;
  out.hub.shift = move(f.hub.shift);
  out.hub.rise = move(f.hub.rise);
  for (const HubPush<T>& p : f.hub.pushes) out.hub.pushes.push_back({p.from, p.to, v(p.along), v(p.up)});
  return out;
}

/// The first thing about a flail that cannot be, naming the field as the JSON of `strikewright swing` does;
/// nothing when it can be. Guards illegal inertias: about a centre of mass none is negative, and the levers
/// must resist turning.
std::optional<Fault> fault_of(const Flail<double>& f);

/// Lumped constants of the equations of motion (docs/models/swing.md, eq. 1 and 2).
template <class T>
struct Lumped {
  T j1;  ///< kg m2, arm about the hub with the club's mass at the wrist
  T j2;  ///< kg m2, club about the wrist
  T p;   ///< kg m2, coupling, m2 L1 l2
  T s1;  ///< kg m, first moment of arm and club mass about the hub
  T s2;  ///< kg m, first moment of the club about the wrist
};

template <class T>
Lumped<T> lumped(const Lever<T>& arm, const Lever<T>& club) {
  const T s2 = club.mass * club.com;
  return {.j1 = arm.inertia_com + arm.mass * arm.com * arm.com + club.mass * arm.length * arm.length,
          .j2 = club.inertia_com + s2 * club.com,
          .p = s2 * arm.length,
          .s1 = arm.mass * arm.com + club.mass * arm.length,
          .s2 = s2};
}

}  // namespace strikewright
