#include <doctest/doctest.h>

#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <vector>

#include "numeric/draws.hpp"
#include "numeric/pareto.hpp"
#include "numeric/quantile.hpp"
#include "numeric/quasi.hpp"

using namespace strikewright;

TEST_CASE("the fit finds the shape of a Pareto tail it was drawn from") {
  // 400 seeded samples of 200; sd of one estimate about 0.08, so their mean is known to 0.004. The weak prior
  // pulls toward 0.5 by 10/(n+10) of the distance; the estimator's own bias at n = 200 is below 0.01 (Zhang &
  // Stephens 2009).
  for (const double shape : {0.2, 0.5, 0.9}) {
    double sum = 0.0;
    for (unsigned k = 0; k < 400; ++k) {
      Draws draws(11, k);
      std::vector<double> x(200);
      for (double& v : x) v = std::expm1(-shape * std::log1p(-draws.uniform())) / shape;
      std::sort(x.begin(), x.end());
      sum += fit_pareto(x).shape;
    }
    const double expected = (200.0 * shape + 5.0) / 210.0;
    CHECK(std::abs(sum / 400.0 - expected) < 0.02);
  }
}

TEST_CASE("weights with a light tail are trusted, weights with a heavy one are not") {
  Draws draws(5);
  std::vector<double> good(400), bad(400);
  for (double& w : good) w = -0.1 * draws.uniform();
  for (double& w : bad) w = 4.0 * draws.normal() * draws.normal();
  CHECK(smooth_weights(good).tail_index < 0.5);
  CHECK(smooth_weights(good).effective_draws > 390.0);
  CHECK(smooth_weights(bad).tail_index > 0.7);
}

TEST_CASE("weighting draws from a wide normal gives the narrow normal's spread") {
  std::vector<double> x, lw;
  for (const double u : spread_uniforms(512, 1, 3)) {
    x.push_back(2.0 * normal_quantile(u));
    lw.push_back(-0.5 * x.back() * x.back() + 0.125 * x.back() * x.back());
  }
  const SmoothedWeights w = smooth_weights(lw);
  const WeightedDraws d(x, w.weight);
  CHECK(std::abs(d.mean()) < 0.02);
  CHECK(std::abs(d.sd() - 1.0) < 0.02);  // 512 evenly spread points
  // Quantiles of the standard normal from a general library (Boost.Math).
  const boost::math::normal standard;
  for (const double p : {0.1, 0.25, 0.5, 0.75, 0.9})
    CHECK(std::abs(d.quantile(p) - boost::math::quantile(standard, p)) < 0.03);
}

TEST_CASE("spread points fill every tenth of the range evenly") {
  const auto u = spread_uniforms(1024, 11, 9);
  for (std::size_t axis = 0; axis < 11; ++axis) {
    std::array<int, 10> count{};
    for (std::size_t i = 0; i < 1024; ++i) ++count[static_cast<std::size_t>(10.0 * u[i * 11 + axis])];
    for (const int c : count) CHECK(std::abs(c - 102.4) < 8.0);  // a Sobol axis: within a few points of even
  }
}

TEST_CASE("equal seeds give equal streams, other streams other numbers") {
  Draws a(1, 2), b(1, 2), c(1, 3);
  const double first = a.normal();
  CHECK(first == b.normal());
  CHECK(first != c.normal());
}
