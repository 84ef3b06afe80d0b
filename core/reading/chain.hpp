#pragma once
// One Markov chain of fit_together: the sweeps.

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "reading/chain_parts.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

namespace strikewright::detail {

class Chain {
 public:
  Chain(std::span<const FitSwing> swings, const Shape& shape, const std::vector<Coordinates>& start,
        const std::vector<std::vector<int>>& biases, std::uint64_t seed, std::uint64_t stream)
      : given_{swings},
        shape_{shape},
        draws_{seed, stream},
        swings_(swings.size()),
        variance_(shape.conditions.size()),
        count_(shape.conditions.size(), 0.0) {
    for (Coordinates& v : variance_) v = usual_variance();
    for (std::size_t i = 0; i < swings.size(); ++i) {
      swings_[i].z = start[i];
      swings_[i].biases = biases[i];
      swings_[i].with_flight = needs_flight(swings[i].sightings);
      count_[swings[i].pattern] += 1.0;
    }
    for (std::size_t i = 0; i < swings.size(); ++i) swings_[i].places.assign(1, start[i]);
    prepare_prior();
  }

  /// Where this chain's draws of a swing were while warming up.
  [[nodiscard]] const std::vector<Coordinates>& places(std::size_t i) const { return swings_[i].places; }

  /// Goes on with the real chain as straightened over `places`: sites_over of the swing's sightings.
  void straighten(std::size_t i, const std::vector<Site>& sites) {
    OneSwing& s = swings_[i];
    std::vector<Seen> seen(sites.size());
    for (std::size_t k = 0; k < sites.size(); ++k) {
      seen[k].site = sites[k];
      seen[k].bias = sites[k].bias_slope != 0.0 ? s.biases[k] : -1;
      seen[k].value = sites[k].value;
    }
    s.seen = std::move(seen);
    for (Seen& k : s.seen) look_again(k, s.z);
  }

  /// Sweeps that only move; every `step`th place of the later two thirds is kept.
  void warm_up(int sweeps, int step) {
    for (OneSwing& s : swings_) s.places.clear();
    for (int k = 1; k <= sweeps; ++k) {
      sweep();
      if (k % step == 0 && k > sweeps / 3)
        for (OneSwing& s : swings_) s.places.push_back(s.z);
    }
  }

  void settle() {
    for (int k = 0; k < 6; ++k) sweep();
  }

  /// Sweeps that only ask how far the straightened chain is off, for `bend`.
  void look_off(std::size_t sweeps, std::vector<OffLine>& out) {
    for (const OneSwing& s : swings_) out.emplace_back(s.seen.size());
    for (std::size_t k = 0; k < sweeps; ++k) {
      sweep();
      for (std::size_t i = 0; i < swings_.size(); ++i) {
        const OneSwing& s = swings_[i];
        const Long here = off(i, s.z), there = off(i, s.mirror);
        const Coordinates half = 0.5 * (s.z - s.mirror);
        out[i].pairs += 1.0;
        out[i].square += half * half.transpose();
        out[i].middle += 0.5 * (s.z + s.mirror);
        out[i].lean += half * (0.5 * (here - there)).transpose();
        out[i].off += 0.5 * (here + there);
      }
    }
  }

  /// Straightens a swing anew: adds a line to each of its numbers.
  void bend(std::size_t i, const Long& height, const ByNumber& slopes) {
    for (std::size_t k = 0; k < swings_[i].seen.size(); ++k) {
      Site& site = swings_[i].seen[k].site;
      site.at += height[static_cast<Eigen::Index>(k)];
      site.slope += slopes.col(static_cast<Eigen::Index>(k));
    }
  }

  /// Sweeps that only ask what the straightened chain leaves out.
  void try_out(std::size_t sweeps, std::vector<Pairs>& out, std::vector<Coordinates>& pupil) {
    constexpr int kForget = 4;  // since the last correction
    for (int k = 0; k < kForget; ++k) sweep();
    for (std::size_t k = 0; k < sweeps; ++k) {
      sweep();
      pupil.push_back(now_.head<kUnknowns>());
      for (std::size_t i = 0; i < swings_.size(); ++i) {
        const OneSwing& s = swings_[i];
        const double here = weighed(i, s.z, now_).log_weight,
                     there = weighed(i, s.mirror, opposite_).log_weight;
        out[i].at.push_back(s.z);
        out[i].half.emplace_back(0.5 * (s.z - s.mirror));
        out[i].log_half.push_back(0.5 * (here - there));
      }
    }
  }

