#pragma once
// Texts of an exercise: plain, short, and the same for both hands.

#include <cstddef>
#include <string>
#include <string_view>

#include "exercise/exercise.hpp"

namespace strikewright {

/// Characters (not bytes) of well-formed UTF-8.
[[nodiscard]] std::size_t letters_in(std::string_view text);

/// A word that names a side or a turning sense of the picture and would be wrong for the other hand: left,
/// right, clockwise, links, rechts and their kin, as whole words, case aside; "" if there is none.
[[nodiscard]] std::string sided_word(std::string_view text);

/// Nothing, or a Fault at `place`: not UTF-8, empty, blank at an end, control characters, markup or an
/// address of the web, more than `most` letters, a sided word.
[[nodiscard]] Result<void> fit_text(std::string_view text, std::size_t most, const std::string& place);

}  // namespace strikewright
