#pragma once
// A lesson's reading as JSON: the contract of docs/commands.md, read.

#include <nlohmann/json.hpp>

#include "verbs/cause_words.hpp"

namespace strikewright {

/// @param units  of sentences; keys carry their own
nlohmann::ordered_json lesson_document(const LessonReading& lesson, const std::vector<Explained>& all,
                                       const std::vector<SeenSwing>& seen, UnitSystem units);

}  // namespace strikewright
