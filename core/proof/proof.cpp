#include "proof/proof.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "proof/beliefs.hpp"
#include "proof/levels.hpp"
#include "proof/normal.hpp"
#include "proof/scatter.hpp"
#include "proof/verdict.hpp"

namespace strikewright {
namespace {

Posterior posterior(const Marginal& m) { return {m.mean, m.sd, m.p10, m.p90}; }

LevelBall ball_of(const Point& p, bool after, int baseline_day) {
  return {.value = p.value,
          .sd = p.sd,
          .day = p.day,
          .ball = p.ball,
          .after = after,
          .other_day = p.day != baseline_day};
}

/// Baseline and later balls in the order they were hit. The baseline's day is that of its last ball.
template <class Before, class After>
std::vector<LevelBall> compared(const Series& series, const Before& before, const After& after) {
  int day = 0;
  for (const Point& p : series)
    if (before(p)) day = p.day;
  std::vector<LevelBall> balls;
  for (const Point& p : series)
    if (before(p) || after(p)) balls.push_back(ball_of(p, !before(p), day));
  return balls;
}

/// No scatter smaller than this is believed: a tenth of what is worth having, and what rounding leaves
/// (assumption).
double scatter_floor(const std::vector<LevelBall>& balls, double worth) {
  double size = 1e-9;
  for (const LevelBall& b : balls) size = std::max(size, 1e-9 * std::fabs(b.value));
  return std::max(size, 0.1 * worth);
}

Change change_of(const std::vector<LevelBall>& balls, const ProofOptions& options) {
  Change out;
  double baseline = 0.0;
  bool other_day = false;
  for (const LevelBall& b : balls) {
    ++(b.after ? out.after_balls : out.before_balls);
    if (!b.after) baseline += b.value;
    other_day = other_day || b.other_day;
  }
  if (out.before_balls == 0 || balls.size() < 2) return out;
  const double floor = scatter_floor(balls, options.smallest_worth);
  const Beliefs beliefs =
      beliefs_of(level_cells(balls, floor), options.effect_sd, other_day ? options.day_sd : 0.0);
  Grounds g{.before = out.before_balls,
            .after = out.after_balls,
            .chances = chances_of(beliefs, options.wish, options.smallest_worth)};
  const int side = better_side(baseline / out.before_balls, options.wish);
  g.evidence = side == 0 ? 1.0 : (side > 0 ? beliefs.higher : beliefs.lower);
  g.against =
      options.wish.better == Better::nearer ? beliefs.either : (side > 0 ? beliefs.lower : beliefs.higher);
  out.p_improved = g.chances.improved;
  out.p_worth = g.chances.worth;
  out.p_worse = g.chances.worse;
  out.evidence = g.evidence;
  out.against = g.against;
  out.verdict = verdict_of(g, options);
  if (options.verdict_only) return out;
  out.before = posterior(level_marginal(beliefs));
  out.change = posterior(change_marginal(beliefs));
  out.improvement = posterior(improvement_marginal(beliefs, options.wish));
  const ScatterRatio scatter = scatter_ratio(balls, beliefs.phi, floor);
  out.scatter_ratio = posterior(scatter.ratio);
  out.p_steadier = scatter.steadier;
  if (out.verdict == Verdict::not_yet || out.verdict == Verdict::probably)
    out.forecast = forecast_of(balls, beliefs, g, options);
  return out;
}

bool seemed_to_work(Verdict v) { return v == Verdict::yes || v == Verdict::probably; }

/// Lost: it seemed to work on the day, and that half of that gain is left has become unlikely (10 %, by the
/// normal law with the posterior's mean and sd).
bool lost(const Change& later, const Change& session) {
  if (!seemed_to_work(session.verdict) || later.after_balls < kForProbably || !(later.improvement.sd > 0.0))
    return false;
  const double half = 0.5 * session.improvement.mean;
  return normal_below((later.improvement.mean - half) / later.improvement.sd) < 0.10;
}

Held held_of(const Change& later, const Change& session) {
  if (later.verdict == Verdict::yes) return Held::yes;
  if (later.verdict == Verdict::probably) return Held::probably;
  if (lost(later, session)) return Held::lost;
  if (later.verdict == Verdict::not_yet) return Held::not_yet;
  return seemed_to_work(session.verdict) ? Held::lost : Held::nothing_to_hold;
}

bool baseline(const Point& p) { return p.phase == Phase::baseline && !p.other_club; }

/// Day of the last ball before `day` that belonged to the lesson itself.
int days_since_lesson(const Series& series, int day) {
  int last = day;
  for (const Point& p : series)
    if ((p.phase == Phase::baseline || p.phase == Phase::exercise || p.phase == Phase::after) && p.day <= day)
      last = p.day;
  return day - last;
}

template <class After>
Later later_of(const Series& series, const ProofOptions& options, const Change& session, const After& after) {
  Later out;
  out.change = change_of(compared(series, baseline, after), options);
  for (const Point& p : series)
    if (after(p)) out.days = days_since_lesson(series, p.day);
  out.held = held_of(out.change, session);
  return out;
}

/// The latest day of retention balls that lies a day or more after the lesson.
std::optional<int> retention_day(const Series& series) {
  std::optional<int> day;
  for (const Point& p : series)
    if (p.phase == Phase::retention && days_since_lesson(series, p.day) >= 1) day = p.day;
  return day;
}

Later transfer_of(const Series& series, const ProofOptions& options, const Change& session) {
  const auto after = [](const Point& p) { return p.phase == Phase::transfer; };
  const auto own = [](const Point& p) { return p.phase == Phase::baseline && p.other_club; };
  Later out = later_of(series, options, session, after);
  out.own_baseline = std::count_if(series.begin(), series.end(), own) >= kBaselineForYes;
  if (out.own_baseline) {
    out.change = change_of(compared(series, own, after), options);
  } else if (out.change.verdict == Verdict::yes) {
    out.change.verdict = Verdict::probably;
  }
  out.held = held_of(out.change, session);
  return out;
}

bool has(const Series& series, Phase phase) {
  return std::any_of(series.begin(), series.end(), [&](const Point& p) { return p.phase == phase; });
}

Fault out_of_range(std::string place, double found, std::string expected) {
  return {std::move(place), fmt::format("{}", found), std::move(expected)};
}

constexpr double kMost = 1e9;  ///< values beyond are no sighting of anything

std::optional<Fault> options_fault(const ProofOptions& o) {
  if (!(o.smallest_worth >= 0.0 && o.smallest_worth <= kMost))
    return out_of_range("options.smallest_worth", o.smallest_worth, "a change, 0 or more");
  if (!(o.effect_sd >= 0.1 && o.effect_sd <= 10.0))
    return out_of_range("options.effect_sd", o.effect_sd, "0.1 to 10 scatters");
  if (!(o.day_sd >= 0.01 && o.day_sd <= 10.0))
    return out_of_range("options.day_sd", o.day_sd, "0.01 to 10 scatters");
  if (!(o.sure > 0.5 && o.sure < 1.0)) return out_of_range("options.sure", o.sure, "above 0.5, below 1");
  if (!(o.evidence >= 1.0 && o.evidence <= 1e6))
    return out_of_range("options.evidence", o.evidence, "1 to 1000000");
  if (o.wish.better == Better::nearer &&
      !(o.wish.from <= o.wish.to && o.wish.from <= kMost && o.wish.to >= -kMost))
    return Fault{"options.wish", fmt::format("{} to {}", o.wish.from, o.wish.to),
                 "a zone, its lower end first"};
  return std::nullopt;
}

}  // namespace

Proof proof_of(const Series& series, const ProofOptions& options) {
  ensure(!series_fault(series, options), "a proof needs a sound series and sound options");
  Proof out;
  out.session =
      change_of(compared(series, baseline, [](const Point& p) { return p.phase == Phase::after; }), options);
  if (const auto day = retention_day(series))
    out.retention = later_of(series, options, out.session,
                             [&](const Point& p) { return p.phase == Phase::retention && p.day == *day; });
  if (has(series, Phase::transfer)) out.transfer = transfer_of(series, options, out.session);
  if (has(series, Phase::pressure))
    out.pressure =
        later_of(series, options, out.session, [](const Point& p) { return p.phase == Phase::pressure; });
  return out;
}

std::optional<Fault> series_fault(const Series& series, const ProofOptions& options) {
  if (auto fault = options_fault(options)) return fault;
  for (std::size_t k = 0; k < series.size(); ++k) {
    const Point& p = series[k];
    const std::string place = fmt::format("series[{}]", k);
    if (!(std::fabs(p.value) <= kMost)) return out_of_range(place + ".value", p.value, "a number up to 1e9");
    if (!(p.sd >= 0.0 && p.sd <= kMost)) return out_of_range(place + ".sd", p.sd, "0 to 1e9");
    if (k == 0) continue;
    const Point& before = series[k - 1];
    if (p.day < before.day)
      return out_of_range(place + ".day", p.day, "no day before that of the ball before");
    if (p.day == before.day && p.ball <= before.ball)
      return out_of_range(place + ".ball", p.ball, "a higher number than the ball before");
  }
  return std::nullopt;
}

}  // namespace strikewright
