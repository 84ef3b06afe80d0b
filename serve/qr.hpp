#pragma once
// A text as a square that a phone's camera reads.

#include <string>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

/// Rows of 0 and 1, 1 = dark, without a margin. A Fault for a text that is too long for one.
Result<std::vector<std::string>> qr_rows(const std::string& text);

/// The same in half blocks for a terminal, dark on light, with a margin of four.
std::string qr_text(const std::vector<std::string>& rows);

}  // namespace strikewright
