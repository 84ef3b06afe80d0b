#pragma once
// An invented 7-iron swing for the tests: a hub that moves to the target and rises, wrists that help a
// little. The causes that a coach would name stand in one vector, so that a test can move each and take
// slopes.

#include "delivery/from_swing.hpp"
#include "delivery/test/sample_club.hpp"

namespace strikewright {

enum SwingCause {
  kShoulder,
  kRelease,
  kDrive,
  kHubAlong,
  kHubUp,
  kShift,
  kRise,
  kTilt,
  kDirection,
  kFaceTurn,
  kSampleCauses
};

inline Eigen::Matrix<double, kSampleCauses, 1> sample_causes() {
  Eigen::Matrix<double, kSampleCauses, 1> c;
  c[kShoulder] = 200.0;           // N m
  c[kRelease] = -85.0 * kDegree;  // arm angle
  c[kDrive] = 10.0;               // N m
  c[kHubAlong] = -0.05;           // m
  c[kHubUp] = 1.40;               // m
  c[kShift] = 0.08;               // m
  c[kRise] = 0.03;                // m
  c[kTilt] = 62.0 * kDegree;
  c[kDirection] = 0.0;
  c[kFaceTurn] = 3.0 * kDegree;
  return c;
}

template <class T>
Swing<T> sample_swing(const Eigen::Matrix<T, kSampleCauses, 1>& c) {
  const auto lever = [](const Lever<double>& l) {
    return Lever<T>{T(l.mass), T(l.com), T(l.length), T(l.inertia_com)};
  };
  Swing<T> s;
  s.flail.arm = lever(usual_arms());
  s.flail.club = lever({.mass = 0.414, .com = 0.637, .length = 0.855, .inertia_com = 0.0441});
  s.flail.plane_tilt = c[kTilt];
  s.flail.start_arm = T(-150.0 * kDegree);
  s.flail.start_cock = T(95.0 * kDegree);
  s.flail.shoulder = {c[kShoulder], 0.04, 30.0, 3.0};
  s.flail.wrist.drive = c[kDrive];
  s.flail.wrist.release = {Release<T>::Kind::at_arm, c[kRelease]};
  s.flail.hub.shift = {c[kShift], T(0.0), T(0.30)};
  s.flail.hub.rise = {c[kRise], T(0.12), T(0.22)};
  s.stance = {.hub_along = c[kHubAlong], .hub_up = c[kHubUp], .plane_direction = c[kDirection]};
  s.stance.face = {.top = T(-80.0 * kDegree), .contact = c[kFaceTurn], .closing_rate = T(1500.0 * kDegree)};
  return s;
}

}  // namespace strikewright
