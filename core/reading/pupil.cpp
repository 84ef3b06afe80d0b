#include "reading/pupil.hpp"

namespace strikewright {

const Coordinates& within_sd() {
  // speed, handle, plane tilt, weight, height, release, face turn; toe, lie, closing, sits, turf, its lift,
  // how the head comes back, arc, lean habit
  static const Coordinates sd{
      {0.20, 0.35, 0.25, 0.40, 0.60, 0.55, 0.60, 0.75, 0.30, 0.30, 0.95, 0.25, 0.25, 0.25, 0.10, 0.35}};
  return sd;
}

const Coordinates& between_sd() {
  static const Coordinates sd = (1.0 - within_sd().array().square()).sqrt();
  return sd;
}

/// On the lead leg the hub stands 55 mm ahead of where it usually is at the ball (assumption), but it does
/// not travel there. To the low point that is worth so much weight [m], and so much less lean goes with it
/// than with that weight [rad]; the flail's own figures (test "a hub that stands ahead"). A hub that stands
/// 85 mm behind is worth 85 mm.
constexpr double kOnLeadLeg = 0.042, kLeanOnLeadLeg = -0.6 * kDegree;

std::array<ConditionEffect, kUnknowns> effects_of(Condition condition, const Prior& prior) {
  std::array<ConditionEffect, kUnknowns> effects;
  if (condition == Condition::normal) return effects;
  const auto at = [&](Unknown u) -> ConditionEffect& { return effects[static_cast<std::size_t>(u)]; };
  const auto in = [&](Unknown u, double si) { return si / prior.unit_sd[static_cast<int>(u)]; };
  // Any unusual way of standing changes everything a little.
  for (ConditionEffect& e : effects) e.sd = 0.15;
  const auto slower = [&](double by) { at(Unknown::speed) = {1.0, -by, 0.5}; };
  const auto fixed_weight = [&](double place, double sd) {
    at(Unknown::weight) = {0.0, in(Unknown::weight, place), in(Unknown::weight, sd)};
  };
  switch (condition) {
    case Condition::lead_leg:
      fixed_weight(kOnLeadLeg, 0.015);
      at(Unknown::lean_habit).shift = in(Unknown::lean_habit, kLeanOnLeadLeg);
      slower(1.0);
      break;
    case Condition::trail_leg:
      fixed_weight(-0.085, 0.020);
      slower(1.0);
      break;
    case Condition::feet_together:
      fixed_weight(-0.010, 0.010);
      slower(1.0);
      break;
    case Condition::step:
      fixed_weight(0.040, 0.020);
      break;
    case Condition::trail_hand:
      // One hand holds the club back for less long, and does not turn the face as two do.
      at(Unknown::release) = {0.0, in(Unknown::release, -0.012), in(Unknown::release, 0.006)};
      at(Unknown::face_turn).sd = 0.5;
      slower(1.5);
      break;
    case Condition::normal:
      break;
  }
  return effects;
}

}  // namespace strikewright
