// From an exercise document to an Exercise.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "bag/family.hpp"
#include "exercise/exercise.hpp"
#include "exercise/member_reader.hpp"
#include "exercise/wording.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kTextBytes = 64'000, kDrawingBytes = 12'000;
constexpr std::size_t kTitle = 48, kCue = 90, kStep = 160, kLong = 200;  // letters

template <class E>
std::vector<std::string> names(std::size_t count) {
  std::vector<std::string> out;
  for (std::size_t k = 0; k < count; ++k) out.emplace_back(name_of(static_cast<E>(k)));
  return out;
}

template <class E>
std::vector<E> as(const std::vector<std::size_t>& places) {
  std::vector<E> out;
  out.reserve(places.size());
  for (const std::size_t k : places) out.push_back(static_cast<E>(k));
  return out;
}

bool holds(const std::vector<BodyNote>& list, BodyNote note) {
  return std::find(list.begin(), list.end(), note) != list.end();
}

class ExerciseReader {
 public:
  ExerciseReader(const std::string& place, const std::string& wanted_name)
      : r_{place}, wanted_name_{wanted_name} {}

  Result<Exercise> read(const Json& d) {
    const std::vector<std::string> members{"name",    "source", "family",  "moves", "moves_mark", "condition",
                                           "ball",    "turf",   "ground",  "clubs", "kit",        "dose",
                                           "stage",   "load",   "balance", "jump",  "not_with",   "ask_first",
                                           "crowded", "needs",  "words"};
    if (r_.object(d, "", members, {"drawing"})) {
      identity(d);
      moves(d["moves"]);
      surroundings(d);
      dose(d["dose"]);
      body(d);
      words(d["words"]);
      if (d.contains("drawing")) drawing(d["drawing"]);
    }
    if (!r_.fault()) agree();
    if (r_.fault()) return unexpected(*r_.fault());
    return std::move(e_);
  }

 private:
  void identity(const Json& d) {
    e_.name = r_.text(d["name"], "name");
    const bool plain = e_.name.size() >= 3 && e_.name.size() <= 40 &&
                       e_.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == std::string::npos;
    if (!plain) r_.refuse("name", strikewright::quoted(e_.name), "3 to 40 of the letters a to z and _");
    if (!wanted_name_.empty() && e_.name != wanted_name_)
      r_.refuse("name", strikewright::quoted(e_.name), strikewright::quoted(wanted_name_));
    e_.source = r_.text(d["source"], "source");
    fit(e_.source, kLong, "source");
    if (e_.source != "common practice, no source" && !names_a_year(e_.source))
      r_.refuse("source", strikewright::quoted(e_.source),
                "'common practice, no source', or author, title, journal, year");
    e_.family = static_cast<ExerciseFamily>(r_.word(d["family"], "family", names<ExerciseFamily>(7)));
    if (r_.text(d["moves_mark"], "moves_mark") != "assumption")
      r_.refuse("moves_mark", strikewright::quoted(d["moves_mark"].dump()),
                "'assumption': nobody has measured them");
    e_.stage = static_cast<PracticeStage>(r_.word(d["stage"], "stage", names<PracticeStage>(3)));
  }

  static bool names_a_year(const std::string& source) {
    if (std::count(source.begin(), source.end(), ',') < 3 || source.size() < 4) return false;
    const std::string year = source.substr(source.size() - 4);
    return year.find_first_not_of("0123456789") == std::string::npos && year >= "1850" && year <= "2100";
  }

  void moves(const Json& list) {
    constexpr double kMostSteps = 4.0;  // steps of the cause: further no exercise goes
    std::set<Cause> seen;
    if (!r_.array(list, "moves", 1, 4, "moves")) return;
    for (std::size_t k = 0; k < list.size(); ++k) {
      const std::string at = fmt::format("moves[{}]", k);
      if (!r_.object(list[k], at, {"cause", "home", "home_sd", "shift", "shift_sd", "scatter", "scatter_sd"}))
        return;
      const Json& m = list[k];
      Move move;
      move.cause = static_cast<Cause>(r_.word(m["cause"], at + ".cause", names<Cause>(kCauses)));
      const CauseFacts& facts = kCauseFacts[static_cast<std::size_t>(move.cause)];
      const double far = kMostSteps * facts.step / facts.scale;
      move.home = facts.scale * r_.number(m["home"], at + ".home", -far, far);
      move.home_sd = facts.scale * r_.number(m["home_sd"], at + ".home_sd", 0.0, far);
      move.shift = r_.number(m["shift"], at + ".shift", 0.0, 1.0);
      move.shift_sd = r_.number(m["shift_sd"], at + ".shift_sd", 0.0, 0.5);
      move.scatter = r_.number(m["scatter"], at + ".scatter", 0.3, 1.5);
      move.scatter_sd = r_.number(m["scatter_sd"], at + ".scatter_sd", 0.0, 0.5);
      if (!seen.insert(move.cause).second)
        r_.refuse(at + ".cause", strikewright::quoted(facts.name) + " a second time", "each cause once");
      e_.moves.push_back(move);
    }
  }

