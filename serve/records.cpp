#include "serve/records.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <span>
#include <variant>

#include "quantity/nearest.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

/// One member of a record: reading, writing and the schema are read off it.
template <class R>
struct Field {
  const char* name;
  std::variant<std::string R::*, std::optional<double> R::*, std::optional<int> R::*, bool R::*, int R::*,
               std::int64_t R::*, std::vector<Entered> R::*, std::map<std::string, std::string> R::*>
      at;
  const char* says;
  bool from_book = false;  ///< the book sets it: taken without a word, and left alone
};

constexpr const char* kTime = "ISO 8601; set by the book when empty";
constexpr const char* kPurposes =
    "what it was hit for: empty, baseline, exercise, after, retention, transfer, pressure";

std::span<const Field<Settings>> fields(const Settings&) {
  static const std::vector<Field<Settings>> all{
      {"units", &Settings::units, "metric or yards"},
      {"from", &Settings::from, "usual or best: what causes are measured from"},
      {"place", &Settings::place, "where lessons usually are"},
      {"surface", &Settings::surface, "the usual surface"},
      {"sure", &Settings::sure, "own eye: column -> standard deviation in the column's unit"}};
  return all;
}

std::span<const Field<Pupil>> fields(const Pupil&) {
  static const std::vector<Field<Pupil>> all{
      {"id", &Pupil::id, "1 to 40 of a-z 0-9 -"},
      {"name", &Pupil::name, "as the coach writes it"},
      {"hand", &Pupil::hand, "right or left"},
      {"skill", &Pupil::skill, "beginner, club, county, tour, or a handicap"},
      {"height_m", &Pupil::height_m, "0.5 to 2.5, or null"},
      {"birth_year", &Pupil::birth_year, "1900 to 2100, or null"},
      {"notes", &Pupil::notes, "free text"},
      {"cautions", &Pupil::cautions, "of the body, free text"},
      {"bag", &Pupil::bag, "own clubs: a JSON document in a text; empty = the generic bag"},
      {"made_at", &Pupil::made_at, kTime},
      {"language", &Pupil::language, "of what the pupil is given to read: en, de"},
      {"guardian", &Pupil::guardian, "the adult who answers for the pupil, and for what; free text"},
      {"consent_at", &Pupil::consent_at, "day on which consent was given, 2026-11-25; empty = none noted"},
      {"weekly_balls", &Pupil::weekly_balls, "balls a week that there is time for, 0 to 2000, or null"},
      {"next_lesson_at", &Pupil::next_lesson_at, "day of the next lesson, 2026-12-03; empty = not known"}};
  return all;
}

std::span<const Field<Lesson>> fields(const Lesson&) {
  static const std::vector<Field<Lesson>> all{
      {"id", &Lesson::id, "1 to 40 of a-z 0-9 -"},
      {"pupil", &Lesson::pupil, "the pupil's id"},
      {"begun_at", &Lesson::begun_at, kTime},
      {"place", &Lesson::place, "free text"},
      {"notes", &Lesson::notes, "free text"},
      {"club", &Lesson::club, "of the next swing"},
      {"condition", &Lesson::condition, "of the next swing"},
      {"surface", &Lesson::surface, "of the next swing"},
      {"ball", &Lesson::ball, "of the next swing; false = at a chalk line"},
      {"revision", &Lesson::revision, "grows with every change of the lesson; set by the book", true}};
  return all;
}

std::span<const Field<KeptSwing>> fields(const KeptSwing&) {
  static const std::vector<Field<KeptSwing>> all{
      {"id", &KeptSwing::id, "1 to 40 of a-z 0-9 -"},
      {"lesson", &KeptSwing::lesson, "the lesson's id"},
      {"number", &KeptSwing::number, "its place in the lesson; set by the book", true},
      {"club", &KeptSwing::club, "7i, pw, driver ..."},
      {"condition", &KeptSwing::condition, "how it was made"},
      {"surface", &KeptSwing::surface, "what it was hit from"},
      {"ball", &KeptSwing::ball, "false = at a chalk line"},
      {"at", &KeptSwing::at, "ISO 8601, when it was hit"},
      {"seen", &KeptSwing::seen, "what was seen, in the order of entry"},
      {"given", &KeptSwing::given, "id of what was given that it was a part of; empty = of nothing"},
      {"purpose", &KeptSwing::purpose, kPurposes}};
  return all;
}

