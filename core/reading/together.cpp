#include "reading/together.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "numeric/parallel.hpp"
#include "numeric/pareto.hpp"
#include "reading/chain.hpp"
#include "reading/climb.hpp"

namespace strikewright {
namespace {

using namespace detail;

Shape shape_of(std::span<const FitSwing> swings, std::span<const Condition> conditions,
               std::array<int, kKinds>& bias_of_kind) {
  Shape shape;
  shape.conditions.assign(conditions.begin(), conditions.end());
  shape.size = kUnknowns;
  for (const Condition c : conditions) {
    shape.effects.push_back(effects_of(c, *swings.front().prior));
    shape.keeps.emplace_back();
    for (int j = 0; j < kUnknowns; ++j)
      shape.keeps.back()[j] = shape.effects.back()[static_cast<std::size_t>(j)].keeps;
    shape.shift_at.push_back(c == Condition::normal ? -1 : shape.size);
    if (c != Condition::normal) shape.size += kUnknowns;
  }
  bias_of_kind.fill(-1);
  for (const FitSwing& s : swings)
    for (const Sighting& k : s.sightings) {
      int& column = bias_of_kind[static_cast<std::size_t>(k.kind)];
      if (can_be_biased(k.kind) && column < 0) column = shape.biases++;
    }
  shape.size += shape.biases;
  return shape;
}

/// The columns of the biases of a swing's sites, in the sites' order.
std::vector<int> bias_columns(const FitSwing& s, const std::array<int, kKinds>& bias_of_kind) {
  std::vector<int> out;
  for (const Sighting& k : s.sightings) {
    const std::size_t sites = is_word(k.kind) ? decisions_of(k, *s.setting).size() : 1;
    out.insert(out.end(), sites, bias_of_kind[static_cast<std::size_t>(k.kind)]);
  }
  return out;
}

/// What the log weights of a swing's draws lean to: least squares along the coordinates, held back by a
/// ridge.
Coordinates tilt_of(const FitSwingDraws& draws) {
  std::vector<double> sorted = draws.weight;
  std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2),
                   sorted.end());
  const double middle = sorted[sorted.size() / 2];
  constexpr double kFar = 4.0;  // a draw where the straight chain fails wholly must not rule the rest
  const auto n = static_cast<double>(draws.at.size());
  Coordinates mean = Coordinates::Zero();
  double mean_weight = 0.0;
  std::vector<double> weight;
  for (std::size_t k = 0; k < draws.at.size(); ++k) {
    weight.push_back(std::clamp(draws.weight[k] - middle, -kFar, kFar));
    mean += draws.at[k] / n;
    mean_weight += weight[k] / n;
  }
  CoordinatesMatrix a = CoordinatesMatrix::Zero();
  Coordinates h = Coordinates::Zero();
  for (std::size_t k = 0; k < draws.at.size(); ++k) {
    const Coordinates d = draws.at[k] - mean;
    a += d * d.transpose();
    h += d * (weight[k] - mean_weight);
  }
  constexpr double kRidge = 0.02;  // of the draws' own spread
  a.diagonal() *= 1.0 + kRidge;
  a.diagonal().array() += 1e-6 * n;
  const Coordinates tilt = a.llt().solve(h);
  // To first order only: a lean that would move the swing by more than its own spread is cut to that.
  const double moved = std::sqrt(tilt.dot(a * tilt) / n);
  if (!std::isfinite(moved)) return Coordinates::Zero();
  return moved > 1.0 ? Coordinates(tilt / moved) : tilt;
}

FitMessage message_of(const Coordinates& mean, const CoordinatesMatrix& covariance) {
  FitMessage m;
  const CoordinatesMatrix precision = covariance.inverse();
  m.precision = precision;
  for (int j = 0; j < kUnknowns; ++j) {
    const double b = kSplits[static_cast<std::size_t>(j)].between();
    m.precision(j, j) -= 1.0 / (b * b);
  }
  m.pull = precision * mean;
  return m;
}

constexpr std::size_t kChains = 2;

struct Start {
  std::vector<Coordinates> at;
  std::vector<std::vector<int>> biases;
};

/// Each swing's most probable place by itself.
Start start_of(std::span<const FitSwing> swings, const std::array<int, kKinds>& bias_of_kind,
               unsigned threads) {
  Start start{std::vector<Coordinates>(swings.size()), std::vector<std::vector<int>>(swings.size())};
  in_parallel(
      swings.size(), 1,
      [&](std::size_t i, std::size_t) {
        const Target target(swings[i].sightings, *swings[i].setting, *swings[i].prior);
        start.at[i] = climb(target, Coordinates::Zero(), {}, {8, 2e-2, 2.0}).at;
        // On a kink of the chain there is no slope to climb by.
        if (!start.at[i].allFinite()) start.at[i].setZero();
        start.biases[i] = bias_columns(swings[i], bias_of_kind);
      },
      threads);
  return start;
}

