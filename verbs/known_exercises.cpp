#include "verbs/known_exercises.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "bag/family.hpp"
#include "exercise/safety.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

template <class E>
Document names_listed(const std::vector<E>& all) {
  Document out = Document::array();
  for (const E one : all) out.push_back(name_of(one));
  return out;
}

/// In the units of the document.
Document moves_in(const Exercise& exercise) {
  Document out = Document::array();
  for (const Move& move : exercise.moves) {
    const CauseFacts& facts = kCauseFacts[static_cast<std::size_t>(move.cause)];
    out.push_back({{"cause", facts.name},
                   {"home", move.home / facts.scale},
                   {"home_sd", move.home_sd / facts.scale},
                   {"shift", move.shift},
                   {"shift_sd", move.shift_sd},
                   {"scatter", move.scatter},
                   {"scatter_sd", move.scatter_sd}});
  }
  return out;
}

Document shown_document(const Exercise& exercise, const std::string& own, Language language) {
  const ShownExercise shown = strikewright::shown(exercise, language, {});
  const ExerciseText& text = shown.text();
  const Dose& dose = shown.dose();
  return {{"name", exercise.name},
          {"own", !own.empty()},
          {"id", own.empty() ? Document(nullptr) : Document(own)},
          {"family", name_of(exercise.family)},
          {"source", exercise.source},
          {"title", text.title},
          {"purpose", text.purpose},
          {"cue", text.cue},
          {"steps", text.steps},
          {"self_check", text.self_check},
          {"errors", text.errors},
          {"progression", text.progression},
          {"regression", text.regression},
          {"cautions", shown.cautions()},
          {"dose_says", text.dose},
          {"shows", text.alt},
          {"drawing", shown.drawing()},
          {"kit", shown.kit()},
          {"condition", name_of(exercise.condition)},
          {"ball", exercise.ball},
          {"turf", exercise.turf},
          {"stage", name_of(exercise.stage)},
          {"dose",
           {{"balls", dose.balls},
            {"sets", dose.sets},
            {"rest_s", dose.rest_s},
            {"minutes", dose.minutes},
            {"days_a_week", dose.days_a_week}}},
          {"ground", names_listed(exercise.ground)},
          {"clubs", names_listed(exercise.clubs)},
          {"load", names_listed(exercise.load)},
          {"balance", exercise.balance},
          {"jump", exercise.jump},
          {"not_with", names_listed(exercise.not_with)},
          {"ask_first", names_listed(exercise.ask_first)},
          {"crowded", exercise.crowded},
          {"reach", exercise.reach},
          {"moves", moves_in(exercise)}};
}

}  // namespace

const Exercise* KnownExercises::named(const std::string& name) const {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Exercise& e) { return e.name == name; });
  return at == all.end() ? nullptr : &*at;
}

Result<KnownExercises> known_exercises(Book& book) {
  const Result<std::vector<OwnExercise>> own = book.own_exercises();
  if (!own) return unexpected(own.error());
  KnownExercises out{catalogue(), std::vector<std::string>(catalogue().size()), {}};
  std::vector<std::pair<Exercise, std::string>> read;
  for (const OwnExercise& one : *own) {
    Result<Exercise> exercise = exercise_from(one.document);
    if (!exercise)
      out.unread.push_back(exercise.error());
    else if (out.named(exercise->name) == nullptr)
      read.emplace_back(*std::move(exercise), one.id);
  }
  std::stable_sort(read.begin(), read.end(),
                   [](const auto& a, const auto& b) { return a.first.name < b.first.name; });
  for (auto& [exercise, id] : read) {
    out.all.push_back(std::move(exercise));
    out.own.push_back(id);
  }
  return out;
}

Result<Language> language_named(const std::string& text) {
  for (const Language language : {Language::en, Language::de})
    if (text == name_of(language)) return language;
  return unexpected(Fault{"language", "'" + text + "'", "en or de"});
}

Fault no_such_exercise(const std::string& name) {
  std::vector<std::string> names;
  names.reserve(catalogue().size());
  for (const Exercise& exercise : catalogue()) names.push_back(exercise.name);
  return {"NAME", "'" + name + "'", "the name of an exercise" + suggestion(name, names)};
}

namespace {

Document documents_of(const KnownExercises& known, Language language) {
  Document out{{"language", name_of(language)},
               {"always", universal_cautions(language)},
               {"exercises", Document::array()}};
  for (std::size_t k = 0; k < known.all.size(); ++k)
    out["exercises"].push_back(shown_document(known.all[k], known.own[k], language));
  return out;
}

}  // namespace

Document exercises_document(Language language) {
  return documents_of({catalogue(), std::vector<std::string>(catalogue().size()), {}}, language);
}

Answer<Document> exercises_document(Book& book, const std::string& text) {
  const Result<Language> language = language_named(text);
  if (!language) return refused(language.error());
  const Result<KnownExercises> known = known_exercises(book);
  if (!known) return refused(known.error());
  return documents_of(*known, *language);
}

}  // namespace strikewright
