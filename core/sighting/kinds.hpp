#pragma once
// What can be seen about a swing.

#include <array>
#include <cstddef>

namespace strikewright {

// clang-format off
enum class Kind {
  // measured
  start, curve, carry, apex,
  divot_start, divot_end, divot_direction, divot_depth, divot_toe_depth,
  strike_toe, strike_up, strike_groove,
  shaft_lean, handle_lead, attack, path, face, loft, club_speed,
  ball_speed, launch_angle, spin, spin_axis,
  // judged in words
  start_word, curve_word, height_word, contact_word, divot_word, divot_begins_word, toe_heel_word
};
// clang-format on
inline constexpr std::size_t kKinds = 30;

/// At most so many numbers of a shot decide about one sighting.
inline constexpr int kMaxLatents = 3;

/// What the chain predicts for a sighting, before the looking.
template <class T>
struct Latents {
  int n = 0;
  std::array<T, static_cast<std::size_t>(kMaxLatents)> at{};
};

}  // namespace strikewright
