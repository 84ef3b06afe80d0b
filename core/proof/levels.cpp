#include "proof/levels.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace strikewright {
namespace {

/// In place: the lower triangle of a = L L'. Size n, a positive definite.
using Square = std::array<std::array<double, kColumns>, kColumns>;

void factor(Square& a, std::size_t n) {
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k) a[j][j] -= a[j][k] * a[j][k];
    a[j][j] = std::sqrt(a[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
      a[i][j] /= a[j][j];
    }
  }
}

using Column = std::array<double, kColumns>;

Column forward(const Square& l, std::size_t n, Column x) {
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) x[i] -= l[i][k] * x[k];
    x[i] /= l[i][i];
  }
  return x;
}

Column backward(const Square& l, std::size_t n, Column x) {
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) x[i] -= l[k][i] * x[k];
    x[i] /= l[i][i];
  }
  return x;
}

double mean_square_sd(const std::vector<LevelBall>& balls) {
  double sum = 0.0;
  for (const LevelBall& b : balls) sum += b.sd * b.sd;
  return sum / static_cast<double>(balls.size());
}

/// Root mean square about a straight line through the points (t, y); 0 with fewer than three.
double about_line(const std::vector<std::array<double, 2>>& points) {
  const double n = static_cast<double>(points.size());
  if (n < 3.0) return 0.0;
  double t = 0.0, y = 0.0, tt = 0.0, ty = 0.0, yy = 0.0;
  for (const auto& p : points) t += p[0] / n, y += p[1] / n;
  for (const auto& p : points) {
    tt += (p[0] - t) * (p[0] - t);
    ty += (p[0] - t) * (p[1] - y);
    yy += (p[1] - y) * (p[1] - y);
  }
  return std::sqrt(std::max(0.0, yy - (tt > 0.0 ? ty * ty / tt : 0.0)) / n);
}

/// Smallest and largest scatter worth a cell.
std::array<double, 2> scatter_range(const std::vector<LevelBall>& balls, double floor) {
  std::vector<std::array<double, 2>> before, after, all;
  for (std::size_t k = 0; k < balls.size(); ++k) {
    const std::array<double, 2> p{static_cast<double>(balls[k].ball), balls[k].value};
    (balls[k].after ? after : before).push_back(p);
    all.push_back({0.0, balls[k].value});
  }
  const double overall = about_line(all);
  const double b = about_line(before), a = about_line(after);
  double least = std::max(a, b);
  if (a > 0.0 && b > 0.0) least = std::min(a, b);
  const double reading = 1.02 * std::sqrt(mean_square_sd(balls));
  const double low = std::max({0.4 * least, 0.01 * overall, floor, reading});
  return {low, std::max(2.5 * overall, 4.0 * low)};
}

}  // namespace

void LevelFilter::add(const LevelBall& ball) {
  if (!begun_ || ball.day != day_) {
    variance_ = sigma_ * sigma_;
    state_.fill(0.0);
  } else {
    const int gap = ball.ball - ball_;
    const double keep = gap == 1 ? phi_ : std::pow(phi_, gap);
    variance_ = keep * keep * variance_ + sigma_ * sigma_ * (1.0 - keep * keep);
    for (double& s : state_) s *= keep;
  }
  begun_ = true;
  day_ = ball.day;
  ball_ = ball.ball;
  const double spread = variance_ + ball.sd * ball.sd;
  const double gain = variance_ / spread;
  std::array<double, kColumns + 1> news{1.0, ball.after ? 1.0 : 0.0, ball.ball / kDriftBalls,
                                        ball.other_day ? 1.0 : 0.0, ball.value};
  for (std::size_t i = 0; i <= kColumns; ++i) {
    news[i] -= state_[i];
    state_[i] += gain * news[i];
  }
  for (std::size_t i = 0; i < kColumns; ++i) {
    for (std::size_t j = 0; j <= i; ++j) sums_.a[i][j] += news[i] * news[j] / spread;
    sums_.b[i] += news[i] * news[kColumns] / spread;
  }
  sums_.c += news[kColumns] * news[kColumns] / spread;
  product_ *= spread;
  if (product_ < 1e-200 || product_ > 1e200) {  // one logarithm for many balls
    log_det_ += std::log(product_);
    product_ = 1.0;
  }
  variance_ *= 1.0 - gain;
}

