#pragma once
// All swings of one player with one club at once: where each pattern sits, how it scatters, what each swing
// was.

#include <array>
#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "reading/pupil.hpp"
#include "reading/reading.hpp"
#include "shot/shot.hpp"

namespace strikewright {

class FitMemory;

/// A swing as the fit sees it. What it points to must outlive the fit.
struct FitSwing {
  std::span<const Sighting> sightings;
  const Setting* setting = nullptr;
  const Prior* prior = nullptr;  ///< same club and skill for all; surfaces may differ
  std::size_t pattern = 0;       ///< index into the conditions
  std::string_view key{};        ///< everything of the swing that decides, as text; only a memory reads it
};

/// Prior standard deviations: the chain is not asked farther out.
inline constexpr double kFarthest = 5.0;
inline Coordinates within_reach(const Coordinates& z) { return z.cwiseMin(kFarthest).cwiseMax(-kFarthest); }

/// Mean of at least one draw.
Coordinates mean_of(const std::vector<Coordinates>& draws);

struct FitOptions {
  std::size_t first = 40;    ///< sweeps for each turn of the correction, two draws each, over both chains;
                             ///< twice as many to straighten by
  std::size_t sweeps = 120;  ///< kept, over both chains
  std::uint64_t seed = 20261125;
  unsigned threads = 0;  ///< 0 = all cores; the answer is the same for any number
  bool in_turn =
      true;  ///< more than one block: swings are dealt out in turn; false: block by block, in order
  FitMemory* memory = nullptr;  ///< may be shared by threads; needs `key` of every swing
};

/// Equally weighted draws of one pattern.
struct FitPattern {
  std::vector<Coordinates> centre;   ///< twice as many as of the scatter: each with its mirror image
  std::vector<Coordinates> scatter;  ///< standard deviation between swings, in the prior's units
};

/// Draws of one swing. `weight` sums to one: it turns the straightened chain into the real one.
struct FitSwingDraws {
  std::vector<Coordinates> at;
  std::vector<Pass<double>> pass;
  std::vector<std::array<double, kReported>> reported;  ///< reported_values of its shot
  std::vector<double> weight;
  double tail_index = 0.0, effective_draws = 0.0;
  double belongs = 0.0;  ///< mean weight of the swing in its pattern: well below 1 = it fell out of it
};

/// What the sightings alone say about the pupil's usual pattern: -1/2 z' precision z + pull' z.
struct FitMessage {
  CoordinatesMatrix precision = CoordinatesMatrix::Zero();
  Coordinates pull = Coordinates::Zero();
};

struct Fit {
  std::vector<FitPattern> patterns;  ///< one a condition
  FitPattern usual;                  ///< the normal condition, seen or not; no scatter
  std::vector<FitSwingDraws> swings;
  FitMessage message;
};

/// Gibbs sampling of the hierarchical model
///
///     pupil z0 ~ N(0, between^2), pattern = keeps z0 + shift, swing = pattern + scatter x t_8, sightings by
///     their likelihood with the eye's bias (pupil.hpp), scatter^2 ~ scaled inverse chi-square
///
/// on the chain straightened near each swing (again twice while warming up, then by its own draws). Student-t
/// noise as a normal of gamma precision, words through the number behind them (J. Albert & S. Chib, J. Am.
/// Stat. Assoc. 88, 1993, 669-679), the logistic as a t of 7.3 degrees of freedom; pupil, shifts and biases
/// are drawn together with the swings integrated out. Each swing's draws are weighed by the real chain; what
/// their log weights lean to, by least squares over pairs of mirrored draws (J. Hammersley & K. Morton, Proc.
/// Camb. Phil. Soc. 52, 1956, 449-475), is added to what the swing says (the first-order correction of the
/// pattern), and the swing's own draws keep the weights that remain.
///
/// More than twenty swings are fitted in blocks of at most twenty, and the blocks' answers agree on one, each
/// with the weight of its swings: the corrections of many swings add up faster than a few draws can tell
/// them. Time and memory grow with the swings. With a memory a block that was fitted before is not fitted
/// again: the same bits. Swings in order of time then cost the last block only.
/// @pre at least one swing; conditions.size() > every swing's pattern
Fit fit_together(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                 const FitOptions& options);

/// A fit, and where the pupil's usual pattern lies.
struct FitBlock {
  Fit fit;
  Coordinates mean = Coordinates::Zero();
  CoordinatesMatrix covariance = CoordinatesMatrix::Identity();
};

/// The blocks fitted last, by everything that decided them. A block of twenty swings takes about a megabyte.
class FitMemory {
 public:
  explicit FitMemory(std::size_t most) : most_{most} {}
  /// nullptr: not known.
  [[nodiscard]] std::shared_ptr<const FitBlock> find(const std::string& key);
  void keep(const std::string& key, std::shared_ptr<const FitBlock> block);

 private:
  struct Kept {
    std::string key;
    std::shared_ptr<const FitBlock> block;
  };
  std::size_t most_;
  std::mutex mutex_;
  std::deque<Kept> kept_;  ///< last used first
};

}  // namespace strikewright