  void surroundings(const Json& d) {
    const std::vector<std::string> families(kFamilyNames.begin(), kFamilyNames.end());
    e_.condition = static_cast<Condition>(r_.word(d["condition"], "condition", names<Condition>(6)));
    e_.ball = r_.truth(d["ball"], "ball");
    e_.turf = r_.truth(d["turf"], "turf");
    e_.ground = as<Surface>(r_.words(d["ground"], "ground", names<Surface>(7), 1));
    e_.clubs = as<Family>(r_.words(d["clubs"], "clubs", families, 1));
    e_.crowded = r_.truth(d["crowded"], "crowded");
    if (r_.object(d["needs"], "needs", {"reach"}))
      e_.reach = r_.number(d["needs"]["reach"], "needs.reach", 0.0, 1.0);
    constexpr std::size_t kMostKit = 8;
    if (!r_.array(d["kit"], "kit", 0, kMostKit, "things")) return;
    for (std::size_t k = 0; k < d["kit"].size(); ++k) {
      const std::string at = fmt::format("kit[{}]", k);
      const Json& thing = d["kit"][k];
      if (!r_.object(thing, at, {"en", "de"})) return;
      e_.kit.push_back({text(thing["en"], kTitle, at + ".en"), text(thing["de"], kTitle, at + ".de")});
    }
  }

  void dose(const Json& d) {
    if (!r_.object(d, "dose", {"balls", "sets", "rest_s", "minutes", "days_a_week"})) return;
    Dose& dose = e_.dose;
    dose.balls = r_.whole(d["balls"], "dose.balls", 4, 60);
    dose.sets = r_.whole(d["sets"], "dose.sets", 1, 10);
    dose.rest_s = r_.whole(d["rest_s"], "dose.rest_s", 0, 300);
    dose.minutes = r_.whole(d["minutes"], "dose.minutes", 3, 40);
    dose.days_a_week = r_.whole(d["days_a_week"], "dose.days_a_week", 1, 6);
    constexpr int kSecondsPerSwing = 5;  // in a hurry, assumption
    const int least = dose.balls * kSecondsPerSwing + (dose.sets - 1) * dose.rest_s;
    if (dose.balls < dose.sets)
      r_.refuse("dose.sets", fmt::format("{} sets of {} swings", dose.sets, dose.balls),
                "a swing in each set");
    if (least > 60 * dose.minutes)
      r_.refuse("dose.minutes", fmt::format("{}", dose.minutes),
                fmt::format("room for the swings and rests, {} s at least", least));
  }

  void body(const Json& d) {
    e_.load = as<BodyNote>(r_.words(d["load"], "load", names<BodyNote>(kBodyParts), 0));
    e_.balance = r_.truth(d["balance"], "balance");
    e_.jump = r_.truth(d["jump"], "jump");
    e_.not_with = as<BodyNote>(r_.words(d["not_with"], "not_with", names<BodyNote>(kBodyNotes), 0));
    e_.ask_first = as<BodyNote>(r_.words(d["ask_first"], "ask_first", names<BodyNote>(kBodyNotes), 0));
  }

  void words(const Json& both) {
    if (!r_.object(both, "words", {"en", "de"})) return;
    std::array<ExerciseText, kLanguages> texts;
    for (const Language l : {Language::en, Language::de})
      texts[static_cast<std::size_t>(l)] = words_of(both[name_of(l)], std::string("words.") + name_of(l));
    e_.words = ExerciseWords(std::move(texts));
  }