template <class T>
void append(std::vector<T>& to, const std::vector<T>& from) {
  to.insert(to.end(), from.begin(), from.end());
}

/// The corrections of many swings add up on the pattern, and are not worked out again after it has moved:
/// beyond ten swings each counts for less. Measured at 10 to 60 swings of simulated pupils; a stopgap
/// (docs/models/pattern.md).
double share_of_correction(std::size_t swings) {
  const auto n = static_cast<double>(swings);
  return std::min(1.0, std::max(10.0 / n, std::min(0.4, 24.0 / n)));
}

/// Warms all chains up and gives each swing the correction that their first draws ask for.
void prepare(std::vector<Chain>& chains, std::size_t swings, const FitOptions& options) {
  std::vector<std::vector<FitSwingDraws>> first(kChains, std::vector<FitSwingDraws>(swings));
  in_parallel(
      kChains, 1,
      [&](std::size_t c, std::size_t) {
        chains[c].warm_up();
        chains[c].try_out(options.first / kChains, first[c]);
      },
      options.threads);
  std::vector<Coordinates> tilts(swings);
  for (std::size_t i = 0; i < swings; ++i) {
    FitSwingDraws& all = first[0][i];
    for (std::size_t c = 1; c < kChains; ++c) {
      append(all.at, first[c][i].at);
      append(all.weight, first[c][i].weight);
    }
    tilts[i] = share_of_correction(swings) * tilt_of(all);
  }
  for (Chain& chain : chains) chain.lean_by(tilts);
}

/// Puts the draws of one chain behind those of another.
void join(Fit& to, const Fit& from) {
  for (std::size_t p = 0; p < to.patterns.size(); ++p) {
    append(to.patterns[p].centre, from.patterns[p].centre);
    append(to.patterns[p].scatter, from.patterns[p].scatter);
  }
  append(to.usual.centre, from.usual.centre);
  for (std::size_t i = 0; i < to.swings.size(); ++i) {
    append(to.swings[i].at, from.swings[i].at);
    append(to.swings[i].shot, from.swings[i].shot);
    append(to.swings[i].weight, from.swings[i].weight);
    to.swings[i].belongs += from.swings[i].belongs;
  }
}

}  // namespace

Coordinates mean_of(const std::vector<Coordinates>& draws) {
  Coordinates mean = Coordinates::Zero();
  for (const Coordinates& z : draws) mean += z / static_cast<double>(draws.size());
  return mean;
}

Fit fit_together(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                 const FitOptions& options) {
  std::array<int, kKinds> bias_of_kind{};
  const Shape shape = shape_of(swings, conditions, bias_of_kind);
  const Start start = start_of(swings, bias_of_kind, options.threads);
  std::vector<Chain> chains;
  for (std::size_t c = 0; c < kChains; ++c) {
    chains.emplace_back(swings, shape, start.at, start.biases, options.seed, c);
    chains.back().bias_of_kind = bias_of_kind;
  }
  prepare(chains, swings.size(), options);
  const std::size_t each = options.sweeps / kChains;
  std::vector<Fit> parts(kChains);
  in_parallel(
      kChains, 1,
      [&](std::size_t c, std::size_t) {
        parts[c].patterns.resize(conditions.size());
        parts[c].swings.resize(swings.size());
        chains[c].keep(each, parts[c]);
      },
      options.threads);
  Fit fit = std::move(parts[0]);
  Coordinates mean = chains[0].mean_;
  CoordinatesMatrix square = chains[0].square_ + chains[0].spread_;
  for (std::size_t c = 1; c < kChains; ++c) {
    join(fit, parts[c]);
    mean += chains[c].mean_;
    square += chains[c].square_ + chains[c].spread_;
  }
  for (FitSwingDraws& s : fit.swings) {
    s.belongs /= static_cast<double>(kChains);
    SmoothedWeights smooth = smooth_weights(s.weight);
    s.weight = std::move(smooth.weight);
    s.tail_index = smooth.tail_index;
    s.effective_draws = smooth.effective_draws;
  }
  const double n = static_cast<double>(kChains * each);
  mean /= n;
  fit.message = message_of(mean, square / n - mean * mean.transpose());
  return fit;
}

}  // namespace strikewright
