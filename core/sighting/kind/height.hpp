#pragma once
// Height of the flight: its apex as a number, or low / normal / high.

#include <cmath>

#include "quantity/angle.hpp"
#include "sighting/facts.hpp"

namespace strikewright::kind {

struct Apex {
  static constexpr Facts facts{.kind = Kind::apex,
                               .column = "apex",
                               .measure = Measure::long_length,
                               .needs = Needs::flight,
                               .sd = 0.5,
                               .share = 0.15,
                               .model_share = 0.03,
                               .low = 0,
                               .high = 80,
                               .source = "assumption: by eye 15 %; and 3 % spread of the flight model"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.flight.apex;
  }
};

/// Launch angle [rad] that is `normal` for a club: a centred strike, the ball gripping the face (planar
/// free-body impact), with the lean and attack that are usual for the family:
///
///     launch = loft - lean - atan(v_t / v_n),  v_n = (1 + e) cos(phi) / (1 + m/M),
///     v_t = (1 + e_t) sin(phi) / (1 + 1/kappa + m/M),  phi = loft - lean - attack
///
/// Usual lean and attack: assumption.
inline double normal_launch(const Setting& setting) {
  const Club& club = setting.club;
  struct Usual {
    double lean_deg, attack_deg;
  };
  const auto usual = [&]() -> Usual {
    switch (club.family) {
      case Family::driver:
        return {0.0, 0.0};
      case Family::wood:
        return {1.0, -1.0};
      case Family::hybrid:
        return {2.0, -2.0};
      case Family::iron:
        return {4.0, -3.0};
      case Family::wedge:
        break;
    }
    return {4.0, -4.0};
  }();
  constexpr double kSpeed = 36.0;  // m/s: restitution barely depends on it
  const double delivered = club.loft - usual.lean_deg * kDegree;
  const double phi = delivered - usual.attack_deg * kDegree;
  const double e = club.restitution0 - club.restitution_slope * kSpeed * std::cos(phi);
  const double ratio = setting.ball.mass / club.head_mass;
  const double along_normal = (1.0 + e) * std::cos(phi) / (1.0 + ratio);
  const double across =
      (1.0 + club.tangential_restitution) * std::sin(phi) / (1.0 + 1.0 / setting.ball.inertia_factor + ratio);
  return delivered - std::atan2(across, along_normal);
}

/// The launch angle against the club's normal one: low < -4 deg < normal < 4 deg < high, edges soft by 3 deg.
/// Assumption. The launch, not the apex, so that a slow swing does not count as low.
struct HeightWord {
  static constexpr Facts facts{.kind = Kind::height_word,
                               .column = "height",
                               .measure = Measure::word,
                               .needs = Needs::ball,
                               .source = "assumption"};
  static WordScale scale(const Setting& setting) {
    const double normal = normal_launch(setting);
    return {3, {"low", "normal", "high"}, {normal - 4 * kDegree, normal + 4 * kDegree}, 3 * kDegree};
  }
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.strike.launch.elevation;
  }
};

}  // namespace strikewright::kind
