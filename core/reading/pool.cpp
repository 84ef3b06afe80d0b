#include "reading/pool.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <vector>

namespace strikewright {

namespace {

constexpr double kGuess = 0.45;       // within-player scatter over the prior's width, assumption
constexpr double kGuessWeight = 3.0;  // swings that the guess counts for

struct Freed {
  double value, variance, told;  ///< told: 1 - owed to the prior
};

/// A reading that owes nine tenths or more to the prior has nothing to tell; freed of it, only the noise of
/// its draws would be left, blown up tenfold.
std::vector<Freed> freed(std::span<const Estimate> readings) {
  constexpr double kSilent = 0.9;
  std::vector<Freed> out;
  for (const Estimate& e : readings) {
    const double owed = e.owed_to_prior;
    if (owed > kSilent) continue;
    out.push_back({(e.mean - owed * e.prior_mean) / (1.0 - owed), e.sd * e.sd / (1.0 - owed), 1.0 - owed});
  }
  return out;
}

/// Moment estimate of the variance between swings.
double between(const std::vector<Freed>& y) {
  double w = 0.0, ww = 0.0, wy = 0.0;
  for (const Freed& f : y) {
    w += 1.0 / f.variance;
    ww += 1.0 / (f.variance * f.variance);
    wy += f.value / f.variance;
  }
  double q = 0.0;
  for (const Freed& f : y) q += (f.value - wy / w) * (f.value - wy / w) / f.variance;
  const double room = w - ww / w;
  return room > 0.0 ? std::max(0.0, (q - static_cast<double>(y.size() - 1)) / room) : 0.0;
}

Estimate with_limits(double mean, double sd, double freedom) {
  const boost::math::students_t t(freedom);
  const auto at = [&](double p) { return mean + sd * boost::math::quantile(t, p); };
  Estimate e;
  e.mean = mean;
  e.sd = sd;
  e.p2_5 = at(0.025);
  e.p10 = at(0.1);
  e.p25 = at(0.25);
  e.p50 = mean;
  e.p75 = at(0.75);
  e.p90 = at(0.9);
  e.p97_5 = at(0.975);
  return e;
}

}  // namespace

Pooled pool(std::span<const Estimate> readings) {
  const std::vector<Freed> y = freed(readings);
  const double prior_mean = readings.front().prior_mean;
  const double prior_sd = readings.front().prior_sd;
  const double guess = kGuess * kGuess * prior_sd * prior_sd;
  // Swings that say little count for little; one player scatters no more than all players differ.
  double told = 0.0;
  for (const Freed& f : y) told += f.told;
  const double beyond_one = std::max(0.0, told - 1.0);
  const double seen = y.size() > 1 ? std::min(between(y), prior_sd * prior_sd) : 0.0;
  const double tau2 = (kGuessWeight * guess + beyond_one * seen) / (kGuessWeight + beyond_one);
  double precision = 1.0 / (prior_sd * prior_sd);
  double sum = prior_mean * precision;
  for (const Freed& f : y) {
    precision += 1.0 / (tau2 + f.variance);
    sum += f.value / (tau2 + f.variance);
  }
  const double freedom = kGuessWeight + beyond_one;
  Pooled p;
  p.mean = with_limits(sum / precision, std::sqrt(1.0 / precision), freedom);
  // A standard deviation from `freedom` + 1 values is known to 1 / sqrt(2 freedom) of itself; its logarithm
  // is near normal.
  const double tau = std::sqrt(tau2);
  const double spread = 1.0 / std::sqrt(2.0 * freedom);
  const Estimate log_tau = with_limits(std::log(tau), spread, 1e6);
  p.scatter = {tau, tau * spread};
  p.scatter.p2_5 = std::exp(log_tau.p2_5);
  p.scatter.p10 = std::exp(log_tau.p10);
  p.scatter.p25 = std::exp(log_tau.p25);
  p.scatter.p50 = tau;
  p.scatter.p75 = std::exp(log_tau.p75);
  p.scatter.p90 = std::exp(log_tau.p90);
  p.scatter.p97_5 = std::exp(log_tau.p97_5);
  for (Estimate* e : {&p.mean, &p.scatter}) {
    e->prior_mean = prior_mean;
    e->prior_sd = prior_sd;
    e->owed_to_prior = std::min(1.0, 1.0 / (precision * prior_sd * prior_sd));
  }
  return p;
}

}  // namespace strikewright
