#pragma once
// Every figure of a club described once: its JSON key, unit, range and where the generic value comes from.

#include <span>
#include <string>

#include "bag/club.hpp"

namespace strikewright {

/// One figure of a club. `value = SI / scale` is what the key's unit says.
struct ClubFigure {
  const char* field;          ///< member of Club: "head_mass", "inertia.x"
  const char* key;            ///< "head_g"
  const char* other_key;      ///< the same in another unit: "length_in", or nullptr
  double scale, other_scale;  ///< SI units in one unit of the key
  double low, high;           ///< accepted, in SI: what a club could be, wider than what the trade sells
  double& (*at)(Club&);
};

/// All figures, in the order of Club.
[[nodiscard]] std::span<const ClubFigure> club_figures();

/// Where the generic figure comes from.
[[nodiscard]] std::string generic_source(const ClubFigure& figure, Family family);

[[nodiscard]] inline double value_in(const ClubFigure& figure, Club club) { return figure.at(club); }

}  // namespace strikewright
