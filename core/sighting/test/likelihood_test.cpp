#include "sighting/likelihood.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <vector>

#include "sighting/sighting.hpp"
#include "some_shot.hpp"

using namespace strikewright;

namespace {

constexpr std::array kClubs{"driver", "7i", "sw"};

Kind kind_at(std::size_t k) { return static_cast<Kind>(k); }

std::vector<Sighting> examples(Kind kind) {
  std::vector<Sighting> out;
  if (!is_word(kind)) {
    const Facts& f = facts_of(kind);
    for (const double share : {0.1, 0.45, 0.8})
      out.push_back(measured(kind, f.low + share * (f.high - f.low)));
    out.push_back(measured(kind, 0.5 * (f.low + f.high), 3.0 * f.sd));
    return out;
  }
  for (std::size_t w = 0; w < words_of(kind).size(); ++w) out.push_back(judged(kind, static_cast<int>(w)));
  return out;
}

/// Latents about where the kind's edges or values lie, and far out.
Latents<double> drawn_latents(Kind kind, const Setting& setting, Draws& draws) {
  Latents<double> x = predict(Sighting{.kind = kind}, some_shot(), setting);
  const bool far = draws.uniform() < 0.1;
  for (double& v : x.at) v = draws.normal(v, (far ? 30.0 : 2.0) * std::max(std::abs(v), 1e-4));
  return x;
}

}  // namespace

TEST_CASE("the measured likelihood is Student's t of a general library") {
  // Boost.Math (J. Maddock, P. A. Bristow and others), students_t pdf.
  const boost::math::students_t t{kTailFreedom};
  Draws draws{1};
  for (int k = 0; k < 200; ++k) {
    const double x = draws.normal(0, 50);
    const double y = draws.normal(x, 20);
    const double sd = 0.5 + 5 * draws.uniform();
    const double share = 0.3 * draws.uniform();
    const double model = 0.05 * draws.uniform();
    const double s = scale_at(x, sd, share, model).value;
    const double expected = std::log(boost::math::pdf(t, (y - x) / s) / s);
    CHECK(log_student(y, x, sd, share, model) == doctest::Approx(expected).epsilon(1e-12));
  }
}

TEST_CASE("a value that is met exactly costs nothing, one sd off a little, ten sd off not the earth") {
  CHECK(student(3.0, 3.0, 1.0, 0.0, 0.0).cost == 0.0);
  const double one = student(4.0, 3.0, 1.0, 0.0, 0.0).cost;
  const double ten = student(13.0, 3.0, 1.0, 0.0, 0.0).cost;
  CHECK(one == doctest::Approx(3.0 * std::log(1.2)));
  CHECK(ten < 10.0);  // a normal would say 50
}

TEST_CASE("cost and log-likelihood differ by a constant of the sighting") {
  const Setting s = some_setting();
  Draws draws{2};
  for (std::size_t k = 0; k < kKinds; ++k) {
    for (const Sighting& sighting : examples(kind_at(k))) {
      const auto a = drawn_latents(sighting.kind, s, draws);
      const auto b = drawn_latents(sighting.kind, s, draws);
      const double by_cost = misfit(sighting, a, s).cost - misfit(sighting, b, s).cost;
      const double by_density = log_likelihood(sighting, b, s) - log_likelihood(sighting, a, s);
      CHECK(by_cost == doctest::Approx(by_density).epsilon(1e-9));
    }
  }
}

TEST_CASE("the chances of all words add up to one, at ordinary and at absurd latents") {
  Draws draws{3};
  for (const char* club : kClubs) {
    const Setting s = some_setting(club);
    for (std::size_t k = 0; k < kKinds; ++k) {
      if (!is_word(kind_at(k))) continue;
      for (int n = 0; n < 200; ++n) {
        const auto x = drawn_latents(kind_at(k), s, draws);
        double sum = 0.0;
        for (const Sighting& word : examples(kind_at(k))) sum += std::exp(-misfit(word, x, s).cost);
        CHECK(std::abs(sum - 1.0) < 1e-12);
      }
    }
  }
}

