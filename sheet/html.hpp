#pragma once
// The page as one HTML file.

#include <string>

#include "sheet/page.hpp"

namespace strikewright {

/// `matter` must be checked.
[[nodiscard]] std::string html_of(const Matter& matter);

}  // namespace strikewright
