#include "exercise/learned.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace strikewright {
namespace {

// The grid of effects, in units of an exercise's shift_sd.
constexpr double kGridEnd = 6.0, kSpacing = 0.1;
constexpr std::size_t kPoints = 121;
using OnGrid = std::array<double, kPoints>;
double at(std::size_t i) { return -kGridEnd + kSpacing * static_cast<double>(i); }

// How far a coach's true effects may be from the catalogue's beliefs, and how much pupils may differ; each as
// likely as the next. Assumption.
constexpr std::array<double, 5> kKappa{0.25, 0.5, 0.75, 1.0, 1.5};
constexpr std::array<double, 5> kOmega{0.15, 0.3, 0.5, 0.75, 1.0};

constexpr double kWide = 1.0;  // steps: how far off a cause is in all pupils, the spread of the causes' prior
constexpr double kDrift = 0.3;  // steps: what a swing moves by itself from lesson to lesson, assumption

// What a step of weight and of release does to the low point: docs/models/cause.md, a club player's 7-iron.
constexpr double kLowPointPerWeight = 22.6 / 20.0;  // m/m
constexpr double kLowPointPerRelease = 2.33;        // m/s
constexpr double kLowPointStep = 23e-3;             // m

double log_normal(double x, double variance) { return -0.5 * (x * x / variance + std::log(variance)); }

/// A figure without the prior that it leans on.
struct Bare {
  double value = 0.0, variance = 0.0;
  bool says = false;
};
Bare bare(double mean, double sd, const BeforeAfter& pair) {
  if (!(sd > 0.0)) return {};
  if (pair.prior_sd <= 0.0) return {mean, sd * sd, true};
  const double own = 1.0 / (sd * sd) - 1.0 / (pair.prior_sd * pair.prior_sd);
  constexpr double kNothing = 1e-3;  // of the prior's own precision
  if (own < kNothing / (pair.prior_sd * pair.prior_sd)) return {};
  const double pull = mean / (sd * sd) - pair.prior_mean / (pair.prior_sd * pair.prior_sd);
  return {pull / own, 1.0 / own, true};
}

/// Adds what one quantity says about the effect: log density of `after` given `before`, c itself integrated
/// out.
void add(OnGrid& log_likelihood, const BeforeAfter& pair, const Move& move, double per_unit, double step) {
  const Bare before = bare(pair.before, pair.before_sd, pair), after = bare(pair.after, pair.after_sd, pair);
  if (!before.says || !after.says) return;
  const double wide = std::pow(kWide * step, 2), keeps = wide / (wide + before.variance);
  const double c = keeps * before.value, variance = wide * (1.0 - keeps);
  const double home = per_unit * move.home, home_sd = per_unit * move.home_sd;
  const double noise = after.variance + std::pow(kDrift * step, 2);
  for (std::size_t i = 0; i < kPoints; ++i) {
    const double share = move.shift + at(i) * move.shift_sd;
    const double foreseen = c + share * (home - c);
    const double spread = std::pow(1.0 - share, 2) * variance + std::pow(share * home_sd, 2) + noise;
    log_likelihood[i] += log_normal(after.value - foreseen, spread);
  }
}

OnGrid log_likelihood_of(const Trial& trial, const Exercise& exercise) {
  OnGrid out{};
  bool low_point = trial.causes.empty() && trial.low_point.has_value();
  for (const Move& move : exercise.moves) {
    const auto seen = trial.causes.find(move.cause);
    if (seen != trial.causes.end())
      add(out, seen->second, move, 1.0, kCauseFacts[static_cast<std::size_t>(move.cause)].step);
    if (low_point && (move.cause == Cause::weight || move.cause == Cause::release)) {
      const double per_unit = move.cause == Cause::weight ? kLowPointPerWeight : kLowPointPerRelease;
      add(out, *trial.low_point, move, per_unit, kLowPointStep);
      low_point = false;  // it speaks once, for the first move that carries it
    }
  }
  return out;
}

/// Likelihoods of one exercise's pupils, each scaled to a maximum of 1.
using Pupils = std::map<std::string, OnGrid>;

void scale(OnGrid& logs) {
  const double top = *std::max_element(logs.begin(), logs.end());
  for (double& l : logs) l = std::exp(l - top);
}

/// log of the product over pupils of their likelihood about each mean effect, pupils' own deviation
/// integrated out.
OnGrid smoothed(const Pupils& pupils, double omega) {
  OnGrid kernel{};
  for (std::size_t d = 0; d < kPoints; ++d) {
    const double x = kSpacing * static_cast<double>(d) / omega;
    kernel[d] = std::exp(-0.5 * x * x) * kSpacing / (omega * std::sqrt(2.0 * std::numbers::pi));
  }
  OnGrid out{};
  for (const auto& [name, likelihood] : pupils)
    for (std::size_t e = 0; e < kPoints; ++e) {
      double sum = 0.0;
      for (std::size_t i = 0; i < kPoints; ++i) sum += likelihood[i] * kernel[i > e ? i - e : e - i];
      out[e] += std::log(std::max(sum, 1e-300));
    }
  return out;
}

/// Unnormalised posterior of the mean effect for one kappa and omega: density on the grid and its log mass.
struct Part {
  OnGrid density{};
  double log_mass = 0.0;
};
Part part_of(const OnGrid& log_product, double kappa) {
  Part out;
  OnGrid logs{};
  for (std::size_t e = 0; e < kPoints; ++e) logs[e] = log_product[e] + log_normal(at(e), kappa * kappa);
  const double top = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (std::size_t e = 0; e < kPoints; ++e) sum += out.density[e] = std::exp(logs[e] - top);
  for (double& d : out.density) d /= sum;
  out.log_mass = top + std::log(sum);
  return out;
}

/// Point of a grid density below which `p` of it lies: linear within a cell.
double quantile(const OnGrid& density, double p) {
  double below = 0.0;
  for (std::size_t i = 0; i < kPoints; ++i) {
    if (below + density[i] >= p) return at(i) + kSpacing * ((p - below) / density[i] - 0.5);
    below += density[i];
  }
  return kGridEnd;
}

void describe(LearnedEffect& out, const OnGrid& density, double omega_square, const Move& move) {
  double square = 0.0;
  for (std::size_t i = 0; i < kPoints; ++i) out.standard_mean += density[i] * at(i);
  for (std::size_t i = 0; i < kPoints; ++i) square += density[i] * std::pow(at(i) - out.standard_mean, 2);
  out.standard_sd = std::sqrt(square);
  out.standard_next_sd = std::sqrt(square + omega_square);
  const auto share = [&](double x) { return move.shift + x * move.shift_sd; };
  out.mean = share(out.standard_mean);
  out.sd = move.shift_sd * out.standard_sd;
  out.next_sd = move.shift_sd * out.standard_next_sd;
  out.p10 = share(quantile(density, 0.1));
  out.p90 = share(quantile(density, 0.9));
  for (std::size_t i = 0; i < kPoints; ++i) out.probability_works += share(at(i)) > 0.0 ? density[i] : 0.0;
}

/// One exercise's trials.
struct Given {
  Pupils pupils;
  std::size_t times = 0;
  double result_change = 0.0;
  std::size_t results = 0;
};

Given given_of(const Exercise& exercise, const std::vector<Trial>& trials) {
  Given out;
  for (const Trial& t : trials) {
    if (t.exercise != exercise.name) continue;
    ++out.times;
    OnGrid& logs = out.pupils.try_emplace(t.pupil, OnGrid{}).first->second;
    const OnGrid more = log_likelihood_of(t, exercise);
    for (std::size_t i = 0; i < kPoints; ++i) logs[i] += more[i];
    if (t.result_before && t.result_after) {
      out.result_change += *t.result_after - *t.result_before;
      ++out.results;
    }
  }
  for (auto& [name, logs] : out.pupils) scale(logs);
  return out;
}

using Weights = std::array<std::array<double, kOmega.size()>, kKappa.size()>;

/// Parts of every exercise at every place of the grid of widths.
using Parts = std::vector<std::array<std::array<Part, kOmega.size()>, kKappa.size()>>;

Weights weights_of(const Parts& parts) {
  Weights w{};
  double top = -INFINITY, sum = 0.0;
  for (std::size_t k = 0; k < kKappa.size(); ++k)
    for (std::size_t o = 0; o < kOmega.size(); ++o) {
      for (const auto& p : parts) w[k][o] += p[k][o].log_mass;
      top = std::max(top, w[k][o]);
    }
  for (auto& row : w)
    for (double& x : row) sum += x = std::exp(x - top);
  for (auto& row : w)
    for (double& x : row) x /= sum;
  return w;
}

}  // namespace

