#pragma once
// What cairo leaves out of a PDF: in which language it speaks, and that its title is what a reader should
// show.

#include <string>
#include <string_view>

namespace strikewright {

/// The PDF with a new edition of its catalog appended (ISO 32000-1:2008, 7.5.6 incremental updates, 7.7.2
/// catalog). `pdf` must have a classic table of objects, as PDF 1.4 has.
[[nodiscard]] std::string with_language(std::string pdf, std::string_view language);

}  // namespace strikewright
