#pragma once
// Steadier or not: the scatter of the swings after against before.

#include <vector>

#include "proof/beliefs.hpp"
#include "proof/levels.hpp"

namespace strikewright {

struct ScatterRatio {
  Marginal ratio;         ///< sd after / sd before, of the swings themselves (readings' noise taken off)
  double steadier = 0.5;  ///< P(ratio < 1)
};

/// Prior of ln(ratio): N(0, 0.5^2) (assumption); log-uniform in the common scatter. Each phase has its own
/// level; autocorrelation as given. With fewer than two balls on a side the prior comes back.
[[nodiscard]] ScatterRatio scatter_ratio(const std::vector<LevelBall>& balls, double phi, double floor);

}  // namespace strikewright
