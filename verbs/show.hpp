#pragma once
// SI values as people read them; what quantity/unit.hpp's show() does not say.

#include <string>
#include <vector>

#include "quantity/unit.hpp"

namespace strikewright {

std::string degrees(double rad);       ///< "12.3 deg"
std::string per_minute(double radps);  ///< "2520 rpm"

std::string percent(double share);  ///< "82 %"

/// Heights of a flight: "28.4 m", "93 ft".
std::string flight_height(double m, UnitSystem units);

/// A number with `places` decimals; a rounded -0 is 0.
std::string figure(double value, int places);

/// "12.3 m right", "0.4 m left", "0.0 m": the size with the word for its side.
std::string sided(double value, Dimension dimension, UnitSystem units, const char* plus, const char* minus);

/// The lines of a text that are not empty.
std::vector<std::string> lines_of(const std::string& text);

}  // namespace strikewright
