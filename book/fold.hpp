#pragma once
// Text without case and accents, for searching.

#include <string>
#include <string_view>
#include <vector>

namespace strikewright::kept {

/// Latin, Greek and Cyrillic letters in lower case without their accents ("Łukasz Österå" is "lukasz ostera",
/// "ß" is "ss"); combining marks left out; every other character as it is. `text` is UTF-8.
[[nodiscard]] std::string folded(std::string_view text);

/// The words of a search, each folded.
[[nodiscard]] std::vector<std::string> words_to_find(std::string_view search);

}  // namespace strikewright::kept
