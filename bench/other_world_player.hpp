#pragma once
// Invented pupils of the other world: a usual swing, what is off about it, and what they do about that.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "judging.hpp"
#include "numeric/draws.hpp"
#include "other_world_ball.hpp"

namespace other_world {

using judging::Causes;
using judging::kAsked;
using judging::Usual;
using strikewright::Draws;

/// A club's usual swing in this world.
struct Base {
  strikewright::Club club;
  Chain chain;
  Effort effort;
  Pose pose;
  double usual_launch = 0.0;  ///< rad, of a clean strike: what "normal" height means
  double worst = 0.0;         ///< how far off `Usual` it was left, in mm, deg or m/s
};
/// Finds torques, hub and face so that the club arrives as usual.
[[nodiscard]] Base base_of(const strikewright::Club& club, const Usual& usual);

/// One unit of each, SI: 20 mm, 10 ms, 5 mm, 2 deg, 2 deg.
inline constexpr std::array<double, kAsked> kUnits{0.020, 0.010, 0.005, 2.0 * kDegree, 2.0 * kDegree};
/// What else differs from swing to swing and from player to player.
struct Habit {
  double pace = 1.0;                ///< times the torques
  double tilt = 0.0, toe_up = 0.0;  ///< rad
  double closing = 26.0;            ///< rad/s, about 1500 deg/s: assumption
  double toe = 0.0;                 ///< m
  double face_follows = 0.3;        ///< share of the plane's direction that the face goes along with
  bool on_lead_leg = false;
  double lead_place = 0.0;  ///< m, on the lead leg: the hub further on than usual
};

struct Swing {
  Downswing motion;
  Pose pose;
};
[[nodiscard]] Swing swing_of(const Base& base, const Causes& causes, const Habit& habit, double side = 1.0,
                             double time_step = 2e-4);

struct Pupil {
  const Base* base = nullptr;
  double side = 1.0;
  std::size_t leader = 0;
  double size = 0.0;  ///< units, of the leading cause
  Causes own{};       ///< where the player's causes sit, units
  Causes done{};      ///< with what he does about them: height and face
  Habit habit;
  double felt_height = 0.0, felt_face = 0.0;  ///< shares
  Causes scatter{};                           ///< units, from swing to swing
  double toe_scatter = 0.0, lie_scatter = 0.0, pace_scatter = 0.0;
  Delivered truth;  ///< of the middle of the usual swings, a right-hander's signs
  std::vector<Seeable> normal, lead_leg;
};
[[nodiscard]] Pupil pupil_of(const std::vector<Base>& bases, std::size_t swings, std::size_t on_lead_leg,
                             Draws& draws);

}  // namespace other_world
