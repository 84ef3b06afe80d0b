// What was given, the swings that are a part of it, and the coach's own exercises, over a book.

#include <algorithm>

#include "some_desk.hpp"

using namespace strikewright;

namespace {

/// An exercise document of the catalogue under another name, as a body.
std::string own_body(const std::string& name, const std::string& catalogue = "towel_behind_ball") {
  Document exercise = Document::parse(contents(SOURCE_DIR "/core/exercise/catalogue/" + catalogue + ".json"));
  exercise["name"] = name;
  return Document{{"document", exercise.dump()}}.dump();
}

std::string place_of(const Reply& reply) { return fault_in(reply)["place"].get<std::string>(); }

}  // namespace

TEST_CASE("a pupil's sheet language, guardian, time for practice and next lesson are kept") {
  SomeDesk d;
  const Document one = d.good("PUT", "/api/pupils/robin",
                              R"({"name": "Robin Furrow", "language": "de", "guardian": "Sam, father",
                                  "consent_at": "2026-11-25", "weekly_balls": 120, "next_lesson_at": "2026-12-03"})");
  CHECK(one["language"] == "de");
  CHECK(one["guardian"] == "Sam, father");
  CHECK(one["weekly_balls"] == 120);
  CHECK(one["next_lesson_at"] == "2026-12-03");
  CHECK(d.good("PUT", "/api/pupils/robin", one.dump()) == one);
  const Document wren = d.good("PUT", "/api/pupils/wren", R"({"name": "Wren Tern"})");
  CHECK(wren["language"] == "en");
  CHECK(wren["weekly_balls"].is_null());
  const auto refused = [&](const char* body) { return place_of(d.ask("PUT", "/api/pupils/wren", body)); };
  CHECK(refused(R"({"name": "Wren", "language": "English"})") == "language of pupil wren");
  CHECK(refused(R"({"name": "Wren", "consent_at": "yes"})") == "consent_at of pupil wren");
  CHECK(refused(R"({"name": "Wren", "weekly_balls": -5})") == "weekly_balls of pupil wren");
  CHECK(refused(R"({"name": "Wren", "weekly_balls": 2.5})") == "weekly_balls");
  CHECK(refused(R"({"name": "Wren", "next_lesson_at": 3})") == "next_lesson_at");
}

TEST_CASE("an exercise is given, replaced, listed, and taken out once or twice") {
  SomeDesk d;
  d.fill();
  const Document given = d.good("GET", "/api/given/g-1");
  CHECK(given["exercise"] == "brush_the_grass");
  CHECK(given["cause"] == "weight");
  CHECK_FALSE(given["at"].get<std::string>().empty());
  CHECK(d.good("PUT", "/api/given/g-1", given.dump()) == given);
  Document ended = given;
  ended["ended_at"] = "2026-11-27T10:00:00Z";
  ended["sheet"] = R"({"language":"en","paper":"a4","made_at":"2026-11-25"})";
  CHECK(d.good("PUT", "/api/given/g-1", ended.dump()) == ended);
  d.good("PUT", "/api/given/note", R"({"pupil": "robin", "notes": "the knee is better"})");
  const Document all = d.good("GET", "/api/pupils/robin/given")["given"];
  REQUIRE(all.size() == 2);
  CHECK(all[0] == ended);
  CHECK(d.good("GET", "/api/pupils/robin")["lessons"][0]["given"] == Document::array({ended}));
  CHECK(d.good("DELETE", "/api/given/g-1").empty());
  CHECK(d.good("DELETE", "/api/given/g-1").empty());
  CHECK(d.ask("GET", "/api/given/g-1").status == 404);
  CHECK(d.good("GET", "/api/pupils/robin/given")["given"].size() == 1);
}

