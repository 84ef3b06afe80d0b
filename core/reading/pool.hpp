#pragma once
// Simple pooling of one quantity over the swings of one club and condition.

#include <span>

#include "reading/reading.hpp"

namespace strikewright {

/// Where a quantity sits and how much it scatters, over swings.
struct Pooled {
  Estimate mean, scatter;
};

/// One quantity over n >= 1 readings that share a prior.
///
/// Each reading is first freed of the prior it carries (y = (m - B mu) / (1 - B), variance v / (1 - B), with
/// B = owed to the prior), so that the prior is counted once and not n times; one with B over 0.9 adds
/// nothing. Scatter between swings by the method of moments (R. DerSimonian & N. Laird, Controlled Clinical
/// Trials 7, 1986, 177-188), at most the prior's own, pulled toward 0.45 of it with the weight of three
/// swings (assumption); a swing counts for 1 - B. Mean by inverse variances, prior once.
Pooled pool(std::span<const Estimate> readings);

}  // namespace strikewright
