#include "proof/levels.hpp"

#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <atomic>
#include <cmath>
#include <vector>

#include "lessons.hpp"
#include "numeric/parallel.hpp"

using namespace strikewright;
using test::Lesson;
using test::lesson_of;

namespace {

std::vector<LevelBall> balls_of(const Series& series) {
  std::vector<LevelBall> balls;
  for (const Point& p : series)
    balls.push_back({p.value, p.sd, p.day, p.ball, p.phase != Phase::baseline, p.day != series.front().day});
  return balls;
}

/// The same answer by dense algebra: the covariance written out, nothing filtered.
LevelAnswer dense_answer(const std::vector<LevelBall>& balls, double sigma, double phi,
                         const LevelPrior& prior) {
  const auto n = static_cast<Eigen::Index>(balls.size());
  Eigen::MatrixXd v(n, n), x(n, 4);
  Eigen::VectorXd y(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const LevelBall& a = balls[static_cast<std::size_t>(i)];
    y(i) = a.value;
    x.row(i) << 1.0, a.after ? 1.0 : 0.0, a.ball / kDriftBalls, a.other_day ? 1.0 : 0.0;
    for (Eigen::Index j = 0; j < n; ++j) {
      const LevelBall& b = balls[static_cast<std::size_t>(j)];
      v(i, j) = a.day == b.day ? sigma * sigma * std::pow(phi, std::abs(a.ball - b.ball)) : 0.0;
    }
    v(i, i) += a.sd * a.sd;
  }
  Eigen::Matrix4d a = x.transpose() * v.inverse() * x;
  const Eigen::Vector4d b = x.transpose() * v.inverse() * y;
  a(kChange, kChange) += 1.0 / (prior.change_sd * prior.change_sd);
  a(kDrift, kDrift) += 1.0 / (prior.drift_sd * prior.drift_sd);
  a(kDay, kDay) += 1.0 / (prior.day_sd * prior.day_sd);
  const Eigen::Matrix4d covariance = a.inverse();
  const Eigen::Vector4d mean = covariance * b;
  LevelAnswer out{.level = mean(0), .change = mean(1)};
  out.log_marginal = -0.5 * (std::log(v.determinant()) + y.dot(v.inverse() * y) - b.dot(mean)) -
                     0.5 * std::log(a.determinant()) -
                     std::log(prior.change_sd * prior.drift_sd * prior.day_sd);
  out.level_variance = covariance(0, 0);
  out.change_variance = covariance(1, 1);
  out.covariance = covariance(0, 1);
  return out;
}

}  // namespace

TEST_CASE("ball by ball or all at once: the same levels") {
  Series series = lesson_of({.change = 1.0, .reading = 0.7, .before = 6, .after = 9}, 3, 1);
  for (std::size_t k = 10; k < series.size(); ++k) {  // another day, and balls that were not read
    series[k].day = 9;
    series[k].ball = static_cast<int>(3 * (k - 9));
    series[k].sd *= 1.5;
  }
  for (std::size_t k = 4; k < 10; ++k) series[k].ball += 3;
  const auto balls = balls_of(series);
  const LevelPrior prior{.change_sd = 1.5, .drift_sd = 0.3, .day_sd = 0.4};
  for (const double phi : {0.0, 0.3, 0.6}) {
    LevelFilter filter(0.8, phi);
    for (const LevelBall& b : balls) filter.add(b);
    const LevelAnswer a = answer_of(filter.sums(), prior), d = dense_answer(balls, 0.8, phi, prior);
    CAPTURE(phi);
    CHECK(a.level == doctest::Approx(d.level).epsilon(1e-9));
    CHECK(a.change == doctest::Approx(d.change).epsilon(1e-9));
    CHECK(a.level_variance == doctest::Approx(d.level_variance).epsilon(1e-9));
    CHECK(a.change_variance == doctest::Approx(d.change_variance).epsilon(1e-9));
    CHECK(a.covariance == doctest::Approx(d.covariance).epsilon(1e-9));
    CHECK(a.log_marginal == doctest::Approx(d.log_marginal).epsilon(1e-9));
  }
}

