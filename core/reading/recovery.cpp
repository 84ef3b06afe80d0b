#include "reading/recovery.hpp"

#include <Eigen/LU>
#include <atomic>
#include <cmath>

#include "numeric/parallel.hpp"
#include "reading/slopes.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {

namespace {

using Slopes = PassSlopes;

/// Expected information of one sighting about its latents: the outer product of the slopes of -log p,
/// averaged over what could have been seen.
using LatentMatrix = Eigen::Matrix<double, kMaxLatents, kMaxLatents>;

LatentMatrix information(const Sighting& s, const Latents<double>& at, const Setting& setting) {
  LatentMatrix info = LatentMatrix::Zero();
  const auto add = [&](const Sighting& could, double probability) {
    const Misfit m = misfit(could, at, setting);
    const Eigen::Map<const Eigen::Matrix<double, kMaxLatents, 1>> slope(m.slope.data());
    info += probability * slope * slope.transpose();
  };
  if (is_word(s.kind)) {
    for (int w = 0; w < static_cast<int>(words_of(s.kind).size()); ++w) {
      const Sighting could = judged(s.kind, w);
      add(could, std::exp(log_likelihood(could, at, setting)));
    }
  } else {
    // Over values seen: the density is normalised, so a fine trapezium over +-12 scales does.
    Sighting could = s;
    const double scale = std::max(s.sd + s.share * std::abs(at.at[0]), 1e-9);
    const double step = 0.1 * scale;
    for (int i = -120; i <= 120; ++i) {
      could.value = at.at[0] + i * step;
      add(could, step * std::exp(log_likelihood(could, at, setting)));
    }
  }
  return info;
}

/// Linear information bound on each reported quantity's variance at the truth, the prior included.
std::array<double, kReported> bound_at(const Coordinates& z, const std::vector<Sighting>& sightings,
                                       const Setting& setting, const Prior& prior) {
  const Shot<Slopes> shot = shot_with_slopes(prior, z, setting, true);
  const Factor factor = prior.factor_at(z);
  CoordinatesMatrix precision = CoordinatesMatrix::Identity();
  for (const Sighting& s : sightings) {
    const Latents<Slopes> latents = predict(s, shot, setting);
    Latents<double> plain;
    plain.n = latents.n;
    Eigen::Matrix<double, kUnknowns, kMaxLatents> slopes =
        Eigen::Matrix<double, kUnknowns, kMaxLatents>::Zero();
    for (int k = 0; k < latents.n; ++k) {
      plain.at[static_cast<std::size_t>(k)] = latents.at[static_cast<std::size_t>(k)].a;
      slopes.col(k) = along(factor, latents.at[static_cast<std::size_t>(k)]);
    }
    precision += slopes * information(s, plain, setting) * slopes.transpose();
  }
  const CoordinatesMatrix covariance = precision.inverse();
  std::array<double, kReported> bound{};
  const auto values = reported_values(shot);
  for (std::size_t k = 0; k < kReported; ++k) {
    const Coordinates slope = along(factor, values[k]);
    bound[k] = slope.dot(covariance * slope);
  }
  return bound;
}

/// Squares and counts of one swing, to be added up in order.
struct Outcome {
  std::array<double, kReported> error{}, variance{}, bound{}, prior_error{};
  std::array<std::array<bool, 3>, kReported> inside{};
  bool rough = false;
};

Outcome one_swing(const Look& look, const Setting& setting, const Prior& prior, const PriorReach& reach,
                  std::uint64_t seed, std::uint64_t stream) {
  Draws draws(seed, stream);
  Coordinates z;
  for (int j = 0; j < kUnknowns; ++j) z[j] = draws.normal();
  const Shot<double> truth = shot_of(pass_at(prior, z), setting, true);
  std::vector<Sighting> sightings;
  for (const Kind kind : look.kinds) {
    const Sighting s = seen(kind, truth, setting, draws);
    if (can_be_seen(kind, truth)) sightings.push_back(s);
  }
  const Reading reading = read_swing(sightings, setting, prior, reach, {});
  const auto values = reported_values(truth);
  Outcome o;
  o.bound = bound_at(z, sightings, setting, prior);
  o.rough = reading.health.rough;
  for (std::size_t k = 0; k < kReported; ++k) {
    const Estimate& e = reading.at[k];
    o.error[k] = e.mean - values[k];
    o.variance[k] = e.sd * e.sd;
    o.prior_error[k] = e.prior_mean - values[k];
    o.inside[k] = {values[k] > e.p25 && values[k]<e.p75, values[k]> e.p10 &&
                   values[k]<e.p90, values[k]> e.p2_5 && values[k] < e.p97_5};
  }
  return o;
}

}  // namespace

const std::vector<Look>& looks() {
  using enum Kind;
  static const std::vector<Look> all{
      {"eye", {start_word, curve_word, height_word, contact_word}},
      {"eye+divot",
       {start_word, curve_word, height_word, contact_word, divot_word, divot_start, divot_direction}},
      {"eye+divot+strike",
       {start_word, curve_word, height_word, contact_word, divot_word, divot_start, divot_direction,
        strike_toe, strike_groove}},
      {"full",
       {start, curve, carry, height_word, contact_word, divot_word, divot_start, divot_end, divot_direction,
        divot_depth, divot_toe_depth, strike_toe, strike_up, shaft_lean, handle_lead}},
      {"device",
       {start, curve, carry, apex, contact_word, attack, path, face, loft, club_speed, ball_speed,
        launch_angle, spin, spin_axis}}};
  return all;
}

Pass<double> draw_pass(const Prior& prior, Draws& draws) {
  Coordinates z;
  for (int j = 0; j < kUnknowns; ++j) z[j] = draws.normal();
  return pass_at(prior, z);
}

Recovery recover(std::size_t swings, const Look& look, const Setting& setting, Skill skill,
                 std::uint64_t seed, const std::function<void(std::size_t)>& progress) {
  const Prior prior = prior_for(setting.club, skill, setting.ground.surface);
  const PriorReach reach = prior_reach(setting, prior);
  std::vector<Outcome> outcomes(swings);
  std::atomic<std::size_t> done{0};
  in_parallel(swings, 1, [&](std::size_t i, std::size_t) {
    outcomes[i] = one_swing(look, setting, prior, reach, seed, i);
    const std::size_t now = ++done;
    if (progress) progress(now);
  });
  Recovery r;
  r.swings = swings;
  const auto n = static_cast<double>(swings);
  for (const Outcome& o : outcomes) {
    r.rough += o.rough ? 1u : 0u;
    for (std::size_t k = 0; k < kReported; ++k) {
      RecoveryRow& row = r.rows[k];
      row.mean_error += o.error[k] / n;
      row.rms_error += o.error[k] * o.error[k] / n;
      row.mean_sd += o.variance[k] / n;
      row.bound += o.bound[k] / n;
      row.prior_sd += o.prior_error[k] * o.prior_error[k] / n;
      row.inside50 += (o.inside[k][0] ? 1.0 : 0.0) / n;
      row.inside80 += (o.inside[k][1] ? 1.0 : 0.0) / n;
      row.inside95 += (o.inside[k][2] ? 1.0 : 0.0) / n;
    }
  }
  for (RecoveryRow& row : r.rows)
    for (double* square : {&row.rms_error, &row.mean_sd, &row.bound, &row.prior_sd})
      *square = std::sqrt(*square);
  return r;
}

}  // namespace strikewright
