#include "exercise/ranking.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "bag/family.hpp"
#include "cause/looks.hpp"
#include "exercise/play.hpp"
#include "exercise/turn.hpp"
#include "numeric/quantile.hpp"
#include "numeric/quasi.hpp"
#include "reading/pupil.hpp"

namespace strikewright {
namespace {

Spread spread_of(const std::vector<double>& values) {
  const std::vector<double> weights(values.size(), 1.0 / static_cast<double>(values.size()));
  const WeightedDraws w(values, weights);
  return {w.mean(), w.sd(), w.quantile(0.1), w.quantile(0.9)};
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

Outlook outlook_of(const std::vector<Come>& all) {
  std::vector<double> distance, bad;
  for (const Come& c : all) {
    distance.push_back(c.distance);
    bad.push_back(c.bad_share);
  }
  return {spread_of(distance), spread_of(bad)};
}

/// Those that may be offered; the others go to `left_out`.
std::vector<Candidate> candidates_of(const std::vector<Exercise>& exercises, const BookEffects* learned,
                                     const Thinkable& who, const RankingOptions& options,
                                     std::vector<LeftOut>& left_out) {
  std::vector<Candidate> out;
  for (const Exercise& e : exercises) {
    Permission permission = allowed(e, options.notes, options.place);
    const Family family = who.setting.club.family;
    if (std::find(e.clubs.begin(), e.clubs.end(), family) == e.clubs.end()) {
      if (permission.permit != Permit::hidden) permission.reasons.clear();
      permission.permit = Permit::hidden;
      permission.reasons.push_back(std::string("Not for this club: ") + name_of(family) + ".");
    }
    if (permission.permit == Permit::hidden) {
      left_out.push_back({e.name, permission.reasons});
      continue;
    }
    out.push_back(candidate_of(e, learned == nullptr ? nullptr : learned->of(e.name), who, options.seed));
    out.back().permission = permission;
  }
  return out;
}

/// Scores of every candidate for every pupil.
struct Scores {
  std::vector<Come> now;
  std::vector<std::vector<double>> gain, fewer_bad, score;  ///< [candidate][pupil]
};

Scores scores_of(const Thinkable& who, const std::vector<Candidate>& candidates, const PlayOptions& options) {
  std::vector<Change> changes{{}};
  for (const Candidate& c : candidates) changes.push_back(c.change);
  const auto came = play(who, changes, options);
  Scores out;
  out.now = came.front();
  for (std::size_t e = 1; e < came.size(); ++e) {
    std::vector<double> gain, fewer, score;
    for (std::size_t m = 0; m < who.pupils(); ++m) {
      gain.push_back(out.now[m].distance - came[e][m].distance);
      fewer.push_back(out.now[m].bad_share - came[e][m].bad_share);
      score.push_back(gain.back() + kMetresPerBadStrike * fewer.back());
    }
    out.gain.push_back(std::move(gain));
    out.fewer_bad.push_back(std::move(fewer));
    out.score.push_back(std::move(score));
  }
  return out;
}

/// The move of each candidate that does most by itself, on a part of the swings.
std::vector<Cause> brought_by(const Thinkable& who, const std::vector<Candidate>& candidates,
                              const PlayOptions& options) {
  std::vector<Candidate> alone;
  for (const Candidate& c : candidates)
    if (c.change.size() > 1)
      for (const ChangedPart& part : c.change) {
        alone.push_back(c);
        alone.back().change = {part};
      }
  const Scores scores = alone.empty() ? Scores{} : scores_of(who, alone, options);
  std::vector<Cause> out;
  std::size_t at = 0;
  for (const Candidate& c : candidates) {
    std::size_t best = 0;
    if (c.change.size() > 1) {
      for (std::size_t k = 1; k < c.change.size(); ++k)
        if (mean_of(scores.score[at + k]) > mean_of(scores.score[at + best])) best = k;
      at += c.change.size();
    }
    out.push_back(c.exercise->moves[best].cause);
  }
  return out;
}

/// Share of the pupils for whom each is the best one.
std::vector<double> best_shares(const std::vector<std::vector<double>>& score, std::size_t pupils) {
  std::vector<double> out(score.size());
  for (std::size_t m = 0; m < pupils && !score.empty(); ++m) {
    double top = -INFINITY, ties = 0.0;
    for (const auto& s : score) top = std::max(top, s[m]);
    for (const auto& s : score) ties += s[m] == top ? 1.0 : 0.0;
    for (std::size_t e = 0; e < score.size(); ++e)
      if (score[e][m] == top) out[e] += 1.0 / (ties * static_cast<double>(pupils));
  }
  return out;
}

Ranking ranked(const Thinkable& who, Cause leading, const std::vector<Exercise>& exercises,
               const BookEffects* learned, const RankingOptions& options) {
  Ranking out;
  out.club = who.setting.club.name;
  const std::vector<Candidate> candidates = candidates_of(exercises, learned, who, options, out.left_out);
  PlayOptions whole{options.target_carry, 0, options.threads};
  PlayOptions part = whole;
  part.swings = std::max<std::size_t>(2, options.swings / 4);
  const Scores scores = scores_of(who, candidates, whole);
  out.now = outlook_of(scores.now);
  for (const Come& c : scores.now) out.target_carry += c.carry / static_cast<double>(who.pupils());
  if (options.target_carry) out.target_carry = *options.target_carry;
  const std::vector<Cause> by = brought_by(who, candidates, part);
  const std::vector<double> best = best_shares(scores.score, who.pupils());
  std::vector<std::size_t> order(candidates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<double> mean;
  for (const auto& s : scores.score) mean.push_back(mean_of(s));
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return mean[a] > mean[b]; });
  for (const std::size_t e : order) {
    RankedExercise r;
    r.name = candidates[e].exercise->name;
    r.permission = candidates[e].permission;
    r.by = by[e];
    r.gain = spread_of(scores.gain[e]);
    r.fewer_bad = spread_of(scores.fewer_bad[e]);
    r.score = spread_of(scores.score[e]);
    const auto better =
        std::count_if(scores.score[e].begin(), scores.score[e].end(), [](double s) { return s > 0.0; });
    r.probability_gain = static_cast<double>(better) / static_cast<double>(who.pupils());
    r.probability_best = best[e];
    r.learned = candidates[e].learned;
    out.ranked.push_back(std::move(r));
  }
  if (order.size() > 1)
    out.what_would_make_second_first = turns_of(who, leading, candidates[order[0]], candidates[order[1]],
                                                mean[order[0]] - mean[order[1]], part);
  return out;
}

}  // namespace

Ranking ranking_of(const Group& group, const CauseReading& causes, const std::vector<Exercise>& exercises,
                   const BookEffects* learned, const RankingOptions& options) {
  ensure(options.draws > 1 && options.swings > 1, "a ranking needs at least two draws and two swings");
  const std::vector<Coordinates>& scatter = group.fit.patterns[pattern_spoken_of(group)].scatter;
  const Thinkable who(group.setting, group.prior, causes.draws, scatter, options.draws, options.swings,
                      options.seed);
  Ranking out = ranked(who, causes.causes.front().cause, exercises, learned, options);
  constexpr double kTold = 0.19;  // a tenth off the standard deviation
  out.rests_on_prior = std::all_of(causes.causes.begin(), causes.causes.end(),
                                   [](const CauseShift& c) { return c.told < kTold; });
  return out;
}

Ranking ranking_of_prior(const Setting& setting, const Prior& prior, const std::vector<Exercise>& exercises,
                         const BookEffects* learned, const RankingOptions& options) {
  ensure(options.draws > 1 && options.swings > 1, "a ranking needs at least two draws and two swings");
  const std::vector<Coordinates> centres = pattern_draws({}, prior, Coordinates::Zero(), options.seed);
  const Thinkable who(setting, prior, centres, {within_sd()}, options.draws, options.swings, options.seed);
  Ranking out = ranked(who, Cause::weight, exercises, learned, options);
  out.rests_on_prior = true;
  return out;
}

}  // namespace strikewright
