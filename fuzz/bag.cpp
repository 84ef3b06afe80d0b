// Any bytes as a bag: no crash, and a bag that is taken holds only clubs within the accepted ranges.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "bag/figure.hpp"
#include "bag/json.hpp"

using namespace strikewright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto bag = bag_from_json({reinterpret_cast<const char*>(data), size}, "f");
  if (!bag) return 0;
  for (const Club& club : *bag) {
    if (club.name.empty() || club.like.empty()) std::abort();
    for (const ClubFigure& figure : club_figures()) {
      const double value = value_in(figure, club);
      // What follows other figures may leave its own range a little: an arc longer by the length, inertia by
      // the mass.
      if (!(value >= 0.2 * figure.low - 1.0 && value <= 5.0 * figure.high + 1.0)) std::abort();
    }
  }
  return 0;
}
