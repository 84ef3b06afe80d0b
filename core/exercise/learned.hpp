#pragma once
// What the coach's own book says about how well each exercise works.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "exercise/exercise.hpp"

namespace strikewright {

/// One quantity before and after, as two lessons' sightings state it, SI. `sd` > 0 are posterior; where they
/// lean on a prior (its mean and sd the same for both), that is taken out again.
struct BeforeAfter {
  double before = 0.0, before_sd = 0.0;
  double after = 0.0, after_sd = 0.0;
  double prior_mean = 0.0;
  double prior_sd = 0.0;  ///< 0: the figures lean on no prior
};

/// An exercise given once to one pupil, and what was seen afterwards.
struct Trial {
  std::string exercise, pupil;
  int day = 0;                           ///< of the lesson that followed, for the order only
  std::map<Cause, BeforeAfter> causes;   ///< offsets from the band's usual swing; may be empty
  std::optional<BeforeAfter> low_point;  ///< m from the usual swing's low point; used when no cause is given
  std::optional<double> result_before, result_after;  ///< m from the target; reported, not learned from
};

/// What is believed of one exercise now. Its effect is told as the shift of its first move: the share of the
/// way home gone in one dose.
struct LearnedEffect {
  std::string exercise;
  double mean = 0.0, sd = 0.0;  ///< of the effect on pupils on average
  double p10 = 0.0, p90 = 0.0;
  double next_sd = 0.0;  ///< for one more pupil: with how pupils differ
  double standard_mean = 0.0, standard_sd = 0.0, standard_next_sd = 0.0;  ///< (effect - shift) / shift_sd
  double probability_works = 0.0;                                         ///< that the effect is above 0
  std::size_t times = 0, pupils = 0;
  std::optional<double> result_change;  ///< m, mean over its trials that say; negative = nearer
};

/// How far this coach's results are from the catalogue's beliefs, and how much pupils differ: root mean
/// squares of the posterior, in units of an exercise's shift_sd.
struct BookEffects {
  std::vector<LearnedEffect> effects;  ///< one an exercise, in their order
  double between_exercises = 0.0, between_pupils = 0.0;
  [[nodiscard]] const LearnedEffect* of(const std::string& exercise) const;
};

/// Partial pooling over the book (docs/models/exercise.md). In units of its shift_sd, exercise e does
/// x = m_e + u for a pupil, m_e ~ N(0, kappa^2), u ~ N(0, omega^2); move j's share of the way is then
/// shift_j + x shift_sd_j. A cause that was c is c + share (home - c) afterwards, moved between lessons by
/// 0.3 steps, and both are seen with their own noise; c itself is integrated out, so that what was far off by
/// chance of one lesson is not counted as helped (regression to the mean). kappa and omega are integrated on
/// a grid over all exercises at once. Trials of exercises that are not among `exercises` are left out.
/// Deterministic; all widths but the catalogue's: assumption.
[[nodiscard]] BookEffects learned_effects(const std::vector<Exercise>& exercises,
                                          const std::vector<Trial>& trials);

}  // namespace strikewright
