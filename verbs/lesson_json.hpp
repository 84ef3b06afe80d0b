#pragma once
// A lesson's reading as JSON: the contract of docs/commands.md, read.

#include <string>

#include "verbs/cause_words.hpp"

namespace strikewright {

std::string json_text(const LessonReading& lesson, const std::vector<Explained>& all,
                      const std::vector<SeenSwing>& seen);

}  // namespace strikewright
