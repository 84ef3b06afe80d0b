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
///     fat     else, turf before the ball over 2 cm2 of section, soft by 1.5 cm2 (there the turf model takes
///     about 5 %
///             of the head's speed and grass is between face and ball)
///     topped  else, the leading edge was over the ball's centre: strike_up < -R tan(delta), soft by 4 mm
///     thin    else, the leading edge was more than 3.5 mm over the turf: strike_up < (R (1 - sin(delta))
///     - 3.5 mm) /
///             cos(delta), a 7-iron's second groove; driver and woods: the lowest quarter of the face
///     clean   else
///
/// with delta = 0.85 of the club's loft (a usual delivered loft), so that P(clean) + ... + P(shank) = 1. All
/// edges: assumption.
struct Contact {
  static constexpr Facts facts{.kind = Kind::contact_word,
                               .column = "contact",
                               .measure = Measure::word,
                               .needs = Needs::ball,
                               .source = "assumption"};
  static constexpr std::size_t kWords = 5;
  static constexpr std::array<const char*, kWords> words{"clean", "fat", "thin", "topped", "shank"};
  static constexpr double kShankSoft = 0.005;   // m
  static constexpr double kFatEdge = 2.0e-4;    // m2
  static constexpr double kFatSoft = 1.5e-4;    // m2
  static constexpr double kHeightSoft = 0.004;  // m

  static double shank_edge(const Setting& setting) { return -setting.club.heel_reach; }
  static double usual_loft(const Setting& setting) { return 0.85 * setting.club.loft; }
  static double topped_edge(const Setting& setting) {
    return -setting.ball.radius * std::tan(usual_loft(setting));
  }
  static double thin_edge(const Setting& setting) {
    const bool wooden = setting.club.family == Family::driver || setting.club.family == Family::wood;
    if (wooden) return 0.25 * setting.club.face_height;
    constexpr double kOverTurf = 0.0035;  // m
    const double delta = usual_loft(setting);
    return (setting.ball.radius * (1.0 - std::sin(delta)) - kOverTurf) / std::cos(delta);
  }

  /// Area of turf cut before the ball [m2]; when there is none, minus a nominal section for how far after the
  /// ball the turf begins (5 mm deep) and how high the sole stayed (50 mm long), so that `fat` has a slope
  /// there too. A mat is not cut and hides much: there 10 % of the head's speed lost before the ball counts
  /// as 2 cm2.
  template <class T>
  static T fat_latent(const Strike<T>& strike, Surface surface) {
    constexpr double kDepth = 0.005, kLength = 0.05, kBend = 0.002;  // m
    constexpr double kPerSpeed = 2.0e-3;                             // m2 for all of the speed
    if (surface == Surface::mat) return kPerSpeed * (1.0 - strike.speed_left);
    return strike.turf_before - kDepth * soft_positive(T(strike.divot.start), kBend) -
           kLength * soft_positive(T(-strike.divot.depth), kBend);
  }

  template <class T>
  static Latents<T> latents(const Shot<T>& shot, const Setting& setting) {
    Latents<T> out;
    out.n = 3;
    out.at = {shot.strike.strike_toe, fat_latent(shot.strike, setting.ground.surface), shot.strike.strike_up};
    return out;
  }
};

}  // namespace strikewright::kind
