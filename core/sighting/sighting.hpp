#pragma once
// One thing seen about one swing: kind, value, how sure; and what the chain predicts for it.
//
// Everything here is in the right-hander's frame (the door in table.hpp mirrors left-handers), SI and
// radians.

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "bag/surface.hpp"
#include "numeric/draws.hpp"
#include "quantity/frame.hpp"
#include "shot/shot.hpp"
#include "sighting/kinds.hpp"

namespace strikewright {

/// One thing seen. Measured: Student-t with nu = 5 about the prediction x, scale
///
///     s(x)^2 = (sd + share * softabs(x))^2 + (model_share * x)^2,   softabs(x) = sqrt(x^2 + sd^2) - sd
///
/// `sd` (and `share`) is the spread of ordinary looks; slips come on top, in the t's tails: its standard
/// deviation is s * sqrt(5/3). `model_share` is the kind's own (carry and apex: the flight model's spread).
struct Sighting {
  Kind kind = Kind::start;
  double value = 0.0;  ///< measured: SI, radians, right-hander's frame
  double sd = 0.0;     ///< measured: absolute part of the scale, > 0
  double share = 0.0;  ///< measured: relative part of the scale
  int word = 0;        ///< judged: index into words_of(kind)
  bool operator==(const Sighting&) const = default;
};

/// The predicted latents. Defined and finite for every shot: without ball, without divot, topped.
/// Measured kinds and ordered words have one latent; `contact` has three: strike toward the toe [m], turf
/// before the ball (fat_latent, [m2]), strike up the face [m].
template <class T>
Latents<T> predict(const Sighting& sighting, const Shot<T>& shot, const Setting& setting);

/// What a sighting says against a prediction.
struct Misfit {
  double cost = 0.0;  ///< -log p, up to a constant of the sighting; 0 when a measured value is met exactly
  std::array<double, static_cast<std::size_t>(kMaxLatents)> slope{};      ///< exact d cost / d latent
  std::array<double, static_cast<std::size_t>(kMaxLatents)> curvature{};  ///< >= 0, Gauss-Newton-like
};

/// Always finite; grows at most linearly (words) or logarithmically (measured) in the latents.
[[nodiscard]] Misfit misfit(const Sighting& sighting, const Latents<double>& latents, const Setting& setting);

/// Natural logarithm of the density [1 / SI unit] of a measured value, or of the probability of a word.
/// Normalised.
[[nodiscard]] double log_likelihood(const Sighting& sighting, const Latents<double>& latents,
                                    const Setting& setting);

/// A coach's eye may be off by the same amount every time. `bias` is in units of the sighting's own scale at
/// the prediction (words: their softness; `contact` has none); 0 = an eye that is right on average.
[[nodiscard]] double log_likelihood(const Sighting& sighting, const Latents<double>& latents,
                                    const Setting& setting, double bias);

/// One soft decision behind a word: the latent, seen with logistic noise of standard deviation `soft`, lies
/// between `low` and `high` (either may be infinite). A word is all its decisions together.
struct Decision {
  int latent = 0;
  double low = 0.0, high = 0.0, soft = 1.0;
};
/// The decisions behind a judged word; empty for a measured sighting. `contact` has up to three, others one.
[[nodiscard]] std::vector<Decision> decisions_of(const Sighting& sighting, const Setting& setting);

/// Can a kind's eye have a constant bias? All but `contact`.
[[nodiscard]] bool can_be_biased(Kind kind);

/// Scale of a sighting at a prediction: spread of a measured one, softness of a word.
[[nodiscard]] double scale_of_sighting(const Sighting& sighting, double latent, const Setting& setting);

/// Does the prediction need the ball in the air; a ball at all?
[[nodiscard]] bool needs_flight(Kind kind);
[[nodiscard]] bool needs_flight(std::span<const Sighting> sightings);  ///< any of them
[[nodiscard]] bool needs_ball(Kind kind);
[[nodiscard]] bool is_word(Kind kind);
/// Is it seen of the turf mark itself? (`divot`, which may be none, is not.)
[[nodiscard]] bool of_the_mark(Kind kind);
/// Is there something to see: a mark, a ball that flew?
[[nodiscard]] bool can_be_seen(Kind kind, const Shot<double>& shot);

/// A coach looks at a shot: drawn from exactly the likelihood that `misfit` states, with the kind's default
/// spread.
/// @param bias of this coach's eye for this kind, in units of the scale
[[nodiscard]] Sighting seen(Kind kind, const Shot<double>& shot, const Setting& setting, Draws& draws,
                            double bias = 0.0);

/// A measured sighting with the kind's default spread, or with the coach's own (`sure`, SI, > 0).
/// `Facts::model` comes on top of either: no coach's sureness takes away what the model does not know.
[[nodiscard]] Sighting measured(Kind kind, double value, std::optional<double> sure = std::nullopt);

/// A word by its index in words_of(kind), for a coach who knows what he writes (no check).
[[nodiscard]] Sighting judged(Kind kind, int word);

/// A sighting of a left-hander in the right-hander's frame, and back: start, curve, divot direction and spin
/// axis change sides, in numbers and in words; the player's terms do not. Exact: only signs change.
[[nodiscard]] Sighting mirrored(const Sighting& sighting);

/// The allowed words of a kind in order (ascending latent; contact: clean fat thin topped shank). Empty if
/// measured.
[[nodiscard]] const std::vector<std::string>& words_of(Kind kind);

/// The column of the sightings file: "divot_start_mm", "contact".
[[nodiscard]] std::string column_of(Kind kind);

/// How a swing was made.
enum class Condition { normal, lead_leg, trail_leg, feet_together, trail_hand, step };
[[nodiscard]] const char* name_of(Condition condition);
[[nodiscard]] const char* name_of(Surface surface);

/// One row of a sightings file.
struct SeenSwing {
  std::size_t row = 0;   ///< first data row = 1
  std::size_t line = 0;  ///< line of the file, first = 1
  std::string club;      ///< as written
  Hand hand = Hand::right;
  Condition condition = Condition::normal;
  bool ball = true;
  Surface surface = Surface::fairway;
  std::optional<std::string> time;  ///< ISO 8601 as written
  std::optional<double> order;      ///< column `swing`
  std::vector<Sighting> sightings;  ///< right-hander's frame
  std::vector<std::string> cells;   ///< as written, in the order of the header
};

}  // namespace strikewright

#include "sighting/predict.hpp"
