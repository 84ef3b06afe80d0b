#include "exercise/exercise.hpp"

#include <algorithm>

#include "exercise/embedded.hpp"

namespace strikewright {

const char* name_of(Language language) { return language == Language::en ? "en" : "de"; }

const char* name_of(ExerciseFamily family) {
  constexpr std::array names{"ground", "release", "face", "path", "strike", "flight", "practice"};
  return names[static_cast<std::size_t>(family)];
}

const char* name_of(PracticeStage stage) {
  constexpr std::array names{"blocked", "serial", "random"};
  return names[static_cast<std::size_t>(stage)];
}

const char* name_of(BodyNote note) {
  constexpr std::array<const char*, kBodyNotes> names{"back",  "wrist", "elbow",   "shoulder", "hip",
                                                      "knee",  "ankle", "neck",    "balance",  "pregnancy",
                                                      "heart", "bone",  "surgery", "child",    "older"};
  return names[static_cast<std::size_t>(note)];
}

const std::vector<Exercise>& catalogue() {
  static const std::vector<Exercise> all = [] {
    std::vector<Exercise> out;
    for (const EmbeddedExercise& packed : embedded_exercises()) {
      Result<Exercise> exercise = exercise_from(packed.json, packed.name);
      ensure(exercise.has_value(), exercise ? "" : exercise.error().sentence().c_str());
      const Result<void> drawing = drawing_fault(packed.svg);
      ensure(drawing.has_value(), drawing ? "" : drawing.error().sentence().c_str());
      exercise->drawing = packed.svg;
      out.push_back(std::move(*exercise));
    }
    std::sort(out.begin(), out.end(), [](const Exercise& a, const Exercise& b) { return a.name < b.name; });
    return out;
  }();
  return all;
}

const Exercise* exercise_named(std::string_view name) {
  const auto at =
      std::find_if(catalogue().begin(), catalogue().end(), [&](const Exercise& e) { return e.name == name; });
  return at == catalogue().end() ? nullptr : &*at;
}

const std::string& drawing_of(const Exercise& exercise) { return exercise.drawing; }

}  // namespace strikewright