  ExerciseText words_of(const Json& w, const std::string& at) {
    ExerciseText t;
    if (!r_.object(w, at,
                   {"title", "purpose", "cue", "steps", "self_check", "errors", "progression", "regression",
                    "cautions", "dose", "alt"}))
      return t;
    t.title = text(w["title"], kTitle, at + ".title");
    t.purpose = text(w["purpose"], kLong, at + ".purpose");
    t.cue = text(w["cue"], kCue, at + ".cue");
    t.steps = list(w["steps"], 3, 6, kStep, at + ".steps");
    t.self_check = list(w["self_check"], 1, 3, kLong, at + ".self_check");
    t.errors = list(w["errors"], 2, 4, kLong, at + ".errors");
    for (std::size_t k = 0; k < t.errors.size(); ++k)
      if (t.errors[k].find(": ") == std::string::npos)
        r_.refuse(fmt::format("{}.errors[{}]", at, k), strikewright::quoted(t.errors[k]),
                  "what goes wrong: what to do");
    t.progression = text(w["progression"], kLong, at + ".progression");
    t.regression = text(w["regression"], kLong, at + ".regression");
    t.cautions = list(w["cautions"], 2, 4, kLong, at + ".cautions");
    t.dose = text(w["dose"], kLong, at + ".dose");
    t.alt = text(w["alt"], kLong, at + ".alt");
    return t;
  }

  void drawing(const Json& d) {
    e_.drawing = r_.text(d, "drawing");
    const Result<void> good = drawing_fault(e_.drawing);
    if (!good) r_.refuse("drawing, " + good.error().place, good.error().found, good.error().expected);
  }

  /// What the members say together.
  void agree() {
    for (const BodyNote n : e_.not_with)
      if (holds(e_.ask_first, n))
        r_.refuse("ask_first", strikewright::quoted(name_of(n)) + " in both lists",
                  "it in not_with or in ask_first");
    const auto ruled = [&](BodyNote n) { return holds(e_.not_with, n) || holds(e_.ask_first, n); };
    const auto need = [&](BodyNote n, const char* why) {
      if (!ruled(n))
        r_.refuse("ask_first", std::string("no rule for ") + name_of(n),
                  std::string(name_of(n)) + " in not_with or ask_first, because " + why);
    };
    for (const BodyNote n : e_.load) need(n, "load names it");
    if (e_.balance) need(BodyNote::balance, "it needs good balance");
    if (e_.jump) {
      for (const BodyNote n : {BodyNote::back, BodyNote::hip, BodyNote::knee, BodyNote::ankle,
                               BodyNote::balance, BodyNote::pregnancy, BodyNote::bone})
        if (!holds(e_.not_with, n))
          r_.refuse("not_with", std::string("no ") + name_of(n),
                    "it there, because the feet leave the ground");
      if (!e_.balance) r_.refuse("balance", "false", "true, because the feet leave the ground");
      if (e_.crowded) r_.refuse("crowded", "true", "false, because the feet leave the ground");
    }
    const bool stands_oddly = e_.condition != Condition::normal && e_.condition != Condition::trail_hand;
    if (stands_oddly && !e_.balance)
      r_.refuse("balance", "false", std::string("true with the condition ") + name_of(e_.condition));
    const auto lists = [&](Surface s) {
      return std::find(e_.ground.begin(), e_.ground.end(), s) != e_.ground.end();
    };
    if (e_.turf && (lists(Surface::mat) || lists(Surface::fairway_firm)))
      for (const BodyNote n : {BodyNote::wrist, BodyNote::elbow}) need(n, "hard ground or a mat is struck");
  }

  std::string text(const Json& value, std::size_t most, const std::string& path) {
    std::string out = r_.text(value, path);
    fit(out, most, path);
    return out;
  }
  std::vector<std::string> list(const Json& values, std::size_t least, std::size_t most, std::size_t letters,
                                const std::string& path) {
    std::vector<std::string> out;
    if (!r_.array(values, path, least, most, "texts")) return out;
    for (std::size_t k = 0; k < values.size(); ++k)
      out.push_back(text(values[k], letters, fmt::format("{}[{}]", path, k)));
    return out;
  }
  void fit(const std::string& text, std::size_t most, const std::string& path) {
    if (r_.fault()) return;
    const Result<void> good = fit_text(text, most, path);
    if (!good) r_.refuse(path, good.error().found, good.error().expected);
  }

  MemberReader r_;
  const std::string& wanted_name_;
  Exercise e_;
};

}  // namespace

Result<Exercise> exercise_from(std::string_view json, const std::string& name) {
  const std::string place = name.empty() ? "exercise" : name;
  const Result<Json> document = parsed_document(json, kTextBytes + kDrawingBytes, place);
  if (!document) return unexpected(document.error());
  return ExerciseReader(place, name).read(*document);
}

}  // namespace strikewright