TEST_CASE("what cannot be given is refused with its place") {
  SomeDesk d;
  d.fill();
  d.good("PUT", "/api/pupils/wren", R"({"name": "Wren Tern"})");
  const auto refused = [&](const char* body) { return d.ask("PUT", "/api/given/g-2", body); };
  CHECK(place_of(refused("{}")) == "pupil");
  CHECK(place_of(refused(R"({"pupil": "robin", "id": "g-3"})")) == "id");
  CHECK(refused(R"({"pupil": "nobody"})").status == 404);
  CHECK(refused(R"({"pupil": "robin", "lesson": "none"})").status == 404);
  CHECK(refused(R"({"pupil": "wren", "lesson": "first"})").status == 409);
  CHECK(place_of(refused(R"({"pupil": "robin", "dose": "ten"})")) == "dose of given g-2");
  CHECK(place_of(refused(R"({"pupil": "robin", "dose": {"balls": 10}})")) == "dose");
  CHECK(place_of(refused(R"({"pupil": "robin", "sheet": "{}"})")) == "sheet of given g-2");
  CHECK(place_of(refused(R"({"pupil": "robin", "ended_at": "soon"})")) == "ended_at of given g-2");
  CHECK(d.ask("PUT", "/api/given/G%202", R"({"pupil": "robin"})").status == 400);
  CHECK(d.ask("PUT", "/api/given/g-1", R"({"pupil": "wren"})").status == 409);
  CHECK(d.good("GET", "/api/pupils/robin/given")["given"].size() == 1);
}

TEST_CASE("a swing says what it was hit for, remembers it, and outlives what was given") {
  SomeDesk d;
  d.fill();
  d.good("PUT", "/api/swings/s-1", R"({"lesson": "first", "given": "g-1", "purpose": "exercise"})");
  d.good("PUT", "/api/lessons/first/swings",
         R"({"swings": [{"id": "s-2", "given": "g-1", "purpose": "after"}]})");
  const Document swings = d.good("GET", "/api/lessons/first")["swings"];
  CHECK(swings[0]["purpose"] == "exercise");
  CHECK(swings[1]["given"] == "g-1");
  CHECK(swings[2]["purpose"] == "");
  const Document changes = d.good("GET", "/api/swings/s-1/changes")["changes"];
  CHECK(changes[0]["purpose"] == "");
  CHECK(changes[1]["given"] == "g-1");
  const auto refused = [&](const char* body) { return d.ask("PUT", "/api/swings/s-3", body); };
  CHECK(place_of(refused(R"({"lesson": "first", "purpose": "fun"})")) == "purpose of swing s-3");
  CHECK(refused(R"({"lesson": "first", "given": "g-9"})").status == 404);
  d.good("PUT", "/api/pupils/wren", R"({"name": "Wren Tern"})");
  d.good("PUT", "/api/given/of-wren", R"({"pupil": "wren", "exercise": "brush_the_grass"})");
  CHECK(refused(R"({"lesson": "first", "given": "of-wren"})").status == 409);
  d.good("DELETE", "/api/given/g-1");
  CHECK(d.good("GET", "/api/lessons/first")["swings"] == swings);
  CHECK(d.good("GET", "/api/lessons/first/reading")["lesson"] == "first");
}

TEST_CASE("what was given is told with what this pupil's body asks for, and with every caution") {
  SomeDesk d;
  d.fill();
  const auto has = [](const Document& list, const char* words) {
    return std::any_of(list.begin(), list.end(), [&](const Document& one) {
      return one.get<std::string>().find(words) != std::string::npos;
    });
  };
  const auto give = [&](const char* id, const char* exercise) {
    return d.good("PUT", std::string("/api/given/") + id,
                  Document{{"pupil", "robin"}, {"lesson", "first"}, {"exercise", exercise}}.dump());
  };
  give("g-2", "towel_behind_ball");
  const Document before = d.good("GET", "/api/given/g-2");
  CHECK(before["permission"] == "free");
  CHECK(before["reasons"].empty());
  CHECK_FALSE(has(before["cautions"], "your body"));

  d.good("PUT", "/api/pupils/robin",
         R"({"name": "Robin Furrow", "cautions": "a sore wrist", "birth_year": 2012})");
  const Document sore = d.good("GET", "/api/given/g-2");
  CHECK(sore["permission"] == "flagged");
  CHECK(has(sore["reasons"], "wrist"));
  CHECK(has(sore["cautions"], "Because of what you told about your body"));
  CHECK(has(sore["cautions"], "For the adult"));
  // Its own and those of every exercise are still there.
  for (const Document& caution : before["cautions"])
    CHECK(has(sore["cautions"], caution.get<std::string>().c_str()));
  // In German, too: those of the exercise in German, and the two for this pupil.
  const Document german = d.good("GET", "/api/given/g-2?language=de")["cautions"];
  const Document listed = d.good("GET", "/api/exercises?language=de")["exercises"];
  const auto towel = std::find_if(listed.begin(), listed.end(),
                                  [](const Document& one) { return one["name"] == "towel_behind_ball"; });
  REQUIRE(towel != listed.end());
  CHECK(german.size() == (*towel)["cautions"].size() + 2);
  for (const Document& caution : (*towel)["cautions"]) CHECK(has(german, caution.get<std::string>().c_str()));
  CHECK(place_of(d.ask("GET", "/api/given/g-2?language=fr")) == "language");
  CHECK(d.good("GET", "/api/pupils/robin/given")["given"][1] == sore);
  CHECK(d.good("GET", "/api/pupils/robin")["lessons"][0]["given"][1] == sore);

  // On a mat there is one more reason; what a note forbids says so.
  d.good("PUT", "/api/lessons/first",
         R"({"pupil": "robin", "begun_at": "2026-11-20T10:00:00Z", "surface": "mat"})");
  CHECK(has(d.good("GET", "/api/given/g-2")["reasons"], "a mat"));
  d.good("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "cautions": "pregnant"})");
  CHECK(give("g-3", "hop_and_land")["permission"] == "hidden");
}

