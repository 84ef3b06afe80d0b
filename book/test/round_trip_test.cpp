// Out as JSON and in again; a lesson out as a sightings file that the core reads.

#include <nlohmann/json.hpp>

#include "sighting/table.hpp"
#include "some_book.hpp"

using namespace strikewright;

namespace {

/// A book in which everything occurs: changed, removed, put back, with and without readings.
std::unique_ptr<Book> full(const std::string& file) {
  auto book = begun(file);
  good(book->keep(Settings{.units = "yards", .place = "range \"4\"", .sure = {{"carry_yd", "6"}}}));
  Pupil kim = some_pupil("kim", "Kim Ω ñ, \"K\"");
  kim.language = "de";
  kim.guardian = "Sam, mother; photographs no";
  kim.consent_at = "2026-11-01";
  kim.weekly_balls = 0;
  kim.next_lesson_at = "2026-12-03";
  good(book->keep(kim, "phone"));
  good(book->keep(some_lesson("later", "kim", "2026-11-22T10:00:00Z"), "coach"));
  good(book->keep(some_lesson("earlier", "kim", "2026-11-10T10:00:00Z"), "coach"));
  for (const char* id : {"a", "b", "c"}) good(book->keep(some_swing(id), "coach"));
  KeptSwing changed = some_swing("a");
  changed.ball = false;
  changed.seen.clear();
  good(book->keep(changed, "phone"));
  good(book->remove_swing("b", "phone"));
  good(book->remove_swing("c", "phone"));
  good(book->keep(some_swing("c"), "coach"));
  good(book->keep(KeptReading{.lesson = "first",
                              .revision = 3,
                              .from = "best",
                              .version = "0.1.0",
                              .made_at = "",
                              .document = "{\"n\": 1.0}",
                              .summary = "{}"}));
  const Given g{.id = "g",
                .pupil = "kim",
                .lesson = "later",
                .exercise = "step",
                .at = "",
                .notes = "x",
                .dose = "{\"sets\": 3.0}",
                .cause = "release",
                .why = "So that the low point comes forward.",
                .ended_at = "2026-11-29",
                .sheet = R"({"language":"de","paper":"a4","made_at":"2026-11-22T11:00:00Z"})"};
  good(book->keep(g));
  good(book->keep(
      Given{.id = "n", .pupil = "kim", .lesson = "", .exercise = "", .at = "", .notes = "a note"}));
  KeptSwing after = some_swing("k", "later");
  after.given = "g";
  after.purpose = "baseline";
  good(book->keep(after, "coach"));
  after.purpose = "after";
  good(book->keep(after, "coach"));
  good(book->keep(OwnExercise{.id = "own-1", .document = "{\"steps\": [ 1.0 ]}"}));
  return book;
}

std::vector<SeenSwing> read_back(const std::string& csv) {
  const auto swings = read_table(csv, TableOptions{});
  REQUIRE_MESSAGE(swings.has_value(), (swings ? "" : swings.error().sentence()));
  return *swings;
}

}  // namespace

TEST_CASE("a book that is exported and imported is the same book") {
  const Folder folder;
  const auto one = full(folder / "one"), two = opened(folder / "two");
  const std::string text = good(one->export_json());
  CHECK(good(two->import_json(text, "one.json")) == 2 + 3 + 4 + 1 + 2 + 1);
  CHECK(good(two->export_json()) == text);
  CHECK(good(two->changes_of("c")) == good(one->changes_of("c")));
  CHECK(good(two->pupils("kim", 9, 0))[0].lessons == 2);
  CHECK(good(two->pupil("kim")) == good(one->pupil("kim")));
  CHECK(good(two->given_to("kim")) == good(one->given_to("kim")));
  CHECK(good(two->changes_of("k"))[0].purpose == "baseline");
  CHECK(good(two->swings_of("later"))[0].given == "g");
  CHECK(good(two->own_exercises()) == good(one->own_exercises()));
  CHECK(good(two->import_json(text, "one.json")) == 0);
  CHECK(good(two->export_json()) == text);
  CHECK(good(two->check()).sound);
}

TEST_CASE("the exported lessons are in order of date, each with its id") {
  const Folder folder;
  const auto document = nlohmann::json::parse(good(full(folder / "b")->export_json()));
  CHECK(document["format"] == 2);
  REQUIRE(document["lessons"].size() == 3);
  CHECK(document["lessons"][0]["id"] == "earlier");
  CHECK(document["lessons"][1]["id"] == "first");
  CHECK(document["lessons"][2]["id"] == "later");
  CHECK(document["lessons"][1]["swings"][0]["before"][0]["what"] == "added");
}

