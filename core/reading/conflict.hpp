#pragma once
// Sightings of one swing that cannot both be true, and the slip that would explain them.

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "quantity/frame.hpp"
#include "reading/prior.hpp"
#include "shot/shot.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// One clash within a swing.
struct Conflict {
  /// none: no slip that we know explains it. sign: a number with the wrong sign. side: a word of the other
  /// side. factor_ten: a length ten times too large or too small (mm for cm). wrong_club: another club was
  /// hit.
  enum class Slip { none, sign, side, factor_ten, wrong_club };
  std::size_t swing = 0;  ///< index into the file's swings
  /// Indices into that swing's sightings that clash, the likelier culprit first; alone when what is known of
  /// the player clashes with it. wrong_club: those that clash most with the club as written.
  std::vector<std::size_t> sightings;
  Slip slip = Slip::none;
  double odds = 0.0;  ///< posterior odds of the slip against the swing as written
  std::string other_club;
};

/// The conflicts of one swing, the surest first; each is judged with the slips before it undone.
///
/// One climb to the most probable pass; what the other sightings say about each cell (leave one out) by
/// straight lines there. Only where a slip looks worth a thought are swing as written and swing with the slip
/// undone weighed by the masses of their humps (Laplace).
/// @param sightings, setting  right-hander's frame
/// @param prior  what is known about the swing without its own sightings: prior_for, or tighter
/// @param bag    clubs that may have been hit instead; empty = none is thought of
[[nodiscard]] std::vector<Conflict> conflicts_in(std::size_t swing, std::span<const Sighting> sightings,
                                                 const Setting& setting, const Prior& prior,
                                                 std::span<const Club> bag);

/// A coach's sentence: "divot_start_mm says 60, but divot_end_mm says 70: sign?"; sides as they were seen.
/// @param sightings  of the conflict's swing, right-hander's frame
/// @param hand       of the player: a left-hander's sides are turned back to what was seen
[[nodiscard]] std::string text_of(const Conflict& conflict, std::span<const Sighting> sightings, Hand hand);

/// "sign", "side", "mm for cm", "wrong club", or "" for none.
[[nodiscard]] const char* name_of(Conflict::Slip slip);

}  // namespace strikewright