TEST_CASE("nothing that was given is told without a caution, whatever became of its exercise") {
  SomeDesk d;
  d.fill();
  d.good("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "cautions": "a sore wrist"})");
  d.good("PUT", "/api/exercises/own/mine", own_body("my_towel"));
  const Document all = d.good("GET", "/api/exercises")["exercises"];
  for (const Document& exercise : all) {
    const Document given = d.good(
        "PUT", "/api/given/g-9",
        Document{{"pupil", "robin"}, {"exercise", exercise["name"]}, {"at", "2026-11-20T10:00:00Z"}}.dump());
    CAPTURE(exercise["name"]);
    CHECK(given["cautions"].size() == exercise["cautions"].size() + 1);
    CHECK(given["reasons"].empty() == (given["permission"] == "free"));
  }
  d.good("PUT", "/api/given/g-9", R"({"pupil": "robin", "exercise": "my_towel"})");
  d.good("DELETE", "/api/exercises/own/mine");
  const Document lost = d.good("GET", "/api/given/g-9");
  CHECK(lost["permission"] == "hidden");
  CHECK(lost["cautions"].size() == d.good("GET", "/api/exercises")["always"].size() + 1);
  const Document note =
      d.good("PUT", "/api/given/g-9", R"({"pupil": "robin", "notes": "the knee is better"})");
  CHECK(note["cautions"].empty());
  CHECK(note["permission"] == "free");
}

TEST_CASE("an exercise of the coach's own is kept when it is one") {
  SomeDesk d;
  const Document kept = d.good("PUT", "/api/exercises/own/mine", own_body("my_towel"));
  CHECK(kept["id"] == "mine");
  CHECK_FALSE(kept["made_at"].get<std::string>().empty());
  CHECK(d.good("PUT", "/api/exercises/own/mine", kept.dump()) == kept);
  CHECK(d.good("GET", "/api/exercises/own")["exercises"] == Document::array({kept}));
  CHECK(d.good("DELETE", "/api/exercises/own/mine").empty());
  CHECK(d.good("DELETE", "/api/exercises/own/mine").empty());
  CHECK(d.good("GET", "/api/exercises/own")["exercises"].empty());
}

TEST_CASE("the list of exercises says all that a document says, so that one can start from it") {
  SomeDesk d;
  const Document document =
      Document::parse(Document::parse(own_body("my_towel"))["document"].get<std::string>());
  d.good("PUT", "/api/exercises/own/mine", own_body("my_towel"));
  const Document all = d.good("GET", "/api/exercises");
  const Document& one = all["exercises"].back();
  REQUIRE(one["name"] == "my_towel");
  for (const char* same : {"source", "family", "condition", "ball", "turf", "ground", "clubs", "dose",
                           "stage", "load", "balance", "jump", "not_with", "ask_first", "crowded"}) {
    CAPTURE(same);
    CHECK(one[same] == document[same]);
  }
  CHECK(one["reach"] == document["needs"]["reach"]);
  const Document& words = document["words"]["en"];
  for (const char* same :
       {"title", "purpose", "cue", "steps", "self_check", "errors", "progression", "regression"})
    CHECK(one[same] == words[same]);
  CHECK(one["cautions"].size() == words["cautions"].size() + all["always"].size());
  REQUIRE(one["moves"].size() == document["moves"].size());
  for (std::size_t k = 0; k < one["moves"].size(); ++k)
    for (const auto& [member, value] : document["moves"][k].items()) {
      CAPTURE(member);
      if (value.is_string())
        CHECK(one["moves"][k][member] == value);
      else  // through SI and back: the last bits of a double
        CHECK(one["moves"][k][member].get<double>() == doctest::Approx(value.get<double>()).epsilon(1e-12));
    }
}