TEST_CASE("what was given in a lesson stands in it, what was given outside of one beside them") {
  const Folder folder;
  const auto document = nlohmann::json::parse(good(full(folder / "b")->export_json()));
  CHECK(document["lessons"][0]["given"].empty());
  REQUIRE(document["lessons"][2]["given"].size() == 1);
  CHECK(document["lessons"][2]["given"][0]["id"] == "g");
  CHECK(document["lessons"][2]["given"][0]["cause"] == "release");
  CHECK(document["lessons"][2]["swings"][0]["given"] == "g");
  REQUIRE(document["given"].size() == 1);
  CHECK(document["given"][0]["id"] == "n");
  CHECK(document["own_exercises"][0]["id"] == "own-1");
}

TEST_CASE("a document from before exercises comes in, and goes out as it does now") {
  const Folder folder;
  const auto book = opened(folder / "b");
  const std::string old = R"({"format":1,
    "pupils":[{"id":"robin","name":"Robin Furrow","made_at":"2026-05-01"}],
    "lessons":[{"id":"first","pupil":"robin","begun_at":"2026-05-03","revision":2,"swings":[
      {"id":"s","number":1,"change":{"number":1,"at":"2026-05-03","who":"coach","what":"added"}}]}],
    "given":[{"id":"g","pupil":"robin","lesson":"first","exercise":"step","at":"2026-05-03","notes":"x"},
             {"id":"n","pupil":"robin","lesson":"","exercise":"","at":"2026-05-04","notes":"a note"}]})";
  CHECK(good(book->import_json(old, "old.json")) == 5);
  CHECK(good(book->import_json(old, "old.json")) == 0);
  CHECK(good(book->pupil("robin")).language == "en");
  CHECK(good(book->lessons_of("robin"))[0].given[0].exercise == "step");
  const auto document = nlohmann::json::parse(good(book->export_json()));
  CHECK(document["lessons"][0]["given"][0]["id"] == "g");
  CHECK(document["given"].size() == 1);
}

TEST_CASE("an import that differs from what is there changes nothing at all") {
  const Folder folder;
  const auto book = full(folder / "b");
  const std::string before = good(book->export_json());
  auto document = nlohmann::ordered_json::parse(before);
  document["pupils"].push_back({{"id", "new"}, {"name", "New"}});
  document["lessons"][1]["swings"][0]["club"] = "9i";
  CHECK(is_conflict(bad(book->import_json(document.dump(), "copy.json"))));
  CHECK(bad(book->import_json(document.dump(), "copy.json")).place ==
        "copy.json, lessons[1].swings[0], swing a");
  document["lessons"].clear();
  document["pupils"][0]["name"] = "Robyn";
  CHECK(is_conflict(bad(book->import_json(document.dump(), "copy.json"))));
  CHECK(good(book->export_json()) == before);
}

TEST_CASE("swings that another copy has, too, come into the lesson that is there") {
  const Folder folder;
  const auto one = begun(folder / "one"), two = opened(folder / "two");
  good(one->keep(some_swing("a"), "coach"));
  good(two->import_json(good(one->export_json()), "one"));
  good(one->keep(some_swing("b"), "coach"));
  CHECK(good(two->import_json(good(one->export_json()), "one")) == 1);
  CHECK(good(two->swings_of("first")) == good(one->swings_of("first")));
  CHECK(good(two->lesson("first")).revision == 4);
  good(one->keep(some_swing("c"), "coach"));
  good(two->keep(some_swing("d"), "coach"));
  CHECK(is_conflict(bad(two->import_json(good(one->export_json()), "one"))));
}

