#pragma once
// How the club stands at contact: one rotation after another, as matrices, never as added angles.

#include <cmath>

#include "bag/club.hpp"
#include "delivery/delivery.hpp"

namespace strikewright {

/// In-plane lean [rad] of a shaft whose face-on lean is `lean` [rad] in a plane tilted at `tilt` [rad]:
/// tan(lean) = tan(in-plane) / sin(tilt) (glossary, shaft lean).
template <class T>
T in_plane_lean(const T& lean, const T& tilt) {
  using std::atan;
  using std::sin;
  using std::tan;
  return atan(tan(lean) * sin(tilt));
}

/// Face-on lean [rad] from the in-plane lean [rad]; the inverse of in_plane_lean.
template <class T>
T face_on_lean(const T& in_plane, const T& tilt) {
  using std::atan;
  using std::sin;
  using std::tan;
  return atan(tan(in_plane) / sin(tilt));
}

/// Rotation from the club soled at its design lie and loft, face square, to the club at contact. In this
/// order: about the target axis until the shaft stands at its tilt, about the shaft by the face turn (closing
/// +), about the shaft plane's normal until the handle leans forward, about the vertical by the plane
/// direction (right +).
/// @param lie [rad] design lie   @param tilt [rad] tilt of the shaft   @param lean [rad] in-plane, handle
/// forward +
template <class T>
Mat3<T> pose_of(double lie, const T& tilt, const T& face_turn, const T& lean, const T& plane_direction) {
  using std::cos;
  using std::sin;
  const Vec3<T> target(T(1.0), T(0.0), T(0.0));
  const Vec3<T> shaft(T(0.0), cos(tilt), sin(tilt));
  const Vec3<T> plane_normal(T(0.0), -sin(tilt), cos(tilt));
  const Vec3<T> vertical(T(0.0), T(0.0), T(1.0));
  return turn_about(vertical, T(-plane_direction)) * turn_about(plane_normal, T(-lean)) *
         turn_about(shaft, face_turn) * turn_about(target, T(tilt - lie));
}

/// Horizontal direction [rad] of the face normal at the middle of the face, without the face's curvature.
/// @param tilt [rad] of the shaft   @param lean [rad] face-on
inline double middle_azimuth(const Club& club, double tilt, double face_turn, double lean,
                             double plane_direction) {
  const Mat3<double> turn = pose_of(club.lie, tilt, face_turn, in_plane_lean(lean, tilt), plane_direction);
  return azimuth_of<double>(turn * Vec3<double>(std::cos(club.loft), 0.0, std::sin(club.loft)));
}

}  // namespace strikewright