std::span<const Field<Given>> fields(const Given&) {
  static const std::vector<Field<Given>> all{
      {"id", &Given::id, "1 to 40 of a-z 0-9 -"},
      {"pupil", &Given::pupil, "the pupil's id"},
      {"lesson", &Given::lesson, "the lesson's id; empty = outside of one"},
      {"exercise", &Given::exercise, "its name; empty for a note"},
      {"at", &Given::at, kTime},
      {"notes", &Given::notes, "free text"},
      {"dose", &Given::dose, "a JSON object in a text; empty = as the exercise says"},
      {"cause", &Given::cause, "the name of the cause that it is for, or empty"},
      {"why", &Given::why, "one sentence to the pupil, or empty"},
      {"ended_at", &Given::ended_at, "ISO 8601; empty = still being done"},
      {"sheet", &Given::sheet, "handed over: {language, paper, made_at} in a text; empty = none"}};
  return all;
}

std::span<const Field<OwnExercise>> fields(const OwnExercise&) {
  static const std::vector<Field<OwnExercise>> all{
      {"id", &OwnExercise::id, "1 to 40 of a-z 0-9 -"},
      {"document", &OwnExercise::document, "an exercise document (docs/exercises.md) in a text"},
      {"made_at", &OwnExercise::made_at, kTime}};
  return all;
}

std::span<const Field<SwingChange>> fields(const SwingChange&) {
  static const std::vector<Field<SwingChange>> all{
      {"number", &SwingChange::number, "first = 1"},
      {"at", &SwingChange::at, "ISO 8601, when it was changed"},
      {"who", &SwingChange::who, "this machine, or a paired device's name"},
      {"what", &SwingChange::what, "added, changed, removed, put back"},
      {"seen", &SwingChange::seen, "what was seen, as it was after the change"},
      {"club", &SwingChange::club, "after the change"},
      {"condition", &SwingChange::condition, "after the change"},
      {"surface", &SwingChange::surface, "after the change"},
      {"ball", &SwingChange::ball, "after the change"},
      {"hit_at", &SwingChange::hit_at, "ISO 8601, when it was hit"},
      {"given", &SwingChange::given, "after the change"},
      {"purpose", &SwingChange::purpose, "after the change"}};
  return all;
}

template <class T>
Document written(const T& value) {
  return value;
}
template <class T>
Document written(const std::optional<T>& value) {
  return value ? Document(*value) : Document(nullptr);
}
Document written(const std::vector<Entered>& seen) {
  Document out = Document::array();
  for (const Entered& e : seen) out.push_back({{"column", e.column}, {"text", e.text}});
  return out;
}
Document written(const std::map<std::string, std::string>& map) {
  Document out = Document::object();
  for (const auto& [key, value] : map) out[key] = value;
  return out;
}

template <class R>
Document record_json(const R& record) {
  Document out = Document::object();
  for (const Field<R>& field : fields(record))
    std::visit([&](auto at) { out[field.name] = written(record.*at); }, field.at);
  return out;
}

/// Reads one record, member by member, into the defaults.
class Reader {
 public:
  Reader(const Document& document, std::string path)
      : document_{document}, path_{std::move(path)}, door_{document, path_, fault_} {}

  template <class R>
  R record(R into) {
    for (const Field<R>& field : fields(into)) {
      if (!door_.has(field.name) || field.from_book) continue;
      std::visit([&](auto at) { read(field.name, into.*at); }, field.at);
    }
    door_.done();
    return into;
  }

  /// A member that the program adds when it answers: taken without a word.
  void leave(const char* key) { static_cast<void>(door_.has(key)); }

  /// The record's own name: said in the path, in the document, or in both alike.
  void same(const char* key, std::string& value, const std::string& said) {
    if (!said.empty() && value != said && document_.contains(key))
      door_.wrong(key, strikewright::quoted(value), strikewright::quoted(said) + ", as in the path");
    if (!said.empty()) value = said;
    needed(key, value, "a name: 1 to 40 of a-z 0-9 -");
  }

  void needed(const char* key, const std::string& value, const char* expected) {
    if (value.empty()) door_.wrong(key, "nothing", expected);
  }

