#include "sheet/surface.hpp"

#include <map>

namespace strikewright {

cairo_status_t append_to(void* text, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

std::string with_own_names(const std::string& svg) {
  constexpr std::string_view kName = "surface";
  std::string own;
  std::map<std::string, std::size_t, std::less<>> seen;
  for (std::size_t at = 0; at < svg.size();) {
    const std::size_t name = svg.find(kName, at);
    if (name == std::string::npos) return own + svg.substr(at);
    const std::size_t number = name + kName.size();
    const std::size_t end = svg.find_first_not_of("0123456789", number);
    own += svg.substr(at, number - at);
    at = number;
    // Only as a name or a reference to one.
    if (name == 0 || (svg[name - 1] != '"' && svg[name - 1] != '#') || end == number ||
        end == std::string::npos)
      continue;
    own += std::to_string(seen.emplace(svg.substr(number, end - number), seen.size() + 1).first->second);
    at = end;
  }
  return own;
}

}  // namespace strikewright
