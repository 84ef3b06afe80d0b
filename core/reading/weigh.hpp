#pragma once
// Draws from around the humps, re-weighted to the true posterior.

#include <cstdint>
#include <vector>

#include "numeric/pareto.hpp"
#include "reading/climb.hpp"

namespace strikewright {

/// Posterior draws with weights that sum to one.
struct Weighed {
  std::vector<Coordinates> at;
  std::vector<Shot<double>> shot;
  std::vector<double> weight;
  double tail_index = 0.0;
  double effective_draws = 0.0;
  bool rough = false;  ///< weights could not be trusted; a random walk was used instead
};

/// Importance sampling from a mixture of Student-t laws on the humps, Pareto-smoothed. Where the tail index
/// stays above 0.7 the mixture is refitted to the weighted draws, twice at most; where that does not help, a
/// random-walk Metropolis chain takes over and the reading is called rough.
Weighed weigh(const Target& target, const std::vector<Hump>& humps, std::size_t draws, std::uint64_t seed);

}  // namespace strikewright
