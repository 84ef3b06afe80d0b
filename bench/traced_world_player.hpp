#pragma once
// Players of the traced world: a style of their own, one cause that leads, habits that make up for some of
// it, and scatter from swing to swing.

#include <vector>

#include "numeric/draws.hpp"
#include "traced_world_ball.hpp"

namespace traced_world {

using strikewright::Draws;

/// A club and where the usual swing with it arrives.
struct Base {
  Club club;
  Usual usual;
  Setup setup;        ///< of the usual style
  double off = 0.0;   ///< what is left of the usual (m/s, m, rad)
  double apex = 0.0;  ///< m, of the usual swing's ball
};
[[nodiscard]] Base base_of(const Club& club, const Usual& usual);

/// How a swing is made here: four ways.
enum class Way { normal, lead_leg, feet_together, trail_hand };
inline constexpr std::size_t kWays = 4;

struct Pupil {
  const Base* base = nullptr;
  double side = 1.0;
  Style style;
  Setup setup;  ///< arrives as usual but for the player's pace and strike
  Ground ground;
  std::size_t leader = 0;
  double size = 0.0;                          ///< units
  Causes own{};                               ///< what is judged: leader and lesser ones, units
  double felt_height = 0.0, felt_face = 0.0;  ///< units by which he makes up
  Delivered truth;                            ///< of the swing he means to make
  std::array<std::vector<Seeable>, kWays> shots;
};

/// Draws a player and his swings: `many` normal ones and `few` in each other way.
[[nodiscard]] Pupil pupil_of(const std::vector<Base>& bases, std::size_t many, std::size_t few, Draws& draws);

}  // namespace traced_world
