#pragma once
// The conflicts of a player's swings with one club, each swing judged in the light of the others.

#include <span>
#include <vector>

#include "reading/conflict.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// What the group says about a swing of one of its patterns: the group's prior narrowed to the pattern,
///
///     z = m + S u,   S S' = cov(centre) + diag(scatter^2)
///
/// with m the mean and cov(centre) the covariance of the centre's draws, scatter the mean of its draws, S
/// lower triangular. Coordinates of it are no longer those of Unknown.
/// @param pattern  index into group.fit.patterns; with at least one draw
[[nodiscard]] Prior prior_within(const Group& group, std::size_t pattern);

/// Conflicts of all swings of a group, in its order of swings; Conflict::swing is the index into `seen`.
///
/// Each swing is judged by conflicts_in with the prior of its pattern. That prior has seen the swing itself
/// too, so a swing that is alone in its pattern is judged by the group's own prior instead: else it would
/// vouch for itself. With several it still does in part. Counted once on invented 7-iron lessons (club band,
/// looks coach and full) with the sign of one divot's start turned round: caught in 22 of 40 lessons of one
/// swing, 21 of 47 of two, 19 of 52 of three, 14 of 34 of twelve, always by that cell; of 320 lessons left
/// alone one had a conflict.
/// @param lesson  the group's    @param bag  clubs that may have been hit instead; empty = none is thought of
/// @param threads 0 = all cores; the answer is the same for any number
[[nodiscard]] std::vector<Conflict> conflicts_of(const Group& group, const LessonReading& lesson,
                                                 const std::vector<SeenSwing>& seen,
                                                 std::span<const Club> bag, unsigned threads = 0);

}  // namespace strikewright
