#pragma once
// What is believed about the two levels after the balls, and how much better a change explains them than
// none.

#include <vector>

#include "proof/levels.hpp"
#include "proof/single_case.hpp"

namespace strikewright {

/// A normal piece of the posterior of (level, change).
struct LevelPart {
  double weight = 0.0;
  double level = 0.0, change = 0.0;
  double level_sd = 0.0, change_sd = 0.0;
  double slope = 0.0;  ///< of the change on the level: E(change | level) = change + slope (level - mean)
};

struct Beliefs {
  std::vector<LevelPart> parts;              ///< weights sum to 1
  double tau = 0.0, sigma = 0.0, phi = 0.0;  ///< means
  /// Bayes factors against "no change": higher, lower, either. For every level and scale a martingale as
  /// balls are added, on the average over drift and autocorrelation. At most kEvidenceCap.
  double higher = 1.0, lower = 1.0, either = 1.0;
};

inline constexpr double kEvidenceCap = 1e9;

/// @param effect_sd, day_sd in scatters; `cells` from level_cells
[[nodiscard]] Beliefs beliefs_of(const std::vector<LevelCell>& cells, double effect_sd, double day_sd);

/// Moments and quantiles of the mixture, of the level or of the change.
struct Marginal {
  double mean = 0.0, sd = 0.0, p10 = 0.0, p90 = 0.0;
};
[[nodiscard]] Marginal level_marginal(const Beliefs& beliefs);
[[nodiscard]] Marginal change_marginal(const Beliefs& beliefs);

/// Where the improvement lies: more than `worth`, more than nothing, less than -worth.
struct Chances {
  double improved = 0.5, worth = 0.0, worse = 0.0;
};
[[nodiscard]] Chances chances_of(const Beliefs& beliefs, const Wish& wish, double worth);

/// The same for one level and a normal change.
[[nodiscard]] Chances chances_at(double level, double change, double change_sd, const Wish& wish,
                                 double worth);

/// The improvement: the change, minus the change, or by how much the distance to the zone shrinks.
[[nodiscard]] Marginal improvement_marginal(const Beliefs& beliefs, const Wish& wish);

}  // namespace strikewright
