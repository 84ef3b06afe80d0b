#pragma once
// A swing at a ball: the flail, where it stands to the ball, and what the face does.

#include <cmath>

#include "bag/club.hpp"
#include "swing/flail.hpp"

namespace strikewright {

/// How the club turns about its own shaft, closing +: at rest at the top, at its rate at contact, a cubic in
/// time between.
template <class T>
struct FaceTurn {
  T top{};           ///< rad at the start of the downswing
  T contact{};       ///< rad at contact
  T closing_rate{};  ///< rad/s at contact
};

/// Face turn [rad] at time t of a downswing that meets the ball at `contact_time`:
///
///     top + s^2 (3 - 2 s) (contact - top) + s^2 (s - 1) contact_time closing_rate,  s = t / contact_time
template <class T>
T face_turn_at(const FaceTurn<T>& f, const T& t, const T& contact_time) {
  const T s = t / contact_time;
  return f.top + s * s * (3.0 - 2.0 * s) * (f.contact - f.top) +
         s * s * (s - 1.0) * contact_time * f.closing_rate;
}

/// Where the flail stands. The plane's ground line passes the ball's centre at x = 0; how far the ball lies
/// off that line is what `strike_toe` says.
template <class T>
struct Stance {
  T hub_along{};  ///< m, hub ahead of the ball along the plane's base line at the start of the downswing
  T hub_up{};     ///< m up the slope from the turf at the start of the downswing
  T plane_direction{};  ///< rad, right of the target +
  T lie_offset{};       ///< rad, tilt of the shaft at contact minus the plane's
  T strike_toe{};       ///< m, strike point toward the toe
  FaceTurn<T> face{};
};

/// A whole swing; the flail's club lever ends at the leading edge.
template <class T>
struct Swing {
  Flail<T> flail{};
  Stance<T> stance{};
};

/// A swing in another scalar type, without slopes of its own. Its hub is not pushed, and its drive begins
/// with the release: what default swings are.
template <class T>
Swing<T> swing_as(const Swing<double>& s) {
  const auto lever = [](const Lever<double>& l) {
    return Lever<T>{T(l.mass), T(l.com), T(l.length), T(l.inertia_com)};
  };
  const auto move = [](const HubMove<double>& h) { return HubMove<T>{T(h.size), T(h.start), T(h.duration)}; };
  const Flail<double>& f = s.flail;
  const Stance<double>& st = s.stance;
  Swing<T> out;
  out.flail.arm = lever(f.arm);
  out.flail.club = lever(f.club);
  out.flail.gravity = f.gravity;
  out.flail.plane_tilt = T(f.plane_tilt);
  out.flail.start_arm = T(f.start_arm);
  out.flail.start_cock = T(f.start_cock);
  out.flail.shoulder = {T(f.shoulder.torque), f.shoulder.activation, f.shoulder.speed_limit, f.shoulder.hill};
  out.flail.wrist.drive = T(f.wrist.drive);
  out.flail.wrist.release = {static_cast<typename Release<T>::Kind>(f.wrist.release.kind),
                             T(f.wrist.release.value)};
  out.flail.wrist.speed_limit = f.wrist.speed_limit;
  out.flail.wrist.hill = f.wrist.hill;
  out.flail.wrist.stop = f.wrist.stop;
  out.flail.hub.shift = move(f.hub.shift);
  out.flail.hub.rise = move(f.hub.rise);
  out.stance = {T(st.hub_along),       T(st.hub_up),
                T(st.plane_direction), T(st.lie_offset),
                T(st.strike_toe),      {T(st.face.top), T(st.face.contact), T(st.face.closing_rate)}};
  return out;
}

/// Butt to the point of the grip about which the club turns [m]: the middle of the hands.
/// Source: 0.08 to 0.12 m, from memory.
inline constexpr double kWristBelowButt = 0.10;

/// A club as a lever from the wrist to its leading edge: grip and shaft as uniform rods, the head as a rigid
/// body.
///
///     length = club length - kWristBelowButt + heel reach x cos(lie)
///
/// The last term: the leading edge lies on the ground beside the shaft's foot, so that it is that much
/// farther down the slope. The grip is a rod of 0.26 m from the butt (usual length, from memory), the shaft
/// one over the whole length.
Lever<double> club_lever(const Club& club);

/// The two arms of a grown man with what turns along: 7.0 kg, centre of mass half-way, hub to wrist 0.62
/// m, 1.15 kg m2 about the hub. Source: Bourg & Bywalec, Physics for Game Developers, 2nd ed. 2013, ch. 19
/// (figures from memory).
Lever<double> usual_arms();

}  // namespace strikewright
