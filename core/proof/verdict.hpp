#pragma once
// From figures to one of five words, and how many more balls would change the word.

#include <optional>
#include <vector>

#include "proof/beliefs.hpp"
#include "proof/levels.hpp"
#include "proof/proof.hpp"

namespace strikewright {

/// What the word is said on.
struct Grounds {
  int before = 0, after = 0;  ///< balls
  Chances chances;
  double evidence = 1.0, against = 1.0;
};

[[nodiscard]] Verdict verdict_of(const Grounds& grounds, const ProofOptions& options);

/// Which way a change would be better, seen from a baseline: +1, -1, or 0 where the baseline lies in the
/// zone.
[[nodiscard]] int better_side(double baseline_mean, const Wish& wish);

/// Smallest number of further "after" balls with which the word is yes, no change or worse at least as likely
/// as not, as far as one can tell now: what the posterior mean may become is normal with the variance that
/// the further balls take off; the e-value follows by the normal formula, at the distance from it at which it
/// stands now, which fades as balls are added.
/// @param balls at least two; the new ones follow the last one without a gap
[[nodiscard]] Forecast forecast_of(const std::vector<LevelBall>& balls, const Beliefs& beliefs,
                                   const Grounds& now, const ProofOptions& options);

}  // namespace strikewright
