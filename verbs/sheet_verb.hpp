#pragma once
// The page for home and the coach's summary, out of the book.

#include <string>

#include "book/book.hpp"
#include "sheet/sheet.hpp"
#include "verbs/answer.hpp"

namespace strikewright {

struct SheetAsked {
  Id lesson;
  std::string kind = "pupil";  ///< pupil, summary
  std::string paper = "a4";    ///< a4, letter
  std::string language{};      ///< en, de; "" = the pupil's. The summary is in the coach's language, English
  std::string units{};         ///< "" = as in the settings
  std::string version{};       ///< of the program, for the footer
  unsigned threads = 0;
};

/// Everything that the sheet says. The exercise is the last one given in the lesson. Faults: no such lesson;
/// a pupil's sheet without an exercise given; an exercise that nobody knows any more; one that the pupil's
/// body notes forbid.
Answer<SheetContent> sheet_content(Book& book, const SheetAsked& asked);

enum class SheetForm { pdf, html, png, svg };
/// "pdf", ...; a Fault with the place `form`.
Result<SheetForm> sheet_form_named(const std::string& text);

/// The document itself; a picture has 110 dots an inch.
Answer<std::string> sheet_file(Book& book, const SheetAsked& asked, SheetForm form);

}  // namespace strikewright
