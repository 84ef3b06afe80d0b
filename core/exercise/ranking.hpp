#pragma once
// Which exercise gains this pupil most, as far as one can know.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "cause/causes.hpp"
#include "exercise/exercise.hpp"
#include "exercise/learned.hpp"
#include "exercise/safety.hpp"

namespace strikewright {

/// What a fat or thin strike costs beyond the metres it misses the target by: so many metres for one such
/// strike a swing. Assumption.
inline constexpr double kMetresPerBadStrike = 10.0;

/// One number over the posterior draws, in its unit.
struct Spread {
  double mean = 0.0, sd = 0.0, p10 = 0.0, p90 = 0.0;
};

/// What swings come to: mean distance from the target point, and the share called fat or thin.
struct Outlook {
  Spread distance;   ///< m
  Spread bad_share;  ///< 0..1
};

struct RankedExercise {
  std::string name;
  Permission permission;          ///< free or flagged
  Cause by = Cause::weight;       ///< the cause through which most of the gain comes
  Spread gain;                    ///< m nearer the target point, mean over swings
  Spread fewer_bad;               ///< share of swings fat or thin before, less after
  Spread score;                   ///< m: gain + kMetresPerBadStrike x fewer_bad
  double probability_gain = 0.0;  ///< that the score is above 0
  double probability_best = 0.0;  ///< that no other of the ranked scores more
  bool learned = false;           ///< the coach's own book had a say
};

/// An exercise that is not offered, and why.
struct LeftOut {
  std::string name;
  std::vector<std::string> reasons;  ///< sentences, English
};

/// What would have to be otherwise for the second to be first.
struct Turn {
  enum class What {
    cause,         ///< the leading cause's offset would have to be `needed` instead of `now`, SI
    first_effect,  ///< the first's share of the way on its first move, instead of `now`
    second_effect  ///< the second's
  };
  What what = What::cause;
  Cause cause = Cause::weight;  ///< for What::cause: which; else the first move's
  double now = 0.0;
  std::optional<double> needed;  ///< nothing: not within what is thinkable (3 steps; a share of -0.5 to 1.5)
};

struct Ranking {
  std::string club;
  std::vector<RankedExercise> ranked;  ///< highest mean score first
  std::vector<LeftOut> left_out;       ///< in the order of the exercises
  Outlook now;                         ///< the pupil's swings as they are
  double target_carry = 0.0;    ///< m; mean over the draws where each draw's own mean carry is aimed at
  bool rests_on_prior = false;  ///< what was seen narrowed no cause by a tenth: hardly more than a guess
  std::vector<Turn>
      what_would_make_second_first;  ///< three, in the order of Turn::What; fewer than two ranked: none
};

struct RankingOptions {
  std::optional<double>
      target_carry;  ///< m; nothing = the pupil's own mean carry: one learns how far each club goes
  BodyNotes notes;
  Place place;
  std::size_t draws = 64;   ///< of what is not known: pattern, scatter, effect; > 1
  std::size_t swings = 16;  ///< of each; > 1
  std::uint64_t seed = 20261125;
  unsigned threads = 0;  ///< 0 = all cores; the same bits for any number
};

/// Ranks by expected score under the posterior. For each of `draws` joint draws of the pattern's centre, the
/// scatter between swings and each exercise's effect, `swings` swings run through the real chain before and
/// after one dose, the same random numbers for all. Effects are the catalogue's beliefs, or the book's where
/// it has some (`learned` may be nullptr). Exercises that are not allowed, or not for this club, are left out
/// with reasons. A swing that misses the ball lies at the ball. What is not modelled:
/// docs/models/exercise.md.
///
/// @param group, causes  of the same lesson; left-handers need nothing special
/// @returns with nothing seen: still a ranking, from the prior, and says so
[[nodiscard]] Ranking ranking_of(const Group& group, const CauseReading& causes,
                                 const std::vector<Exercise>& exercises, const BookEffects* learned = nullptr,
                                 const RankingOptions& options = {});

/// The same before anything was seen: from the prior of club and skill alone.
[[nodiscard]] Ranking ranking_of_prior(const Setting& setting, const Prior& prior,
                                       const std::vector<Exercise>& exercises,
                                       const BookEffects* learned = nullptr,
                                       const RankingOptions& options = {});

}  // namespace strikewright
