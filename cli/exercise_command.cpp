// `strikewright exercise`: what there is to give, and one of them with its cautions.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "commands.hpp"
#include "exercise/safety.hpp"
#include "sheet/words.hpp"
#include "take.hpp"
#include "verbs/known_exercises.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

struct ExerciseInput {
  std::string name;
  std::size_t language = 0;
};

/// The first line stands out by `hang` characters.
void print_text(const std::string& text, std::size_t hang, std::ostream& out) {
  bool first = true;
  for (const std::string& line : wrapped(text, kColumns - hang)) {
    out << (first ? "" : std::string(hang, ' ')) << line << '\n';
    first = false;
  }
}

void print_list(const std::vector<std::string>& items, std::ostream& out, bool numbered) {
  int n = 0;
  for (const std::string& item : items)
    print_text(numbered ? fmt::format("{}. ", ++n) + item : "- " + item, numbered ? 3 : 2, out);
}

/// "Easier: Take the ball away ..."; nothing where nothing is said.
void print_led(const std::string& label, const std::string& text, std::ostream& out) {
  if (!text.empty()) print_text(label + " " + text, 0, out);
}

void print_part(const std::string& heading, const std::vector<std::string>& items, std::ostream& out) {
  if (items.empty()) return;
  out << '\n' << heading << "\n\n";
  print_list(items, out, false);
}

void print_one(const Exercise& exercise, Language language, std::ostream& out) {
  const ShownExercise shown = strikewright::shown(exercise, language, {});
  const ExerciseText& text = shown.text();
  const Words& words = *words_of(language == Language::de ? "de" : "en");
  out << text.title << "\n\n";
  print_text(text.purpose, 0, out);
  out << '\n';
  print_list(text.steps, out, true);
  out << '\n';
  print_led(words("exercise.cue"), text.cue, out);
  print_led(words("exercise.dose"), text.dose, out);
  print_part(words("exercise.self_check"), text.self_check, out);
  print_part(words("exercise.errors"), text.errors, out);
  out << '\n';
  print_led(words("exercise.easier"), text.regression, out);
  print_led(words("exercise.harder"), text.progression, out);
  print_part(language == Language::de ? "Vorsicht" : "Take care", shown.cautions(), out);
  out << '\n' << (language == Language::de ? "Quelle: " : "Source: ") << exercise.source << '\n';
}

Result<int> run(const ExerciseInput& in, Doors& doors) {
  const Language language = in.language == 1 ? Language::de : Language::en;
  if (doors.json) {
    Document all = exercises_document(language);
    if (!in.name.empty()) {
      Document found = nullptr;
      for (const Document& one : all["exercises"])
        if (one["name"] == in.name) found = one;
      if (found.is_null()) return unexpected(no_such_exercise(in.name));
      all = found;
    }
    doors.out << all.dump(2) << '\n';
    return kGood;
  }
  if (in.name.empty()) {
    for (const Exercise& exercise : catalogue())
      print_text(fmt::format("{}: {}", exercise.name, exercise.words.purpose(language)), 2, doors.out);
    doors.out << "\n'strikewright exercise NAME' shows one with its steps and its cautions.\n";
    return kGood;
  }
  const Exercise* exercise = exercise_named(in.name);
  if (exercise == nullptr) return unexpected(no_such_exercise(in.name));
  print_one(*exercise, language, doors.out);
  return kGood;
}

}  // namespace

Command exercise_command() {
  const auto in = std::make_shared<ExerciseInput>();
  return {.name = "exercise",
          .says = "what there is to give a pupil, and how it is done, with its cautions",
          .more =
              "Without a name: all of them. How far each is believed to move a swing is an assumption, "
              "written in "
              "docs/exercises.md; 'read' and the page choose among them for one pupil.",
          .options = {text("NAME", "NAME", member(in, in->name), "one of them"),
                      choice("--language", member(in, in->language), {"en", "de"}, "of the words", "en")},
          .examples = {{.says = "all exercises", .line = "strikewright exercise"},
                       {.says = "one of them", .line = "strikewright exercise towel_behind_ball"}},
          .run = [in](Doors& doors) { return run(*in, doors); }};
}

}  // namespace strikewright
