#pragma once
// The swings of one player with one club read together: each swing, and each pattern.

#include "reading/reading.hpp"
#include "reading/together.hpp"

namespace strikewright {

/// Draws are few, and the straightened chain is right to first order only: what that costs was measured in
/// simulated pupils (docs/models/pattern.md), and all draws of a pattern, or of a swing, are spread about
/// their mean by so much.
inline constexpr double kPatternAllowance = 1.05, kSwingAllowance = 1.04;

/// Where a pattern sits and how much it scatters between swings, in the order of kReportedFields.
struct PatternReading {
  std::array<Estimate, kReported> mean, scatter;
};

struct TogetherReading {
  std::vector<Reading> swings;           ///< each in the light of all others
  std::vector<PatternReading> patterns;  ///< one a condition
  Fit fit;
};

/// @param reach of each swing, as many as swings
TogetherReading read_together(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                              std::span<const PriorReach* const> reach, const FitOptions& options);

}  // namespace strikewright
