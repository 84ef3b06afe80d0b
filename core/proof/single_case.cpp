#include "proof/single_case.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <vector>

#include "numeric/root.hpp"
#include "proof/normal.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace {

using Values = std::vector<double>;

double sign_of(double x) { return x > 0.0 ? 1.0 : (x < 0.0 ? -1.0 : 0.0); }

double count(std::size_t n) { return static_cast<double>(n); }

Values merits(std::span<const double> values, const Wish& wish) {
  Values out;
  for (const double v : values) out.push_back(merit(v, wish));
  return out;
}

double mean_of(std::span<const double> v) {
  return std::accumulate(v.begin(), v.end(), 0.0) / count(v.size());
}

/// Divisor n - 1.
double sd_of(std::span<const double> v) {
  const double mean = mean_of(v);
  double sum = 0.0;
  for (const double x : v) sum += (x - mean) * (x - mean);
  return std::sqrt(sum / (count(v.size()) - 1.0));
}

/// Of at least one value.
double median_of(Values v) {
  std::sort(v.begin(), v.end());
  const std::size_t half = v.size() / 2;
  return v.size() % 2 == 1 ? v[half] : 0.5 * (v[half - 1] + v[half]);
}

/// Sum over pairs in order of the sign of the rise.
double trend_score(const Values& v) {
  double sum = 0.0;
  for (std::size_t i = 0; i < v.size(); ++i)
    for (std::size_t j = i + 1; j < v.size(); ++j) sum += sign_of(v[j] - v[i]);
  return sum;
}

/// The unit square's scores q_ij (1 better, 1/2 tied) and their means.
struct Pairs {
  double m = 0.0, n = 0.0, nap = 0.0, by_before = 0.0, by_after = 0.0, squares = 0.0;
};
Pairs pairs_of(const Values& a, const Values& b) {
  Pairs p{.m = count(a.size()), .n = count(b.size())};
  Values rows(a.size(), 0.0), columns(b.size(), 0.0);
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t j = 0; j < b.size(); ++j) {
      const double q = 0.5 + 0.5 * sign_of(b[j] - a[i]);
      rows[i] += q;
      columns[j] += q;
      p.nap += q;
      p.squares += q * q;
    }
  p.nap /= p.m * p.n;  // the sums are of halves and quarters, hence exact
  p.squares /= p.m * p.n;
  for (const double r : rows) p.by_before += r * r / (p.n * p.n * p.m);
  for (const double c : columns) p.by_after += c * c / (p.m * p.m * p.n);
  return p;
}

double nap_standard_error(const Pairs& p) {
  if (p.m < 2.0 || p.n < 2.0) return 0.0;
  const double v =
      (p.nap - (p.m + p.n - 1.0) * p.nap * p.nap + p.n * p.by_before + p.m * p.by_after - 2.0 * p.squares) /
      ((p.m - 1.0) * (p.n - 1.0));
  return std::sqrt(std::max(v, 0.0));
}

/// Solves (nap - A)^2 m n (2 - A)(1 + A) = z^2 A (1 - A) [(2 + h) + (1 + 2h) A (1 - A)], h = (m + n)/2 - 1.
void nap_interval(const Pairs& p, Overlap& o) {
  const double z = normal_quantile_of(0.975);
  const double h = 0.5 * (p.m + p.n) - 1.0;
  const auto law = [&](double a) {
    const double s = a * (1.0 - a);
    return (p.nap - a) * (p.nap - a) * p.m * p.n * (2.0 - a) * (1.0 + a) -
           z * z * s * ((2.0 + h) + (1.0 + 2.0 * h) * s);
  };
  constexpr double kEdge = 1e-12;  // at the ends 0 and 1 the law has a root that is no limit
  if (p.nap > 0.0) o.nap_low = root_between(law, 0.0, std::min(p.nap, 1.0 - kEdge)).value_or(0.0);
  if (p.nap < 1.0) o.nap_high = root_between(law, std::max(p.nap, kEdge), 1.0).value_or(1.0);
}

/// Most values that can be kept so that every kept "after" is above every kept "before", as a share.
double kept_without_overlap(Values a, Values b) {
  std::sort(a.begin(), a.end());
  std::sort(b.begin(), b.end());
  std::size_t most = b.size();  // none of the values before
  for (std::size_t i = 0; i < a.size(); ++i) {
    const auto above = b.end() - std::upper_bound(b.begin(), b.end(), a[i]);
    most = std::max(most, i + 1 + static_cast<std::size_t>(above));
  }
  return count(most) / count(a.size() + b.size());
}

/// Median of the slopes of all pairs, a step a value; 0 for a single value.
double theil_sen(const Values& v) {
  Values slopes;
  for (std::size_t i = 0; i < v.size(); ++i)
    for (std::size_t j = i + 1; j < v.size(); ++j) slopes.push_back((v[j] - v[i]) / count(j - i));
  return slopes.empty() ? 0.0 : median_of(slopes);
}

double corrected_tau(const Values& a, const Values& b) {
  const double slope = theil_sen(a);
  Values all(a);
  all.insert(all.end(), b.begin(), b.end());
  double size = 0.0;
  for (std::size_t k = 0; k < all.size(); ++k) {
    size = std::max(size, std::fabs(all[k]) + std::fabs(slope) * count(k));
    all[k] -= slope * count(k);
  }
  const double tie = 1e-12 * size;  // what rounding leaves of a straight line
  double score = 0.0, untied = 0.0;
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const double rise = all[j] - all[i];
      if (std::fabs(rise) <= tie) continue;
      untied += 1.0;
      if (i < a.size() && j >= a.size()) score += sign_of(rise);
    }
  return untied > 0.0 ? score / std::sqrt(untied * count(a.size()) * count(b.size())) : 0.0;
}

