#pragma once
// Vectors and the world frame.
//
// World W, right-handed: x to the target, z up, y to the LEFT of the target line. Origin: the turf surface
// under the ball's centre. A right-hander stands at y > 0 and the toe points to -y. Left-handers are computed
// as mirrored right-handers; what is seen changes sign at the door, nowhere else. Names: v_WH_W is the
// velocity of H measured in W, written in W's axes; R_WH turns H's axes into W's.

#include <Eigen/Core>
#include <Eigen/Geometry>

namespace strikewright {

template <class T>
using Vec3 = Eigen::Matrix<T, 3, 1>;
template <class T>
using Mat3 = Eigen::Matrix<T, 3, 3>;

/// Unit vector from azimuth [rad, right of the target +] and elevation [rad, up +].
template <class T>
Vec3<T> direction(const T& azimuth, const T& elevation) {
  using std::cos;
  using std::sin;
  return {cos(azimuth) * cos(elevation), -sin(azimuth) * cos(elevation), sin(elevation)};
}

/// Azimuth [rad, right of the target +] of a vector; its horizontal part must not vanish.
template <class T>
T azimuth_of(const Vec3<T>& v) {
  using std::atan2;
  return atan2(-v.y(), v.x());
}

/// Elevation [rad, up +] of a vector; its horizontal part must not vanish.
template <class T>
T elevation_of(const Vec3<T>& v) {
  using std::atan2;
  using std::sqrt;
  return atan2(v.z(), sqrt(v.x() * v.x() + v.y() * v.y()));
}

/// Rotation matrix about a unit axis by an angle [rad], right-hand rule (Rodrigues).
template <class T>
Mat3<T> turn_about(const Vec3<T>& axis, const T& angle) {
  using std::cos;
  using std::sin;
  const T c = cos(angle);
  const T s = sin(angle);
  Mat3<T> k;
  k << T(0.0), -axis.z(), axis.y(), axis.z(), T(0.0), -axis.x(), -axis.y(), axis.x(), T(0.0);
  return Mat3<T>::Identity() + s * k + (T(1.0) - c) * (k * k);
}

/// Mirror across the vertical plane through the target line: y -> -y. Exact: only a sign changes.
template <class T>
Vec3<T> mirrored_vector(const Vec3<T>& v) {
  return {v.x(), -v.y(), v.z()};
}
/// An axial vector (spin, angular velocity) mirrors with the other two components' signs.
template <class T>
Vec3<T> mirrored_axial(const Vec3<T>& w) {
  return {-w.x(), w.y(), -w.z()};
}

enum class Hand { right, left };

}  // namespace strikewright
