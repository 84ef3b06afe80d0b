#pragma once
// A shot for people and as JSON, both read off one list of figures.

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "quantity/unit.hpp"
#include "shot/shot.hpp"

namespace strikewright {

/// One figure of a shot: JSON key with its unit, what people call it, and the words for + and -.
struct Figure {
  std::string key;
  double scale;  ///< JSON value = SI / scale
  std::string says;
  Dimension dimension;
  const char* plus;   ///< "" = none
  const char* minus;  ///< "" = a minus sign is shown
  double value;       ///< SI
};

std::vector<Figure> delivery_figures(const Shot<double>& shot);
std::vector<Figure> turf_figures(const Shot<double>& shot);
std::vector<Figure> launch_figures(const Shot<double>& shot);

nlohmann::ordered_json json_of(const std::vector<Figure>& figures);
/// Two columns, the names set left.
std::string lines_of(const std::vector<Figure>& figures, UnitSystem units);

std::string json_text(const Shot<double>& shot, const Setting& setting);
std::string lines_of(const Shot<double>& shot, const Setting& setting, UnitSystem units);

}  // namespace strikewright
