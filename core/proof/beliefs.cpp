#include "proof/beliefs.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "numeric/quantile.hpp"
#include "numeric/quasi.hpp"
#include "numeric/root.hpp"
#include "proof/normal.hpp"

namespace strikewright {
namespace {

double evidence(double change, double none) {
  return none * kEvidenceCap > change ? std::max(change / none, 1.0 / kEvidenceCap) : kEvidenceCap;
}

LevelPart part_of(const LevelAnswer& a) {
  return {.weight = a.log_marginal,
          .level = a.level,
          .change = a.change,
          .level_sd = std::sqrt(a.level_variance),
          .change_sd = std::sqrt(a.change_variance),
          .slope = a.covariance / a.level_variance};
}

/// What weighs less than a millionth of the heaviest is left out; the rest sums to 1.
void normalise(std::vector<LevelPart>& parts) {
  std::erase_if(parts, [](const LevelPart& p) { return p.weight < 1e-6; });
  double sum = 0.0;
  for (const LevelPart& p : parts) sum += p.weight;
  for (LevelPart& p : parts) p.weight /= sum;
}

/// Quantile of a mixture of normals; `ends` lie far outside.
template <class Mean, class Sd>
Marginal marginal_of(const std::vector<LevelPart>& parts, const Mean& mean, const Sd& sd) {
  Marginal m;
  double square = 0.0;
  for (const LevelPart& p : parts) {
    m.mean += p.weight * mean(p);
    square += p.weight * sd(p) * sd(p);
  }
  for (const LevelPart& p : parts) square += p.weight * (mean(p) - m.mean) * (mean(p) - m.mean);
  m.sd = std::sqrt(square);
  const auto quantile = [&](double at) {
    const auto below = [&](double x) {
      double sum = -at;
      for (const LevelPart& p : parts) sum += p.weight * normal_below((x - mean(p)) / sd(p));
      return sum;
    };
    // By Chebyshev's inequality no tenth lies further out than three standard deviations.
    return root_between(below, m.mean - 3.1 * m.sd, m.mean + 3.1 * m.sd, 1e-4 * m.sd).value_or(m.mean);
  };
  m.p10 = quantile(0.1);
  m.p90 = quantile(0.9);
  return m;
}

double distance(double x, const Wish& wish) { return std::max({wish.from - x, x - wish.to, 0.0}); }

constexpr std::size_t kLevels = 15;

/// Middles of equally likely slices of the standard normal law.
std::array<double, kLevels> slices() {
  std::array<double, kLevels> z{};
  for (std::size_t i = 0; i < kLevels; ++i)
    z[i] = normal_quantile_of((static_cast<double>(i) + 0.5) / kLevels);
  return z;
}

}  // namespace

Beliefs beliefs_of(const std::vector<LevelCell>& cells, double effect_sd, double day_sd) {
  Beliefs out;
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < cells.size(); ++k)
    for (std::size_t d = 0; d < kDriftSd.size(); ++d) {
      const LevelCell& cell = cells[k];
      LevelPart part = part_of(answer_of(cell.sums, {.change_sd = effect_sd * cell.tau,
                                                     .drift_sd = kDriftSd[d] * cell.tau,
                                                     .day_sd = day_sd * cell.tau}));
      part.weight += std::log(kPhiWeight[k % kPhi.size()] * kDriftWeight[d]);
      most = std::max(most, part.weight);
      out.parts.push_back(part);
    }
  double none = 0.0, some = 0.0, higher = 0.0, lower = 0.0;
  for (std::size_t k = 0; k < out.parts.size(); ++k) {
    LevelPart& part = out.parts[k];
    const LevelCell& cell = cells[k / kDriftSd.size()];
    const double w = part.weight = std::exp(part.weight - most);
    const double z = part.change / part.change_sd;
    // The density of "no change" after over before (Dickey, Ann. Math. Stat. 42, 1971, 204-223).
    none += w * std::exp(-0.5 * z * z) * effect_sd * cell.tau / part.change_sd;
    some += w;
    higher += 2.0 * w * normal_below(z);
    lower += 2.0 * w * normal_below(-z);
    out.tau += w * cell.tau;
    out.sigma += w * cell.sigma;
    out.phi += w * cell.phi;
  }
  out.tau /= some;
  out.sigma /= some;
  out.phi /= some;
  out.higher = evidence(higher, none);
  out.lower = evidence(lower, none);
  out.either = evidence(some, none);
  normalise(out.parts);
  return out;
}

