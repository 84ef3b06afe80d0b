#pragma once
// The posterior of an invented pattern by another road: Metropolis steps within Gibbs (L. Tierney, Ann. Stat.
// 22, 1701-1728, 1994) on the real chain, where nothing is straightened, corrected or weighed.

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <cmath>
#include <span>
#include <vector>

#include "cause/calibration.hpp"
#include "numeric/draws.hpp"
#include "reading/pupil.hpp"
#include "reading/target.hpp"
#include "reading/together.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"
#include "sighting/predict.hpp"

namespace strikewright::second_road {

/// A random walk that learns its steps while warming up: their covariance from where it has been (H. Haario,
/// E. Saksman & J. Tamminen, Bernoulli 7, 223-242, 2001), their length from how many are taken.
class Walk {
 public:
  Walk(Eigen::Index size, double step)
      : mean_{Eigen::VectorXd::Zero(size)}, square_{step * step * Eigen::MatrixXd::Identity(size, size)} {
    root_ = step * Eigen::MatrixXd::Identity(size, size);
  }

  [[nodiscard]] Eigen::VectorXd step(Draws& draws) const {
    Eigen::VectorXd u(mean_.size());
    for (Eigen::Index j = 0; j < u.size(); ++j) u[j] = draws.normal();
    return std::exp(log_length_) / std::sqrt(static_cast<double>(u.size())) * (root_ * u);
  }

  void learn(const Eigen::VectorXd& at, bool taken) {
    constexpr double kTaken = 0.25, kEvery = 200.0;
    n_ += 1.0;
    log_length_ += ((taken ? 1.0 : 0.0) - kTaken) / std::sqrt(n_);
    const Eigen::VectorXd away = at - mean_;
    mean_ += away / n_;
    square_ += ((1.0 - 1.0 / n_) * away * away.transpose() - square_) / (n_ + 50.0);
    if (std::fmod(n_, kEvery) != 0.0) return;
    Eigen::MatrixXd spread = square_;
    spread.diagonal().array() += 1e-6;
    root_ = spread.llt().matrixL();
  }

 private:
  Eigen::VectorXd mean_;
  Eigen::MatrixXd square_, root_;
  double log_length_ = 0.8, n_ = 0.0;
};

/// Everything that is unknown about one pattern, and its sightings.
class Sampler {
 public:
  /// @param pupil  must outlive it
  Sampler(const InventedPupil& pupil, std::uint64_t stream)
      : who_{pupil}, draws_{20261129, stream}, gamma_engine_{stream + 1} {
    for (const SeenSwing& s : pupil.seen)
      for (const Sighting& k : s.sightings) {
        const auto kind = static_cast<std::size_t>(k.kind);
        if (can_be_biased(k.kind) && std::ranges::find(biased_, kind) == biased_.end())
          biased_.push_back(kind);
      }
    walk_ = Walk(kUnknowns + static_cast<Eigen::Index>(biased_.size()), 0.1);
    for (int j = 0; j < kUnknowns; ++j) centre_[j] = 0.3 * draws_.normal();
    variance_ = within_sd().cwiseAbs2();
    bias_.fill(0.0);
    for (const SeenSwing& s : who_.seen) {
      swings_.push_back({s.sightings, centre_, 1.0, {}, Walk(kUnknowns, 0.2)});
      look(swings_.back(), centre_, swings_.back().seen);
    }
  }

  /// One sweep over everything; while `learning` the steps are fitted.
  void sweep(bool learning) {
    for (Swing& s : swings_) {
      walk_swing(s, learning);
      turn_swing(s, learning);
      weigh_swing(s);
    }
    draw_centre();
    draw_scatter();
    for (int k = 0; k < 2; ++k) walk_all(learning);
  }

  [[nodiscard]] const Coordinates& centre() const { return centre_; }

  [[nodiscard]] std::array<double, kReported> reported() const {
    return reported_values(shot_of(pass_at(who_.prior, centre_), who_.setting, false));
  }

 private:
  struct Swing {
    std::span<const Sighting> sightings;
    Coordinates z;
    double belongs;                     ///< gamma precision of the t
    std::vector<Latents<double>> seen;  ///< predictions at z
    Walk walk;
    double log_turn = -1.0;  ///< logarithm of the share of fresh noise in a turn
    double turns = 0.0;
  };
  using Biases = std::array<double, kKinds>;

  [[nodiscard]] static bool in_reach(const Coordinates& z) { return z.cwiseAbs().maxCoeff() < kFarthest; }

