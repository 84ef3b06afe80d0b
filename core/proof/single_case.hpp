#pragma once
// Single-case statistics for whoever wants them beside the proof: a few values before, a few values after.
//
// All of them take the points as independent. Balls of one bucket are not: give session means, or read the
// figures as a description. Worked examples with their sources: reference/single_case.csv,
// docs/models/proof.md.

#include <limits>
#include <optional>
#include <span>

namespace strikewright {

/// Which way is better.
enum class Better { higher, lower, nearer };

/// What a quantity should become. `nearer`: into the zone from..to and, outside of it, nearer to it; a single
/// target has from == to, "at least 10 mm" has to = infinity. from <= to; only `nearer` reads them.
struct Wish {
  Better better = Better::higher;
  double from = 0.0, to = 0.0;
};

[[nodiscard]] constexpr Wish higher_is_better() { return {Better::higher, 0.0, 0.0}; }
[[nodiscard]] constexpr Wish lower_is_better() { return {Better::lower, 0.0, 0.0}; }
[[nodiscard]] constexpr Wish nearer_to(double target) { return {Better::nearer, target, target}; }
[[nodiscard]] constexpr Wish within(double from, double to) { return {Better::nearer, from, to}; }
[[nodiscard]] constexpr Wish at_least(double from) {
  return {Better::nearer, from, std::numeric_limits<double>::infinity()};
}

/// The value on a scale on which more is better, in the value's own unit: x, -x, or minus the distance to the
/// zone.
[[nodiscard]] double merit(double value, const Wish& wish);

/// How far the values after overlap with the values before. Shares 0 to 1; tau -1 to 1; tau_u may leave that
/// range.
struct Overlap {
  double nap = 0.5;  ///< share of pairs in which "after" is better, ties count half (Parker & Vannest 2009)
  double nap_se = 0.0;  ///< unbiased (the unit square's variance; Mee 1990); NaN never: 0 where n or m is 1
  double nap_low = 0.0,
         nap_high = 1.0;  ///< 95 % interval: the quadratic law solved (Newcombe 2006, method 5)
  double tau = 0.0;       ///< 2 nap - 1
  double tau_u = 0.0;   ///< (pairs - baseline trend) / (m n), Parker, Vannest, Davis & Sauber 2011. Inflated
                        ///< with few balls (Tarlow 2017): read tau_bc beside it
  double tau_bc = 0.0;  ///< Kendall's tau-b of phase and value, baseline's Theil-Sen trend taken off both
                        ///< phases (Tarlow 2017); 0 where all that is left is tied
  double pnd = 0.0;     ///< share of "after" better than the best before (Scruggs et al. 1987)
  double pand = 0.0;    ///< largest share of all that can be kept without overlap (Parker et al. 2007)
  double pem = 0.0;     ///< share of "after" better than the median before, ties half (Ma 2006)
  double ird = 0.0;     ///< robust improvement rate difference (Parker, Vannest & Brown 2009)
};

/// @param before, after in the order they were made, finite, at least one each (ours to `ensure`)
[[nodiscard]] Overlap overlap_of(std::span<const double> before, std::span<const double> after,
                                 const Wish& wish);

/// Differences of means in units of the baseline's scatter.
struct StandardDifference {
  double smd = 0.0;  ///< (mean after - mean before) / sd before, signed so that better is +
  double hedges =
      0.0;  ///< smd (1 - 3 / (4 m - 5)), m values before (Hedges 1981; Glass's delta, m - 1 degrees)
};

/// Nothing where the values before do not scatter or are fewer than two.
[[nodiscard]] std::optional<StandardDifference> standard_difference(std::span<const double> before,
                                                                    std::span<const double> after,
                                                                    const Wish& wish);

/// ln(mean after / mean before) (Hedges, Gurevitch & Curtis 1999). Nothing unless both means are > 0. Not
/// turned by a wish: + is a rise.
[[nodiscard]] std::optional<double> log_response_ratio(std::span<const double> before,
                                                       std::span<const double> after);

/// Standard deviation of the differences of two tests / sqrt 2 (Hopkins, Sports Med. 30, 2000).
/// @param differences second test minus first, at least two
[[nodiscard]] double typical_error(std::span<const double> differences);

/// 1.96 sqrt 2 typical error / sqrt k: what a change of one test, or of means of k tests, must exceed to be
/// more than noise, 95 % (Hopkins 2000). k >= 1.
[[nodiscard]] double minimal_detectable_change(double typical_error, int tests_a_side = 1);

/// 0.2 of the standard deviation between people (Hopkins): for groups; for one pupil the coach states it.
[[nodiscard]] double smallest_worthwhile_change(double between_people_sd);

/// A difference of two means with its standard error; `shrunk` by a normal prior about nothing.
struct MeanChange {
  double change = 0.0, se = 0.0;
  /// P(better by more than `worth`), worth >= 0.
  [[nodiscard]] double probability_beyond(double worth, Better better) const;
  /// The posterior under the prior N(0, prior_sd^2): mean prior^2 / (prior^2 + se^2) times the change.
  [[nodiscard]] MeanChange shrunk(double prior_sd) const;
};

/// se = sqrt(sd_before^2 / m + sd_after^2 / n).
[[nodiscard]] MeanChange mean_change(double change, double sd_before, int m, double sd_after, int n);

/// A share before and after: fat, thin, left of the gate.
struct RateChange {
  double before = 0.0, after = 0.0;  ///< means of the posteriors Beta(1 + k, 1 + n - k)
  double before_p10 = 0.0, before_p90 = 1.0, after_p10 = 0.0, after_p90 = 1.0;
  double probability_fell = 0.5;  ///< exact: P(rate after < rate before)
  double fisher_two_sided = 1.0;  ///< Fisher's exact test, tables as unlikely or less
};

/// @param k of n before, k of n after; 0 <= k <= n (ours to `ensure`). n may be 0: the prior is told.
[[nodiscard]] RateChange rate_change(int k_before, int n_before, int k_after, int n_after);

}  // namespace strikewright
