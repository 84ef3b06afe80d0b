#pragma once
// Moments and quantiles of weighted draws.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <span>
#include <vector>

namespace strikewright {

/// Weighted draws sorted once. Quantiles are those below which one more draw falls with probability p: of n
/// equal draws the k-th is that of k / (n + 1) (R. Hyndman & Y. Fan, Am. Stat. 50, 361-365, 1996, definition
/// 6; from memory), linear between; with weights n is the number of equal draws that tell as much (L. Kish,
/// Survey Sampling, 1965; from memory). Taken at the midpoints of the weights, the limits of few draws are
/// too narrow: of a hundred, 95 % would hold 94.
class WeightedDraws {
 public:
  /// @param weights sum 1, all >= 0; same length as values, at least one
  WeightedDraws(std::span<const double> values, std::span<const double> weights)
      : value_(values.size()), below_(values.size()) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    double sum = 0.0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      value_[i] = values[order[i]];
      below_[i] = sum + 0.5 * weights[order[i]];
      sum += weights[order[i]];
      mean_ += weights[order[i]] * value_[i];
    }
    double squares = 0.0;
    for (const double w : weights) squares += w * w;
    count_ = 1.0 / squares;
    for (std::size_t i = 0; i < order.size(); ++i)
      variance_ += weights[order[i]] * (value_[i] - mean_) * (value_[i] - mean_);
  }
  [[nodiscard]] double mean() const { return mean_; }
  [[nodiscard]] double sd() const { return std::sqrt(variance_); }
  [[nodiscard]] double quantile(double chance) const {
    const double p = chance + (chance - 0.5) / count_;  // among the midpoints
    const auto above = std::lower_bound(below_.begin(), below_.end(), p);
    if (above == below_.begin()) return value_.front();
    if (above == below_.end()) return value_.back();
    const auto i = static_cast<std::size_t>(above - below_.begin());
    const double gap = below_[i] - below_[i - 1];
    const double share = gap > 0.0 ? (p - below_[i - 1]) / gap : 1.0;
    return value_[i - 1] + share * (value_[i] - value_[i - 1]);
  }

 private:
  std::vector<double> value_, below_;
  double mean_ = 0.0, variance_ = 0.0, count_ = 1.0;
};

}  // namespace strikewright