TEST_CASE("every slope is the slope of its cost") {
  // Error of the change of cost over the step, relative to that change (and 1e-7 where nothing changes).
  // Measured 1e-7, which is what central differences leave by rounding (1e-15 of the cost) and by the third
  // derivative.
  Draws draws{4};
  double worst = 0.0;
  for (const char* club : kClubs) {
    const Setting s = some_setting(club);
    for (std::size_t k = 0; k < kKinds; ++k) {
      for (const Sighting& sighting : examples(kind_at(k))) {
        for (int n = 0; n < 20; ++n) {
          const auto x = drawn_latents(sighting.kind, s, draws);
          const Misfit m = misfit(sighting, x, s);
          for (std::size_t i = 0; i < static_cast<std::size_t>(x.n); ++i) {
            const double h = 1e-5 * std::max(std::abs(x.at[i]), 1e-4);
            auto up = x, down = x;
            up.at[i] += h;
            down.at[i] -= h;
            const double rough = (misfit(sighting, up, s).cost - misfit(sighting, down, s).cost) / (2 * h);
            const double error = std::abs(rough - m.slope[i]) * h / (1e-7 + std::abs(m.slope[i]) * h);
            if (!std::isfinite(error)) worst = INFINITY;
            worst = std::max(worst, error);
          }
        }
      }
    }
  }
  CHECK(worst < 1e-6);
}

TEST_CASE("no latent, however absurd, makes a cost infinite or a curvature negative") {
  for (const char* club : kClubs) {
    const Setting s = some_setting(club);
    for (std::size_t k = 0; k < kKinds; ++k) {
      for (const Sighting& sighting : examples(kind_at(k))) {
        for (const double far : {-1e9, -1e3, -1.0, 0.0, 1.0, 1e3, 1e9}) {
          Latents<double> x = predict(sighting, some_shot(), s);
          x.at.fill(far);
          const Misfit m = misfit(sighting, x, s);
          INFO(club, " ", column_of(sighting.kind), " ", far);
          CHECK(std::isfinite(m.cost));
          for (std::size_t i = 0; i < static_cast<std::size_t>(kMaxLatents); ++i) {
            CHECK(std::isfinite(m.slope[i]));
            CHECK(std::isfinite(m.curvature[i]));
            CHECK(m.curvature[i] >= 0.0);
          }
        }
      }
    }
  }
}

TEST_CASE("the curvature of a word is that of its cost") {
  const WordScale scale{3, {"low", "normal", "high"}, {-1.0, 1.0}, 0.7};
  for (std::size_t w = 0; w < 3; ++w) {
    for (double x = -4; x <= 4; x += 0.25) {
      const double h = 1e-5;
      const double rough = (word_cost(scale, w, x + h).slope - word_cost(scale, w, x - h).slope) / (2 * h);
      CHECK(std::abs(word_cost(scale, w, x).curvature - rough) < 1e-7);
    }
  }
}

TEST_CASE("a word between very near edges keeps a finite cost") {
  const WordScale scale{3, {"low", "normal", "high"}, {0.0, 1e-12}, 1.0};
  CHECK(std::isfinite(word_cost(scale, 1, 0.0).cost));
  CHECK(word_cost(scale, 1, 0.0).cost > 25.0);
}

TEST_CASE("the scale of a curve is 3 m and 20 %, of a carry 8 % and the flight model's 3 %") {
  const Sighting curve = measured(Kind::curve, 15.0);
  CHECK(scale_at(0.0, curve.sd, curve.share, 0.0).value == doctest::Approx(3.0));
  // far from zero softabs is |x| - sd to second order: 3 + 0.2 * (30.15 - 3) m
  CHECK(scale_at(30.0, curve.sd, curve.share, 0.0).value == doctest::Approx(8.43).epsilon(0.001));
  const Sighting carry = measured(Kind::carry, 130.0);
  const double s = scale_at(130.0, carry.sd, carry.share, facts_of(Kind::carry).model_share).value;
  CHECK(s == doctest::Approx(std::hypot(10.4 + 0.46, 3.9)).epsilon(1e-3));
}

