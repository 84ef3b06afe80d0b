#pragma once
// A lesson's sightings read to the end: swings, patterns, causes.

#include <vector>

#include "verbs/answer.hpp"
#include "verbs/explain.hpp"
#include "verbs/reading_verb.hpp"

namespace strikewright {

/// `all` points into `lesson`; moving keeps it right, copying does not.
struct ReadLesson {
  std::vector<SeenSwing> seen;
  LessonReading lesson;
  std::vector<Explained> all;
  ReadLesson() = default;
  ReadLesson(ReadLesson&&) = default;
  ReadLesson& operator=(ReadLesson&&) = default;
};

/// Bag, skill and threads of what was asked; the day is a standard one.
Result<LessonOptions> options_for(const ReadingAsked& asked);

/// Every fault of the sightings, or the reading. A file without rows is an empty lesson, not a fault.
Answer<ReadLesson> lesson_read(const ReadingAsked& asked, const LessonOptions& options);

}  // namespace strikewright
