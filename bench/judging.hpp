#pragma once
// How the tool's reading is judged by a world of other swings: lessons in, tables out. Shared by *_world.cpp.

#include <fmt/core.h>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "bag/club.hpp"
#include "numeric/draws.hpp"
#include "quantity/angle.hpp"
#include "quantity/fault.hpp"
#include "reading/lesson.hpp"

namespace judging {

using strikewright::kDegree;

inline constexpr std::size_t kAsked = 5;  ///< weight, release, height, handle, face turn; as the tool's first
inline constexpr std::array<const char*, kAsked> kAskedNames{"weight", "release", "height", "handle",
                                                             "face_turn"};
/// Units of each: 20 mm, 10 ms, 5 mm, 2 deg, 2 deg. The hub further to the target, the wrists let go later,
/// the hub higher, the plane further right, the face more closed.
using Causes = std::array<double, kAsked>;

/// Where the usual swing of the tool's band sits, SI. The zero of all causes: a shift has to be measured from
/// the swing that the reading measures from, so these come out of a reading of nothing (its `prior_mean`).
struct Usual {
  double speed = 0.0, low_point = 0.0, low_depth = 0.0, lean = 0.0, direction = 0.0, face = 0.0;
};
[[nodiscard]] Usual usual_of(const std::string& club);

/// The value, or the end of the program.
template <class T>
T must(strikewright::Result<T> result, const char* what) {
  if (result.has_value()) return std::move(*result);
  fmt::print(stderr, "{}\n", what);
  std::exit(1);
}
[[nodiscard]] strikewright::Club club_of(const char* name);

/// A swing of a lesson without its sightings.
/// @param side  -1: a left-hander
[[nodiscard]] strikewright::SeenSwing unseen(std::size_t row, const std::string& club, double side,
                                             strikewright::Condition condition);

/// Where a pupil's pattern sits, a right-hander's signs, SI.
struct Truth {
  double low_point = 0.0, path = 0.0, face = 0.0, attack = 0.0, lean = 0.0;
};
template <class Delivered>
Truth truth_of(const Delivered& d) {
  return {d.low_point, d.path, d.face, d.attack, d.lean};
}
inline constexpr std::size_t kJudged = 5;  ///< members of Truth

/// One lesson's verdict, in mm and deg.
struct Verdict {
  std::array<double, kJudged> error{}, said{};
  std::array<bool, kJudged> inside{};
  std::size_t first = 0;
  double chance = 0.0;  ///< what the tool gives the right cause
};
[[nodiscard]] Verdict verdict_of(const std::vector<strikewright::SeenSwing>& seen, const Truth& truth,
                                 std::size_t leader);

/// One pupil and what was made of his lessons, one a row of the tables.
struct Case {
  std::string club;
  std::size_t leader = 0;
  double size = 0.0;  ///< units, of the leading cause
  Causes own{};       ///< where the player's causes sit, units
  std::string felt;   ///< what else he does about them
  Truth truth;
  std::vector<Verdict> verdicts;
};

/// A pupil of a world and the verdict on each row's lesson. One way of looking draws alike in all rows.
/// @param lesson_of  (pupil, row, draws of the eye) to swings as seen
template <class Pupil, class Rows, class LessonOf>
Case case_of(const Pupil& p, std::string felt, const Rows& rows, std::uint64_t seed, std::size_t i,
             const LessonOf& lesson_of) {
  Case one{p.base->club.name, p.leader, p.size, p.own, std::move(felt), truth_of(p.truth), {}};
  for (const auto& row : rows) {
    strikewright::Draws eye(seed + 1000 + static_cast<std::uint64_t>(row.looking), i);
    one.verdicts.push_back(verdict_of(lesson_of(p, row, eye), one.truth, p.leader));
  }
  return one;
}

/// A world as it is judged.
struct World {
  const char* name;               ///< of the program
  const char* clubs;              ///< as the heading says them
  std::vector<const char*> rows;  ///< kinds of lessons
  std::function<Case(std::uint64_t seed, std::size_t i)> played;
  std::function<void()> levers;
  std::function<bool()> check;
};

/// What a unit of each cause does: the heading, and the difference of two deliveries.
void print_lever_heading(const std::string& club);
template <class Delivered>
void print_lever(const std::string& name, const Delivered& d, const Delivered& from) {
  fmt::print("  {:<16}{:9.1f}{:9.1f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}\n", name,
             1e3 * (d.low_point - from.low_point), 1e3 * (d.edge_height - from.edge_height),
             (d.attack - from.attack) / kDegree, (d.path - from.path) / kDegree,
             (d.face - from.face) / kDegree, (d.lean - from.lean) / kDegree, d.speed - from.speed);
}
/// One and two units of each cause either way, against `usual`.
template <class Delivered, class At>
void print_levers(const Delivered& usual, const At& at) {
  print_lever("usual", usual, {});
  for (std::size_t k = 0; k < kAsked; ++k)
    for (const double units : {1.0, -1.0, 2.0, -2.0}) {
      Causes c{};
      c[k] = units;
      print_lever(fmt::format("{} {:+.0f}", kAskedNames[k], units), at(c), usual);
    }
}

/// NAME [pupils=60] [seed=1] [threads=0] [each], NAME levers, NAME check.
/// @returns the program's exit code: 1 where the check fails, 2 for what is no such command
int run(const World& world, int argc, char** argv);

}  // namespace judging
