#pragma once
// The documents of the catalogue as the build packs them (cmake/exercises.cmake).

#include <vector>

namespace strikewright {

struct EmbeddedExercise {
  const char* name;
  const char* json;
  const char* svg;
};

[[nodiscard]] const std::vector<EmbeddedExercise>& embedded_exercises();

}  // namespace strikewright
