// Any bytes as a quantity: no crash, and what is taken is finite.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "bag/generic.hpp"
#include "quantity/number.hpp"
#include "quantity/unit.hpp"

using namespace strikewright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  for (const Dimension d : {Dimension::none, Dimension::length, Dimension::speed, Dimension::angle,
                            Dimension::spin, Dimension::temperature, Dimension::pressure}) {
    const auto got = parse_quantity(text, d, Range{-1e6, 1e6}, "f");
    if (got && !std::isfinite(*got)) std::abort();
    if (got && show(*got, d, UnitSystem::yards).empty()) std::abort();
  }
  if (const auto got = plain_number(text, "mm", "f"); got && !std::isfinite(*got)) std::abort();
  static_cast<void>(club_named(generic_bag(), text));
  return 0;
}
