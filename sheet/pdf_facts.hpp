#pragma once
// What cairo leaves out of a PDF: its language, that it is tagged, and what its pictures show.

#include <string>
#include <string_view>
#include <vector>

namespace strikewright {

/// The PDF with new editions of its catalog and its figures appended (ISO 32000-1:2008, 7.5.6 incremental
/// updates, 7.7.2 catalog, 14.9.3 alternate descriptions). `pdf` must have a classic table of objects, as PDF
/// 1.4 has.
/// @param shown  of each figure in their order what it shows, UTF-8
[[nodiscard]] std::string with_facts(std::string pdf, std::string_view language,
                                     const std::vector<std::string>& shown);

}  // namespace strikewright
