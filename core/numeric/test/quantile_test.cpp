// Quantiles of few draws hold what they say.

#include "numeric/quantile.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "numeric/draws.hpp"

using namespace strikewright;

TEST_CASE("limits of a hundred draws hold one more draw as often as they say") {
  // The chance that one more draw falls below the k-th of n is k / (n + 1), whatever they are drawn from.
  constexpr int kDraws = 100, kTimes = 20'000;
  Draws draws(3);
  std::vector<double> value(kDraws);
  const std::vector<double> weight(kDraws, 1.0 / kDraws);
  int within95 = 0, within80 = 0;
  for (int t = 0; t < kTimes; ++t) {
    for (double& v : value) v = draws.normal();
    const WeightedDraws all(value, weight);
    const double truth = draws.normal();
    within95 += truth > all.quantile(0.025) && truth < all.quantile(0.975) ? 1 : 0;
    within80 += truth > all.quantile(0.1) && truth < all.quantile(0.9) ? 1 : 0;
  }
  const auto off = [](int within, double share) { return std::abs(within / double{kTimes} - share); };
  const auto four_sd = [](double share) { return 4.0 * std::sqrt(share * (1.0 - share) / kTimes); };
  CHECK(off(within95, 0.95) < four_sd(0.95));  // at the midpoints they would hold 0.941
  CHECK(off(within80, 0.80) < four_sd(0.80));
}

TEST_CASE("a quantile of equal draws is that of k in n + 1, halves between two, ends at the ends") {
  const std::vector<double> value{3.0, 1.0, 2.0, 4.0}, weight(4, 0.25);
  const WeightedDraws all(value, weight);
  CHECK(all.quantile(0.2) == doctest::Approx(1.0));
  CHECK(all.quantile(0.5) == doctest::Approx(2.5));
  CHECK(all.quantile(0.7) == doctest::Approx(3.5));
  CHECK(all.quantile(0.05) == 1.0);
  CHECK(all.quantile(0.99) == 4.0);
}
