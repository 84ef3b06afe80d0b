#pragma once
// A lesson's reading as JSON: the contract of docs/commands.md, read.

#include <string>

#include "reading/lesson.hpp"

namespace strikewright {

std::string json_text(const LessonReading& lesson);

}  // namespace strikewright
