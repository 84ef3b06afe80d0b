#include "reading/weigh.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <numeric>

#include "numeric/quasi.hpp"

namespace strikewright {

namespace {

constexpr double kFreedom =
    6.0;  // of the proposal: heavier tails than any posterior here, light enough to be cheap
constexpr double kWiden = 1.15;   // the Gauss-Newton curvature is a little too sharp away from the maximum
constexpr double kTrusted = 0.7;  // Vehtari et al. 2024: above it the weighted means cannot be trusted

/// One Student-t component of the proposal.
struct Component {
  Coordinates centre;
  CoordinatesMatrix root;  ///< lower triangular, scale = root root'
  double log_scale = 0.0;
  double share = 1.0;

  Component(const Coordinates& c, const CoordinatesMatrix& covariance, double s) : centre{c}, share{s} {
    root = covariance.llt().matrixL();
    log_scale = root.diagonal().array().log().sum();
  }
  [[nodiscard]] double log_density(const Coordinates& z) const {
    const Coordinates u = root.triangularView<Eigen::Lower>().solve(z - centre);
    return -log_scale - 0.5 * (kFreedom + kUnknowns) * std::log1p(u.squaredNorm() / kFreedom);
  }
};

using Mixture = std::vector<Component>;

Mixture around(const std::vector<Hump>& humps) {
  Mixture m;
  double total = 0.0;
  for (const Hump& h : humps) {
    const double mass = std::max(std::exp(h.log_mass() - humps.front().log_mass()), 0.05);
    m.emplace_back(h.at, kWiden * kWiden * h.curvature.inverse(), mass);
    total += mass;
  }
  for (Component& c : m) c.share /= total;
  return m;
}

double log_density(const Mixture& m, const Coordinates& z) {
  double top = -INFINITY, sum = 0.0;
  for (const Component& c : m) {
    const double l = std::log(c.share) + c.log_density(z);
    if (l > top) {
      sum = sum * std::exp(top - l) + 1.0;
      top = l;
    } else {
      sum += std::exp(l - top);
    }
  }
  return top + std::log(sum);
}

Weighed sample(const Target& target, const Mixture& m, std::size_t draws, std::uint64_t seed) {
  Weighed w;
  w.at.resize(draws);
  w.shot.resize(draws);
  std::vector<double> log_weight(draws);
  const auto u = spread_uniforms(draws, kUnknowns + 2, seed);
  for (std::size_t i = 0; i < draws; ++i) {
    const double* row = &u[i * (kUnknowns + 2)];
    std::size_t pick = 0;
    for (double left = row[0]; pick + 1 < m.size() && left > m[pick].share; ++pick) left -= m[pick].share;
    // chi-square with kFreedom degrees through the inverse of the regularised gamma function (Boost.Math)
    const double chi2 = 2.0 * boost::math::gamma_p_inv(0.5 * kFreedom, row[1]);
    Coordinates n;
    for (int j = 0; j < kUnknowns; ++j) n[j] = normal_quantile(row[2 + j]);
    w.at[i] = m[pick].centre + m[pick].root * (std::sqrt(kFreedom / chi2) * n);
    log_weight[i] = -target.cost(w.at[i], w.shot[i]) - log_density(m, w.at[i]);
  }
  SmoothedWeights smoothed = smooth_weights(log_weight);
  w.weight = std::move(smoothed.weight);
  w.tail_index = smoothed.tail_index;
  w.effective_draws = smoothed.effective_draws;
  return w;
}

struct Moments {
  Coordinates mean = Coordinates::Zero();
  CoordinatesMatrix covariance = CoordinatesMatrix::Zero();
};

Moments moments_of(const Weighed& w) {
  Moments m;
  for (std::size_t i = 0; i < w.at.size(); ++i) m.mean += w.weight[i] * w.at[i];
  for (std::size_t i = 0; i < w.at.size(); ++i) {
    const Coordinates d = w.at[i] - m.mean;
    m.covariance += w.weight[i] * d * d.transpose();
  }
  m.covariance +=
      1e-6 * CoordinatesMatrix::Identity();  // prior standard deviations squared: keeps the root defined
  return m;
}

bool trusted(const Weighed& w) {
  constexpr double kEnough = 40.0;  // effective draws: a mean to a sixth of its standard deviation
  return w.tail_index < kTrusted && w.effective_draws > kEnough;
}

/// Random-walk Metropolis with the scale 2.38/sqrt(d) (Gelman, Roberts & Gilks, Bayesian Statistics 5, 1996)
/// adapted during the warm-up.
Weighed walk(const Target& target, const Weighed& from, const Hump& best, std::size_t draws,
             std::uint64_t seed) {
  const CoordinatesMatrix root = moments_of(from).covariance.llt().matrixL();
  Draws chance(seed, 1);
  Coordinates z = best.at;
  Shot<double> shot;
  double cost = target.cost(z, shot);
  double scale = 2.38 / std::sqrt(static_cast<double>(kUnknowns));
  const std::size_t thin = 16, warm_up = 1500;
  Weighed w;
  w.rough = true;
  w.tail_index = from.tail_index;
  for (std::size_t i = 0; i < warm_up + thin * draws; ++i) {
    Coordinates n;
    for (int j = 0; j < kUnknowns; ++j) n[j] = chance.normal();
    const Coordinates next = z + scale * (root * n);
    Shot<double> there;
    const double next_cost = target.cost(next, there);
    const bool taken = std::log(chance.uniform()) < cost - next_cost;
    if (taken) {
      z = next;
      cost = next_cost;
      shot = there;
    }
    if (i < warm_up)
      scale *= std::exp((taken ? 0.77 : -0.23) / std::sqrt(1.0 + 0.1 * static_cast<double>(i)));
    if (i >= warm_up && (i - warm_up) % thin == thin - 1) {
      w.at.push_back(z);
      w.shot.push_back(shot);
    }
  }
  w.weight.assign(w.at.size(), 1.0 / static_cast<double>(w.at.size()));
  w.effective_draws = static_cast<double>(w.at.size());
  return w;
}

}  // namespace

Weighed weigh(const Target& target, const std::vector<Hump>& humps, std::size_t draws, std::uint64_t seed) {
  Mixture mixture = around(humps);
  Weighed w = sample(target, mixture, draws, seed);
  for (std::uint64_t round = 1; round <= 2 && !trusted(w); ++round) {
    const Moments m = moments_of(w);
    for (Component& c : mixture) c.share *= 0.5;
    mixture.emplace_back(m.mean, 1.5 * m.covariance, 0.5);
    w = sample(target, mixture, round * draws, seed + round);
  }
  return trusted(w) ? w : walk(target, w, humps.front(), draws, seed);
}

}  // namespace strikewright
