#pragma once
// Simulated swings with known truth: how well the reading finds it.

#include <cstdint>
#include <functional>
#include <vector>

#include "reading/reading.hpp"

namespace strikewright {

/// One reported quantity over all simulated swings, SI.
struct RecoveryRow {
  double mean_error = 0.0;  ///< reading minus truth, mean
  double rms_error = 0.0;
  double mean_sd = 0.0;   ///< what the reading said its own error would be, root mean square
  double bound = 0.0;     ///< linear information bound at the truth (prior included), root mean square
  double prior_sd = 0.0;  ///< rms of prior mean minus truth
  double inside50 = 0.0, inside80 = 0.0, inside95 = 0.0;  ///< share of truths inside the intervals
};

struct Recovery {
  std::size_t swings = 0;
  std::array<RecoveryRow, kReported> rows;
  std::size_t rough = 0;  ///< readings whose importance weights failed
};

/// Which sightings are made of each simulated swing.
struct Look {
  std::string name;  ///< "full", "eye", "divots", ...
  std::vector<Kind> kinds;
};
const std::vector<Look>& looks();

/// Draws swings from the prior, lets a simulated coach look, reads, compares.
Recovery recover(std::size_t swings, const Look& look, const Setting& setting, Skill skill,
                 std::uint64_t seed, const std::function<void(std::size_t)>& progress = {});

/// One draw from the prior.
Pass<double> draw_pass(const Prior& prior, Draws& draws);

}  // namespace strikewright