Marginal level_marginal(const Beliefs& beliefs) {
  return marginal_of(
      beliefs.parts, [](const LevelPart& p) { return p.level; },
      [](const LevelPart& p) { return p.level_sd; });
}

Marginal change_marginal(const Beliefs& beliefs) {
  return marginal_of(
      beliefs.parts, [](const LevelPart& p) { return p.change; },
      [](const LevelPart& p) { return p.change_sd; });
}

Chances chances_at(double level, double change, double change_sd, const Wish& wish, double worth) {
  if (wish.better != Better::nearer) {
    const double m = wish.better == Better::higher ? change : -change;
    return {normal_below(m / change_sd), normal_below((m - worth) / change_sd),
            normal_below((-m - worth) / change_sd)};
  }
  const double far = distance(level, wish);
  /// P(afterwards within r of the zone).
  const auto within = [&](double r) {
    const double middle = level + change;
    return normal_below((wish.to + r - middle) / change_sd) -
           normal_below((wish.from - r - middle) / change_sd);
  };
  Chances c{0.0, 0.0, 1.0 - within(far + worth)};
  if (far > 0.0) c.improved = within(far);
  if (far > worth) c.worth = within(far - worth);
  return c;
}

Chances chances_of(const Beliefs& beliefs, const Wish& wish, double worth) {
  Chances sum{0.0, 0.0, 0.0};
  const auto add = [&](double weight, const Chances& c) {
    sum.improved += weight * c.improved;
    sum.worth += weight * c.worth;
    sum.worse += weight * c.worse;
  };
  if (wish.better != Better::nearer) {
    for (const LevelPart& p : beliefs.parts)
      add(p.weight, chances_at(p.level, p.change, p.change_sd, wish, worth));
    return sum;
  }
  const auto z = slices();
  for (const LevelPart& p : beliefs.parts) {
    const double tied = p.slope * p.level_sd;
    const double free =
        std::sqrt(std::max(p.change_sd * p.change_sd - tied * tied, 1e-12 * p.change_sd * p.change_sd));
    for (const double at : z)
      add(p.weight / kLevels, chances_at(p.level + at * p.level_sd, p.change + tied * at, free, wish, worth));
  }
  return sum;
}

Marginal improvement_marginal(const Beliefs& beliefs, const Wish& wish) {
  if (wish.better != Better::nearer) {
    Marginal m = change_marginal(beliefs);
    if (wish.better == Better::lower) m = {-m.mean, m.sd, -m.p90, -m.p10};
    return m;
  }
  constexpr std::size_t kDraws = 1024;
  const std::vector<double> u = spread_uniforms(kDraws, 3, 1);
  std::vector<double> below{0.0}, value(kDraws);
  for (const LevelPart& p : beliefs.parts) below.push_back(below.back() + p.weight);
  for (std::size_t k = 0; k < kDraws; ++k) {
    const auto above = std::upper_bound(below.begin() + 1, below.end() - 1, u[3 * k]);
    const LevelPart& p = beliefs.parts[static_cast<std::size_t>(above - below.begin()) - 1];
    const double at = p.level_sd * normal_quantile_of(u[3 * k + 1]);
    const double tied = p.slope * p.level_sd;
    const double free = std::sqrt(std::max(p.change_sd * p.change_sd - tied * tied, 0.0));
    const double change = p.change + p.slope * at + free * normal_quantile_of(u[3 * k + 2]);
    value[k] = distance(p.level + at, wish) - distance(p.level + at + change, wish);
  }
  const WeightedDraws draws(value, std::vector<double>(kDraws, 1.0 / kDraws));
  return {draws.mean(), draws.sd(), draws.quantile(0.1), draws.quantile(0.9)};
}

}  // namespace strikewright
