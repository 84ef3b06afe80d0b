#pragma once
// Simulated pupils with known truth, whole patterns of swings: are the stated limits right as often as they
// say, and is the cause that is named first the right one?

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <numbers>
#include <string>
#include <vector>

#include "cause/causes.hpp"

namespace strikewright {

/// In what the truth differs from what the reading thinks. All but `as_thought`: assumption.
enum class World {
  as_thought,   ///< exactly the priors and the noise of reading/
  biased_eye,   ///< every kind judged by eye is off by one of its own scale, to either side, all lesson long
  slips,        ///< one sighting in ten is written with the wrong sign, ten times off, or on the other side
  other_drag,   ///< the ball flies by another law (FlightLaw::played)
  dull_face,    ///< the club's restitution0 is 0.02 lower
  strong_turf,  ///< the turf resists twice as much
};
inline constexpr std::size_t kWorlds = 6;
struct WorldFacts {
  const char* key;   ///< JSON
  const char* says;  ///< one plain phrase
};
inline constexpr std::array<WorldFacts, kWorlds> kWorldFacts{{
    {"as_thought", "as the reading thinks"},
    {"biased_eye", "an eye off by 1 sd"},
    {"slips", "10 % gross slips"},
    {"other_drag", "another law of drag"},
    {"dull_face", "restitution 0.02 lower"},
    {"strong_turf", "turf twice as strong"},
}};

/// Where a truth lies among the limits of an estimate: below p2_5, up to p10, p25, p50, p75, p90, p97_5,
/// above.
inline constexpr std::size_t kRankBins = 8;
inline constexpr std::array<double, kRankBins> kRankShares{0.025, 0.075, 0.15,  0.25,
                                                           0.25,  0.15,  0.075, 0.025};
[[nodiscard]] inline std::size_t rank_of(double truth, const Estimate& e) {
  std::size_t below = 0;
  for (const double limit : {e.p2_5, e.p10, e.p25, e.p50, e.p75, e.p90, e.p97_5})
    below += truth > limit ? 1u : 0u;
  return below;
}

/// Chance of a chi-square of `freedom` (odd) degrees above x: M. Abramowitz & I. Stegun, Handbook of
/// Mathematical Functions, 1964, 26.4.4; from memory.
[[nodiscard]] inline double chi_square_above(double x, int freedom) {
  const double half = 0.5 * x;
  double term =
      2.0 * std::sqrt(half / std::numbers::pi) * std::exp(-half);  // half^(1/2) exp(-half) / Gamma(3/2)
  double out = std::erfc(std::sqrt(half));
  for (int k = 3; k <= freedom; k += 2) {
    out += term;
    term *= half / (0.5 * k);
  }
  return out;
}

/// One quantity over many readings, SI.
struct CalibrationRow {
  std::size_t n = 0;
  std::array<std::size_t, kRankBins> ranks{};
  double error_squares = 0.0, said_squares = 0.0, errors = 0.0;  ///< sums
  void add(double truth, const Estimate& estimate) {
    ++n;
    ++ranks[rank_of(truth, estimate)];
    const double error = estimate.mean - truth;
    errors += error;
    error_squares += error * error;
    said_squares += estimate.sd * estimate.sd;
  }
  /// Share of truths in the interval: 0.5 (p25 to p75), 0.8 (p10 to p90) or 0.95.
  [[nodiscard]] double inside(double share) const {
    const std::size_t left_out = share < 0.65 ? 3 : share < 0.9 ? 2 : 1;  // bins at either end
    std::size_t count = 0;
    for (std::size_t b = left_out; b < kRankBins - left_out; ++b) count += ranks[b];
    return static_cast<double>(count) / static_cast<double>(n);
  }
  [[nodiscard]] double rms_error() const { return std::sqrt(error_squares / static_cast<double>(n)); }
  /// Root mean square of the stated standard deviations.
  [[nodiscard]] double said() const { return std::sqrt(said_squares / static_cast<double>(n)); }
  /// Mean of reading minus truth.
  [[nodiscard]] double bias() const { return errors / static_cast<double>(n); }
  /// Chance of ranks as uneven as these if the limits are right: Pearson's chi-square with 7 degrees of
  /// freedom.
  [[nodiscard]] double chance() const {
    double square = 0.0;
    for (std::size_t b = 0; b < kRankBins; ++b) {
      const double expected = kRankShares[b] * static_cast<double>(n);
      square += std::pow(static_cast<double>(ranks[b]) - expected, 2) / expected;
    }
    return chi_square_above(square, static_cast<int>(kRankBins) - 1);
  }
};

/// All quantities over the patterns of one evidence set, in the order of kReportedFields.
struct CalibrationSet {
  std::string name;
  std::size_t patterns = 0;
  std::size_t failed = 0;                       ///< readings that are no number; in none of the rows
  std::size_t rough = 0;                        ///< judged swings whose reading called itself rough
  std::array<CalibrationRow, kReported> swing;  ///< one swing of each pattern, drawn at random
  std::array<CalibrationRow, kReported> mean;   ///< where the pattern sits
};

struct Calibration {
  World world = World::as_thought;
  std::size_t patterns = 0;
  std::vector<CalibrationSet> sets;  ///< eye, eye+divot, eye+divot+strike, full, device, mat
  CalibrationSet all;
};

struct CalibrationOptions {
  std::size_t patterns = 1200;
  std::size_t size = 0;  ///< swings in every pattern; 0 = 3, 5, 10 or 20
  std::uint64_t seed = 20261125;
  World world = World::as_thought;
  unsigned threads = 0;                            ///< 0 = all cores; the answer is the same for any number
  std::function<void(std::size_t done)> progress;  ///< may be empty; called from several threads
};

/// Pupils drawn from the prior of reading/pupil.hpp with 7i, pw, 4i, driver (tee) and 4h (mat: 7i and pw),
/// all skills, both hands, 3 to 20 swings, the six evidence sets in turn; each read by read_together. A
/// left-hander is swung and seen in the mirror and turned back at the door, as the sighting room does. A
/// sighting that cannot be made (no divot there, ball not hit) is not made; the reading does not know why it
/// is missing.
[[nodiscard]] Calibration calibrate(const CalibrationOptions& options);

/// Names the causes of a lesson's group: causes_of, or what a test puts in its place.
using NamesCauses = std::function<CauseReading(const Group&, const std::vector<SeenSwing>&)>;

/// After so much had been seen: how often the first cause was the right one.
struct CauseRow {
  const char* after = "";
  std::size_t pupils = 0, right = 0;
  double bound_right = 0.0;       ///< pupils; the same naming given what linear information allows
  std::size_t wrong_flagged = 0;  ///< first cause wrong, but said not to be told apart from the right one
  [[nodiscard]] double share() const { return static_cast<double>(right) / static_cast<double>(pupils); }
  [[nodiscard]] double bound() const { return bound_right / static_cast<double>(pupils); }
};

struct CauseCalibration {
  std::array<CauseRow, 4> rows;     ///< 5, 10, 20 swings; 10 and 5 of the next look that was suggested
  std::size_t no_next_look = 0;     ///< nothing was suggested: those stay as they were after 10
  std::size_t condition_looks = 0;  ///< the suggestion was a condition; the rest: one more column
};

/// Pupils with one cause clearly off (1 to 2.5 steps, one of weight, release, height, handle, face turn), the
/// others of these within 0.4 steps, plane tilt and speed by 0.5 steps (sd), everything else half as far as
/// the prior says; 7i and pw, club and county, seen by eye with divot and strike mark. All: assumption.
///
/// Bound: FitMessage of the expected kind. Every sighting is straightened at its own swing (sites_over) and
/// counts w J J', w = (nu + 1) / (nu + 3) for Student-t noise, F(1 - F) at each finite edge of a word; swing
/// scatter (the true one, as a normal), the eye's biases and a condition's shift are integrated out. pull =
/// precision z + root noise: what an exact linear reading of such sightings would have seen; four times, the
/// mean counts.
[[nodiscard]] CauseCalibration calibrate_causes(std::size_t pupils, const CalibrationOptions& options,
                                                const NamesCauses& names);

/// One of the pupils that calibrate_causes judges, with the truth and what was seen of it.
struct InventedPupil {
  Skill skill = Skill::club;
  Setting setting;
  Prior prior;
  Cause leader = Cause::weight;               ///< the cause that is clearly off
  Coordinates centre = Coordinates::Zero();   ///< of the usual pattern, prior units
  Coordinates scatter = Coordinates::Zero();  ///< true standard deviation between swings
  std::vector<SeenSwing> seen;                ///< `swings` normal ones
  std::vector<FitMessage> linear;  ///< what linear information allows (calibrate_causes), four times
};
[[nodiscard]] InventedPupil invented_pupil(std::size_t index, std::uint64_t seed, std::size_t swings);

}  // namespace strikewright
