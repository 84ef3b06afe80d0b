#pragma once
// The families of clubs by name.

#include <array>
#include <cstddef>

#include "bag/club.hpp"

namespace strikewright {

/// In the order of Family.
inline constexpr std::array<const char*, 5> kFamilyNames{"driver", "wood", "hybrid", "iron", "wedge"};

[[nodiscard]] constexpr const char* name_of(Family family) {
  return kFamilyNames[static_cast<std::size_t>(family)];
}

}  // namespace strikewright
