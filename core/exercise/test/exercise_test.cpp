// What an exercise document may say, and what is refused by name.

#include "exercise/exercise.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <functional>

#include "exercise/test/some_exercise.hpp"
#include "exercise/wording.hpp"

using namespace strikewright;
using Json = nlohmann::json;

namespace {

/// The sentence of what is wrong; "" when nothing is.
std::string refused(const Json& d) {
  const Result<Exercise> e = exercise_from(d.dump(), "invented_weight");
  return e ? "" : e.error().sentence();
}
std::string spoiled(const std::function<void(Json&)>& spoil) {
  Json d = some_document();
  spoil(d);
  return refused(d);
}
bool says(const std::string& sentence, const std::string& part) {
  return sentence.find(part) != std::string::npos;
}
bool bad(const std::string& inside) { return !drawing_fault(some_drawing(inside)).has_value(); }

}  // namespace

TEST_CASE("a right document reads as it was written, in SI") {
  const Result<Exercise> e = exercise_from(some_document().dump(), "invented_weight");
  REQUIRE_MESSAGE(e.has_value(), e.error().sentence());
  CHECK(e->family == ExerciseFamily::ground);
  REQUIRE(e->moves.size() == 1);
  CHECK(e->moves[0].cause == Cause::weight);
  CHECK(e->moves[0].home_sd == doctest::Approx(2e-3));
  CHECK(e->moves[0].shift == 0.4);
  CHECK(e->dose.balls == 12);
  CHECK(e->ground == std::vector<Surface>{Surface::fairway, Surface::fairway_soft});
  CHECK(e->clubs == std::vector<Family>{Family::iron, Family::wedge});
  CHECK(e->not_with == std::vector<BodyNote>{BodyNote::wrist});
  CHECK(e->kit[0][1] == "ein Handtuch");
  CHECK(e->words.title(Language::de) == "Erfunden: Gewicht");
  CHECK(drawing_of(*e).empty());
}

TEST_CASE("homes are read in each cause's own unit") {
  for (const CauseFacts& facts : kCauseFacts) {
    const Exercise e = moving("own", facts.name, 0.3, 0.2, 1.0);
    CHECK(e.moves[0].home == doctest::Approx(facts.scale));
  }
}

TEST_CASE("every member is required, whichever is missing") {
  const Json whole = some_document();
  for (const auto& item : whole.items()) {
    const std::string said = spoiled([&](Json& d) { d.erase(item.key()); });
    CHECK_MESSAGE(says(said, "invented_weight, " + item.key() + ": found nothing"), said);
  }
  for (const auto& item : whole["moves"][0].items())
    CHECK(says(spoiled([&](Json& d) { d["moves"][0].erase(item.key()); }), "moves[0]." + item.key()));
  for (const auto& item : whole["dose"].items())
    CHECK(says(spoiled([&](Json& d) { d["dose"].erase(item.key()); }), "dose." + item.key()));
  for (const char* language : {"en", "de"})
    for (const auto& item : whole["words"][language].items())
      CHECK(says(spoiled([&](Json& d) { d["words"][language].erase(item.key()); }),
                 std::string("words.") + language + "." + item.key()));
}

TEST_CASE("a wrong word is refused with its path and the nearest one") {
  const std::string said = spoiled([](Json& d) {
    d["moves"].push_back(d["moves"][0]);
    d["moves"][1]["cause"] = "wieght";
  });
  CHECK(says(said, "invented_weight, moves[1].cause: found 'wieght'"));
  CHECK(says(said, "did you mean 'weight'?"));
  CHECK(says(spoiled([](Json& d) { d["condition"] = "leadleg"; }), "did you mean 'lead_leg'"));
  CHECK(says(spoiled([](Json& d) { d["ground"][1] = "faiway"; }), "ground[1]"));
  CHECK(says(spoiled([](Json& d) { d["clubs"][0] = "putter"; }), "clubs[0]"));
  CHECK(says(spoiled([](Json& d) { d["not_with"][0] = "spleen"; }), "not_with[0]"));
  CHECK(says(spoiled([](Json& d) { d["load"][0] = "pregnancy"; }), "load[0]"));
  CHECK(says(spoiled([](Json& d) { d["titel"] = 1; }), "titel"));
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["stepz"] = 1; }), "did you mean 'steps'"));
}

TEST_CASE("figures beyond what an exercise can do are refused") {
  const auto move = [](const char* key, double value) {
    return spoiled([=](Json& d) { d["moves"][0][key] = value; });
  };
  CHECK(says(move("home", 100.0), "moves[0].home"));
  CHECK(says(move("home_sd", -1.0), "moves[0].home_sd"));
  CHECK(says(move("shift", 1.2), "moves[0].shift"));
  CHECK(says(move("shift", -0.1), "moves[0].shift"));
  CHECK(says(move("scatter", 0.0), "moves[0].scatter"));
  CHECK(says(spoiled([](Json& d) { d["moves"][0]["shift"] = "much"; }), "moves[0].shift: found '\"much\"'"));
  CHECK(says(spoiled([](Json& d) { d["moves"].push_back(d["moves"][0]); }), "a second time"));
  CHECK(says(spoiled([](Json& d) { d["moves"] = Json::array(); }), "moves"));
  CHECK(says(spoiled([](Json& d) { d["needs"]["reach"] = 1.5; }), "needs.reach"));
}

