#pragma once
// What swings come to on the ground, for many thinkable pupils at once.

#include <cstdint>
#include <optional>
#include <vector>

#include "reading/prior.hpp"
#include "shot/shot.hpp"

namespace strikewright {

/// What a dose does to one coordinate of each thinkable pupil, prior units: the centre c goes to c + share
/// (home - c), deviations from it are multiplied by `ratio`.
struct ChangedPart {
  int place = 0;                           ///< of the coordinate
  std::vector<double> share, home, ratio;  ///< one a pupil
};
using Change = std::vector<ChangedPart>;

/// What the swings of one thinkable pupil come to.
struct Come {
  double distance = 0.0;   ///< m, mean distance from the target point
  double bad_share = 0.0;  ///< 0..1 fat or thin
  double carry = 0.0;      ///< m, mean, along the target line
};

/// Thinkable pupils: joint draws of what is not known about one, each with swings about its own centre.
struct Thinkable {
  Setting setting;  ///< with a ball
  Prior prior;
  std::vector<Coordinates> centre;     ///< one a pupil, prior units
  std::vector<Coordinates> deviation;  ///< `swings` a pupil
  std::size_t swings = 0;

  /// @param centres, scatters  any number, at least one each; taken evenly. Scatter: standard deviation
  /// between swings; swings are Student-t about the centre as in reading/pupil.hpp, evenly spread (Sobol)
  Thinkable(const Setting& where, const Prior& whose, const std::vector<Coordinates>& centres,
            const std::vector<Coordinates>& scatters, std::size_t pupils, std::size_t swings_of_each,
            std::uint64_t seed);
  [[nodiscard]] std::size_t pupils() const { return centre.size(); }
};

struct PlayOptions {
  std::optional<double> target_carry;  ///< m; nothing: each pupil's own mean carry, anew after each change
  std::size_t swings = 0;              ///< only the first so many of each pupil; 0 = all
  unsigned threads = 0;                ///< 0 = all cores; the same bits for any number
};

/// Every pupil under every change through the real chain: [change][pupil]. An empty Change is the pupil as he
/// is. A swing that misses the ball leaves it where it lies.
[[nodiscard]] std::vector<std::vector<Come>> play(const Thinkable& who, const std::vector<Change>& changes,
                                                  const PlayOptions& options);

/// Fat or thin as kind::Contact draws its lines; topped, and past the ball, count as thin.
[[nodiscard]] bool is_bad(const Strike<double>& strike, const Setting& setting);

}  // namespace strikewright