  void look(const Swing& s, const Coordinates& z, std::vector<Latents<double>>& out) const {
    const Shot<double> shot =
        shot_of(pass_at(who_.prior, z), who_.setting, needs_flight(s.sightings), FlightOptions::fast());
    out.clear();
    for (const Sighting& k : s.sightings) out.push_back(predict(k, shot, who_.setting));
  }
  [[nodiscard]] double log_of(const Swing& s, const std::vector<Latents<double>>& seen,
                              const Biases& bias) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < seen.size(); ++k) {
      const Kind kind = s.sightings[k].kind;
      const double b = can_be_biased(kind) ? bias[static_cast<std::size_t>(kind)] : 0.0;
      sum += log_likelihood(s.sightings[k], seen[k], who_.setting, b);
    }
    return sum;
  }
  [[nodiscard]] bool takes(double log_ratio) { return std::log(draws_.uniform()) < log_ratio; }

  [[nodiscard]] double log_place(const Swing& s, const Coordinates& z) const {
    return -0.5 * s.belongs * (z - centre_).cwiseAbs2().cwiseQuotient(variance_).sum();
  }

  void walk_swing(Swing& s, bool learning) {
    const Coordinates z = s.z + Coordinates(s.walk.step(draws_));
    bool taken = false;
    if (in_reach(z)) {
      std::vector<Latents<double>> seen;
      look(s, z, seen);
      taken = takes(log_of(s, seen, bias_) - log_of(s, s.seen, bias_) + log_place(s, z) - log_place(s, s.z));
      if (taken) s.z = z, s.seen = std::move(seen);
    }
    if (learning) s.walk.learn(s.z, taken);
  }

  /// A step that keeps the pattern's own spread, so that what was not seen moves freely (S. Cotter, G.
  /// Roberts, A. Stuart & D. White, Stat. Sci. 28, 424-446, 2013).
  void turn_swing(Swing& s, bool learning) {
    const double fresh = std::exp(s.log_turn), kept = std::sqrt(1.0 - fresh * fresh);
    Coordinates z = centre_ + kept * (s.z - centre_);
    for (int j = 0; j < kUnknowns; ++j) z[j] += fresh * std::sqrt(variance_[j] / s.belongs) * draws_.normal();
    bool taken = false;
    if (in_reach(z)) {
      std::vector<Latents<double>> seen;
      look(s, z, seen);
      taken = takes(log_of(s, seen, bias_) - log_of(s, s.seen, bias_));
      if (taken) s.z = z, s.seen = std::move(seen);
    }
    if (!learning) return;
    s.turns += 1.0;
    s.log_turn = std::min(-0.02, s.log_turn + ((taken ? 1.0 : 0.0) - 0.3) / std::sqrt(s.turns));
  }

  double gamma(double shape) { return boost::random::gamma_distribution<double>(shape)(gamma_engine_); }

  void weigh_swing(Swing& s) {
    const double square = (s.z - centre_).cwiseAbs2().cwiseQuotient(variance_).sum();
    s.belongs = gamma(0.5 * (kSwingFreedom + kUnknowns)) / (0.5 * (kSwingFreedom + square));
  }

  void draw_centre() {
    Coordinates next;
    for (int j = 0; j < kUnknowns; ++j) {
      double precision = 1.0 / (between_sd()[j] * between_sd()[j]), pull = 0.0;
      for (const Swing& s : swings_) {
        precision += s.belongs / variance_[j];
        pull += s.belongs / variance_[j] * s.z[j];
      }
      next[j] = pull / precision + draws_.normal() / std::sqrt(precision);
    }
    if (in_reach(next)) centre_ = next;
  }

  void draw_scatter() {
    constexpr double kShare =
        (kSwingFreedom - 2.0) / kSwingFreedom * (kScatterFreedom - 2.0) / kScatterFreedom;
    for (int j = 0; j < kUnknowns; ++j) {
      double square = kScatterFreedom * kShare * within_sd()[j] * within_sd()[j];
      for (const Swing& s : swings_) square += s.belongs * std::pow(s.z[j] - centre_[j], 2);
      variance_[j] = 0.5 * square / gamma(0.5 * (kScatterFreedom + static_cast<double>(swings_.size())));
    }
  }

  [[nodiscard]] double log_common(const Coordinates& centre, const Biases& bias) const {
    double sum = -0.5 * centre.cwiseQuotient(between_sd()).squaredNorm();
    for (std::size_t k = 0; k < kKinds; ++k) {
      const double sd = facts_of(static_cast<Kind>(k)).bias;
      sum -= 0.5 * bias[k] * bias[k] / (sd * sd);
    }
    return sum;
  }

  /// The pattern with all its swings, and the eye's biases.
  void walk_all(bool learning) {
    const Eigen::VectorXd step = walk_.step(draws_);
    const Coordinates by = step.head<kUnknowns>();
    Biases bias = bias_;
    for (std::size_t k = 0; k < biased_.size(); ++k)
      bias[biased_[k]] += step[kUnknowns + static_cast<Eigen::Index>(k)];
    bool taken = in_reach(centre_ + by);
    for (const Swing& s : swings_) taken = taken && in_reach(s.z + by);
    std::vector<std::vector<Latents<double>>> seen(swings_.size());
    if (taken) {
      double log_ratio = log_common(centre_ + by, bias) - log_common(centre_, bias_);
      for (std::size_t i = 0; i < swings_.size(); ++i) {
        look(swings_[i], swings_[i].z + by, seen[i]);
        log_ratio += log_of(swings_[i], seen[i], bias) - log_of(swings_[i], swings_[i].seen, bias_);
      }
      taken = takes(log_ratio);
    }
    if (taken) {
      centre_ += by;
      bias_ = bias;
      for (std::size_t i = 0; i < swings_.size(); ++i) {
        swings_[i].z += by;
        swings_[i].seen = std::move(seen[i]);
      }
    }
    if (!learning) return;
    Eigen::VectorXd at(step.size());
    at.head<kUnknowns>() = centre_;
    for (std::size_t k = 0; k < biased_.size(); ++k)
      at[kUnknowns + static_cast<Eigen::Index>(k)] = bias_[biased_[k]];
    walk_.learn(at, taken);
  }

  const InventedPupil& who_;
  Draws draws_;
  boost::random::mt19937_64 gamma_engine_;
  std::vector<Swing> swings_;
  Coordinates centre_, variance_;
  Biases bias_{};
  std::vector<std::size_t> biased_;  ///< kinds that were looked for and can be biased
  Walk walk_{kUnknowns, 0.1};
};

}  // namespace strikewright::second_road