TEST_CASE("absurd doses are refused") {
  const auto dose = [](const char* key, int value) {
    return spoiled([=](Json& d) { d["dose"][key] = value; });
  };
  CHECK(says(dose("balls", 500), "dose.balls"));
  CHECK(says(dose("balls", 3), "dose.balls"));
  CHECK(says(dose("days_a_week", 7), "dose.days_a_week"));
  CHECK(says(spoiled([](Json& d) { d["dose"]["balls"] = 4, d["dose"]["sets"] = 5; }), "dose.sets"));
  CHECK(says(spoiled([](Json& d) { d["dose"]["balls"] = 60, d["dose"]["minutes"] = 3; }), "dose.minutes"));
  CHECK(says(spoiled([](Json& d) { d["dose"]["balls"] = 12.5; }), "dose.balls"));
}

TEST_CASE("words that would be wrong for the other hand are refused in both languages") {
  CHECK(sided_word("Turn LEFT now") == "LEFT");
  CHECK(sided_word("a right-hander") == "right");
  CHECK(sided_word("nach rechts.") == "rechts");
  CHECK(sided_word("mit der linken Hand") == "linken");
  CHECK(sided_word("Linkshänder") == "Linkshänder");
  CHECK(sided_word("turn it clockwise") == "clockwise");
  CHECK(sided_word("im Uhrzeigersinn") == "Uhrzeigersinn");
  CHECK(sided_word("the lead hand, bright and aufrecht, recht gut, richtig, cleft").empty());
  for (const char* member : {"title", "purpose", "cue", "progression", "regression", "dose", "alt"}) {
    CHECK(says(spoiled([&](Json& d) { d["words"]["en"][member] = "Swing left"; }),
               std::string("words.en.") + member + ": found 'left'"));
    CHECK(says(spoiled([&](Json& d) { d["words"]["de"][member] = "Schwing nach rechts"; }), "'rechts'"));
  }
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["steps"][2] = "Go right."; }), "words.en.steps[2]"));
  CHECK(says(spoiled([](Json& d) { d["kit"][0]["en"] = "left glove"; }), "kit[0].en"));
}

TEST_CASE("markup, scripts and addresses are refused in every text") {
  for (const char* text : {"<b>Swing</b>", "a & b", "see https://nowhere", "javascript:x", "{x}", "a\nb",
                           "\x01", " a", "a ", ""})
    CHECK_MESSAGE(!spoiled([&](Json& d) { d["words"]["en"]["purpose"] = text; }).empty(), text);
  CHECK(!spoiled([](Json& d) { d["source"] = "<i>common practice, no source</i>"; }).empty());
}

TEST_CASE("texts that a sheet has no room for are refused; umlauts count once") {
  const std::string o_umlaut = "\xc3\xb6";
  std::string forty_eight;
  for (int k = 0; k < 48; ++k) forty_eight += o_umlaut;
  CHECK(letters_in(forty_eight) == 48);
  CHECK(refused([&] {
          Json d = some_document();
          d["words"]["de"]["title"] = forty_eight;
          return d;
        }())
            .empty());
  CHECK(says(spoiled([&](Json& d) { d["words"]["de"]["title"] = forty_eight + "x"; }), "49 letters"));
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["steps"][0] = std::string(161, 'x'); }), "161 letters"));
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["cue"] = std::string(91, 'x'); }), "91 letters"));
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["cautions"] = {"One."}; }), "words.en.cautions"));
  CHECK(says(spoiled([](Json& d) { d["words"]["en"]["errors"][0] = "Fat again."; }), "words.en.errors[0]"));
}

TEST_CASE("what loads a body has a rule for that body") {
  CHECK(says(spoiled([](Json& d) { d["load"] = {"wrist", "knee"}; }), "no rule for knee"));
  CHECK(says(spoiled([](Json& d) { d["ask_first"].push_back("wrist"); }), "'wrist' in both lists"));
  CHECK(says(spoiled([](Json& d) { d["balance"] = true; }), "no rule for balance"));
  CHECK(says(spoiled([](Json& d) { d["jump"] = true; }), "the feet leave the ground"));
  CHECK(says(spoiled([](Json& d) { d["condition"] = "lead_leg"; }), "true with the condition lead_leg"));
  CHECK(says(spoiled([](Json& d) { d["ground"].push_back("mat"), d["ask_first"] = {"back"}; }),
             "no rule for elbow"));
}

TEST_CASE("where an exercise is from is said, one way or the other") {
  CHECK(says(spoiled([](Json& d) { d["source"] = "I made it up"; }), "source"));
  CHECK(spoiled([](Json& d) { d["source"] = "A. Nobody, An invented paper, No Journal, 1999"; }).empty());
  CHECK(says(spoiled([](Json& d) { d["moves_mark"] = "measured"; }), "moves_mark"));
}

