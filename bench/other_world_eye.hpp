#pragma once
// An imperfect coach looks at the shots of the other world and writes down what he saw.

#include <array>
#include <vector>

#include "numeric/draws.hpp"
#include "other_world_player.hpp"
#include "sighting/sighting.hpp"

namespace other_world {

enum class Looking { clean, biased, slips };

/// One lesson's eye: off by the same amount every time, in units of its own noise.
struct Eye {
  Looking looking = Looking::clean;
  std::array<double, strikewright::kKinds> bias{};
};
[[nodiscard]] Eye eye_of(Looking looking, Draws& draws);

/// What is written of one shot, in the frame that the tool's door makes of it.
[[nodiscard]] std::vector<strikewright::Sighting> looked_at(const Seeable& shot, const Base& base,
                                                            double side, const Eye& eye, Draws& draws);

}  // namespace other_world
