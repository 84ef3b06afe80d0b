// Nobody gets hurt.

#include "exercise/safety.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "exercise/test/some_exercise.hpp"

using namespace strikewright;

namespace {

bool notes(const char* text, BodyNote note) { return body_notes_of(text).has(note); }

Permit permit(const Exercise& e, const char* text, std::optional<int> age = {}, const Place& place = {}) {
  return allowed(e, body_notes_of(text, age), place).permit;
}

Exercise hopping() {
  nlohmann::json d = some_document("own_hop");
  d["jump"] = d["balance"] = true;
  d["crowded"] = false;
  d["not_with"] = {"back", "hip", "knee", "ankle", "balance", "pregnancy", "bone", "wrist"};
  d["ask_first"] = {"elbow"};
  return some_exercise(d);
}

}  // namespace

TEST_CASE("what coaches write about bodies is understood in English and German") {
  using enum BodyNote;
  CHECK(notes("Lower back pain since May", back));
  CHECK(notes("slipped disc L4/L5", back));
  CHECK(
      notes("R\xc3\xbc"
            "cken",
            back));
  CHECK(notes("RUECKENSCHMERZEN", back));
  CHECK(notes("hat es im Kreuz", back));
  CHECK(notes("Bandscheibenvorfall 2019", back));
  CHECK(notes("tennis elbow", elbow));
  CHECK(notes("Ellenbogen", elbow));
  CHECK(notes("sore wrist", wrist));
  CHECK(notes("Handgelenkschmerzen", wrist));
  CHECK(notes("Rotatorenmanschette", shoulder));
  CHECK(
      notes("neue H\xc3\xbc"
            "fte",
            hip));
  CHECK(notes("Kniegelenk", knee));
  CHECK(notes("Meniskus", knee));
  CHECK(notes("Sprunggelenk", ankle));
  CHECK(notes("Achilles tendon", ankle));
  CHECK(notes("whiplash", neck));
  CHECK(notes("Nacken", neck));
  CHECK(notes("gets dizzy", balance));
  CHECK(notes("Schwindel", balance));
  CHECK(notes("pregnant, 5th month", pregnancy));
  CHECK(notes("im 4. Monat schwanger", pregnancy));
  CHECK(notes("pacemaker", heart));
  CHECK(notes("Bluthochdruck", heart));
  CHECK(notes("Osteoporose", bone));
  CHECK(notes("brittle bones", bone));
  CHECK(notes("knee replacement", surgery));
  CHECK(notes("OP im M\xc3\xa4rz", surgery));
  CHECK(notes("operiert", surgery));
}

TEST_CASE("errs to caution: a denial is still a note, and what was not understood is said") {
  CHECK(notes("no back pain", BodyNote::back));
  CHECK(body_notes_of("plantiaris gamma").unread);
  CHECK(body_notes_of("\xe8\x83\x8c\xe4\xb8\xad").unread);
  CHECK(body_notes_of("\xff\xfe").unread);
  CHECK(!body_notes_of("sore wrist").unread);
  for (const char* nothing : {"", "  ", "none", "Keine.", "healthy", "-", "gesund!"}) {
    const BodyNotes n = body_notes_of(nothing);
    CHECK_MESSAGE(!n.unread, nothing);
    CHECK(n.notes.none());
  }
  CHECK(!notes("background in tennis, flop shots, hopes to help", BodyNote::back));
  CHECK(body_notes_of("wants consistent contact").notes.none());
  CHECK(notes("Lendenwirbels\xc3\xa4ule", BodyNote::back));
  CHECK(!notes("flop shots, hopes to stop slicing", BodyNote::surgery));
}

TEST_CASE("ages: a child, a junior, a grown-up, older") {
  CHECK(body_notes_of("", 11).has(BodyNote::child));
  CHECK(body_notes_of("", 11).junior);
  CHECK(!body_notes_of("", 12).has(BodyNote::child));
  CHECK(body_notes_of("", 17).junior);
  CHECK(!body_notes_of("", 18).junior);
  CHECK(!body_notes_of("", 69).has(BodyNote::older));
  CHECK(body_notes_of("", 70).has(BodyNote::older));
  CHECK(!body_notes_of("").junior);
}

