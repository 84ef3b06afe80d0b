#pragma once
// Days, moments and figures as the sheet writes them.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/sheet.hpp"
#include "sheet/words.hpp"

namespace strikewright {

/// "2026-05-04" as a day of the calendar, 1900 to 2199.
std::optional<std::chrono::year_month_day> day_from(std::string_view text);

/// "20260504T080000Z" of "2026-05-04T08:00:00Z" (fractions of a second are dropped); nothing if it is no
/// moment in UTC.
std::optional<std::string> basic_moment(std::string_view text);

/// "Mon 4 May 2026", "Mo., 4. Mai 2026"; `key` is date.full or date.short. The text must be a day.
std::string day_in_words(std::string_view day, std::string_view key, const Words& words);

/// "2.8 cm", "1,1 in": a small length without its sign; whole numbers from 10 up.
std::string length_in_words(double mm, UnitSystem units, const Words& words);

/// "2.8 cm behind the ball"; with `ball` false: of the line.
std::string place_in_words(double mm, bool ball, UnitSystem units, const Words& words);

/// What the picture's caption says, one sentence a string.
std::vector<std::string> picture_in_words(const SheetPicture& picture, UnitSystem units, const Words& words);

/// The alternative text of the picture, without its caption.
std::string picture_alt(const SheetPicture& picture, const Words& words);

}  // namespace strikewright
