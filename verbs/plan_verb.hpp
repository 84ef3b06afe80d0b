#pragma once
// What the pupil does with an exercise until the next lesson: docs/contract.md, "The plan".

#include "plan/plan.hpp"
#include "sheet/sheet.hpp"
#include "verbs/given_swings.hpp"

namespace strikewright {

/// The plan from the day on which the exercise was given. Stage of learning by the skill band (beginner
/// early, tour late), days and balls from the pupil's record, dose from the exercise or from what was given
/// instead.
Result<Plan> plan_for(const GivenFile& file);

/// Its sessions as the sheet and the calendar print them.
std::vector<SheetSession> sheet_sessions(const GivenFile& file, const Plan& plan,
                                         const std::string& language);

Answer<Document> plan_document(Book& book, const Id& given, const std::string& language);

/// iCalendar.
Answer<std::string> plan_calendar(Book& book, const Id& given, const std::string& language);

/// The language asked for, or the pupil's own where that is one of the sheet's.
Result<std::string> sheet_language(const std::string& asked, const Pupil& pupil);

}  // namespace strikewright
