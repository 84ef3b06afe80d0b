#pragma once
// The flail of the reference runs (reference/swing_runs.csv, first lines) and its variations.

#include "swing/run.hpp"

namespace strikewright::testing {

inline Flail<double> reference_flail() {
  Flail<double> f{.arm = {7.0, 0.31, 0.62, 0.4773},
                  .club = {0.394, 0.753, 1.10, 0.0756},
                  .gravity = 9.81,
                  .plane_tilt = 50.0 * kDegree,
                  .start_arm = -160.0 * kDegree,
                  .start_cock = 90.0 * kDegree};
  f.shoulder.torque = 80.0;
  return f;
}

inline RunOptions fine(End end = End::club_vertical, double end_time = 0.0) {
  return {.pace = {.relative = 1e-12, .absolute = 1e-13}, .end = end, .end_time = end_time};
}

inline double head_speed(const Flail<double>& f, const Moment<double>& m) {
  return point_at(f, m, f.club.length).v.norm();
}

}  // namespace strikewright::testing
