#include "reading/estimate.hpp"

#include <algorithm>

#include "numeric/quantile.hpp"

namespace strikewright {

Estimate estimate_of(const std::vector<double>& values, const std::vector<double>& weights, double prior_mean,
                     double prior_sd) {
  const WeightedDraws d(values, weights);
  Estimate e;
  e.mean = d.mean();
  e.sd = d.sd();
  e.p2_5 = d.quantile(0.025);
  e.p10 = d.quantile(0.1);
  e.p25 = d.quantile(0.25);
  e.p50 = d.quantile(0.5);
  e.p75 = d.quantile(0.75);
  e.p90 = d.quantile(0.9);
  e.p97_5 = d.quantile(0.975);
  e.prior_mean = prior_mean;
  e.prior_sd = prior_sd;
  e.owed_to_prior = prior_sd > 0.0 ? std::min(1.0, d.sd() * d.sd() / (prior_sd * prior_sd)) : 1.0;
  return e;
}

Estimate estimate_of(const std::vector<double>& values, double prior_mean, double prior_sd) {
  return estimate_of(values, std::vector<double>(values.size(), 1.0 / static_cast<double>(values.size())),
                     prior_mean, prior_sd);
}

void spread_about_mean(std::vector<double>& values, const std::vector<double>& weights, double factor) {
  double mean = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) mean += weights[i] * values[i];
  for (double& v : values) v = mean + factor * (v - mean);
}

std::vector<std::size_t> resample(const std::vector<double>& weight, std::size_t count) {
  std::vector<std::size_t> picks;
  double sum = weight[0];
  std::size_t i = 0;
  for (std::size_t k = 0; k < count; ++k) {
    const double u = (static_cast<double>(k) + 0.5) / static_cast<double>(count);
    while (sum < u && i + 1 < weight.size()) sum += weight[++i];
    picks.push_back(i);
  }
  return picks;
}

}  // namespace strikewright
