#pragma once
// Why it scatters: which cause makes how much of the scatter that a coach sees.

#include <array>
#include <cstddef>
#include <cstdint>

#include "delivery/cause_slopes.hpp"
#include "reading/prior.hpp"
#include "shot/shot.hpp"

namespace strikewright {

/// What scatters. The order of all tables of scatter.
enum class Outcome { low_point, start, curve, carry };
inline constexpr std::size_t kOutcomes = 4;

struct OutcomeFacts {
  const char* key;   ///< JSON, with the unit that `scale` shows
  const char* unit;  ///< of the shown value
  double scale;      ///< shown value = SI value / scale
  const char* says;
};
inline constexpr std::array<OutcomeFacts, kOutcomes> kOutcomeFacts{{
    {"low_point_mm", "mm", 1e-3, "low point"},
    {"start_deg", "deg", kDegree, "start direction"},
    {"curve_m", "m", 1.0, "curve"},
    {"carry_m", "m", 1.0, "carry"},
}};

/// How one outcome scatters and why. Shares are of its variance.
struct ScatterRow {
  double middle = 0.0;                  ///< SI; linear: of the swing in the middle, sampled: the mean
  double sd = 0.0;                      ///< SI
  std::array<double, kCauses> first{};  ///< 0..1, in the order of Cause: what the cause makes by itself
  std::array<double, kCauses> total{};  ///< 0..1, with its part in what only several causes make together
  /// The same of everything that is no cause, as one group: where on the face toward the toe, lie, closing
  /// rate, how the ball sits, turf, arc, and lean that is habit.
  double rest_first = 0.0, rest_total = 0.0;
  [[nodiscard]] double first_of(Cause c) const { return first[static_cast<std::size_t>(c)]; }
  [[nodiscard]] double total_of(Cause c) const { return total[static_cast<std::size_t>(c)]; }
};

/// All of it. An outcome that does not vary (sd below 1e-12 of 1 + |middle|) has all shares 0.
struct ScatterShares {
  std::array<ScatterRow, kOutcomes> rows{};  ///< in the order of Outcome
  double flew = 0.0;  ///< share of the swings that hit the ball; linear: 1 or 0, the swing in the middle
  [[nodiscard]] const ScatterRow& of(Outcome o) const { return rows[static_cast<std::size_t>(o)]; }
};

/// Shares by slopes: swings lie at z = centre + sd .* normal, outcome y(z), so to first order
///
///     var y = sum_i (dy/dz_i sd_i)^2,   share of a cause = its own terms / var y
///
/// and first-order and total shares are the same. One run of the chain on dual numbers (about 0.1 ms). Good
/// where the outcome is nearly straight over the scatter: the tests say how far it parts from
/// `shares_sampled` (core/cause/test/scatter_test.cpp). Without a ball, or when the swing in the middle
/// misses it, start, curve and carry do not vary.
///
/// @param centre  the swing in the middle, in the prior's coordinates
/// @param sd      of each coordinate from swing to swing, in units of the prior's own spread, >= 0
ScatterShares shares_linear(const Coordinates& centre, const Prior& prior, const Setting& setting,
                            const Coordinates& sd);

/// Shares by sampling the chain itself: two sets of `n` swings A and B, and for each cause k a third one, A
/// with the coordinates of k from B:
///
///     first-order share_k = mean(y_B (y_ABk - y_A)) / var y      (outcomes less their mean)
///     total share_k       = mean((y_A - y_ABk)^2) / (2 var y)
///
/// Source: A. Saltelli et al., Variance based sensitivity analysis of model output, Computer Physics
/// Communications 181, 2010, 259-270, table 2 (b) and (f), the second after M. Jansen; from memory. Swings
/// are evenly spread (Sobol, shifted by the seed). Cut to 0..1: an estimate can fall a little outside. A
/// cause without scatter has exactly 0. A swing that misses the ball counts with start, curve and carry 0.
/// Costs up to 10 n shots. The same bits for any number of threads.
///
/// @param n  > 0   @param threads  0 = all cores
ScatterShares shares_sampled(const Coordinates& centre, const Prior& prior, const Setting& setting,
                             const Coordinates& sd, std::size_t n, std::uint64_t seed, unsigned threads = 0);

}  // namespace strikewright
