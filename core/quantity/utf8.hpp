#pragma once
// Is it text?

#include <cstddef>
#include <string_view>

namespace strikewright {

/// Bytes of the well-formed UTF-8 sequence at the front of `text`, 0 if there is none (The Unicode Standard,
/// table 3-7: no overlong forms, no surrogates, nothing beyond U+10FFFF).
[[nodiscard]] std::size_t utf8_length(std::string_view text);

/// Is all of it well-formed?
[[nodiscard]] bool is_utf8(std::string_view text);

}  // namespace strikewright
