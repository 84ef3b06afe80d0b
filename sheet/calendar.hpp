#pragma once
// The plan's sessions as a calendar that any calendar program reads (RFC 5545, 2009).

#include <span>
#include <string>

#include "quantity/fault.hpp"
#include "sheet/sheet.hpp"

namespace strikewright {

struct CalendarFacts {
  std::string made_at;          ///< ISO 8601 in UTC, "2026-05-04T08:00:00Z": DTSTAMP of every entry
  std::string language = "en";  ///< one of sheet_languages()
  std::string title{};          ///< of the exercise; "" = practice
  std::string at{};  ///< "17:30": every session begins then, wherever the pupil is; "" = the whole day
  std::string next_lesson{};  ///< a day, entered as well; "" = none
  std::string lesson{};       ///< id of the lesson; names the entry of the next one
};

/// Lines end in CR LF and are folded at 75 octets, never within a letter. Entries are named
/// "<session id>@strikewright.invalid": reading a changed plan changes them. A session without minutes
/// lasts 30. Every entry carries the short caution of sheet/words. Faults: no session, a day or id that is
/// none, two sessions of one id.
[[nodiscard]] Result<std::string> calendar_of(std::span<const SheetSession> sessions,
                                              const CalendarFacts& facts);

}  // namespace strikewright
