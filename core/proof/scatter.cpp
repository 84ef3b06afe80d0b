#include "proof/scatter.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace strikewright {
namespace {

constexpr double kRatioSd = 0.5;
constexpr std::size_t kScatters = 32;

/// Mean square about the phase's own mean, reading's noise included.
double spread_of(const std::vector<LevelBall>& balls) {
  double mean = 0.0, sum = 0.0;
  for (const LevelBall& b : balls) mean += b.value / static_cast<double>(balls.size());
  for (const LevelBall& b : balls) sum += (b.value - mean) * (b.value - mean) + b.sd * b.sd;
  return sum / static_cast<double>(balls.size());
}

/// ln likelihood of one phase at each scatter.
std::vector<double> likelihoods(const std::vector<LevelBall>& balls, const std::vector<double>& sigma,
                                double phi) {
  std::vector<double> out;
  for (const double s : sigma) {
    LevelFilter filter(s, phi);
    for (LevelBall b : balls) {
      b.after = false;  // each phase has a level of its own, whatever it is called
      filter.add(b);
    }
    out.push_back(balls.size() < 2 ? 0.0 : answer_of(filter.sums(), {}).log_marginal);
  }
  return out;
}

}  // namespace

ScatterRatio scatter_ratio(const std::vector<LevelBall>& balls, double phi, double floor) {
  std::vector<LevelBall> before, after;
  for (const LevelBall& b : balls) (b.after ? after : before).push_back(b);
  double most = floor;
  if (!before.empty()) most = std::max(most, std::sqrt(spread_of(before)));
  if (!after.empty()) most = std::max(most, std::sqrt(spread_of(after)));
  std::vector<double> sigma;  // from a fortieth to four times the larger spread seen
  for (std::size_t k = 0; k < kScatters; ++k)
    sigma.push_back(most / 40.0 * std::pow(160.0, static_cast<double>(k) / (kScatters - 1)));
  const auto b = likelihoods(before, sigma, phi), a = likelihoods(after, sigma, phi);
  // Pairs of scatters by how many steps of the grid they lie apart.
  const double step = std::log(160.0) / (kScatters - 1);
  constexpr std::size_t kApart = 2 * kScatters - 1;
  const auto log_ratio = [&](std::size_t k) { return step * (static_cast<double>(k) - (kScatters - 1.0)); };
  const double top_b = *std::max_element(b.begin(), b.end()), top_a = *std::max_element(a.begin(), a.end());
  std::array<double, kApart> weight{};
  double sum = 0.0;
  for (std::size_t i = 0; i < kScatters; ++i)
    for (std::size_t j = 0; j < kScatters; ++j) {
      const std::size_t k = kScatters - 1 + j - i;
      const double z = log_ratio(k) / kRatioSd;
      const double w = std::exp(b[i] - top_b + a[j] - top_a - 0.5 * z * z);
      weight[k] += w;
      sum += w;
    }
  ScatterRatio out{{}, 0.0};
  double square = 0.0;
  for (std::size_t k = 0; k < kApart; ++k) {
    weight[k] /= sum;
    const double r = std::exp(log_ratio(k));
    out.ratio.mean += weight[k] * r;
    square += weight[k] * r * r;
    out.steadier += weight[k] * (k < kScatters - 1 ? 1.0 : (k > kScatters - 1 ? 0.0 : 0.5));
  }
  out.ratio.sd = std::sqrt(std::max(0.0, square - out.ratio.mean * out.ratio.mean));
  // Quantiles: the weight of a step is spread evenly over its width.
  const auto quantile = [&](double p) {
    double below = 0.0;
    for (std::size_t k = 0; k < kApart; ++k) {
      if (below + weight[k] >= p) return std::exp(log_ratio(k) + step * ((p - below) / weight[k] - 0.5));
      below += weight[k];
    }
    return std::exp(log_ratio(kApart - 1));
  };
  out.ratio.p10 = quantile(0.1);
  out.ratio.p90 = quantile(0.9);
  return out;
}

}  // namespace strikewright
