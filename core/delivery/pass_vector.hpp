#pragma once
// The numbers of a pass as one vector, in the order of its members.

#include "delivery/delivery.hpp"

namespace strikewright {

inline constexpr int kPassSize = 15;
template <class T>
using PassVector = Eigen::Matrix<T, kPassSize, 1>;

/// Speed, plane direction, plane tilt, low point, its depth, shaft lean, face turn, strike toe, lie offset,
/// closing rate, how high the ball sits, turf, its lift, the time in which the head comes back, arc.
template <class T>
PassVector<T> vector_of(const Pass<T>& p) {
  PassVector<T> v;
  v << p.club_speed, p.plane_direction, p.plane_tilt, p.low_point, p.low_point_depth, p.shaft_lean,
      p.face_turn, p.strike_toe, p.lie_offset, p.closing_rate, p.ball_sits, p.turf, p.turf_lift, p.shaft_time,
      p.arc;
  return v;
}

/// The inverse of vector_of.
template <class T>
Pass<T> pass_of(const PassVector<T>& v) {
  return {v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8], v[9], v[10], v[11], v[12], v[13], v[14]};
}

}  // namespace strikewright