TEST_CASE("a listed note hides, an asked-for one flags, others let pass") {
  const Exercise e = some_exercise();
  CHECK(permit(e, "") == Permit::free);
  CHECK(permit(e, "sore wrist") == Permit::hidden);
  CHECK(permit(e, "stiff back") == Permit::flagged);
  CHECK(permit(e, "knee") == Permit::free);
  CHECK(permit(e, "wrist and back") == Permit::hidden);
  CHECK(allowed(e, body_notes_of("wrist and back"), {}).reasons.size() == 1);
  CHECK(permit(e, "gobbledygook") == Permit::flagged);
}

TEST_CASE("pregnancy, heart, bones and operations are always asked about first") {
  const Exercise e = some_exercise();
  for (const char* text : {"pregnant", "heart", "osteoporosis", "surgery in June"}) {
    CHECK_MESSAGE(permit(e, text) == Permit::flagged, text);
    CHECK(!allowed(e, body_notes_of(text), {}).reasons.empty());
  }
}

TEST_CASE("nobody hops who should not, whatever the document says") {
  const Exercise e = hopping();
  for (const char* text : {"heart", "surgery", "neck", "dizzy", "knee", "pregnant"})
    CHECK_MESSAGE(permit(e, text) == Permit::hidden, text);
  CHECK(permit(e, "", 75) == Permit::hidden);
  CHECK(permit(e, "", 40) == Permit::free);
  CHECK(permit(e, "elbow") == Permit::flagged);
}

TEST_CASE("ground, crowd and room are looked at") {
  nlohmann::json d = some_document();
  d["crowded"] = false;
  const Exercise e = some_exercise(d);
  CHECK(permit(e, "", {}, {Surface::mat, false, true}) == Permit::hidden);
  CHECK(permit(e, "", {}, {Surface::fairway, true, true}) == Permit::hidden);
  CHECK(permit(e, "", {}, {Surface::fairway, false, false}) == Permit::hidden);
  CHECK(permit(e, "", {}, {Surface::fairway, false, true}) == Permit::free);
  d["ground"].push_back("mat");
  CHECK(permit(some_exercise(d), "shoulder", {}, {Surface::mat, false, true}) == Permit::flagged);
  CHECK(permit(some_exercise(d), "shoulder", {}, {Surface::fairway, false, true}) == Permit::free);
  d["ball"] = false;
  CHECK(permit(some_exercise(d), "", {}, {Surface::fairway, false, false}) == Permit::free);
}

TEST_CASE("no permission but a free one comes without a reason") {
  for (const Exercise& e : catalogue())
    for (const char* text : {"", "back", "knee", "gobbledygook", "pregnant"})
      for (int s = 0; s < 7; ++s) {
        const Permission p = allowed(e, body_notes_of(text, 71), {static_cast<Surface>(s), true, false});
        CHECK((p.permit == Permit::free) == p.reasons.empty());
      }
}

TEST_CASE("every exercise is shown with cautions, in every language, to everybody") {
  for (const Language l : {Language::en, Language::de}) {
    CHECK(universal_cautions(l).size() >= 7);
    for (const std::string& c : universal_cautions(l)) CHECK(c.size() > 40);
    for (const Exercise& e : catalogue())
      for (const auto age : {std::optional<int>{}, std::optional<int>{9}, std::optional<int>{80}}) {
        const BodyNotes n = body_notes_of("stiff back", age);
        const ShownExercise s = shown(e, l, n);
        CHECK(s.cautions() == cautions_of(e, l, n));
        CHECK(s.cautions().size() > universal_cautions(l).size() + 2);
        CHECK(s.name() == e.name);
      }
  }
  const ShownExercise plain = shown(some_exercise(), Language::de, {});
  CHECK(plain.cautions().front() == "Nur weicher Rasen.");
  CHECK(plain.cautions().back() == universal_cautions(Language::de).back());
}

TEST_CASE("a junior's page speaks to the adult, a noted body's to the doctor") {
  const auto some = [](const std::vector<std::string>& all, const char* part) {
    return std::any_of(all.begin(), all.end(),
                       [&](const std::string& c) { return c.find(part) != std::string::npos; });
  };
  const Exercise e = some_exercise();
  CHECK(some(cautions_of(e, Language::en, body_notes_of("", 14)), "For the adult"));
  CHECK(!some(cautions_of(e, Language::en, body_notes_of("", 30)), "For the adult"));
  CHECK(some(cautions_of(e, Language::en, body_notes_of("back")), "told about your body"));
  CHECK(some(cautions_of(e, Language::de, body_notes_of("wirres Zeug")), "deinem K\xc3\xb6rper"));
  CHECK(!some(cautions_of(e, Language::de, body_notes_of("")), "deinem K\xc3\xb6rper"));
}
