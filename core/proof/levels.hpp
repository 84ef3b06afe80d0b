#pragma once
// The model behind a proof: two levels under autocorrelated errors, drift and another day's form (proof.hpp).
//
// For one scatter tau and one autocorrelation phi everything is normal: the sums of one filter pass over the
// balls answer every question. Tau (right-Haar: uniform in its logarithm) and phi are summed over a grid.

#include <array>
#include <vector>

namespace strikewright {

/// One ball of a comparison.
struct LevelBall {
  double value = 0.0, sd = 0.0;
  int day = 0, ball = 0;
  bool after = false;
  bool other_day = false;  ///< than the baseline's
};

/// What is summed with what: the columns of the regression.
enum LevelColumn { kLevel, kChange, kDrift, kDay, kColumns };

/// X' V^-1 X, X' V^-1 y, y' V^-1 y and ln det V for V = sigma^2 AR(phi) + diag(sd^2).
struct LevelSums {
  std::array<std::array<double, kColumns>, kColumns> a{};
  std::array<double, kColumns> b{};
  double c = 0.0, log_det = 0.0;
};

/// Drift is counted as the change over this many balls.
inline constexpr double kDriftBalls = 40.0;

/// Filters balls one by one in linear time: AR(1) with noise is a scalar state (Kalman 1960; Harvey,
/// Forecasting, Structural Time Series Models and the Kalman Filter, 1989, 3.2). Balls of different days are
/// independent; a gap of k balls correlates by phi^k.
class LevelFilter {
 public:
  LevelFilter(double sigma, double phi) : sigma_{sigma}, phi_{phi} {}
  void add(const LevelBall& ball);
  [[nodiscard]] LevelSums sums() const;

 private:
  double sigma_, phi_;
  bool begun_ = false;
  int day_ = 0, ball_ = 0;
  double variance_ = 0.0;
  std::array<double, kColumns + 1> state_{};  ///< of the columns and of y
  LevelSums sums_;                            ///< all but log_det
  double log_det_ = 0.0, product_ = 1.0;
};

/// Level and change under normal priors about nothing, and the marginal likelihood.
struct LevelAnswer {
  double log_marginal = 0.0;  ///< ln p(y), constants of n left out, the flat level's too
  double level = 0.0, change = 0.0;
  double level_variance = 0.0, change_variance = 0.0, covariance = 0.0;
};

/// What is believed before the balls. A sd of 0 leaves the term out; the level is flat.
struct LevelPrior {
  double change_sd = 0.0, drift_sd = 0.0, day_sd = 0.0;
};

[[nodiscard]] LevelAnswer answer_of(const LevelSums& sums, const LevelPrior& prior);

/// One scatter and one autocorrelation with what the balls say there.
struct LevelCell {
  double tau = 0.0;    ///< scatter as seen: swing and reading together
  double sigma = 0.0;  ///< of the swing: tau^2 - mean sd^2
  double phi = 0.0;
  LevelSums sums;
};

/// The grid: log-uniform in tau, kPhi in phi. `floor` > 0: no smaller scatter is believed.
/// @param balls at least two
[[nodiscard]] std::vector<LevelCell> level_cells(const std::vector<LevelBall>& balls, double floor);

/// Autocorrelations that are summed over, and what each is believed with (assumption).
inline constexpr std::array<double, 5> kPhi{0.0, 0.15, 0.3, 0.45, 0.6};
inline constexpr std::array<double, 5> kPhiWeight{0.4, 0.3, 0.2, 0.07, 0.03};

/// Drifts over kDriftBalls balls, in scatters, that are summed over, and what each is believed with
/// (assumption): mostly little, sometimes some, now and then a trend beside which nothing else counts.
inline constexpr std::array<double, 3> kDriftSd{0.3, 1.5, 15.0};
inline constexpr std::array<double, 3> kDriftWeight{0.85, 0.1, 0.05};

}  // namespace strikewright
