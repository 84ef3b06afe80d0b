#pragma once
// What a content must be before anything is drawn, and its texts made safe to set.

#include "sheet/sheet.hpp"

namespace strikewright {

/// The content with its texts as they will be set: control characters and marks that turn the direction of
/// foreign text are gone, ends trimmed, items without a letter left out of their lists (a blank caution is no
/// caution). Texts that are not UTF-8 stay as they are: the check below refuses them.
[[nodiscard]] SheetContent cleaned(SheetContent content);

/// The check of a cleaned content.
[[nodiscard]] Result<void> check_cleaned(const SheetContent& content);

/// Both at once: what every writer begins with.
[[nodiscard]] Result<SheetContent> ready(const SheetContent& content);

/// What is wrong with a content, or with the facts of a calendar.
[[nodiscard]] tl::unexpected<Fault> fault(std::string place, std::string found, std::string expected);

/// "the coach's note"-like member name and length of the longest text: what to shorten when a page is full.
struct LongText {
  std::string place;
  std::size_t letters = 0;
};
[[nodiscard]] LongText longest_text(const SheetContent& content);

}  // namespace strikewright