TEST_CASE("summed over all scatters, independent balls give the Bayes factor of the two-sample t test") {
  // Gonen, Johnson, Lu & Westfall, Am. Stat. 59, 2005, 252-257 (from memory): closed form, no grid.
  for (const double change : {0.0, 1.0, 3.0})
    for (const int after : {6, 12, 40}) {
      const int m = 8;
      const Series series = lesson_of({.change = change, .before = m, .after = after}, 4, 2);
      const auto balls = balls_of(series);
      double a = 0.0, b = 0.0, squares = 0.0;
      for (int k = 0; k < m; ++k) a += balls[static_cast<std::size_t>(k)].value / m;
      for (int k = m; k < m + after; ++k) b += balls[static_cast<std::size_t>(k)].value / after;
      for (const LevelBall& ball : balls) squares += std::pow(ball.value - (ball.after ? b : a), 2);
      const double nu = m + after - 2.0, size = m * after / static_cast<double>(m + after), g = 1.5;
      const double t2 = size * (b - a) * (b - a) * nu / squares;
      const double exact =
          std::pow(1.0 + size * g * g, -0.5) *
          std::pow((1.0 + t2 / nu) / (1.0 + t2 / (nu * (1.0 + size * g * g))), 0.5 * (nu + 1.0));
      double some = 0.0, none = 0.0, most = -1e300;
      const auto cells = level_cells(balls, 1e-9);
      for (const LevelCell& c : cells) most = std::max(most, answer_of(c.sums, {}).log_marginal);
      for (const LevelCell& c : cells) {
        if (c.phi > 0.0) continue;
        some += std::exp(answer_of(c.sums, {.change_sd = g * c.tau}).log_marginal - most);
        none += std::exp(answer_of(c.sums, {}).log_marginal - most);
      }
      CAPTURE(change);
      CAPTURE(after);
      // The grid's step of 0.15 in ln tau and its ends: under 2 % of the factor (it is compared with 20).
      CHECK(some / none == doctest::Approx(exact).epsilon(0.02));
    }
}

TEST_CASE("when the proof says 80 %, the true change lies inside 80 % of the time") {
  // Lessons drawn from the model's own beliefs, readings of uneven quality among them.
  constexpr std::size_t kLessons = 1500;
  std::atomic<int> inside80{0}, inside50{0}, worth_said{0};
  std::atomic<int> worth_true{0};
  in_parallel(kLessons, 8, [&](std::size_t begin, std::size_t end) {
    for (std::size_t k = begin; k < end; ++k) {
      Draws draws(21, k);
      Lesson l{.change = 1.5 * draws.normal(), .after = 6 + static_cast<int>(20.0 * draws.uniform())};
      double u = draws.uniform();
      for (std::size_t p = 0; p < kPhi.size() && u > 0.0; ++p) {
        l.phi = kPhi[p];
        u -= kPhiWeight[p];
      }
      const double drift = draws.normal() * (draws.uniform() < kDriftWeight[0] ? kDriftSd[0] : kDriftSd[1]);
      l.drift = drift * (l.before + l.after - 1.0) / kDriftBalls;
      const Series s = lesson_of(l, 22, k);
      const Change c = proof_of(s, {.wish = higher_is_better(), .smallest_worth = 0.5}).session;
      const double z = std::fabs(l.change - c.change.mean) / c.change.sd;
      if (l.change >= c.change.p10 && l.change <= c.change.p90) ++inside80;
      if (z < 0.6745) ++inside50;
      if (c.p_worth > 0.75) ++worth_said;
      if (c.p_worth > 0.75 && l.change > 0.5) ++worth_true;
    }
  });
  const double n = kLessons;
  MESSAGE("inside 80 %: " << inside80.load() << ", 50 %: " << inside50.load() << " of " << kLessons
                          << "; worth having: " << worth_true.load() << " of " << worth_said.load());
  CHECK(std::fabs(inside80 - 0.80 * n) < 3.5 * std::sqrt(0.8 * 0.2 * n));
  CHECK(std::fabs(inside50 - 0.50 * n) <
        0.05 * n + 3.5 * std::sqrt(0.25 * n));  // a normal law stands in for the mixture
  CHECK(worth_true >= 0.87 * worth_said);       // said with 75 to 100 %, 93 % on average
}
