#pragma once
// A lesson with what the book says about it and its pupil, as the verbs need it.

#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "exercise/safety.hpp"
#include "quantity/unit.hpp"
#include "verbs/reading_verb.hpp"

namespace strikewright {

struct LessonFile {
  Pupil pupil;
  Settings settings;
  Lesson lesson;
  std::vector<KeptSwing> swings;  ///< by number
};

/// As it stands at one moment, whoever enters meanwhile.
Result<LessonFile> lesson_file(Book& book, const Id& lesson);

/// The swings that the lesson's reading is about: those of an exercise and those after it are the proof's,
/// since they are meant to be other than the pupil's own swing.
std::vector<KeptSwing> swings_read(const std::vector<KeptSwing>& swings);

/// @param units  "" = as in the settings
ReadingAsked reading_asked(const LessonFile& file, const std::string& units = "");
/// metric, yards, or "" for the settings'; a Fault with the place `units` for anything else.
Result<void> check_units(const std::string& units);
UnitSystem units_of(const Settings& settings, const std::string& units = "");

/// Days since 1970-01-01 of the day that an ISO 8601 time names, wherever it was; nothing where it names
/// none.
std::optional<int> day_number(const std::string& time);
/// "2026-11-25".
std::string day_text(int day);

/// The surface of that name; the fairway where it is none.
Surface surface_of(const std::string& name);

/// What is known of the pupil's body on that day: the cautions noted, and the age.
BodyNotes notes_of(const Pupil& pupil, const std::string& time);

}  // namespace strikewright
