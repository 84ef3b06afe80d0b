#pragma once
// The conflicts of a player's swings with one club, each swing judged in the light of the others.

#include <span>
#include <vector>

#include "reading/conflict.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// What the group says about a swing of one of its patterns: the group's prior narrowed to the pattern,
///
///     mean + factor m, factor S,   S S' = cov(centre) + diag(scatter^2)
///
/// with m the mean and cov(centre) the covariance of the centre's draws, scatter the mean of its draws, S
/// lower triangular. Coordinates of it are no longer those of Unknown.
/// @param pattern  index into group.fit.patterns; with at least one draw
[[nodiscard]] Prior prior_within(const Group& group, std::size_t pattern);

/// Conflicts of all swings of a group, in its order of swings; Conflict::swing is the index into `seen`.
///
/// Each swing is judged by conflicts_in with the prior of its pattern. That prior has seen the swing itself
/// too, so a swing that is alone in its pattern is judged by the group's own prior instead: else it would
/// vouch for itself. Of 203 invented lessons of 1 to 12 swings with the sign of one divot's start turned
/// round, 88 were caught, always by that cell, with one swing a lesson as often as with twelve; of 280 left
/// alone one had a conflict (7-iron, club band, looks coach and full).
/// @param lesson  the group's    @param bag  clubs that may have been hit instead; empty = none is thought of
/// @param threads 0 = all cores; the answer is the same for any number
[[nodiscard]] std::vector<Conflict> conflicts_of(const Group& group, const LessonReading& lesson,
                                                 const std::vector<SeenSwing>& seen,
                                                 std::span<const Club> bag, unsigned threads = 0);

}  // namespace strikewright
