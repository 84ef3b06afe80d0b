#pragma once
// `strikewright check --calibration`: simulated pupils read and judged, with the bands that they have to
// keep.

#include <cstdint>
#include <string>
#include <vector>

#include "cause/calibration.hpp"
#include "doors.hpp"

namespace strikewright {

/// One figure with the band in which it has to be.
struct Judged {
  std::string what;
  double value = 0.0, low = 0.0, high = 0.0;
  [[nodiscard]] bool inside() const { return value >= low && value <= high; }  ///< a NaN is not
};

/// Low point, shaft lean, attack, path and face: these are judged. Indices into kReportedFields.
[[nodiscard]] const std::vector<std::size_t>& judged_quantities();

/// How much wider a band of 5,000 patterns is with fewer: sqrt(5000 / n), never under 1.
[[nodiscard]] double wider_for(std::size_t patterns);

/// As thought: 47-53, 78-82 and 93.5-96.5 % inside over all sets, 74-86 % inside the 80 % interval within a
/// set, each band made wider by wider_for(all patterns); chance of the ranks over 0.001 / number of such
/// tests. In another world: 65-92 % inside the 80 % interval over all sets, never wider. A row without a
/// figure is outside.
[[nodiscard]] std::vector<Judged> judged(const Calibration& calibration);

/// 85 % right after 10 swings, 92 % after the next look, or 95 % of the bound where that is less; 80 % of all
/// wrong first causes flagged. Never wider.
[[nodiscard]] std::vector<Judged> judged(const CauseCalibration& calibration);

struct CalibrationInput {
  std::uint64_t swings = 1200, seed = 20261125;
  std::uint64_t size = 0;               ///< swings in every pattern; 0 = mixed
  bool worlds = false, causes = false;  ///< neither: limits as thought, and causes
  bool verbose = false;                 ///< every quantity of every evidence set
};

/// Runs, prints (people or JSON) and returns the exit code: kCheckFailed when a judged figure is outside its
/// band.
int run_calibration(const CalibrationInput& input, Doors& doors);

}  // namespace strikewright
