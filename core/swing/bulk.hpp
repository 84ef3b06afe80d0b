#pragma once
// Many swings at once: the same flail with its causes varied, one core, four side by side.

#include <vector>

#include "swing/swing.hpp"

namespace strikewright {

/// Where the leading edge meets the ball, as a plane in (along, up the slope, club angle) touching the true
/// contact at one swing: contact is where edge along = along + per_up (edge up - up) + per_club (club angle -
/// club). Places are in the plane, from the turf under the ball. contact_line_of (delivery/from_swing.hpp)
/// makes one.
struct ContactLine {
  double along = 0.0, up = 0.0, club = 0.0;  ///< m, m, rad
  double per_up = 0.0, per_club = 0.0;       ///< m/m, m/rad
};

/// Swings that share levers, gravity, start, muscle laws and the hub's timing, and differ in their causes.
/// All vectors have the same length.
struct SwingBatch {
  Flail<double> base;  ///< everything that is not below; no hub pushes, no drive_after_arm, stop on
  ContactLine contact;
  std::vector<double> torque;     ///< N m, shoulder
  std::vector<double> release;    ///< in the unit of base.wrist.release.kind (ignored when natural)
  std::vector<double> drive;      ///< N m, not negative
  std::vector<double> shift;      ///< m
  std::vector<double> rise;       ///< m
  std::vector<double> tilt;       ///< rad
  std::vector<double> hub_along;  ///< m, as Stance
  std::vector<double> hub_up;     ///< m, as Stance

  [[nodiscard]] std::size_t size() const { return torque.size(); }
  void resize(std::size_t n);
  void set(std::size_t i, const Swing<double>& s);  ///< causes of swing i from a swing like the base
};

/// What the leading edge did, one entry a swing; `arrived` is false (and the rest 0) where it never passed
/// ball or low point.
struct SwingBatchEnds {
  std::vector<double> release_time, contact_time;      ///< s
  std::vector<double> arm, club, arm_rate, club_rate;  ///< rad, rad/s at contact
  std::vector<double> edge_speed;                      ///< m/s at contact
  std::vector<double> low_along, low_up;               ///< m in the plane, from the turf under the ball
  std::vector<char> arrived;
  void resize(std::size_t n);
};

/// Runs a batch with fixed steps of the classical fourth-order Runge-Kutta method, cut at the hub's edges and
/// at each swing's own release; contact and low point are roots on fifth-order Hermite curves through the
/// steps.
///
/// The same law as run_flail. Contact is taken where the edge passes `contact_along`, a line that does not
/// depend on the swing: of second order against passing_of (see docs/models/swing.md for the measured
/// difference). Bits do not depend on the register width or on a swing's neighbours.
///
/// @param step  s; 5e-3 keeps speed within 1e-6 and the low point within 10 micrometres of run_flail
/// (measured in the tests)
/// @pre the batch is as SwingBatch says
void swings_of(const SwingBatch& batch, SwingBatchEnds& out, double step = 5e-3);

}  // namespace strikewright