  [[nodiscard]] const std::optional<Fault>& fault() const { return fault_; }

 private:
  void read(const char* key, std::string& into) { into = door_.text(key); }
  void read(const char* key, bool& into) { into = door_.truth(key); }
  void read(const char* key, std::optional<double>& into) {
    into = door_.is_null(key) ? std::nullopt : std::optional(door_.number(key));
  }
  void read(const char* key, std::optional<int>& into) {
    if (door_.is_null(key)) return;
    const Document& value = document_[key];
    constexpr std::int64_t kMost = 1'000'000;
    if (value.is_number_integer() && value.get<double>() >= -kMost && value.get<double>() <= kMost)
      into = value.get<int>();
    else
      door_.wrong(key, value.is_string() ? "a text" : dumped_short(value), "a whole number or null");
  }
  void read(const char* key, int&) { static_cast<void>(door_.has(key)); }
  void read(const char* key, std::int64_t&) { static_cast<void>(door_.has(key)); }
  void read(const char* key, std::map<std::string, std::string>& into) {
    into.clear();
    const Document& value = document_[key];
    if (!value.is_object()) return door_.wrong(key, dumped_short(value), "an object { column: text }");
    for (const auto& [column, text] : value.items()) {
      if (!text.is_string()) return door_.wrong(key, dumped_short(text), "texts, such as \"30\"");
      into[column] = text.get<std::string>();
    }
  }
  void read(const char* key, std::vector<Entered>& into) {
    into.clear();
    const Document& value = document_[key];
    const char* wanted = "a list of { column, text }";
    if (!value.is_array()) return door_.wrong(key, dumped_short(value), wanted);
    for (std::size_t k = 0; k < value.size(); ++k) {
      if (!value[k].is_object()) return door_.wrong(key, dumped_short(value[k]), wanted);
      JsonDoor one{value[k], fmt::format("{}{}[{}]", path_.empty() ? "" : path_ + ".", key, k), fault_};
      into.push_back({.column = one.text("column"), .text = one.text("text")});
      one.done();
    }
  }
  static std::string dumped_short(const Document& value) {
    if (value.is_object()) return "an object";
    if (value.is_array()) return fmt::format("a list of {}", value.size());
    return value.is_string() ? "a text" : value.dump();
  }

  const Document& document_;
  std::string path_;
  std::optional<Fault> fault_{};
  JsonDoor door_;
};

const char* schema_type(const std::string&) { return "string"; }
const char* schema_type(bool) { return "boolean"; }
const char* schema_type(int) { return "integer"; }
const char* schema_type(std::int64_t) { return "integer"; }

template <class T>
Document schema_of(const T& value) {
  return {{"type", schema_type(value)}};
}
Document schema_of(const std::vector<std::string>&) {
  return {{"type", "array"}, {"items", {{"type", "string"}}}};
}
Document schema_of(const std::optional<double>&) { return {{"type", {"number", "null"}}}; }
Document schema_of(const std::optional<int>&) { return {{"type", {"integer", "null"}}}; }
Document schema_of(const std::map<std::string, std::string>&) {
  return {{"type", "object"}, {"additionalProperties", {{"type", "string"}}}};
}
Document schema_of(const std::vector<Entered>&) {
  const Document text{{"type", "string"}};
  const Document one{{"type", "object"},
                     {"properties", {{"column", text}, {"text", text}}},
                     {"required", {"column", "text"}}};
  return {{"type", "array"}, {"items", one}};
}

