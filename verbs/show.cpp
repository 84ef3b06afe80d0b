#include "verbs/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/angle.hpp"

namespace strikewright {

std::string figure(double value, int places) {
  std::string out = fmt::format("{:.{}f}", value, places);
  const bool nought = out.find_first_not_of("-0.") == std::string::npos;
  if (nought && out.front() == '-') out.erase(0, 1);
  return out;
}

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string flight_height(double m, UnitSystem units) {
  return units == UnitSystem::yards ? figure(m / kFoot, 0) + " ft" : show(m, Dimension::length, units);
}

std::string degrees(double rad) { return show(rad, Dimension::angle, UnitSystem::metric); }
std::string per_minute(double radps) { return show(radps, Dimension::spin, UnitSystem::metric); }

std::string sided(double value, Dimension dimension, UnitSystem units, const char* plus, const char* minus) {
  std::string size = show(std::abs(value), dimension, units);
  if (size.find_first_of("123456789") == std::string::npos) return size;
  return size + " " + (value < 0.0 ? minus : plus);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    if (to > from) out.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return out;
}

}  // namespace strikewright
