// The routes as other programs want them described: OpenAPI 3.1, from the same table that the router goes by.

#include <nlohmann/json.hpp>
#include <sstream>

#include "serve/records.hpp"
#include "serve/routes.hpp"

namespace strikewright {
namespace {

/// Shapes that are no record of the book: members with their types. `*` = a list, `?` = may be left out or
/// null.
struct Shape {
  const char* name;
  const char* members;  ///< "version string, lessons *Lesson"
};

constexpr Shape kShapes[] = {
    {"About", "version string, book string, empty boolean, shared boolean, at_home boolean"},
    {"Words", "clubs *object, surfaces *string, conditions *object, skills *string, columns *object"},
    {"Nothing", ""},
    {"Filled", "pupils integer"},
    {"WholeBook", "format integer"},
    {"PupilLine", "pupil Pupil, lessons integer, swings integer, last_lesson_at string"},
    {"Pupils", "pupils *PupilLine"},
    {"LessonLine", "lesson Lesson, swings integer, reading ?object, given *Given"},
    {"Timeline", "pupil Pupil, lessons *LessonLine"},
    {"Erase", "erase string"},
    {"Erased", "lessons integer, swings integer"},
    {"LessonAndSwings", "lesson Lesson, pupil Pupil, swings *Swing"},
    {"Revision", "revision integer"},
    {"Changes", "changes *SwingChange"},
    {"Swings", "swings *Swing"},
    {"GivenList", "given *Given"},
    {"OwnExercises", "exercises *OwnExercise"},
    {"Table", "text string, columns ?object"},
    {"Preview", "columns *object, rows *array, swings *Swing, faults *FaultShape"},
    {"Reading",
     "lesson string, revision integer, version string, units string, from string, n integer, ids *string, "
     "numbers *integer, words *object, pictures *object, result ?object, left_out integer"},
    {"FlailAsked",
     "hand ?string, skill ?string, club ?string, units ?string, pass ?object, moved ?object, noise ?number"},
    {"Flail", "frames *object, arc *array, contact object, plan object, ball ?object, says *string"},
    {"FlailScatter", "ways *object"},
    {"Exercises", "language string, always *string, exercises *object"},
    {"Ranking",
     "lesson string, club string, rests_on_prior boolean, says *string, now object, ranked *object, left_out "
     "*object, second_first *string, cautions *string"},
    {"Proof",
     "given string, exercise string, title string, club string, quantity string, unit string, plus string, "
     "minus string, wish object, smallest_worth number, dose_balls ?integer, counted object, says *string, "
     "session object, retention ?object, transfer ?object, pressure ?object, points *object, single_case "
     "?object"},
    {"Plan",
     "given string, today string, next_lesson string, sessions *object, weeks *object, target object, junior "
     "boolean, weekly_now_assumed boolean"},
    {"Progress", "pupil string, club ?string, unit string, lessons *object, given *object"},
    {"Pairing",
     "shared boolean, url ?string, code ?string, code_ends_at ?string, fingerprint ?string, qr ?array"},
    {"PairAsked", "code string, name string"},
    {"Device", "id string, name string, paired_at string, seen_at string, this boolean"},
    {"Devices", "devices *Device"},
    {"Description", "openapi string, paths object"},
    {"FaultShape", "place string, found string, expected string"},
    {"Faults", "error FaultShape, more ?array"},
};

Document reference(const std::string& name) { return {{"$ref", "#/components/schemas/" + name}}; }

Document type_of(const std::string& what) {
  if (what.front() == '*') return {{"type", "array"}, {"items", type_of(what.substr(1))}};
  if (what.front() == '?') return {{"type", {what.substr(1), "null"}}};
  const bool is_shape = what.front() >= 'A' && what.front() <= 'Z';
  return is_shape ? reference(what) : Document{{"type", what}};
}

Document schema_of(const Shape& shape) {
  Document properties = Document::object(), required = Document::array();
  std::istringstream members{shape.members};
  for (std::string name, what; members >> name && std::getline(members >> std::ws, what, ',');) {
    properties[name] = type_of(what);
    if (what.front() != '?') required.push_back(name);
  }
  Document out{{"type", "object"}, {"properties", properties}};
  if (!required.empty()) out["required"] = required;
  return out;
}

Document content(const char* type, const Document& schema) {
  return {{"content", {{type, {{"schema", schema}}}}}};
}

Document parameters_of(const Route& route) {
  Document out = Document::array();
  if (route.pattern.find("{id}") != std::string::npos)
    out.push_back({{"name", "id"},
                   {"in", "path"},
                   {"required", true},
                   {"schema", {{"type", "string"}, {"pattern", "^[a-z0-9-]{1,40}$"}}}});
  for (const std::string& name : route.query)
    out.push_back({{"name", name}, {"in", "query"}, {"schema", {{"type", "string"}}}});
  return out;
}

Document answer_of(const Route& route) {
  const Document text{{"type", "string"}};
  Document good = route.gives == "PageFile" || route.gives == "Sheet" ? content("*/*", text)
                  : route.gives == "Events"                           ? content("text/event-stream", text)
                  : route.gives == "Calendar"                         ? content("text/calendar", text)
                                              : content("application/json", reference(route.gives));
  good["description"] = route.says;
  Document bad = content("application/json", reference("Faults"));
  bad["description"] = "what was wrong, and where";
  return {{"200", good}, {"default", bad}};
}

Document operation_of(const Route& route) {
  Document out{{"summary", route.says}};
  if (route.whom == For::anybody) out["security"] = Document::array();
  const Document parameters = parameters_of(route);
  if (!parameters.empty()) out["parameters"] = parameters;
  if (!route.takes.empty()) {
    out["requestBody"] = content("application/json", reference(route.takes));
    out["requestBody"]["required"] = true;
  }
  out["responses"] = answer_of(route);
  return out;
}

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  return text;
}

}  // namespace

Document described(const std::vector<Route>& routes, const std::string& version) {
  Document paths = Document::object();
  for (const Route& route : routes) paths[route.pattern][lower(route.method)] = operation_of(route);
  Document schemas = record_schemas();
  for (const Shape& shape : kShapes) schemas[shape.name] = schema_of(shape);
  const Document cookie{{"type", "apiKey"}, {"in", "cookie"}, {"name", "__Host-strikewright"}};
  return {{"openapi", "3.1.0"},
          {"info", {{"title", "Strikewright"}, {"version", version}, {"license", {{"name", "MIT"}}}}},
          {"paths", paths},
          {"components", {{"schemas", schemas}, {"securitySchemes", {{"paired", cookie}}}}},
          {"security", {{{"paired", Document::array()}}}}};
}

}  // namespace strikewright