namespace {

/// Pearson's chi-square of counts against expected shares; bins of fewer than 5 expected are added to the
/// next.
struct ChiSquare {
  double value = 0.0;
  int bins = 0;
};
ChiSquare chi_square(const std::vector<int>& counts, const std::vector<double>& shares, int n) {
  ChiSquare out;
  double seen_left = 0.0, expected_left = 0.0;
  for (std::size_t k = 0; k < counts.size(); ++k) {
    seen_left += counts[k];
    expected_left += shares[k] * n;
    if (expected_left < 5.0) continue;
    out.value += (seen_left - expected_left) * (seen_left - expected_left) / expected_left;
    ++out.bins;
    seen_left = expected_left = 0.0;
  }
  return out;
}

}  // namespace

TEST_CASE("what a simulated coach sees is spread as the likelihood says") {
  // Pearson's test per kind at 1 in 100,000 (37 tests: fails by chance once in 2,700 seeds; the seed is
  // fixed).
  constexpr int kLooks = 20000;
  constexpr int kBins = 20;
  const Setting s = some_setting();
  const Shot<double> shot = some_shot();
  const boost::math::students_t t{kTailFreedom};
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Kind kind = kind_at(k);
    Draws draws{5, k};
    std::vector<int> counts(is_word(kind) ? words_of(kind).size() : kBins);
    std::vector<double> shares(counts.size(), 1.0 / kBins);
    const auto x = predict(Sighting{.kind = kind}, shot, s);
    for (std::size_t w = 0; is_word(kind) && w < counts.size(); ++w) {
      shares[w] = std::exp(log_likelihood(judged(kind, static_cast<int>(w)), x, s));
    }
    for (int n = 0; n < kLooks; ++n) {
      const Sighting look = seen(kind, shot, s, draws);
      if (is_word(kind)) {
        ++counts[static_cast<std::size_t>(look.word)];
        continue;
      }
      const double scale = scale_at(x.at[0], look.sd, look.share, facts_of(kind).model_share).value;
      const double rank = boost::math::cdf(t, (look.value - x.at[0]) / scale);
      ++counts[std::min<std::size_t>(kBins - 1, static_cast<std::size_t>(rank * kBins))];
    }
    const ChiSquare found = chi_square(counts, shares, kLooks);
    REQUIRE(found.bins >= 2);
    const boost::math::chi_squared reference{static_cast<double>(found.bins - 1)};
    INFO(column_of(kind), " chi-square ", found.value, " bins ", found.bins);
    CHECK(found.value < boost::math::quantile(boost::math::complement(reference, 1e-5)));
  }
}

TEST_CASE("a wrong noise would be noticed by the same test") {
  constexpr int kLooks = 20000;
  constexpr int kBins = 20;
  const boost::math::students_t t{kTailFreedom};
  const Setting s = some_setting();
  Draws draws{6};
  std::vector<int> counts(kBins);
  for (int n = 0; n < kLooks; ++n) {
    const Sighting look = seen(Kind::strike_toe, some_shot(), s, draws);
    const double rank = boost::math::cdf(t, (look.value - 0.004) / (1.1 * look.sd));  // 10 % too wide
    ++counts[std::min<std::size_t>(kBins - 1, static_cast<std::size_t>(rank * kBins))];
  }
  const ChiSquare found = chi_square(counts, std::vector<double>(kBins, 1.0 / kBins), kLooks);
  const boost::math::chi_squared reference{static_cast<double>(found.bins - 1)};
  CHECK(found.value > boost::math::quantile(boost::math::complement(reference, 1e-5)));
}

TEST_CASE("the same seed looks the same way twice") {
  const Setting s = some_setting();
  for (std::size_t k = 0; k < kKinds; ++k) {
    Draws a{7}, b{7};
    CHECK(seen(kind_at(k), some_shot(), s, a) == seen(kind_at(k), some_shot(), s, b));
  }
}

TEST_CASE("a coach who is surer of where a divot ends does not make the model surer of it") {
  const Facts& end = facts_of(Kind::divot_end);
  REQUIRE(end.model > 0.0);
  CHECK(measured(Kind::divot_end, 0.1, 1e-6).sd == doctest::Approx(end.model).epsilon(1e-6));
  CHECK(measured(Kind::divot_end, 0.1).sd > std::max(end.sd, end.model));
  REQUIRE(facts_of(Kind::divot_start).model == 0.0);
  CHECK(measured(Kind::divot_start, 0.1, 0.010).sd == doctest::Approx(0.010).epsilon(1e-12));
}
