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
/// B = owed to the prior), so that the prior is counted once and not n times. Scatter between swings by the
/// method of moments (R. DerSimonian & N. Laird, Controlled Clinical Trials 7, 1986, 177-188), pulled toward
/// 0.45 prior standard deviations with the weight of three swings (assumption). Mean by inverse variances,
/// prior once. A reading that owes everything to the prior adds nothing.
Pooled pool(std::span<const Estimate> readings);

}  // namespace strikewright
