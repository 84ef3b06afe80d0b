#pragma once
// How far importance weights can be trusted: the tail of the largest ones against a generalised Pareto law.

#include <span>
#include <vector>

namespace strikewright {

/// Shape and scale of a generalised Pareto law of exceedances over zero.
struct ParetoTail {
  double shape = 0.0;  ///< k; moments up to 1/k exist
  double scale = 0.0;
};

/// Fit by the profile method of J. Zhang & M. A. Stephens, "A new and efficient estimation method for the
/// generalized Pareto distribution", Technometrics 51, 2009, 316-325, with the weak prior on the shape of
/// Vehtari et al. (below).
/// @param exceedances sorted, ascending, > 0, at least 5
ParetoTail fit_pareto(std::span<const double> exceedances);

/// Pareto-smoothed importance weights.
struct SmoothedWeights {
  std::vector<double> weight;    ///< normalised to sum 1, in the order given
  double tail_index = 0.0;       ///< k-hat: under 0.7 the weighted means can be trusted
  double effective_draws = 0.0;  ///< 1 / sum of squared weights
};

/// The largest weights are replaced by the expected order statistics of the fitted tail.
/// Source: A. Vehtari, D. Simpson, A. Gelman, Y. Yao & J. Gabry, "Pareto smoothed importance sampling",
/// Journal of Machine Learning Research 25(72), 2024.
/// @param log_weights any common offset; not all -infinity
SmoothedWeights smooth_weights(std::span<const double> log_weights);

}  // namespace strikewright