TEST_CASE("what is wrong in a document is named by its place") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const auto fault = [&](const std::string& text) {
    return bad(book->import_json(text, "f.json")).sentence();
  };
  CHECK(fault("").find("f.json:1:1: found the end") == 0);
  CHECK(fault("{\"format\": 1,\n  oops}").find("f.json:2:") == 0);
  CHECK(fault("[]").find("f.json.format: found nothing") == 0);
  CHECK(fault("{\"format\": 3}").find("f.json.format: found 3") == 0);
  CHECK(fault(R"({"format":1,"pupils":[{"id":"x","name":4}]})") ==
        "f.json, pupils[0].name: found 4, expected a text");
  CHECK(fault(R"({"format":1,"pupils":[{"id":"x","nane":"y"}]})").find("did you mean 'name'?") !=
        std::string::npos);
  CHECK(fault(R"({"format":1,"pupils":[{"id":"X!","name":"y"}]})").find("id of pupil 'X!'") !=
        std::string::npos);
  CHECK(fault(R"({"format":1,"lessons":[{"id":"l","pupil":"nobody"}]})").find("pupil nobody") !=
        std::string::npos);
  CHECK(fault(R"({"format":1,"lessons":[{"id":"l","pupil":"robin","swings":[{"id":"s","number":0}]}]})")
            .find("swings[0].number: found 0") != std::string::npos);
  CHECK(
      fault(
          R"({"format":1,"lessons":[{"id":"l","pupil":"robin","swings":[{"id":"s","number":1,"removed":true}]}]})")
          .find("removed: found true") != std::string::npos);
  CHECK(fault(R"({"format":1,"lessons":[{"id":"l","pupil":"robin","revision":1e400}]})").find("1e308") !=
        std::string::npos);
  CHECK(fault(R"({"format":2,"lessons":[{"id":"l","pupil":"robin","given":[{"id":"g","lesson":"m"}]}]})") ==
        "f.json, lessons[0].given[0].lesson: found 'm', expected l");
  CHECK(fault(R"({"format":2,"given":[{"id":"g","pupil":"robin","sheet":"[]"}]})")
            .find("f.json, given[0], sheet of given g: found '[]'") == 0);
  CHECK(fault(R"({"format":2,"own_exercises":[{"id":"o","document":"{"}]})")
            .find("f.json, own_exercises[0], document of own exercise o: found '{'") == 0);
  CHECK(fault(R"({"format":2,"lessons":[{"id":"l","pupil":"robin","swings":[{"id":"s","number":1,)"
              R"("purpose":"warm-up"}]}]})")
            .find("f.json, lessons[0].swings[0], purpose of swing s: found 'warm-up'") == 0);
  CHECK(fault(R"({"format":1,"lessons":[7]})") == "f.json, lessons[0]: found 7, expected an object { }");
  CHECK(good(book->pupils("", 9, 0)).size() == 1);
}

TEST_CASE("a lesson as a sightings file is read by the core, swing by swing") {
  Pupil pupil = some_pupil();
  pupil.hand = "left";
  KeptSwing one = some_swing("a"), two = some_swing("b"), three = some_swing("c");
  two.ball = false;
  two.condition = "lead_leg";
  two.seen = {{"divot_start_mm", "15"}, {"sure_divot_start_mm", "4"}};
  three.at = "";
  three.seen = {{"carry_m", "128"}, {"start", "left"}, {"start_deg", "-2"}, {"club_speed_mph", "80"}};
  const std::string csv = sightings_csv(pupil, Settings{}, {one, two, three});
  const auto swings = read_back(csv);
  REQUIRE(swings.size() == 3);
  CHECK(swings[0].line == 2);
  CHECK(swings[2].line == 4);
  CHECK(swings[0].hand == Hand::left);
  CHECK(swings[0].time == "2026-11-20T10:05:00Z");
  CHECK_FALSE(swings[2].time);
  CHECK_FALSE(swings[1].ball);
  CHECK(swings[1].condition == Condition::lead_leg);
  REQUIRE(swings[1].sightings.size() == 1);
  CHECK(swings[1].sightings[0].sd == doctest::Approx(0.004));
  // Yards came first: the metres of the third swing are written in yards, and mean the same.
  CHECK(csv.find("carry_yd") != std::string::npos);
  CHECK(csv.find("carry_m") == std::string::npos);
  bool found = false;
  for (const Sighting& s : swings[2].sightings) {
    found = found || (s.kind == Kind::carry && s.value == doctest::Approx(128.0).epsilon(1e-9));
  }
  CHECK(found);
  CHECK(swings[2].sightings.size() == 4);
}

TEST_CASE("the coach's own eye is written beside what was seen, unless the swing says it itself") {
  Settings settings;
  settings.sure = {{"divot_start_mm", "12"}, {"carry_m", "5"}, {"path_deg", "1"}};
  KeptSwing one = some_swing("a"), two = some_swing("b");
  two.seen = {{"divot_start_mm", "3"}, {"sure_divot_start_mm", "4"}};
  const std::string csv = sightings_csv(some_pupil(), settings, {one, two});
  const auto swings = read_back(csv);
  REQUIRE(swings.size() == 2);
  CHECK(csv.find("sure_path_deg") == std::string::npos);
  for (const Sighting& s : swings[0].sightings) {
    if (s.kind == Kind::divot_start) CHECK(s.sd == doctest::Approx(0.012));
    if (s.kind == Kind::carry) CHECK(s.sd == doctest::Approx(5.0));
  }
  REQUIRE(swings[1].sightings.size() == 1);
  CHECK(swings[1].sightings[0].sd == doctest::Approx(0.004));
}

TEST_CASE("a lesson without swings is a header, and odd text is kept in its cell") {
  CHECK(sightings_csv(some_pupil(), Settings{}, {}) == "club,condition,ball,surface,hand,time\n");
  KeptSwing odd = some_swing();
  odd.club = "#7, \"old\"";
  const std::string csv = sightings_csv(some_pupil(), Settings{}, {odd});
  CHECK(csv.find("\n\"#7, \"\"old\"\"\",normal,") != std::string::npos);
  CHECK(read_back(csv)[0].club == odd.club);
}
