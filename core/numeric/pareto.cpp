#include "numeric/pareto.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "quantity/fault.hpp"

namespace strikewright {

namespace {

double mean_log(std::span<const double> x, double b) {
  double sum = 0.0;
  for (const double v : x) sum += std::log1p(-b * v);
  return sum / static_cast<double>(x.size());
}

}  // namespace

ParetoTail fit_pareto(std::span<const double> x) {
  ensure(x.size() >= 5 && x.front() > 0.0, "a Pareto fit needs at least five positive exceedances");
  const auto n = static_cast<double>(x.size());
  const auto grid = 30 + static_cast<std::size_t>(std::sqrt(n));
  const double quarter = x[static_cast<std::size_t>(std::lround(n / 4.0)) - 1];
  std::vector<double> b(grid), likelihood(grid);
  for (std::size_t j = 0; j < grid; ++j) {
    b[j] = 1.0 / x.back() +
           (1.0 - std::sqrt(static_cast<double>(grid) / (static_cast<double>(j) + 0.5))) / (3.0 * quarter);
    const double k = mean_log(x, b[j]);
    likelihood[j] = n * (std::log(-b[j] / k) - k - 1.0);
  }
  const double best = *std::max_element(likelihood.begin(), likelihood.end());
  double total = 0.0, weighted = 0.0;
  for (std::size_t j = 0; j < grid; ++j) {
    const double w = std::exp(likelihood[j] - best);
    total += w;
    weighted += w * b[j];
  }
  const double b_hat = weighted / total;
  const double k_hat = mean_log(x, b_hat);
  constexpr double kPriorDraws = 10.0;  // weak prior toward shape 0.5 (Vehtari et al.)
  return {(n * k_hat + kPriorDraws * 0.5) / (n + kPriorDraws), -k_hat / b_hat};
}

SmoothedWeights smooth_weights(std::span<const double> log_weights) {
  const std::size_t n = log_weights.size();
  const double top = *std::max_element(log_weights.begin(), log_weights.end());
  ensure(std::isfinite(top), "importance weights need at least one finite value");
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return log_weights[a] < log_weights[b]; });
  SmoothedWeights out;
  out.weight.resize(n);
  for (std::size_t i = 0; i < n; ++i) out.weight[i] = std::exp(log_weights[i] - top);

  const auto tail = static_cast<std::size_t>(
      std::ceil(std::min(0.2 * static_cast<double>(n), 3.0 * std::sqrt(static_cast<double>(n)))));
  const double cut = tail < n ? out.weight[order[n - tail - 1]] : 0.0;
  std::vector<double> excess(tail);
  for (std::size_t i = 0; i < tail; ++i) excess[i] = out.weight[order[n - tail + i]] - cut;
  constexpr double kFlat = 1e-12;  // all large weights alike: nothing to smooth, nothing to fear
  if (tail >= 5 && excess.front() > 0.0 && excess.back() - excess.front() > kFlat) {
    const ParetoTail fit = fit_pareto(excess);
    out.tail_index = fit.shape;
    for (std::size_t i = 0; i < tail; ++i) {
      const double p = (static_cast<double>(i) + 0.5) / static_cast<double>(tail);
      const double expected = std::abs(fit.shape) < 1e-9
                                  ? -fit.scale * std::log1p(-p)
                                  : fit.scale / fit.shape * std::expm1(-fit.shape * std::log1p(-p));
      out.weight[order[n - tail + i]] = std::min(cut + expected, 1.0);
    }
  }
  const double total = std::accumulate(out.weight.begin(), out.weight.end(), 0.0);
  double squares = 0.0;
  for (double& w : out.weight) {
    w /= total;
    squares += w * w;
  }
  out.effective_draws = 1.0 / squares;
  return out;
}

}  // namespace strikewright