  void lean_by(const std::vector<Coordinates>& tilts) {
    for (std::size_t i = 0; i < swings_.size(); ++i) swings_[i].tilt = tilts[i];
  }

  void keep(std::size_t sweeps, Fit& out) {
    for (std::size_t k = 0; k < sweeps; ++k) {
      sweep();
      for (std::size_t p = 0; p < out.patterns.size(); ++p) {
        out.patterns[p].centre.push_back(centre(now_, p));
        out.patterns[p].centre.push_back(centre(opposite_, p));
        out.patterns[p].scatter.push_back((variance_[p] / kSwingFreedomShare).cwiseSqrt());
      }
      out.usual.centre.push_back(now_.head<kUnknowns>());
      out.usual.centre.push_back(opposite_.head<kUnknowns>());
      mean_ += mean_now_;
      square_ += mean_now_ * mean_now_.transpose();
      spread_ += spread_now_;
      for (std::size_t i = 0; i < swings_.size(); ++i) {
        out.swings[i].belongs += swings_[i].belongs / static_cast<double>(sweeps);
        const Weighed draw = weighed(i, swings_[i].z, now_);
        out.swings[i].at.push_back(swings_[i].z);
        out.swings[i].weight.push_back(draw.log_weight);
        out.swings[i].pass.push_back(draw.shot.pass);
        out.swings[i].reported.push_back(reported_values(draw.shot));
      }
    }
  }

  Coordinates mean_ = Coordinates::Zero();
  CoordinatesMatrix square_ = CoordinatesMatrix::Zero(), spread_ = CoordinatesMatrix::Zero();

 private:
  static Coordinates usual_variance() { return within_sd().cwiseAbs2(); }

  /// Precision of a site's noise, and the number behind a word, given everything else.
  void look_again(Seen& k, const Coordinates& z) {
    const double x = number_at(k, z, now_);
    if (k.site.measured) {
      const double r = k.site.value - x;
      k.precision = gamma(0.5 * (kTailFreedom + 1.0), draws_) / (0.5 * (kTailFreedom + r * r));
      return;
    }
    k.value = logistic_within(x, k.site.low, k.site.high, draws_);
    if (!std::isfinite(k.value)) k.value = std::clamp(x, k.site.low, k.site.high);
    const double r = k.value - x;
    k.precision = gamma(0.5 * (kLogisticFreedom + 1.0), draws_) /
                  (0.5 * (kLogisticFreedom + r * r / kLogisticSquare)) / kLogisticSquare;
  }

  /// What the straightened chain and the eye's bias give for a site.
  [[nodiscard]] double number_at(const Seen& k, const Coordinates& z, const Long& all) const {
    return k.site.at + k.site.slope.dot(z) + (k.bias < 0 ? 0.0 : k.site.bias_slope * bias(k.bias, all));
  }

  [[nodiscard]] double bias(int column, const Long& all) const {
    return all.size() == 0 ? 0.0 : all[shape_.bias_at() + column];
  }

  [[nodiscard]] Coordinates centre(const Long& all, std::size_t p) const {
    if (shape_.shift_at[p] < 0) return all.head<kUnknowns>();
    return all.segment<kUnknowns>(shape_.shift_at[p]) + shape_.keeps[p].cwiseProduct(all.head<kUnknowns>());
  }