template <class R>
Document record_schema() {
  const R standard{};
  Document properties = Document::object();
  for (const Field<R>& field : fields(standard)) {
    Document one = std::visit([&](auto at) { return schema_of(standard.*at); }, field.at);
    one["description"] = field.says;
    if (field.from_book) one["readOnly"] = true;
    properties[field.name] = one;
  }
  return {{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
}

/// What was given, with what the program adds to it when it answers.
Document given_schema() {
  Document out = record_schema<Given>();
  const auto added = [&](const char* name, const auto& standard, const char* says) {
    Document one = schema_of(standard);
    one["description"] = says;
    one["readOnly"] = true;
    out["properties"][name] = one;
  };
  added("permission", std::string{}, "may this pupil do it on that lesson's ground: free, flagged, hidden");
  added("reasons", std::vector<std::string>{}, "why it is flagged (ask first) or hidden; English");
  added("cautions", std::vector<std::string>{},
        "its own, what this pupil's body asks for, those of every exercise; empty for a note only");
  return out;
}

}  // namespace

Document json_of(const Settings& settings) { return record_json(settings); }
Document json_of(const Pupil& pupil) { return record_json(pupil); }
Document json_of(const Lesson& lesson) { return record_json(lesson); }
Document json_of(const KeptSwing& swing) { return record_json(swing); }
Document json_of(const Given& given, const GivenCare& care) {
  Document out = record_json(given);
  out["permission"] = name_of(care.permission.permit);
  out["reasons"] = care.permission.reasons;
  out["cautions"] = care.cautions;
  return out;
}
Document json_of(const OwnExercise& exercise) { return record_json(exercise); }
Document json_of(const SwingChange& change) { return record_json(change); }

Result<Settings> settings_from(const Document& document) {
  Reader reader{document, ""};
  Settings settings = reader.record(Settings{});
  if (reader.fault()) return unexpected(*reader.fault());
  return settings;
}

Result<Pupil> pupil_from(const Document& document, const Id& id) {
  Reader reader{document, ""};
  Pupil pupil = reader.record(Pupil{});
  reader.same("id", pupil.id, id);
  if (reader.fault()) return unexpected(*reader.fault());
  return pupil;
}

Result<Lesson> lesson_from(const Document& document, const Id& id) {
  Reader reader{document, ""};
  Lesson lesson = reader.record(Lesson{});
  reader.same("id", lesson.id, id);
  reader.same("pupil", lesson.pupil, "");
  if (reader.fault()) return unexpected(*reader.fault());
  return lesson;
}

Result<KeptSwing> swing_from(const Document& document, const Id& id, const Id& lesson,
                             const std::string& place) {
  Reader reader{document, place};
  KeptSwing swing = reader.record(KeptSwing{});
  reader.same("id", swing.id, id);
  reader.same("lesson", swing.lesson, lesson);
  if (reader.fault()) return unexpected(*reader.fault());
  return swing;
}

Result<std::vector<KeptSwing>> swings_from(const Document& document, const Id& lesson) {
  std::optional<Fault> fault;
  JsonDoor door{document, "", fault};
  static_cast<void>(door.has("swings"));
  door.done();
  if (fault) return unexpected(*fault);
  if (!document.contains("swings") || !document["swings"].is_array() || document["swings"].empty())
    return unexpected(Fault{"swings", "none", "a list of at least one swing"});
  std::vector<KeptSwing> swings;
  for (const Document& one : document["swings"]) {
    const std::string place = fmt::format("swings[{}]", swings.size());
    if (!one.is_object()) return unexpected(Fault{place, "no object", "an object { }"});
    Result<KeptSwing> swing = swing_from(one, "", lesson, place);
    if (!swing) return unexpected(swing.error());
    swings.push_back(std::move(*swing));
  }
  return swings;
}

Result<Given> given_from(const Document& document, const Id& id) {
  Reader reader{document, ""};
  for (const char* name : {"permission", "reasons", "cautions"}) reader.leave(name);
  Given given = reader.record(Given{});
  reader.same("id", given.id, id);
  reader.same("pupil", given.pupil, "");
  if (reader.fault()) return unexpected(*reader.fault());
  return given;
}

Result<OwnExercise> own_exercise_from(const Document& document, const Id& id) {
  Reader reader{document, ""};
  OwnExercise exercise = reader.record(OwnExercise{});
  reader.same("id", exercise.id, id);
  reader.needed("document", exercise.document, "an exercise document in a text");
  if (reader.fault()) return unexpected(*reader.fault());
  return exercise;
}

Document record_schemas() {
  return {{"Settings", record_schema<Settings>()},
          {"Pupil", record_schema<Pupil>()},
          {"Lesson", record_schema<Lesson>()},
          {"Swing", record_schema<KeptSwing>()},
          {"Given", given_schema()},
          {"OwnExercise", record_schema<OwnExercise>()},
          {"SwingChange", record_schema<SwingChange>()}};
}

}  // namespace strikewright
