#pragma once
// Did it work? Before and after an exercise, judged after every ball without fooling anybody.
//
// Model of ball t of one session (docs/models/proof.md):
//
//     y_t = level + change * [after] + drift * t / 40 + day + w_t + m_t
//
// w: what the swing does by itself, autocorrelated (AR(1), phi 0 to 0.6); m: what the reading does not know
// of this ball, `sd` of the point; drift: a trend that was there anyway, or tiring; day: another day's form,
// for balls of another day than the baseline's. All but the points are integrated out.
//
// "Yes" needs three things: enough balls; a Bayes factor of 20 against "no change" with a right-Haar prior on
// level and scatter, which is a test martingale (Grunwald, de Heide & Koolen, J. R. Stat. Soc. B 86, 2024):
// by Ville's inequality it gets there at most once in twenty lessons in which nothing changed, however often
// one looks; and a high probability that the change is worth having. Over drift and autocorrelation this
// holds on the average, not for each of them: measured rates, also for worse ones, are in
// docs/models/proof.md.

#include <optional>
#include <string>
#include <vector>

#include "proof/single_case.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Phase { baseline, exercise, after, retention, transfer, pressure };

/// One ball.
struct Point {
  double value = 0.0;  ///< in the series' unit
  double sd = 0.0;     ///< of the reading of this one ball, >= 0; not the scatter between balls
  Phase phase = Phase::baseline;
  int day = 0;              ///< any count of days; equal = same session
  int ball = 0;             ///< number of the ball within its day, rising; gaps are balls that were not read
  bool other_club = false;  ///< baseline with the club of the transfer balls
};

/// Balls in the order they were hit.
using Series = std::vector<Point>;

/// Assumptions, all of them; the coach may say otherwise.
inline constexpr double kWorthLowPointM = 0.010;  ///< a low point that moves by less is not worth the talk
inline constexpr double kWorthResultM = 2.0;      ///< distance from the target

struct ProofOptions {
  Wish wish;
  double smallest_worth = 0.0;  ///< change worth having, in the series' unit, >= 0
  double effect_sd = 1.5;       ///< prior of the change: N(0, (effect_sd * scatter)^2); assumption
  double day_sd = 0.3;          ///< form of another day, in scatters; assumption
  double sure = 0.90;           ///< P(worth having) that "yes" asks for
  double evidence = 20.0;       ///< e-value that "yes" asks for: false once in so many
  /// Chances, evidence and verdict alone, for simulations: no posteriors, scatter or forecast.
  bool verdict_only = false;
};

enum class Verdict {
  not_yet,         ///< too few balls, or they do not tell
  no_change_seen,  ///< a change worth having is unlikely by now
  probably,        ///< worth having with 75 % or more, e-value 3 or more; not safe against many looks
  yes,
  worse  ///< as sure as "yes", the other way
};

/// A posterior in the series' unit.
struct Posterior {
  double mean = 0.0, sd = 0.0, p10 = 0.0, p90 = 0.0;
};

/// How many more balls "would tell": lead to yes, no change or worse at least as likely as not.
struct Forecast {
  int balls = 0;        ///< 1 to 60
  bool beyond = false;  ///< more than 60; `balls` is then 60
};

/// One comparison of a later phase with the baseline. Without a ball before, or with fewer than two in all,
/// nothing is known: not_yet, chances and posteriors as they stand here.
struct Change {
  Verdict verdict = Verdict::not_yet;
  int before_balls = 0, after_balls = 0;
  Posterior before;       ///< level of the baseline
  Posterior change;       ///< after minus before, drift taken off
  Posterior improvement;  ///< on the scale of the wish, better +
  double p_improved = 0.5;
  double p_worth = 0.0;   ///< P(improvement > smallest_worth): the figure beside "probably"
  double p_worse = 0.0;   ///< P(improvement < -smallest_worth)
  double evidence = 1.0;  ///< e-value for better
  double against = 1.0;   ///< e-value for worse
  Posterior scatter_ratio{1.0, 0.0, 1.0,
                          1.0};  ///< sd after / sd before of the swings themselves; below 1 is steadier
  double p_steadier = 0.5;
  std::optional<Forecast> forecast;  ///< where the verdict is not_yet or probably
};

/// lost: half of the day's gain is left with less than 10 %; nothing_to_hold: no gain on the day, and none
/// now.
enum class Held { nothing_to_hold, not_yet, probably, yes, lost };

/// A later look: on another day, with another club, under pressure.
struct Later {
  Change change;              ///< against the baseline
  Held held = Held::not_yet;  ///< is the gain over the baseline still there?
  int days = 0;               ///< since the last ball of the exercise or of the "after" balls
  bool own_baseline = true;   ///< transfer: compared with balls of that club; false: of the first club, and
                              ///< then never more than "probably"
};

struct Proof {
  Change session;                  ///< "after" against "baseline"
  std::optional<Later> retention;  ///< the latest day that lies at least one day after
  std::optional<Later> transfer, pressure;
};

inline constexpr int kBaselineForYes = 5;  ///< "yes" and "worse" ask for at least so many balls before
inline constexpr int kAfterForYes = 6;     ///< and after
/// "Probably" and "no change" ask for at least so many on either side.
inline constexpr int kForProbably = 4;

/// Same points, same bits; about a millisecond. Points need not be complete: with no baseline or no later
/// ball the answer is not_yet. The points must be finite, sd >= 0, balls of one day rising (ours to `ensure`:
/// series_fault first).
[[nodiscard]] Proof proof_of(const Series& series, const ProofOptions& options);

/// What is wrong with a series or its options that came from outside, or nothing. place: "series[3].sd".
[[nodiscard]] std::optional<Fault> series_fault(const Series& series, const ProofOptions& options);

}  // namespace strikewright
