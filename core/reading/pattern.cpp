#include "reading/pattern.hpp"

#include <algorithm>
#include <cmath>

#include "reading/estimate.hpp"
#include "reading/slopes.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {
namespace {

bool all_finite(const std::array<double, kReported>& row) {
  return std::all_of(row.begin(), row.end(), [](double v) { return std::isfinite(v); });
}

using Columns = std::array<std::vector<double>, kReported>;

/// Slopes of what is reported along the coordinates, at one place.
std::array<Coordinates, kReported> slopes_at(const FitSwing& swing, const Coordinates& z) {
  const auto values = reported_values(shot_with_slopes(*swing.prior, z, *swing.setting, false));
  const Factor factor = swing.prior->factor_at(z);
  std::array<Coordinates, kReported> out;
  for (std::size_t k = 0; k < kReported; ++k) out[k] = along(factor, values[k]);
  return out;
}

PatternReading pattern_of(const FitPattern& fit, const FitSwing& like, const PriorReach& reach) {
  Columns centre, scatter;
  const Coordinates middle = mean_of(fit.centre);
  for (const Coordinates& drawn : fit.centre) {
    const Coordinates z = within_reach(middle + kPatternAllowance * (drawn - middle));
    const auto row = reported_values(shot_of(pass_at(*like.prior, z), *like.setting, false));
    const bool sound = all_finite(row);
    for (std::size_t k = 0; sound && k < kReported; ++k) centre[k].push_back(row[k]);
  }
  const auto slopes = slopes_at(like, middle);
  for (const Coordinates& sd : fit.scatter)
    for (std::size_t k = 0; k < kReported; ++k) scatter[k].push_back(slopes[k].cwiseProduct(sd).norm());
  PatternReading out;
  for (std::size_t k = 0; k < kReported; ++k) {
    out.mean[k] = estimate_of(centre[k], reach.mean[k], reach.sd[k]);
    out.scatter[k] = estimate_of(scatter[k], slopes[k].cwiseProduct(within_sd()).norm(), reach.sd[k]);
  }
  return out;
}

Reading swing_of(const FitSwingDraws& draws, const FitSwing& swing, const PriorReach& reach) {
  Reading r;
  Columns values;
  Coordinates middle = Coordinates::Zero();
  std::vector<double> weights;
  for (std::size_t i = 0; i < draws.at.size(); ++i) {
    const auto& row = draws.reported[i];
    if (!all_finite(row)) continue;
    weights.push_back(draws.weight[i]);
    for (std::size_t k = 0; k < kReported; ++k) values[k].push_back(row[k]);
    middle += draws.weight[i] * draws.at[i];
  }
  double all = 0.0;
  for (const double w : weights) all += w;
  for (double& w : weights) w /= all;
  for (std::vector<double>& column : values) spread_about_mean(column, weights, kSwingAllowance);
  for (std::size_t k = 0; k < kReported; ++k)
    r.at[k] = estimate_of(values[k], weights, reach.mean[k], reach.sd[k]);
  for (const std::size_t i : resample(draws.weight, draws.at.size())) {
    r.draws.push_back(reported_of(draws.reported[i]));
    r.passes.push_back(draws.pass[i]);
  }
  r.best = pass_at(*swing.prior, middle);
  r.health.pareto_k = draws.tail_index;
  r.health.belongs = draws.belongs;
  r.health.effective_draws = draws.effective_draws;
  constexpr double kTrusted = 0.7, kFew = 15.0;
  r.health.rough = draws.tail_index > kTrusted && draws.effective_draws < kFew;
  r.health.sentence = r.health.rough
                          ? "Rough: the sightings do not sit well with one simple answer; take the "
                            "limits with care."
                          : "Sound.";
  if (swing.sightings.empty())
    r.health.sentence = "Nothing was seen: this is what the other swings and the skill band make likely.";
  return r;
}

}  // namespace

TogetherReading read_together(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                              std::span<const PriorReach* const> reach, const FitOptions& options) {
  TogetherReading out;
  out.fit = fit_together(swings, conditions, options);
  for (std::size_t p = 0; p < conditions.size(); ++p) {
    const auto like =
        std::find_if(swings.begin(), swings.end(), [&](const FitSwing& s) { return s.pattern == p; });
    ensure(like != swings.end(), "every condition has a swing");
    out.patterns.push_back(
        pattern_of(out.fit.patterns[p], *like, *reach[static_cast<std::size_t>(like - swings.begin())]));
  }
  for (std::size_t i = 0; i < swings.size(); ++i)
    out.swings.push_back(swing_of(out.fit.swings[i], swings[i], *reach[i]));
  return out;
}

}  // namespace strikewright