TEST_CASE("a document that is no document is refused where it breaks") {
  CHECK(says(exercise_from("{\n  \"name\": ,", "towel").error().sentence(), "towel:2:11"));
  CHECK(says(exercise_from("[]").error().sentence(), "an object with"));
  CHECK(says(exercise_from("{\"name\":\"a\",\"name\":\"b\"}").error().sentence(), "twice"));
  CHECK(!exercise_from("").has_value());
  CHECK(!exercise_from(std::string(100'000, ' ')).has_value());
  CHECK(!exercise_from("[[[[[[[[[[1]]]]]]]]]]").has_value());
  CHECK(says(spoiled([](Json& d) { d["name"] = "other_name"; }), "found 'other_name'"));
  CHECK(!exercise_from(some_document("A B").dump()).has_value());
  CHECK(!exercise_from(some_document("../etc").dump()).has_value());
}

TEST_CASE("a drawing of allowed shapes is fit to be shown") {
  const char* inside = R"shapes(
    <rect x="0" y="0" width="640" height="400" fill="#f7f3ea"/>
    <g transform="translate(10 20) rotate(-5)" opacity="0.5"><path d="M 0 0 L 10 -3.5e1 Z" fill="none" stroke="#23201b"
      stroke-width="4" stroke-linecap="round" stroke-linejoin="round" stroke-dasharray="4 3"/></g>
    <circle cx="4" cy="5" r="6" fill="#6f8f4e" fill-opacity="0.5"></circle>)shapes";
  const Result<void> good = drawing_fault(some_drawing(inside));
  CHECK_MESSAGE(good.has_value(), good.error().sentence());
  Json d = some_document();
  d["drawing"] = some_drawing(inside);
  CHECK(exercise_from(d.dump())->drawing == some_drawing(inside));
}

TEST_CASE("a drawing that could do or load anything is refused") {
  CHECK(bad("<script>alert(1)</script>"));
  CHECK(bad("<text x=\"1\" y=\"2\">hello</text>"));
  CHECK(bad("hello"));
  CHECK(bad("<!-- hello -->"));
  CHECK(bad("<![CDATA[x]]>"));
  CHECK(bad("<g onclick=\"x()\"></g>"));
  CHECK(bad("<g style=\"fill:red\"></g>"));
  CHECK(bad("<g id=\"a\"></g>"));
  CHECK(bad("<image href=\"x\"/>"));
  CHECK(bad("<use href=\"#a\"/>"));
  CHECK(bad("<path fill=\"url(#a)\" d=\"M 0 0\"/>"));
  CHECK(bad("<path fill=\"red\" d=\"M 0 0\"/>"));
  CHECK(bad("<path d=\"M 0 0 &quot;\"/>"));
  CHECK(bad("<g transform=\"skewX(3)\"></g>"));
  CHECK(bad("<circle r='4'/>"));
  CHECK(bad("<circle r=\"4\" r=\"5\"/>"));
  CHECK(bad("<circle width=\"4\"/>"));
  CHECK(bad("<g><g></g>"));
  CHECK(bad("</g>"));
  CHECK(bad("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 640 400\"></svg>"));
  CHECK(bad("<rect x=\"0\""));
  CHECK(bad(std::string(12'000, ' ')));
  CHECK(!drawing_fault("").has_value());
  CHECK(!drawing_fault("<?xml version=\"1.0\"?>" + some_drawing("")).has_value());
  CHECK(!drawing_fault(some_drawing("") + some_drawing("")).has_value());
  CHECK(!drawing_fault("<svg viewBox=\"0 0 640 400\"></svg>").has_value());
  const std::string said = drawing_fault(some_drawing("\n<path\n fil=\"none\"/>")).error().sentence();
  CHECK_MESSAGE(says(said, "line 3, <path>: found the attribute 'fil'"), said);
  CHECK(says(spoiled([](Json& d) { d["drawing"] = "<svg>"; }), "drawing, line 1"));
}

TEST_CASE("the page on exercises tells of every member, and its example is one") {
  std::ifstream in(std::string(SOURCE_DIR) + "/docs/exercises.md");
  const std::string page{std::istreambuf_iterator<char>(in), {}};
  const auto begin = page.find("```json\n"), end = page.find("```\n", begin + 8);
  REQUIRE(end != std::string::npos);
  const Result<Exercise> example = exercise_from(page.substr(begin + 8, end - begin - 8), "coin_ahead");
  CHECK_MESSAGE(example.has_value(), example.error().sentence());
  const std::string list = page.substr(page.find("## Members"));
  const Json whole = some_document();
  for (const auto& item : whole.items()) CHECK_MESSAGE(says(list, "`" + item.key() + "`"), item.key());
  for (std::size_t k = 0; k < kBodyNotes; ++k)
    CHECK(says(list, std::string("`") + name_of(static_cast<BodyNote>(k)) + "`"));
}
