#pragma once
// How a player's swings hang together: what stays from swing to swing, what moves, what a condition changes,
// and what the coach's eye adds to all of them.

#include <array>

#include "reading/prior.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// The prior's unit variance of each coordinate of Unknown, split: how one player's swings scatter on
/// average, and how players differ (the rest; standard deviations). All: assumption; docs/models/pattern.md
/// lists them.
const Coordinates& within_sd();
const Coordinates& between_sd();

/// A player's own scatter, coordinate by coordinate, about its average: scaled inverse chi-square with so
/// many degrees of freedom for the variance (a standard deviation known to about a third). Assumption.
inline constexpr double kScatterFreedom = 5.0;
/// Now and then a swing falls out of its pattern: swings are multivariate Student-t about it. Assumption.
inline constexpr double kSwingFreedom = 8.0;

/// What a condition does to one coordinate, in the prior's units for a club player's 7-iron (weight 31 mm
/// ...): the pattern is `keeps` x the pupil's usual + a shift of mean `shift` and standard deviation `sd`.
struct ConditionEffect {
  double keeps = 1.0, shift = 0.0, sd = 0.0;
};
/// SI shifts of weight etc. are turned into the prior's units by its unit_sd. Normal: no effect. Assumptions,
/// written out in docs/models/cause.md.
std::array<ConditionEffect, kUnknowns> effects_of(Condition condition, const Prior& prior);

}  // namespace strikewright
