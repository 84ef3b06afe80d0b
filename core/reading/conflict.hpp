#pragma once
// Sightings of one swing that cannot both be true, and the slip that would explain them.

#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "quantity/frame.hpp"
#include "quantity/unit.hpp"
#include "reading/prior.hpp"
#include "shot/shot.hpp"
#include "sighting/predict.hpp"

namespace strikewright {

/// One clash within a swing.
struct Conflict {
  /// none: no slip that we know explains it. sign: a number with the wrong sign. side: a word of the other
  /// side. fat_for_thin: either word for the other. factor_ten: a length ten times too large or too small (mm
  /// for cm). wrong_club: another club was hit.
  enum class Slip { none, sign, side, fat_for_thin, factor_ten, wrong_club };
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

/// "sign", "side", "fat for thin", "mm for cm", "wrong club"; none: "".
[[nodiscard]] inline const char* name_of(Conflict::Slip slip) {
  switch (slip) {
    case Conflict::Slip::sign:
      return "sign";
    case Conflict::Slip::side:
      return "side";
    case Conflict::Slip::fat_for_thin:
      return "fat for thin";
    case Conflict::Slip::factor_ten:
      return "mm for cm";
    case Conflict::Slip::wrong_club:
      return "wrong club";
    case Conflict::Slip::none:
      break;
  }
  return "";
}

/// How `show` is to show what is measured so.
[[nodiscard]] constexpr Dimension dimension_of(Measure measure) {
  switch (measure) {
    case Measure::angle:
      return Dimension::angle;
    case Measure::small_length:
      return Dimension::small_length;
    case Measure::long_length:
      return Dimension::length;
    case Measure::speed:
      return Dimension::speed;
    case Measure::spin:
      return Dimension::spin;
    case Measure::count:
    case Measure::word:
      break;
  }
  return Dimension::none;
}

/// What a cell says, in the coach's units, sides as they were seen: "divot_start says 60 mm behind".
/// @param sighting  right-hander's frame
/// @param hand      of the player: a left-hander's sides are turned back to what was seen
[[nodiscard]] inline std::string text_of(const Sighting& sighting, Hand hand, UnitSystem units) {
  const Sighting s = hand == Hand::left ? mirrored(sighting) : sighting;
  const Facts& facts = facts_of(s.kind);
  const std::string head = std::string(facts.column) + " says ";
  if (is_word(s.kind)) return head + words_of(s.kind)[static_cast<std::size_t>(s.word)];
  const Dimension dimension = dimension_of(facts.measure);
  const auto with = [&](const char* plus, const char* minus) {
    return head + show(std::abs(s.value), dimension, units) + (s.value < 0.0 ? minus : plus);
  };
  if (facts.mirror == Mirror::yes) return with(" right", " left");
  if (s.kind == Kind::divot_start || s.kind == Kind::divot_end || s.kind == Kind::handle_lead)
    return with(" ahead", " behind");
  if (s.kind == Kind::strike_toe) return with(" toward the toe", " toward the heel");
  return head + show(s.value, dimension, units);
}

/// A coach's sentence: "divot_start says 60 mm ahead, but divot_end says 20 mm behind: wrong sign?"
/// @param sightings  of the conflict's swing, right-hander's frame
[[nodiscard]] inline std::string text_of(const Conflict& conflict, std::span<const Sighting> sightings,
                                         Hand hand, UnitSystem units) {
  std::string all;
  for (const std::size_t k : conflict.sightings)
    all += (all.empty() ? "" : ", ") + text_of(sightings[k], hand, units);
  if (conflict.slip == Conflict::Slip::wrong_club) return all + ": was it the " + conflict.other_club + "?";
  std::string out = text_of(sightings[conflict.sightings.front()], hand, units) + ", but ";
  out += conflict.sightings.size() > 1 ? text_of(sightings[conflict.sightings[1]], hand, units)
                                       : "all else that is known of this swing is against it";
  switch (conflict.slip) {
    case Conflict::Slip::sign:
      return out + ": wrong sign?";
    case Conflict::Slip::side:
      return out + ": wrong side?";
    case Conflict::Slip::fat_for_thin:
      return out + ": fat and thin mixed up?";
    case Conflict::Slip::factor_ten:
      return out + ": ten times too much or too little" +
             (units == UnitSystem::metric ? ", mm for cm?" : "?");
    default:
      return out + ": both can hardly be true.";
  }
}

}  // namespace strikewright
