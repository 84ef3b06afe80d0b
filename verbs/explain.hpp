#pragma once
// Beyond the patterns of a lesson: why, what does not fit, another way of swinging.

#include <vector>

#include "verbs/cause_words.hpp"

namespace strikewright {

/// Causes, conflicts and next look of one group.
/// @param group    one of `lesson.groups`; must outlive the answer
/// @param compare  also swing the pupil's pattern in another way (60 ms and more)
Explained explained(const Group& group, const LessonReading& lesson, const std::vector<SeenSwing>& seen,
                    const LessonOptions& options, From from, bool compare);

/// Did any swing of the pattern have a ball? The lesson's swings stand in the order of the file's.
bool had_ball(const Pattern& pattern, const LessonReading& lesson, const std::vector<SeenSwing>& seen);

/// Around the middle of the pupil's usual pattern; a Fault of ways_of.
Result<WaysSwung> ways_for(const Group& group, const LessonOptions& options);

}  // namespace strikewright
