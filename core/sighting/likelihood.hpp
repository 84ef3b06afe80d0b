#pragma once
// The two likelihoods: Student-t about a prediction, and ordered words with soft edges.

#include <numbers>

#include "sighting/facts.hpp"

namespace strikewright {

inline constexpr double kTailFreedom = 5.0;  ///< nu of the Student-t
/// Standard deviation of the logistic distribution of unit scale, pi / sqrt(3).
inline constexpr double kLogisticSd = std::numbers::pi * std::numbers::inv_sqrt3;

/// A cost with its slope and a non-negative curvature along one latent.
struct Term {
  double cost = 0.0, slope = 0.0, curvature = 0.0;
};

/// Scale of a measured sighting at the prediction x, and its slope (formula: see Sighting).
struct Scale {
  double value = 1.0, slope = 0.0;
};
[[nodiscard]] Scale scale_at(double x, double sd, double share, double model_share);

/// (nu+1)/2 log1p(r^2/nu) + log(s(x)/s(y)), r = (y - x)/s(x); slope exact; curvature = w (dr/dx)^2 + (s'/s)^2
/// / 4 with the weight w = (nu+1)/(nu+r^2) of the expectation-maximisation view of the t (Lange, Little &
/// Taylor, J. Am. Stat. Assoc. 84, 881, 1989, from memory): positive everywhere.
[[nodiscard]] Term student(double y, double x, double sd, double share, double model_share);

/// Log density of the same, normalised, 1 / unit of y.
[[nodiscard]] double log_student(double y, double x, double sd, double share, double model_share);

/// -log F(z), F logistic; slope and curvature along z. Never -infinity, linear for z -> -infinity.
[[nodiscard]] Term minus_log_logistic(double z);

/// -log P(word) of an ordered scale at the latent x. Convex in x. Uses
/// F(b) - F(a) = F(b) F(-a) (1 - exp(a - b)), which is stable in both tails.
[[nodiscard]] Term word_cost(const WordScale& scale, std::size_t word, double x);

}  // namespace strikewright
