#pragma once
// From draws to one number with its uncertainty.

#include "reading/reading.hpp"

namespace strikewright {

/// @param weights sum 1, as many as values
Estimate estimate_of(const std::vector<double>& values, const std::vector<double>& weights, double prior_mean,
                     double prior_sd);

/// Equally weighted.
Estimate estimate_of(const std::vector<double>& values, double prior_mean, double prior_sd);

/// Spreads values about their weighted mean by a factor.
void spread_about_mean(std::vector<double>& values, const std::vector<double>& weights, double factor);

/// Indices of an equally weighted resample: systematic, one shift (Kitagawa, J. Comp. Graph. Stat. 5, 1996).
std::vector<std::size_t> resample(const std::vector<double>& weight, std::size_t count);

}  // namespace strikewright