TEST_CASE("what is no exercise, or goes by another's name, is not kept as one of the coach's own") {
  SomeDesk d;
  d.good("PUT", "/api/exercises/own/mine", own_body("my_towel"));
  const auto refused = [&](const std::string& body) {
    const Reply reply = d.ask("PUT", "/api/exercises/own/other", body);
    CHECK(reply.status == 400);
    return place_of(reply);
  };
  CHECK(refused("{}") == "document");
  CHECK(refused(R"({"document": 3})") == "document");
  CHECK(refused(R"({"document": "{"})").starts_with("document: exercise"));
  CHECK(refused(own_body("my_towel")) == "document: exercise, name");
  CHECK(refused(own_body("towel_behind_ball")) == "document: exercise, name");
  CHECK(refused(own_body("My Towel")) == "document: exercise, name");
  Document exercise = Document::parse(Document::parse(own_body("his_towel"))["document"].get<std::string>());
  exercise["words"]["en"]["cue"] = "<script>alert(1)</script>";
  CHECK(refused(Document{{"document", exercise.dump()}}.dump()) == "document: exercise, words.en.cue");
  exercise["words"]["en"]["cue"] = "Ball first.";
  exercise["words"]["en"]["cautions"] = Document::array();
  CHECK(refused(Document{{"document", exercise.dump()}}.dump()) == "document: exercise, words.en.cautions");
  CHECK(d.ask("PUT", "/api/exercises/own/No", own_body("his_towel")).status == 400);
  CHECK(d.good("GET", "/api/exercises/own")["exercises"].size() == 1);
}

TEST_CASE("open screens hear of what is given and of own exercises") {
  SomeDesk d;
  d.fill();
  std::string heard;
  const int number = d.desk.means().watchers.join(
      {.device = "", .tell = [&](const std::string& event) { heard += event; }, .end = [] {}});
  const auto said = [&](const char* what) {
    const bool there = heard.find(what) != std::string::npos;
    heard.clear();
    return there;
  };
  d.good("PUT", "/api/given/g-2", R"({"pupil": "robin", "lesson": "first", "exercise": "brush_the_grass"})");
  CHECK(said(R"({"pupil":"robin","lesson":"first","revision":)"));
  d.good("DELETE", "/api/given/g-2");
  CHECK(said(R"({"pupil":"robin","lesson":"first","revision":)"));
  d.good("DELETE", "/api/given/g-2");
  CHECK(heard.empty());
  d.good("PUT", "/api/exercises/own/mine", own_body("my_towel"));
  CHECK(said(R"({"pupil":"","lesson":"","revision":0})"));
  d.desk.means().watchers.leave(number);
}

TEST_CASE("an exercise that nobody knows, another cause, an absurd dose: refused, and nothing is kept") {
  SomeDesk d;
  d.fill();
  const auto refused = [&](const char* body) { return place_of(d.ask("PUT", "/api/given/g-9", body)); };
  CHECK(refused(R"({"pupil": "robin", "exercise": "towel_behind_bal"})") == "exercise");
  CHECK(refused(R"({"pupil": "robin", "exercise": "towel_behind_ball", "cause": "wait"})") == "cause");
  CHECK(refused(R"({"pupil": "robin", "exercise": "towel_behind_ball", "dose": "{\"balls\": 4000}"})") ==
        "dose: balls");
  CHECK(refused(R"({"pupil": "robin", "exercise": "towel_behind_ball", "dose": "{\"ball\": 8}"})") == "dose");
  CHECK(d.ask("GET", "/api/given/g-9").status == 404);
  d.good(
      "PUT", "/api/given/g-9",
      R"({"pupil": "robin", "exercise": "towel_behind_ball", "cause": "weight", "dose": "{\"balls\": 20}"})");
}
