#pragma once
// The coach's own clubs as JSON text.

#include <string>
#include <string_view>
#include <vector>

#include "bag/club.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

/// Reads a bag: an array of clubs, or an object with one key "clubs" that holds it.
///
///     [{"name": "7i", "like": "7i", "loft_deg": 31, "length_in": 37.25, "head_g": 272}]
///
/// `name` is what the sightings file calls the club; `like` the generic club that fills the missing figures
/// (needed unless the name is a generic one). Keys and their units: `club_figures()`; `family` (driver, wood,
/// hybrid, iron, wedge). Figures that were not given but hang together with given ones are refilled: inertia
/// scales with head mass, arc and turn radius follow the length. Every fault names the place as a path:
/// "bag.json, clubs[2].loft_deg". At most 60 clubs; two of one name are a fault.
[[nodiscard]] Result<std::vector<Club>> bag_from_json(std::string_view text, const std::string& place);

}  // namespace strikewright