  void prepare_prior() {
    prior_precision_ = Long::Ones(shape_.size);
    prior_pull_ = Long::Zero(shape_.size);
    prior_precision_.head<kUnknowns>() = between_sd().cwiseAbs2().cwiseInverse();
    for (std::size_t p = 0; p < shape_.conditions.size(); ++p) {
      if (shape_.shift_at[p] < 0) continue;
      for (int j = 0; j < kUnknowns; ++j) {
        const ConditionEffect& e = shape_.effects[p][static_cast<std::size_t>(j)];
        prior_precision_[shape_.shift_at[p] + j] = 1.0 / (e.sd * e.sd);
        prior_pull_[shape_.shift_at[p] + j] = e.shift / (e.sd * e.sd);
      }
    }
    for (int k = 0; k < shape_.biases; ++k) {
      const double sd = shape_.bias_sd[static_cast<std::size_t>(k)];
      prior_precision_[shape_.bias_at() + k] = 1.0 / (sd * sd);
    }
    now_ = prior_pull_.cwiseQuotient(prior_precision_);
  }

  /// A swing's own coordinates given everything else.
  [[nodiscard]] Told told_by(const OneSwing& s, const Coordinates& q) const {
    Told t;
    t.pull = s.tilt;
    CoordinatesMatrix precision = q.asDiagonal();
    t.cross = Sides::Zero(kUnknowns, shape_.biases);
    for (const Seen& k : s.seen) {
      const double w = k.precision, r = k.value - k.site.at;
      precision.selfadjointView<Eigen::Lower>().rankUpdate(k.site.slope, w);
      t.pull += w * r * k.site.slope;
      if (k.bias >= 0) t.cross.col(k.bias) += w * k.site.bias_slope * k.site.slope;
    }
    t.root.compute(precision);
    return t;
  }

  /// One swing's own coordinates integrated out. Its numbers are then normal about S' centre + B biases with
  ///
  ///     covariance  C = 1/W + S' (1/q) S,   pulled to  r - S' (1/q) tilt
  ///
  /// (S slopes, W precisions, q precision of a swing in its pattern), and the equations get [S' B r]' C^-1
  /// [S' B r].
  /// @returns those products; C is as small as the numbers are few
  [[nodiscard]] Products products_of(const OneSwing& s, const Coordinates& q) const {
    const auto m = static_cast<Eigen::Index>(s.seen.size());
    const Eigen::Index columns = kUnknowns + shape_.biases + 1;
    const Coordinates loose = q.cwiseInverse(), leaning = loose.cwiseProduct(s.tilt);
    Rows rows = Rows::Zero(m, columns);
    Square c(m, m);
    for (Eigen::Index i = 0; i < m; ++i) {
      const Seen& k = s.seen[static_cast<std::size_t>(i)];
      rows.row(i).head<kUnknowns>() = k.site.slope.transpose();
      if (k.bias >= 0) rows(i, kUnknowns + k.bias) = k.site.bias_slope;
      rows(i, columns - 1) = k.value - k.site.at - k.site.slope.dot(leaning);
      const Coordinates spread = k.site.slope.cwiseProduct(loose);
      for (Eigen::Index j = 0; j <= i; ++j)
        c(i, j) = s.seen[static_cast<std::size_t>(j)].site.slope.dot(spread);
      c(i, i) += 1.0 / k.precision;
    }
    whiten(c, rows);
    Products out = Products::Zero(columns, columns);
    for (Eigen::Index i = 0; i < m; ++i) {
      const Coordinates slope = rows.row(i).head<kUnknowns>();
      for (Eigen::Index j = 0; j < columns; ++j) {
        const double at = rows(i, j);
        if (at == 0.0) continue;  // an eye's bias is about its own kind only
        out.col(j).head<kUnknowns>() += at * slope;
        for (Eigen::Index k = kUnknowns; k <= j; ++k) out(k, j) += at * rows(i, k);
      }
    }
    out.triangularView<Eigen::StrictlyLower>() = out.transpose();
    return out;
  }

  /// rows := L^-1 rows with C = L L', C given by its lower half and lost. Few rows, so plain loops.
  static void whiten(Square& c, Rows& rows) {
    for (Eigen::Index i = 0; i < c.rows(); ++i) {
      for (Eigen::Index j = 0; j <= i; ++j) {
        double left = c(i, j);
        for (Eigen::Index k = 0; k < j; ++k) left -= c(i, k) * c(j, k);
        c(i, j) = j < i ? left / c(j, j) : std::sqrt(left);
      }
      for (Eigen::Index j = 0; j < i; ++j) rows.row(i) -= c(i, j) * rows.row(j);
      rows.row(i) /= c(i, i);
    }
  }