const LearnedEffect* BookEffects::of(const std::string& exercise) const {
  const auto there = std::find_if(effects.begin(), effects.end(),
                                  [&](const LearnedEffect& e) { return e.exercise == exercise; });
  return there == effects.end() ? nullptr : &*there;
}

BookEffects learned_effects(const std::vector<Exercise>& exercises, const std::vector<Trial>& trials) {
  std::vector<Given> given;
  Parts parts(exercises.size());
  for (std::size_t e = 0; e < exercises.size(); ++e) {
    given.push_back(given_of(exercises[e], trials));
    for (std::size_t o = 0; o < kOmega.size(); ++o) {
      const OnGrid product = smoothed(given[e].pupils, kOmega[o]);
      for (std::size_t k = 0; k < kKappa.size(); ++k) parts[e][k][o] = part_of(product, kKappa[k]);
    }
  }
  const Weights weights = weights_of(parts);
  double kappa_square = 0.0, omega_square = 0.0;
  for (std::size_t k = 0; k < kKappa.size(); ++k)
    for (std::size_t o = 0; o < kOmega.size(); ++o) {
      kappa_square += weights[k][o] * kKappa[k] * kKappa[k];
      omega_square += weights[k][o] * kOmega[o] * kOmega[o];
    }
  BookEffects out;
  out.between_exercises = std::sqrt(kappa_square);
  out.between_pupils = std::sqrt(omega_square);
  for (std::size_t e = 0; e < exercises.size(); ++e) {
    OnGrid density{};
    for (std::size_t k = 0; k < kKappa.size(); ++k)
      for (std::size_t o = 0; o < kOmega.size(); ++o)
        for (std::size_t i = 0; i < kPoints; ++i) density[i] += weights[k][o] * parts[e][k][o].density[i];
    LearnedEffect effect;
    effect.exercise = exercises[e].name;
    describe(effect, density, omega_square, exercises[e].moves.front());
    effect.times = given[e].times;
    effect.pupils = given[e].pupils.size();
    if (given[e].results > 0)
      effect.result_change = given[e].result_change / static_cast<double>(given[e].results);
    out.effects.push_back(std::move(effect));
  }
  return out;
}

}  // namespace strikewright
