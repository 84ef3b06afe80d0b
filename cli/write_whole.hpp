#pragma once
// A file that is whole or not there.

#include <string>

#include "quantity/fault.hpp"

namespace strikewright {

/// Writes beside `file` first and then in its place: a full disk leaves what was there. The Fault's place is
/// `option`.
Result<void> write_whole(const std::string& file, const std::string& text, const std::string& option);

}  // namespace strikewright