  /// Adds what a swing tells to the equations of pupil, shifts and biases.
  void add(const OneSwing& s, const Coordinates& q, std::size_t pattern, Big& a, Long& h) const {
    const Products all = products_of(s, q);
    const Eigen::Index n = shape_.biases;
    const int b = shape_.bias_at(), at = shape_.shift_at[pattern];
    const CoordinatesMatrix own = all.topLeftCorner<kUnknowns, kUnknowns>();
    const Coordinates pull = all.col(kUnknowns + n).head<kUnknowns>() + s.tilt;
    a.block(b, b, n, n) += all.block(kUnknowns, kUnknowns, n, n);
    h.segment(b, n) += all.col(kUnknowns + n).segment(kUnknowns, n);
    const auto place = [&](int begin, const Coordinates& share) {
      h.segment<kUnknowns>(begin) += share.cwiseProduct(pull);
      const Sides scaled = share.asDiagonal() * all.block(0, kUnknowns, kUnknowns, n);
      a.block(begin, b, kUnknowns, n) += scaled;
      a.block(b, begin, n, kUnknowns) += scaled.transpose();
    };
    const Coordinates ones = Coordinates::Ones();
    if (at < 0) {
      a.topLeftCorner<kUnknowns, kUnknowns>() += own;
      place(0, ones);
      return;
    }
    const Coordinates& keeps = shape_.keeps[pattern];
    a.topLeftCorner<kUnknowns, kUnknowns>() += keeps.asDiagonal() * own * keeps.asDiagonal();
    a.block<kUnknowns, kUnknowns>(at, at) += own;
    a.block<kUnknowns, kUnknowns>(0, at) += keeps.asDiagonal() * own;
    a.block<kUnknowns, kUnknowns>(at, 0) += own * keeps.asDiagonal();
    place(0, keeps);
    place(at, ones);
  }

  void sweep() {
    Big a = prior_precision_.asDiagonal();
    Long h = prior_pull_;
    told_.resize(swings_.size());
    for (std::size_t i = 0; i < swings_.size(); ++i) {
      const Coordinates q = swings_[i].belongs * variance_[given_[i].pattern].cwiseInverse();
      told_[i] = told_by(swings_[i], q);
      add(swings_[i], q, given_[i].pattern, a, h);
    }
    const Eigen::LLT<Big> root(a);
    const Long mean = root.solve(h);
    Long noise(shape_.size);
    for (Eigen::Index j = 0; j < noise.size(); ++j) noise[j] = draws_.normal();
    noise = root.matrixU().solve(noise);
    now_ = (mean + noise).cwiseMin(kFarthest).cwiseMax(-kFarthest);
    opposite_ = (mean - noise).cwiseMin(kFarthest).cwiseMax(-kFarthest);
    mean_now_ = mean.head<kUnknowns>();
    spread_now_ = root.solve(Big::Identity(shape_.size, kUnknowns)).topRows<kUnknowns>();
    std::vector<Coordinates> squares(variance_.size(), Coordinates::Zero());
    for (std::size_t i = 0; i < swings_.size(); ++i) squares[given_[i].pattern] += swing_again(i);
    const Coordinates usual = usual_variance() * (kSwingFreedomShare * kScatterFreedomShare);
    for (std::size_t p = 0; p < variance_.size(); ++p)
      for (int j = 0; j < kUnknowns; ++j)
        variance_[p][j] = 0.5 * (kScatterFreedom * usual[j] + squares[p][j]) /
                          gamma(0.5 * (kScatterFreedom + count_[p]), draws_);
  }

