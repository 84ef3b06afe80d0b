#pragma once
// A lesson's reading in tables.

#include <string>

#include "quantity/unit.hpp"
#include "reading/lesson.hpp"
#include "verbs/cause_words.hpp"

namespace strikewright {

/// One reported quantity as it is shown: its name, its unit, and how many decimals.
struct Shown {
  std::string name;  ///< "low point", the + side in brackets: "low point (ahead +)"
  std::string unit;
  double scale = 1.0;
  int places = 0;
};
Shown shown_field(std::size_t k, UnitSystem units);

/// Mean, where 80 % lies, scatter from swing to swing.
std::string pattern_table(const Pattern& pattern, UnitSystem units);

/// One line a swing: mean and standard deviation of the main quantities. Swings of one pattern.
std::string swing_table(const LessonReading& lesson, const Pattern& pattern, UnitSystem units);

/// What was taken for likely before anything was seen, and how much each quantity still owes to it.
std::string prior_table(const Pattern& pattern, const Prior& prior, UnitSystem units);

/// Causes: how far each is off, how likely it is the one furthest off, and, with more than one swing, how
/// much of the scatter it makes.
std::string cause_table(const Explained& why, const LessonReading& lesson, UnitSystem units);

/// The same noise in another way of swinging: a sentence, the table, what was given up; or why it could not
/// be had.
/// "" where it was not asked for.
std::string ways_text(const Explained& why, UnitSystem units);

}  // namespace strikewright