LevelSums LevelFilter::sums() const {
  LevelSums out = sums_;
  out.log_det = log_det_ + std::log(product_);
  return out;
}

LevelAnswer answer_of(const LevelSums& sums, const LevelPrior& prior) {
  const std::array<double, kColumns> sd{0.0, prior.change_sd, prior.drift_sd, prior.day_sd};
  std::array<std::size_t, kColumns> use{};
  std::size_t n = 0;
  for (std::size_t i = 0; i < kColumns; ++i)
    if (i == kLevel || sd[i] > 0.0) use[n++] = i;
  Square a{};
  Column b{};
  double priors = 1.0, roots = 1.0, c = sums.c;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) a[i][j] = sums.a[use[i]][use[j]];
    b[i] = sums.b[use[i]];
    if (use[i] == kLevel) continue;
    a[i][i] += 1.0 / (sd[use[i]] * sd[use[i]]);
    priors *= sd[use[i]];
  }
  factor(a, n);
  Column mean = forward(a, n, b);
  for (std::size_t i = 0; i < n; ++i) {
    c -= mean[i] * mean[i];
    roots *= a[i][i];
  }
  LevelAnswer out;
  out.log_marginal = -0.5 * (sums.log_det + c) - std::log(roots * priors);
  mean = backward(a, n, mean);
  const Column first = backward(a, n, forward(a, n, Column{1.0, 0.0, 0.0, 0.0}));
  out.level = mean[0];
  out.level_variance = first[0];
  if (prior.change_sd > 0.0) {
    const Column second = forward(a, n, Column{0.0, 1.0, 0.0, 0.0});
    out.change = mean[1];
    out.covariance = first[1];
    for (std::size_t i = 1; i < n; ++i) out.change_variance += second[i] * second[i];
  }
  return out;
}

namespace {

LevelSums filtered(const std::vector<LevelBall>& balls, double sigma, double phi) {
  LevelFilter filter(sigma, phi);
  for (const LevelBall& ball : balls) filter.add(ball);
  return filter.sums();
}

/// Sums at scatter 1 without readings' noise, brought to another scatter.
LevelSums scaled(LevelSums sums, double sigma, std::size_t balls) {
  const double by = 1.0 / (sigma * sigma);
  for (auto& row : sums.a)
    for (double& x : row) x *= by;
  for (double& x : sums.b) x *= by;
  sums.c *= by;
  sums.log_det -= static_cast<double>(balls) * std::log(by);
  return sums;
}

}  // namespace

std::vector<LevelCell> level_cells(const std::vector<LevelBall>& balls, double floor) {
  const double reading = mean_square_sd(balls);
  const auto [low, high] = scatter_range(balls, floor);
  constexpr double kStep = 0.15;  // of ln tau; its posterior is 0.1 wide with fifty balls, 0.2 with a dozen
  const int steps = std::min(40, static_cast<int>(std::ceil(std::log(high / low) / kStep)));
  std::array<LevelSums, kPhi.size()> bare;  // without readings' noise one pass serves every scatter
  for (std::size_t p = 0; reading == 0.0 && p < kPhi.size(); ++p) bare[p] = filtered(balls, 1.0, kPhi[p]);
  std::vector<LevelCell> cells;
  for (int k = 0; k <= steps; ++k) {
    const double tau = low * std::pow(high / low, static_cast<double>(k) / steps);
    const double sigma = std::sqrt(std::max(tau * tau - reading, 0.0));
    for (std::size_t p = 0; p < kPhi.size(); ++p)
      cells.push_back(
          {tau, sigma, kPhi[p],
           reading == 0.0 ? scaled(bare[p], sigma, balls.size()) : filtered(balls, sigma, kPhi[p])});
  }
  return cells;
}

}  // namespace strikewright
