#pragma once
// What the strike was called: clean, fat, thin, topped, shank.

#include <cmath>

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

/// Soft decisions in turn, F logistic, each with a softness that is the standard deviation of the coach's
/// judgement:
///
///     shank   the ball met the hosel: strike toward the toe < -heel_reach, soft by 5 mm
///     fat     else, turf before the ball over 1 cm2 of section, soft by 0.5 cm2
///     topped  else, the leading edge was over the ball's centre: strike_up < -R tan(loft), soft by 3 mm
///     thin    else, strike_up under the second groove (driver, woods: the lowest quarter of the face)
///     clean   else
///
/// so that P(clean) + ... + P(shank) = 1. All edges: assumption. The loft in the edge of `topped` is 0.85 of
/// the club's.
struct Contact {
  static constexpr Facts facts{.kind = Kind::contact_word,
                               .column = "contact",
                               .measure = Measure::word,
                               .needs = Needs::ball,
                               .source = "assumption"};
  static constexpr std::size_t kWords = 5;
  static constexpr std::array<const char*, kWords> words{"clean", "fat", "thin", "topped", "shank"};
  static constexpr double kShankSoft = 0.005;   // m
  static constexpr double kFatEdge = 1.0e-4;    // m2
  static constexpr double kFatSoft = 0.5e-4;    // m2
  static constexpr double kHeightSoft = 0.003;  // m

  static double shank_edge(const Setting& setting) { return -setting.club.heel_reach; }
  static double topped_edge(const Setting& setting) {
    return -setting.ball.radius * std::tan(0.85 * setting.club.loft);
  }
  static double thin_edge(const Setting& setting) {
    const Club& club = setting.club;
    const bool grooved = club.groove_pitch > 0.0;
    return grooved ? club.first_groove + club.groove_pitch : 0.25 * club.face_height;
  }

  /// Area of turf cut before the ball [m2]; when there is none, minus a nominal section for how far after the
  /// ball the turf begins (5 mm deep) and how high the sole stayed (50 mm long), so that `fat` has a slope
  /// there too.
  template <class T>
  static T fat_latent(const Strike<T>& strike) {
    constexpr double kDepth = 0.005, kLength = 0.05, kBend = 0.002;
    return strike.turf_before - kDepth * soft_positive(T(strike.divot.start), kBend) -
           kLength * soft_positive(T(-strike.divot.depth), kBend);
  }

  template <class T>
  static Latents<T> latents(const Shot<T>& shot, const Setting&) {
    Latents<T> out;
    out.n = 3;
    out.at = {shot.strike.strike_toe, fat_latent(shot.strike), shot.strike.strike_up};
    return out;
  }
};

}  // namespace strikewright::kind
