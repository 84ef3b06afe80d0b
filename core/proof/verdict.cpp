#include "proof/verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "proof/normal.hpp"

namespace strikewright {
namespace {

constexpr int kMostBalls = 60;
constexpr double kTells = 0.50;
constexpr std::size_t kFutures = 25;

/// What is asked of "probably" and of "no change" (assumption).
constexpr double kProbably = 0.75, kSomeEvidence = 3.0, kUnlikely = 0.10;

bool decided(Verdict v) { return v == Verdict::yes || v == Verdict::no_change_seen || v == Verdict::worse; }

/// e-values of a normal estimate z standard errors from nothing, in logarithms: for a half-normal prior
/// `wide` standard errors wide on its own side, and on either side.
struct NormalEvidence {
  double higher = 0.0, lower = 0.0, either = 0.0;
};
NormalEvidence normal_evidence(double z, double wide) {
  const double keep = wide * wide / (1.0 + wide * wide);
  NormalEvidence e;
  e.either = 0.5 * z * z * keep - 0.5 * std::log1p(wide * wide);
  e.higher = e.either + std::log(2.0) + log_normal_below(z * std::sqrt(keep));
  e.lower = e.either + std::log(2.0) + log_normal_below(-z * std::sqrt(keep));
  return e;
}

/// Everything about the future that does not depend on how many balls it has.
struct Outlook {
  Marginal now;            ///< of the change
  double effect_sd = 0.0;  ///< prior
  double level = 0.0;
  int side = 0;
  std::array<double, kFutures> z{};
  double offset_higher = 0.0, offset_lower = 0.0, offset_either = 0.0;  ///< ln e now minus its normal formula
};

/// Posterior sd of the change for given sums.
double change_sd_of(const LevelSums& sums, const Beliefs& beliefs, const ProofOptions& options,
                    bool other_day) {
  const LevelPrior prior{.change_sd = options.effect_sd * beliefs.tau,
                         .drift_sd = kDriftSd[0] * beliefs.tau,
                         .day_sd = other_day ? options.day_sd * beliefs.tau : 0.0};
  return std::sqrt(answer_of(sums, prior).change_variance);
}

/// Normal formula for a posterior of the change: the estimate without the prior and its standard error.
NormalEvidence evidence_at(double mean, double sd, double prior_sd) {
  const double shrink = std::min(sd / prior_sd, 0.999);
  const double se = sd / std::sqrt(1.0 - shrink * shrink);
  return normal_evidence(mean / (1.0 - shrink * shrink) / se, prior_sd / se);
}

/// Share of futures with so many balls in which the word is one that tells. `fades`: what is left of the
/// distance of the e-value from its normal formula, which comes of not knowing the scatter.
double share_decided(const Outlook& o, double sd_then, double fades, const Grounds& then,
                     const ProofOptions& options) {
  const double moves = std::sqrt(std::max(o.now.sd * o.now.sd - sd_then * sd_then, 0.0));
  int told = 0;
  for (const double z : o.z) {
    const double mean = o.now.mean + moves * z;
    NormalEvidence e = evidence_at(mean, sd_then, o.effect_sd);
    e.higher += fades * o.offset_higher;
    e.lower += fades * o.offset_lower;
    e.either += fades * o.offset_either;
    Grounds g = then;
    g.chances = chances_at(o.level, mean, sd_then, options.wish, options.smallest_worth);
    const double up = std::exp(o.side >= 0 ? e.higher : e.lower),
                 down = std::exp(o.side >= 0 ? e.lower : e.higher);
    g.evidence = o.side == 0 ? 1.0 : up;
    g.against = options.wish.better == Better::nearer ? std::exp(e.either) : down;
    told += decided(verdict_of(g, options)) ? 1 : 0;
  }
  return told / static_cast<double>(kFutures);
}

}  // namespace

int better_side(double baseline_mean, const Wish& wish) {
  if (wish.better == Better::higher) return 1;
  if (wish.better == Better::lower) return -1;
  return baseline_mean < wish.from ? 1 : (baseline_mean > wish.to ? -1 : 0);
}

Verdict verdict_of(const Grounds& g, const ProofOptions& options) {
  const bool enough = g.before >= kBaselineForYes && g.after >= kAfterForYes;
  if (enough && g.evidence >= options.evidence && g.chances.worth >= options.sure) return Verdict::yes;
  if (enough && g.against >= options.evidence && g.chances.worse >= options.sure) return Verdict::worse;
  if (g.before < kForProbably || g.after < kForProbably) return Verdict::not_yet;
  if (g.chances.worth >= kProbably && g.evidence >= kSomeEvidence) return Verdict::probably;
  if (g.after >= kAfterForYes && g.chances.worth <= kUnlikely && g.chances.worse <= 1.0 - kProbably)
    return Verdict::no_change_seen;
  return Verdict::not_yet;
}

Forecast forecast_of(const std::vector<LevelBall>& balls, const Beliefs& beliefs, const Grounds& now,
                     const ProofOptions& options) {
  double sd = 0.0, baseline = 0.0;
  bool other_day = false;
  for (const LevelBall& b : balls) {
    sd += b.sd / static_cast<double>(balls.size());
    if (!b.after) baseline += b.value / std::max(now.before, 1);
    other_day = other_day || b.other_day;
  }
  Outlook o{.now = change_marginal(beliefs),
            .effect_sd = options.effect_sd * beliefs.tau,
            .level = level_marginal(beliefs).mean,
            .side = better_side(baseline, options.wish)};
  for (std::size_t i = 0; i < kFutures; ++i)
    o.z[i] = normal_quantile_of((static_cast<double>(i) + 0.5) / static_cast<double>(kFutures));
  const NormalEvidence here = evidence_at(o.now.mean, o.now.sd, o.effect_sd);
  o.offset_higher = std::log(beliefs.higher) - here.higher;
  o.offset_lower = std::log(beliefs.lower) - here.lower;
  o.offset_either = std::log(beliefs.either) - here.either;

  LevelFilter filter(beliefs.sigma, beliefs.phi);
  for (const LevelBall& b : balls) filter.add(b);
  const double scale = o.now.sd / change_sd_of(filter.sums(), beliefs, options, other_day);
  LevelBall next = balls.back();
  next.after = true;
  next.sd = sd;
  next.other_day = other_day;
  Grounds then = now;
  for (int k = 1; k <= kMostBalls; ++k) {
    ++next.ball;
    filter.add(next);
    ++then.after;
    if (then.after < kAfterForYes) continue;
    const double fades = static_cast<double>(balls.size()) / (static_cast<double>(balls.size()) + k);
    const double sd_then = std::min(
        o.now.sd, (1.0 + fades * (scale - 1.0)) * change_sd_of(filter.sums(), beliefs, options, other_day));
    if (share_decided(o, sd_then, fades, then, options) >= kTells) return {k, false};
  }
  return {kMostBalls, true};
}

}  // namespace strikewright
