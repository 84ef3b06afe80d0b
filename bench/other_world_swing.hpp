#pragma once
// A golf swing of another kind than core/swing: torso, lead arm and a club whose shaft flexes, four links in
// one tilted plane, driven by torques over time. Nothing here is taken from the rooms that the reading uses.
//
// In-plane axes: x along the plane's base line to the target, y up its slope. A link's angle is measured from
// straight down the slope and grows in the direction of the downswing. SI and radians.

#include <Eigen/Core>
#include <numbers>
#include <vector>

#include "bag/club.hpp"

namespace other_world {

using Four = Eigen::Vector4d;
using Two = Eigen::Vector2d;

inline constexpr double kDegree = std::numbers::pi / 180.0;  ///< rad

/// Four links in a row: torso (hub to lead shoulder), arms (to the grip), the stiff and the swinging part of
/// the club.
struct Chain {
  Four length, com, mass, inertia;  ///< com from the link's near end; inertia about the link's own com
  double flex_stiffness = 0.0;      ///< N m/rad, where the shaft flexes
  double flex_damping = 0.0;        ///< N m s/rad
  double tilt = 0.0;                ///< rad, of the plane to the ground
};
[[nodiscard]] Chain chain_of(const strikewright::Club& club);

/// What a player does in one downswing.
struct Effort {
  bool driven = true;       ///< false: no torque, no damping, a hub at rest; for the check of energy
  double torque = 1.0;      ///< times the usual torques of hub, arms and wrists
  double release = 0.22;    ///< s after the start: the wrists are let go
  double shift = 0.08;      ///< m, the hub's way to the target in the downswing
  double hub_x = 0.0;       ///< m, where the hub is when it starts
  double hub_y = 0.0;       ///< m
  double time_step = 2e-4;  ///< s
};

/// Where the links are and how fast they turn.
struct State {
  double time = 0.0;
  Four angle, rate;
};

/// Place and motion of the leading edge, in the plane.
struct Edge {
  Two place, velocity;
};

/// One downswing, past its lowest point.
class Downswing {
 public:
  Downswing(const Chain& chain, const Effort& effort);

  [[nodiscard]] State state_at(double time) const;
  [[nodiscard]] Edge edge_of(const State& state) const;
  [[nodiscard]] Edge edge_at(double time) const { return edge_of(state_at(time)); }
  [[nodiscard]] double energy_of(const State& state) const;  ///< J, kinetic, of height and of the bent shaft
  [[nodiscard]] bool has_low_point() const { return low_time_ > 0.0; }
  [[nodiscard]] double low_time() const { return low_time_; }
  [[nodiscard]] const std::vector<State>& states() const { return states_; }
  [[nodiscard]] const Effort& effort() const { return effort_; }
  /// The same motion elsewhere: every force is the same wherever the hub stands.
  void move_by(const Two& way) { effort_.hub_x += way.x(), effort_.hub_y += way.y(); }

 private:
  struct Hub {
    double x, rate, push;
  };
  [[nodiscard]] Hub hub_at(double time) const;
  [[nodiscard]] Four torques(const State& state) const;
  [[nodiscard]] Four acceleration(const State& state) const;
  [[nodiscard]] State step(const State& state, double by) const;
  void find_low_point();

  Chain chain_;
  Effort effort_;
  Eigen::Matrix4d coupling_;  ///< kg m2, masses times both links' arms
  Four moment_;               ///< kg m, first moments
  std::vector<State> states_;
  double low_time_ = -1.0;
};

}  // namespace other_world
