#include "book/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "quantity/nearest.hpp"

namespace strikewright::kept {
namespace {

Json seen_json(const std::vector<Entered>& seen) {
  Json out = Json::array();
  for (const Entered& one : seen) out.push_back({{"column", one.column}, {"text", one.text}});
  return out;
}

template <class T>
Json or_null(const std::optional<T>& maybe) {
  return maybe ? Json(*maybe) : Json(nullptr);
}

/// "an object", "the text 'fast'", "12": what stood there, short.
std::string shown(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return fmt::format("a list of {}", value.size());
  if (value.is_string()) return "the text " + strikewright::quoted(value.get_ref<const std::string&>());
  return value.dump();
}

bool is_whole(const Json& value) {
  if (value.is_number_unsigned())
    return value.get<std::uint64_t>() <= std::numeric_limits<std::int64_t>::max();
  return value.is_number_integer();
}
bool is_int(const Json& value) {
  return is_whole(value) && value.get<std::int64_t>() >= std::numeric_limits<int>::min() &&
         value.get<std::int64_t>() <= std::numeric_limits<int>::max();
}
bool is_text(const Json& value) { return value.is_string(); }
bool is_truth(const Json& value) { return value.is_boolean(); }
bool is_number_or_null(const Json& value) { return value.is_number() || value.is_null(); }
bool is_int_or_null(const Json& value) { return is_int(value) || value.is_null(); }
bool is_object_or_null(const Json& value) { return value.is_object() || value.is_null(); }
bool is_list(const Json& value) { return value.is_array(); }

}  // namespace

Json json_of(const Settings& s) {
  return {{"units", s.units},
          {"from", s.from},
          {"place", s.place},
          {"surface", s.surface},
          {"sure", Json(s.sure)}};
}

Json json_of(const Pupil& p) {
  return {{"id", p.id},
          {"name", p.name},
          {"hand", p.hand},
          {"skill", p.skill},
          {"height_m", or_null(p.height_m)},
          {"birth_year", or_null(p.birth_year)},
          {"notes", p.notes},
          {"cautions", p.cautions},
          {"bag", p.bag},
          {"made_at", p.made_at},
          {"language", p.language},
          {"guardian", p.guardian},
          {"consent_at", p.consent_at},
          {"weekly_balls", or_null(p.weekly_balls)},
          {"next_lesson_at", p.next_lesson_at}};
}

Json json_of(const Lesson& l) {
  return {{"id", l.id},       {"pupil", l.pupil},      {"begun_at", l.begun_at},   {"place", l.place},
          {"notes", l.notes}, {"club", l.club},        {"condition", l.condition}, {"surface", l.surface},
          {"ball", l.ball},   {"revision", l.revision}};
}

Json json_of(const KeptSwing& s) {
  return {{"id", s.id},
          {"lesson", s.lesson},
          {"number", s.number},
          {"club", s.club},
          {"condition", s.condition},
          {"surface", s.surface},
          {"ball", s.ball},
          {"at", s.at},
          {"seen", seen_json(s.seen)},
          {"given", s.given},
          {"purpose", s.purpose}};
}

Json json_of(const SwingChange& c) {
  return {{"number", c.number},
          {"at", c.at},
          {"who", c.who},
          {"what", c.what},
          {"seen", seen_json(c.seen)},
          {"club", c.club},
          {"condition", c.condition},
          {"surface", c.surface},
          {"ball", c.ball},
          {"hit_at", c.hit_at},
          {"given", c.given},
          {"purpose", c.purpose}};
}

Json json_of(const KeptReading& r) {
  return {{"lesson", r.lesson},   {"revision", r.revision}, {"from", r.from},      {"version", r.version},
          {"made_at", r.made_at}, {"document", r.document}, {"summary", r.summary}};
}

Json json_of(const Given& g) {
  return {{"id", g.id},   {"pupil", g.pupil},       {"lesson", g.lesson}, {"exercise", g.exercise},
          {"at", g.at},   {"notes", g.notes},       {"dose", g.dose},     {"cause", g.cause},
          {"why", g.why}, {"ended_at", g.ended_at}, {"sheet", g.sheet}};
}

Json json_of(const OwnExercise& e) {
  return {{"id", e.id}, {"document", e.document}, {"made_at", e.made_at}};
}

Members::Members(const Json& object, std::string place) : object_{&object}, place_{std::move(place)} {
  static const Json nothing = Json::object();
  if (object.is_object()) return;
  fault_ = Fault{place_, shown(object), "an object { }"};
  object_ = &nothing;
}

void Members::wrong(const std::string& key, std::string found, std::string expected) {
  if (!fault_) fault_ = Fault{place_ + "." + key, std::move(found), std::move(expected)};
}

const Json* Members::find(const char* key, const char* expected, bool (*is)(const Json&)) {
  taken_.emplace_back(key);
  const auto at = object_->find(key);
  if (at == object_->end()) return nullptr;
  if (is(*at)) return &*at;
  wrong(key, shown(*at), expected);
  return nullptr;
}

Members& Members::take(const char* key, std::string& into) {
  if (const Json* value = find(key, "a text", is_text)) into = value->get<std::string>();
  return *this;
}
Members& Members::take(const char* key, bool& into) {
  if (const Json* value = find(key, "true or false", is_truth)) into = value->get<bool>();
  return *this;
}
Members& Members::take(const char* key, int& into) {
  if (const Json* value = find(key, "a whole number", is_int)) into = value->get<int>();
  return *this;
}
Members& Members::take(const char* key, std::int64_t& into) {
  if (const Json* value = find(key, "a whole number", is_whole)) into = value->get<std::int64_t>();
  return *this;
}
Members& Members::take(const char* key, std::optional<double>& into) {
  const Json* value = find(key, "a number or null", is_number_or_null);
  if (value != nullptr && !value->is_null()) into = value->get<double>();
  return *this;
}
Members& Members::take(const char* key, std::optional<int>& into) {
  const Json* value = find(key, "a whole number or null", is_int_or_null);
  if (value != nullptr && !value->is_null()) into = value->get<int>();
  return *this;
}

Members& Members::take(const char* key, std::map<std::string, std::string>& into) {
  const Json* value = object(key);
  if (value == nullptr) return *this;
  for (const auto& [name, text] : value->items()) {
    if (!text.is_string()) wrong(std::string(key) + "." + name, shown(text), "a text");
    if (text.is_string()) into[name] = text.get<std::string>();
  }
  return *this;
}

Members& Members::take(const char* key, std::vector<Entered>& into) {
  const Json* value = list(key);
  if (value == nullptr) return *this;
  for (std::size_t k = 0; k < value->size(); ++k) {
    Members one((*value)[k], fmt::format("{}.{}[{}]", place_, key, k));
    Entered entered;
    one.take("column", entered.column).take("text", entered.text);
    if (auto good = one.done(); !good && !fault_) fault_ = good.error();
    into.push_back(std::move(entered));
  }
  return *this;
}

const Json* Members::object(const char* key) {
  const Json* value = find(key, "an object { }", is_object_or_null);
  return value == nullptr || value->is_null() ? nullptr : value;
}

const Json* Members::list(const char* key) { return find(key, "a list [ ]", is_list); }

Result<void> Members::done() {
  for (const auto& [key, value] : object_->items()) {
    if (std::find(taken_.begin(), taken_.end(), key) != taken_.end()) continue;
    const std::string near = suggestion(key, taken_);
    wrong(key, "this key",
          near.empty() ? fmt::format("one of {}", fmt::join(taken_, ", ")) : "a known one" + near);
  }
  if (fault_) return unexpected(*fault_);
  return {};
}

void take(Members& from, Settings& s) {
  from.take("units", s.units)
      .take("from", s.from)
      .take("place", s.place)
      .take("surface", s.surface)
      .take("sure", s.sure);
}

void take(Members& from, Pupil& p) {
  from.take("id", p.id)
      .take("name", p.name)
      .take("hand", p.hand)
      .take("skill", p.skill)
      .take("height_m", p.height_m);
  from.take("birth_year", p.birth_year)
      .take("notes", p.notes)
      .take("cautions", p.cautions)
      .take("bag", p.bag);
  from.take("made_at", p.made_at)
      .take("language", p.language)
      .take("guardian", p.guardian)
      .take("consent_at", p.consent_at);
  from.take("weekly_balls", p.weekly_balls).take("next_lesson_at", p.next_lesson_at);
}

void take(Members& from, Lesson& l) {
  from.take("id", l.id)
      .take("pupil", l.pupil)
      .take("begun_at", l.begun_at)
      .take("place", l.place)
      .take("notes", l.notes);
  from.take("club", l.club).take("condition", l.condition).take("surface", l.surface).take("ball", l.ball);
  from.take("revision", l.revision);
}

void take(Members& from, KeptSwing& s) {
  from.take("id", s.id).take("lesson", s.lesson).take("number", s.number).take("club", s.club);
  from.take("condition", s.condition)
      .take("surface", s.surface)
      .take("ball", s.ball)
      .take("at", s.at)
      .take("seen", s.seen);
  from.take("given", s.given).take("purpose", s.purpose);
}

void take(Members& from, SwingChange& c) {
  from.take("number", c.number).take("at", c.at).take("who", c.who).take("what", c.what).take("seen", c.seen);
  from.take("club", c.club).take("condition", c.condition).take("surface", c.surface).take("ball", c.ball);
  from.take("hit_at", c.hit_at).take("given", c.given).take("purpose", c.purpose);
}

void take(Members& from, KeptReading& r) {
  from.take("lesson", r.lesson).take("revision", r.revision).take("from", r.from).take("version", r.version);
  from.take("made_at", r.made_at).take("document", r.document).take("summary", r.summary);
}

void take(Members& from, Given& g) {
  from.take("id", g.id)
      .take("pupil", g.pupil)
      .take("lesson", g.lesson)
      .take("exercise", g.exercise)
      .take("at", g.at);
  from.take("notes", g.notes).take("dose", g.dose).take("cause", g.cause).take("why", g.why);
  from.take("ended_at", g.ended_at).take("sheet", g.sheet);
}

void take(Members& from, OwnExercise& e) {
  from.take("id", e.id).take("document", e.document).take("made_at", e.made_at);
}

Result<Json> parsed(const std::string& text, const std::string& name) {
  try {
    return Json::parse(text);
  } catch (const Json::parse_error& thrown) {
    const auto end = text.begin() + static_cast<std::ptrdiff_t>(
                                        std::min(text.size(), thrown.byte > 0 ? thrown.byte - 1 : 0));
    const auto line_start = std::find(std::make_reverse_iterator(end), text.rend(), '\n').base();
    const std::string place =
        fmt::format("{}:{}:{}", name, 1 + std::count(text.begin(), end, '\n'), end - line_start + 1);
    return unexpected(Fault{place, end == text.end() ? "the end" : strikewright::quoted(std::string(1, *end)),
                            "well-formed JSON"});
  } catch (const Json::exception&) {
    return unexpected(Fault{name, "a number beyond 1e308", "numbers that a computer can hold"});
  }
}

}  // namespace strikewright::kept
