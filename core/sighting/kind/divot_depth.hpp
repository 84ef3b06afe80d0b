#pragma once
// Depth of the divot, deeper +; in millimetres, or none / scrape / normal / deep.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct DivotDepth {
  static constexpr Facts facts{.kind = Kind::divot_depth,
                               .column = "divot_depth",
                               .measure = Measure::small_length,
                               .sd = 0.004,
                               .low = 0,
                               .high = 0.15,
                               .source = "assumption: 4 mm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.depth;
  }
};

/// none < 1 mm < scrape < 5 mm < normal < 15 mm < deep, edges soft by 3 mm. `none` is information: the club
/// stayed over the turf. On a mat it is none, the mat hides it: P(none) = 1 whatever the club did. Edges:
/// mean divots are 5.6 to 14 mm deep (28 to 70 cm3, Trappe, Karcher, Richardson & Patton, Crop Sci. 51, 1793,
/// 2011, over 10 x 5 cm, Patton, Turf & Rec, May 2018); the rest is an assumption.
struct DivotWord {
  static constexpr Facts facts{
      .kind = Kind::divot_word, .column = "divot", .measure = Measure::word, .source = "assumption"};
  static WordScale scale(const Setting& setting) {
    constexpr double kHidden = 0.15;  // m: an edge that no depth reaches
    const bool mat = setting.ground.surface == Surface::mat;
    return {4,
            {"none", "scrape", "normal", "deep"},
            {mat ? kHidden : 0.001, mat ? kHidden + 0.01 : 0.005, mat ? kHidden + 0.02 : 0.015},
            0.003};
  }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.divot.depth;
  }
};

}  // namespace strikewright::kind
