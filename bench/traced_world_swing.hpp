#pragma once
// A swing as a trace: hub, lead arm, wrist cock and roll follow smooth curves of time; nothing is driven by
// forces. Arms and club move in planes of their own, and the head hangs on a bent shaft.
//
// World frame of quantity/frame.hpp, SI, radians. Numbers are assumptions from watching players unless a
// source stands beside them.

#include "bag/club.hpp"
#include "judging.hpp"
#include "quantity/angle.hpp"
#include "quantity/frame.hpp"

namespace traced_world {

using judging::Causes;
using judging::kAsked;
using judging::Usual;
using strikewright::Club;
using strikewright::kDegree;
using Vec = strikewright::Vec3<double>;
using Mat = strikewright::Mat3<double>;

/// How a player swings, whatever his faults. Times are those of a swing of pace 1.
struct Style {
  double arm = 0.62;          ///< m, hub to hands
  double arm_top = -2.2;      ///< rad, arm at the top, from straight down the slope, forward +
  double arm_speed = 15.0;    ///< rad/s that the arm tends to
  double arm_rise = 0.12;     ///< s in which it gets there
  double arm_yields = 0.35;   ///< share of arm_speed lost while the wrists unhinge
  double cock = 1.83;         ///< rad held before the release (105 deg)
  double past = -0.87;        ///< rad where the unhinging would end (-50 deg)
  double unhinge = 0.024;     ///< s, time constant of the sigmoid
  double roll_range = 1.92;   ///< rad that the forearms roll in all (110 deg)
  double roll_time = 0.024;   ///< s, time constant
  double roll_follows = 0.6;  ///< share of a shift of the release by which the roll shifts, too
  double arm_plane =
      -0.14;  ///< rad, hands go round in a plane flatter than the shaft's (8 deg): the head's
              ///< plane then slopes by 60 deg with a 7-iron, between Kwon 2012's 5-iron and wedge
  double shaft_plane = -0.02;  ///< rad, shaft steeper than the club's lie (fitted to lie level when bent)
  double droop = 0.026;        ///< rad, toe-down bend of the shaft (1.5 deg)
  double bend = 0.017;         ///< rad, forward bend of the shaft (1 deg)
  double travel = 0.06;        ///< m, hub toward the target in the downswing
  double rise = 0.04;          ///< m, hub up through impact
  double aimed = 0.5;  ///< share of a turned plane that is stance (about the ball); the rest is about the hub
  double tilts_up = -0.05;     ///< m up for each m that the hub is further to the target (spine tilt)
  double tilts_right = -0.35;  ///< rad of plane direction for each m of the same (0.4 deg for 20 mm)
};

/// Where and when: what the usual swing is solved for, and what causes shift.
struct Setup {
  double pace = 1.0;       ///< all curves of time are so much faster
  double release = 0.268;  ///< s, middle of the unhinging at pace 1
  double hub_x = -0.05;    ///< m ahead of the ball at impact
  double hub_y = 0.75;     ///< m to the golfer's side of the ball
  double hub_z = 1.35;     ///< m up at impact
  double direction = 0.0;  ///< rad, of both planes, right +
  double roll = 0.0;       ///< rad, closing +
};

/// The club at one moment.
struct Pose {
  Vec edge;    ///< leading edge under the middle of the grooves
  Vec normal;  ///< of the face
  Vec up;      ///< up the face
  Vec toe;     ///< along the grooves
  Vec shaft;   ///< from head to grip
  Vec hands;
};

/// What the club does at contact, in the player's terms (mirrored for a left-hander).
struct Delivered {
  double low_point = 0.0, low_depth = 0.0, edge_height = 0.0;
  double attack = 0.0, path = 0.0, face = 0.0, lean = 0.0, loft = 0.0, lie = 0.0, speed = 0.0;
  double direction = 0.0, handle_lead = 0.0, toe = 0.0, up = 0.0;
};

/// The ball's lowest point above the turf [m]: mown grass carries it a little.
inline constexpr double kBallLift = 0.001;
inline constexpr double kBallRadius = 0.021335;

class Trace {
 public:
  /// @param side 1 right-hander, -1 left-hander   @param step s, of the differences behind velocities
  Trace(const Club& club, const Style& style, const Setup& setup, double side = 1.0, double step = 2e-5);
  [[nodiscard]] Pose at(double time) const;
  /// Velocity of a point of the head: toe, up and depth behind the face from the leading edge's middle.
  [[nodiscard]] Vec velocity(double time, double toe, double up, double behind) const;
  [[nodiscard]] double contact_time() const { return contact_; }
  [[nodiscard]] double low_time() const { return low_; }
  [[nodiscard]] double side() const { return side_; }
  [[nodiscard]] const Club& club() const { return club_; }
  [[nodiscard]] Delivered delivered() const;

 private:
  [[nodiscard]] double gap(double time) const;  ///< m from face to ball
  [[nodiscard]] double arm_at(double u) const;
  [[nodiscard]] double cock_at(double u) const;
  [[nodiscard]] Vec hub_at(double u) const;
  [[nodiscard]] double found_contact() const;
  [[nodiscard]] double found_low() const;

  Club club_;
  Style style_;
  Setup setup_;
  double side_, step_, contact_ = 0.0, low_ = 0.0;
};

/// A setup with causes.
[[nodiscard]] Setup shifted(const Setup& setup, const Style& style, const Causes& causes);

/// The setup that makes the style arrive as usual, struck in the middle of the face. `off` is what is left
/// (m/s, m, rad: the largest).
struct Solved {
  Setup setup;
  double off = 0.0;
};
[[nodiscard]] Solved solved(const Club& club, const Style& style, const Usual& usual);

}  // namespace traced_world