double log_choose(double n, double k) {
  return std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
}

double log_beta(double a, double b) { return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b); }

}  // namespace

double merit(double value, const Wish& wish) {
  if (wish.better == Better::higher) return value;
  if (wish.better == Better::lower) return -value;
  return value < wish.from ? value - wish.from : (value > wish.to ? wish.to - value : 0.0);
}

Overlap overlap_of(std::span<const double> before, std::span<const double> after, const Wish& wish) {
  ensure(!before.empty() && !after.empty(), "an overlap needs a value on either side");
  const Values a = merits(before, wish), b = merits(after, wish);
  const Pairs p = pairs_of(a, b);
  Overlap o;
  o.nap = p.nap;
  o.nap_se = nap_standard_error(p);
  nap_interval(p, o);
  o.tau = 2.0 * p.nap - 1.0;
  o.tau_u = o.tau - trend_score(a) / (p.m * p.n);
  o.tau_bc = corrected_tau(a, b);
  const double best = *std::max_element(a.begin(), a.end());
  const double middle = median_of(a);
  for (const double x : b) {
    o.pnd += (x > best ? 1.0 : 0.0) / p.n;
    o.pem += (0.5 + 0.5 * sign_of(x - middle)) / p.n;
  }
  o.pand = kept_without_overlap(a, b);
  o.ird = ((p.m + p.n) * (p.m + p.n) * o.pand - p.m * p.m - p.n * p.n) / (2.0 * p.m * p.n);
  return o;
}

std::optional<StandardDifference> standard_difference(std::span<const double> before,
                                                      std::span<const double> after, const Wish& wish) {
  if (before.size() < 2 || after.empty()) return std::nullopt;
  const Values a = merits(before, wish), b = merits(after, wish);
  const double sd = sd_of(a);
  if (!(sd > 0.0)) return std::nullopt;
  const double smd = (mean_of(b) - mean_of(a)) / sd;
  return StandardDifference{smd, smd * (1.0 - 3.0 / (4.0 * count(a.size()) - 5.0))};
}

std::optional<double> log_response_ratio(std::span<const double> before, std::span<const double> after) {
  if (before.empty() || after.empty()) return std::nullopt;
  const double a = mean_of(before), b = mean_of(after);
  if (!(a > 0.0) || !(b > 0.0)) return std::nullopt;
  return std::log(b / a);
}

double typical_error(std::span<const double> differences) {
  ensure(differences.size() >= 2, "a typical error needs two differences");
  return sd_of(differences) / std::numbers::sqrt2;
}

double minimal_detectable_change(double error, int tests_a_side) {
  ensure(tests_a_side >= 1, "a mean is of one test at least");
  return 1.96 * std::numbers::sqrt2 * error / std::sqrt(static_cast<double>(tests_a_side));
}

double smallest_worthwhile_change(double between_people_sd) { return 0.2 * between_people_sd; }

double MeanChange::probability_beyond(double worth, Better better) const {
  return normal_below(((better == Better::lower ? -change : change) - worth) / se);
}

MeanChange MeanChange::shrunk(double prior_sd) const {
  const double variance = 1.0 / (1.0 / (prior_sd * prior_sd) + 1.0 / (se * se));
  return {variance * change / (se * se), std::sqrt(variance)};
}

MeanChange mean_change(double change, double sd_before, int m, double sd_after, int n) {
  return {change, std::sqrt(sd_before * sd_before / m + sd_after * sd_after / n)};
}

RateChange rate_change(int k_before, int n_before, int k_after, int n_after) {
  ensure(0 <= k_before && k_before <= n_before && 0 <= k_after && k_after <= n_after,
         "k of n needs 0 <= k <= n");
  const double a1 = 1.0 + k_before, b1 = 1.0 + n_before - k_before;
  const double a2 = 1.0 + k_after, b2 = 1.0 + n_after - k_after;
  RateChange r;
  r.before = a1 / (a1 + b1);
  r.after = a2 / (a2 + b2);
  r.before_p10 = boost::math::ibeta_inv(a1, b1, 0.1);
  r.before_p90 = boost::math::ibeta_inv(a1, b1, 0.9);
  r.after_p10 = boost::math::ibeta_inv(a2, b2, 0.1);
  r.after_p90 = boost::math::ibeta_inv(a2, b2, 0.9);
  // P(before > x) is a binomial sum over i < a1; its mean over "after" is a sum of beta functions.
  r.probability_fell = 0.0;
  const double tries = a1 + b1 - 1.0;
  for (double i = 0.0; i < a1; i += 1.0)
    r.probability_fell +=
        std::exp(log_choose(tries, i) + log_beta(a2 + i, b2 + tries - i) - log_beta(a2, b2));
  r.fisher_two_sided = 0.0;
  const int good = k_before + k_after, all = n_before + n_after;
  const auto table = [&](int k) {
    return std::exp(log_choose(n_before, k) + log_choose(n_after, good - k) - log_choose(all, good));
  };
  const double seen = table(k_before) * (1.0 + 1e-9);  // equally unlikely tables count, rounding aside
  for (int k = std::max(0, good - n_after); k <= std::min(good, n_before); ++k)
    if (table(k) <= seen) r.fisher_two_sided += table(k);
  return r;
}

}  // namespace strikewright
