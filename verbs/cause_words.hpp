#pragma once
// Why the club did what it did, in the coach's words: causes, what cannot be told apart, scatter, conflicts,
// next look.

#include <optional>
#include <string>
#include <vector>

#include "cause/another_swing.hpp"
#include "cause/causes.hpp"
#include "reading/lesson_conflicts.hpp"
#include "verbs/lesson_words.hpp"

namespace strikewright {

/// In steps of kCauseFacts: a shift that is less is not worth a coach's word.
inline constexpr double kWorthAWord = 0.5;

/// What was worked out about one group of a lesson beyond its patterns.
struct Explained {
  const Group* group = nullptr;
  Skill skill = Skill::club;
  bool anything_seen = true;  ///< false: all cells of the group were blank
  CauseReading causes;
  std::vector<Conflict> conflicts;
  std::optional<Result<WaysSwung>> ways;  ///< where another way of swinging was asked for
};

/// The pattern of a group that scatter is spoken of: the normal condition, else the first.
const Pattern& pattern_spoken_of(const Group& group, const LessonReading& lesson);

/// "face turn".
std::string plain_name(Cause cause);

/// The words for a shift to either side; a left-hander's handle goes the other way than kCauseFacts says.
Sides sides_of(Cause cause, Hand hand);

/// Paragraphs, one a line: why, what cannot be told apart, why it scatters, what fell out, conflicts, next
/// look.
std::string cause_sentences(const Explained& why, const LessonReading& lesson,
                            const std::vector<SeenSwing>& seen, UnitSystem units);

/// "5 swings with the weight on the lead leg (about 75 seconds)".
std::string look_in_words(const NextLook& look);

/// "7i: why" for a group with several patterns, whose sentences stand under headings of their own.
std::string heading_of(const Group& group);

}  // namespace strikewright
