#include "verbs/explain.hpp"

#include <algorithm>

namespace strikewright {

bool had_ball(const Pattern& pattern, const LessonReading& lesson, const std::vector<SeenSwing>& seen) {
  for (std::size_t k = 0; k < seen.size(); ++k) {
    const SwingReading& s = lesson.swings[k];
    const bool same = s.club == pattern.club && s.condition == pattern.condition && s.hand == pattern.hand;
    if (same && seen[k].ball) return true;
  }
  return false;
}

Result<WaysSwung> ways_for(const Group& group, const LessonOptions& options) {
  constexpr std::size_t kSwings = 400;
  const Pass<double> aim = pass_at(group.prior, within_reach(mean_of(group.fit.usual.centre)));
  return ways_of(aim, static_cast<SwingBand>(options.skill), group.setting, Noise{}, kSwings,
                 options.fit.seed, options.threads);
}

Explained explained(const Group& group, const LessonReading& lesson, const std::vector<SeenSwing>& seen,
                    const LessonOptions& options, From from, bool compare) {
  Explained why;
  why.group = &group;
  why.skill = options.skill;
  why.anything_seen = std::any_of(group.swings.begin(), group.swings.end(),
                                  [&](std::size_t i) { return !seen[i].sightings.empty(); });
  why.causes = causes_of(group, seen, from, options.fit.seed);
  why.conflicts = conflicts_of(group, lesson, seen, options.bag, options.threads);
  if (compare) why.ways = ways_for(group, options);
  return why;
}

}  // namespace strikewright
