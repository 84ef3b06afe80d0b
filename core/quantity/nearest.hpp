#pragma once
// "Did you mean": the nearest of a list of words.

#include <span>
#include <string>
#include <string_view>

namespace strikewright {

/// The candidate with the fewest single-letter changes, insertions, removals and swaps of neighbours from
/// `word` (restricted Damerau-Levenshtein distance), case and the signs - _ and blank aside; the first of
/// equals.
/// "" when nothing is near: more than a third of the longer word's letters (at least 2) would have to change.
[[nodiscard]] std::string nearest_name(std::string_view word, std::span<const std::string> candidates);

/// ", did you mean 'carry_m'?" or "" when nothing is near.
[[nodiscard]] std::string suggestion(std::string_view word, std::span<const std::string> candidates);

/// `text` as it may stand in a fault: in quotes, control characters and bytes that are not UTF-8 as '?', at
/// most 40 characters.
[[nodiscard]] std::string quoted(std::string_view text);

}  // namespace strikewright
