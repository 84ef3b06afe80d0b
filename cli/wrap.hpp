#pragma once
// Text in columns.

#include <string>
#include <string_view>
#include <vector>

namespace strikewright {

/// How many characters a UTF-8 text shows (code points; our own texts hold no combining marks).
std::size_t shown_width(std::string_view text);

/// `text` broken at blanks into lines of at most `width` characters; a longer word gets its own line. Line
/// breaks in the text are kept.
std::vector<std::string> wrapped(std::string_view text, std::size_t width);

/// `text` followed by blanks (or, `right`, preceded by them) up to `width` characters.
std::string padded(const std::string& text, std::size_t width, bool right = false);

/// Rows in aligned columns, two blanks apart. Column 0 is set left, the others right. Every row needs as
/// many cells as the head; an empty head draws none.
std::string table(const std::vector<std::string>& head, const std::vector<std::vector<std::string>>& rows,
                  std::size_t indent = 0);

}  // namespace strikewright
