#pragma once
// Strike mark counted in grooves from the bottom: the first groove is 1.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct StrikeGroove {
  static constexpr Facts facts{.kind = Kind::strike_groove,
                               .column = "strike_groove",
                               .measure = Measure::count,
                               .needs = Needs::ball,
                               .sd = 0.7,
                               .low = -5,
                               .high = 30,
                               .source = "assumption: 0.7 groove"};

  /// groove = 1 + (strike_up - first_groove) / groove_pitch. A face without grooves to count is counted with
  /// those of an iron (5 mm, 3.6 mm), as its face pattern is by eye.
  template <class T>
  static T latent(const Shot<T>& shot, const Setting& setting) {
    const bool grooved = setting.club.groove_pitch > 0.0;
    const double pitch = grooved ? setting.club.groove_pitch : 3.6e-3;
    const double first = grooved ? setting.club.first_groove : 5.0e-3;
    return 1.0 + (shot.strike.strike_up - first) / pitch;
  }
};

}  // namespace strikewright::kind