  /// Draws one swing's coordinates, its standing in the pattern, its noises; returns its squared distance.
  Coordinates swing_again(std::size_t i) {
    OneSwing& s = swings_[i];
    const Told& t = told_[i];
    const std::size_t p = given_[i].pattern;
    const Coordinates middle = centre(now_, p);
    Coordinates noise;
    for (int j = 0; j < kUnknowns; ++j) noise[j] = draws_.normal();
    noise = t.root.matrixU().solve(noise);
    const auto about = [&](const Long& all) {
      Coordinates pull = t.pull + s.belongs * centre(all, p).cwiseQuotient(variance_[p]);
      for (int k = 0; k < shape_.biases; ++k) pull -= t.cross.col(k) * bias(k, all);
      return Coordinates(t.root.solve(pull));
    };
    // The chain means nothing farther out than that; nor may a correction run away there.
    s.z = within_reach(about(now_) + noise);
    s.mirror = within_reach(about(opposite_) - noise);
    const Coordinates square = (s.z - middle).cwiseAbs2();
    // Never less than a tenth: the first-order correction must not run away with a swing that fell out.
    s.belongs = std::max(0.1, gamma(0.5 * (kSwingFreedom + kUnknowns), draws_) /
                                  (0.5 * (kSwingFreedom + square.cwiseQuotient(variance_[p]).sum())));
    for (Seen& k : s.seen) look_again(k, s.z);
    return s.belongs * square;
  }

  struct Weighed {
    Shot<double> shot;
    double log_weight = 0.0;
  };

  /// By how much each number of the real chain is off the straight one there, in units of its noise.
  [[nodiscard]] Long off(std::size_t i, const Coordinates& z) const {
    constexpr double kFar = 5.0;  // a place where the straight chain fails wholly must not rule the rest
    const FitSwing& g = given_[i];
    const Shot<double> shot = shot_at(i, z);
    Long out(static_cast<Eigen::Index>(swings_[i].seen.size()));
    for (std::size_t k = 0; k < swings_[i].seen.size(); ++k) {
      const Site& site = swings_[i].seen[k].site;
      const double real = predict(g.sightings[site.sighting], shot, *g.setting).at[site.latent];
      const double away = real / site.unit - site.at - site.slope.dot(z);
      out[static_cast<Eigen::Index>(k)] = std::isfinite(away) ? std::clamp(away, -kFar, kFar) : 0.0;
    }
    return out;
  }

  [[nodiscard]] Shot<double> shot_at(std::size_t i, const Coordinates& z) const {
    return shot_of(pass_at(*given_[i].prior, z), *given_[i].setting, swings_[i].with_flight,
                   FlightOptions::fast());
  }

  /// A swing's draw through the real chain, and by how much that finds it likelier than the straightened one
  /// does.
  [[nodiscard]] Weighed weighed(std::size_t i, const Coordinates& z, const Long& all) const {
    const OneSwing& s = swings_[i];
    const FitSwing& g = given_[i];
    Weighed out{shot_at(i, z), -s.tilt.dot(z)};
    for (const Sighting& k : g.sightings) {
      const int column = column_of_bias(k.kind);
      out.log_weight += log_likelihood(k, predict(k, out.shot, *g.setting), *g.setting,
                                       column < 0 ? 0.0 : bias(column, all));
    }
    for (const Seen& k : s.seen) out.log_weight -= log_likelihood(k.site, number_at(k, z, all));
    if (!std::isfinite(out.log_weight)) out.log_weight = -1e9;
    return out;
  }

 public:
  std::array<int, kKinds> bias_of_kind{};

 private:
  [[nodiscard]] int column_of_bias(Kind kind) const { return bias_of_kind[static_cast<std::size_t>(kind)]; }

  /// Scatter is stated as the standard deviation; the t's scale is smaller.
  static constexpr double kSwingFreedomShare = (kSwingFreedom - 2.0) / kSwingFreedom;

  /// The mean of a scaled inverse chi-square over its scale, so that the stated scatter is the average one.
  static constexpr double kScatterFreedomShare = (kScatterFreedom - 2.0) / kScatterFreedom;

  std::span<const FitSwing> given_;
  const Shape& shape_;
  Draws draws_;
  std::vector<OneSwing> swings_;
  std::vector<Coordinates> variance_;
  std::vector<double> count_;
  std::vector<Told> told_;
  Long prior_precision_, prior_pull_, now_, opposite_;
  Coordinates mean_now_ = Coordinates::Zero();
  CoordinatesMatrix spread_now_ = CoordinatesMatrix::Zero();
};

}  // namespace strikewright::detail
