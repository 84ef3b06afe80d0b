#pragma once
// A flight for people and as JSON, the same for `flight` and `shot`.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "flight/landing.hpp"
#include "quantity/unit.hpp"

namespace strikewright {

std::string lines_of(const Flight<double>& flight, const Run& run, UnitSystem units);
nlohmann::ordered_json json_of(const Flight<double>& flight, const Run& run);
std::string json_text(const Flight<double>& flight, const Run& run);

}  // namespace strikewright
