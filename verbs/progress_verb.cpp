#include "verbs/progress_verb.hpp"

#include <map>
#include <nlohmann/json.hpp>

#include "quantity/angle.hpp"
#include "verbs/known_exercises.hpp"
#include "verbs/lesson_file.hpp"

namespace strikewright {
namespace {

Document summary_of(const LessonLine& line) {
  if (!line.reading) return Document::object();
  Document summary = Document::parse(line.reading->summary, nullptr, false);
  return summary.is_object() && summary.contains("patterns") ? summary : Document::object();
}

/// The normal pattern of a club, or null.
Document pattern_in(const Document& summary, const std::string& club) {
  for (const Document& p : summary.value("patterns", Document::array()))
    if (p.at("club") == club && p.at("condition") == "normal") return p;
  return nullptr;
}

/// The club that most lessons have in the normal way; of equals the first by name.
std::string main_club(const std::vector<LessonLine>& lines) {
  std::map<std::string, int> count;
  for (const LessonLine& line : lines)
    for (const Document& p : summary_of(line).value("patterns", Document::array()))
      if (p.at("condition") == "normal") ++count[p.at("club").get<std::string>()];
  std::string out;
  for (const auto& [club, n] : count)
    if (out.empty() || n > count[out]) out = club;
  return out;
}

/// From millimetres.
Document spread(const Document& pattern, const char* key, double scale) {
  if (pattern.is_null() || !pattern.contains(key)) return nullptr;
  Document out = Document::object();
  for (const char* part : {"mean", "p10", "p90"}) out[part] = pattern.at(key).at(part).get<double>() / scale;
  return out;
}

}  // namespace

Answer<Document> progress_document(Book& book, const Id& pupil, const std::string& units,
                                   const std::string& club) {
  if (const auto good = check_units(units); !good) return refused(good.error());
  const Result<std::vector<LessonLine>> lines = book.lessons_of(pupil);
  if (!lines) return refused(lines.error());
  const Result<Settings> settings = book.settings();
  if (!settings) return refused(settings.error());
  const Result<KnownExercises> known = known_exercises(book);
  if (!known) return refused(known.error());
  const bool inches = units_of(*settings, units) == UnitSystem::yards;
  const double scale = inches ? kInch * 1e3 : 10.0;  // mm in one shown unit
  const std::string shown = club.empty() ? main_club(*lines) : club;
  Document out{{"pupil", pupil},
               {"club", shown.empty() ? Document(nullptr) : Document(shown)},
               {"unit", inches ? "in" : "cm"},
               {"lessons", Document::array()},
               {"given", Document::array()}};
  for (const LessonLine& line : *lines) {
    const Document pattern = pattern_in(summary_of(line), shown);
    out["lessons"].push_back({{"lesson", line.lesson.id},
                              {"day", day_text(day_number(line.lesson.begun_at).value_or(0))},
                              {"n", pattern.is_null() ? 0 : pattern.at("n").get<int>()},
                              {"low_point", spread(pattern, "low_point_mm", scale)},
                              {"scatter", spread(pattern, "low_point_scatter_mm", scale)},
                              {"result_m", spread(pattern, "result_m", 1.0)}});
    for (const Given& given : line.given) {
      if (given.exercise.empty()) continue;
      const Exercise* exercise = known->named(given.exercise);
      const std::optional<int> to = day_number(given.ended_at);
      out["given"].push_back(
          {{"id", given.id},
           {"exercise", given.exercise},
           {"title", exercise == nullptr ? given.exercise : exercise->words.title(Language::en)},
           {"from", day_text(day_number(given.at).value_or(0))},
           {"to", to ? Document(day_text(*to)) : Document(nullptr)}});
    }
  }
  return out;
}

}  // namespace strikewright
