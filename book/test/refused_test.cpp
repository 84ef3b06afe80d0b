// What may not be entered, and that odd text is only text.

#include "some_book.hpp"

using namespace strikewright;

namespace {

/// As the text of a JSON document; what JSON cannot hold stands as it is.
std::string in_json(const std::string& text) {
  std::string out = "[\"";
  for (const char c : text) out += c == '"' || c == '\\' ? std::string{'\\', c} : std::string{c};
  return out + "\"]";
}

/// Puts `text` into every free text field and says for each whether the book takes it.
std::vector<std::string> fields_that_take(Book& book, const std::string& text) {
  std::vector<std::string> out;
  const auto note = [&](const char* field, bool taken) {
    if (taken) out.emplace_back(field);
  };
  Pupil pupil = some_pupil("odd");
  for (const auto& [name, field] : {std::pair{"name", &Pupil::name},
                                    {"notes", &Pupil::notes},
                                    {"cautions", &Pupil::cautions},
                                    {"guardian", &Pupil::guardian},
                                    {"bag", &Pupil::bag}}) {
    Pupil p = pupil;
    p.*field = text;
    note(name, book.keep(p, "coach").has_value());
  }
  Lesson lesson = some_lesson("odd-lesson");
  for (const auto& [name, field] : {std::pair{"place", &Lesson::place},
                                    {"lesson notes", &Lesson::notes},
                                    {"club", &Lesson::club},
                                    {"condition", &Lesson::condition},
                                    {"surface", &Lesson::surface}}) {
    Lesson l = lesson;
    l.*field = text;
    note(name, book.keep(l, "coach").has_value());
  }
  KeptSwing swing = some_swing("odd-swing");
  swing.seen = {{"contact", text}};
  note("seen", book.keep(swing, "coach").has_value());
  note("who", book.keep(some_swing("odd-who"), text).has_value());
  for (const auto& [name, field] : {std::pair{"exercise", &Given::exercise},
                                    {"given notes", &Given::notes},
                                    {"cause", &Given::cause},
                                    {"why", &Given::why}}) {
    Given given{.id = "odd-given", .pupil = "robin", .lesson = "", .exercise = "", .at = "", .notes = ""};
    given.*field = text;
    note(name, book.keep(given).has_value());
  }
  note("own exercise", book.keep(OwnExercise{.id = "odd", .document = in_json(text)}).has_value());
  note("settings", book.keep(Settings{.place = text}).has_value());
  note("device",
       book.keep(Book::Device{.id = "odd", .name = text, .token_hash = "x", .paired_at = "", .seen_at = ""})
           .has_value());
  note("search", book.pupils(text, 9, 0).has_value());
  return out;
}

const std::size_t kFields = 20;

}  // namespace

TEST_CASE("SQL in every text field is text") {
  const Folder folder;
  const auto book = begun(folder / "b");
  for (const std::string text : {"'); DROP TABLE pupil; --", "\" OR 1=1 --", "?1; ATTACH 'x' AS y",
                                 "%_\\'[]{}", "<script>alert(1)</script>", "[\"a\"]", "NULL"}) {
    CHECK(fields_that_take(*book, text).size() == kFields);
    CHECK(good(book->pupil("odd")).bag == text);
    CHECK(good(book->lesson("odd-lesson")).surface == text);
    CHECK(good(book->changes_of("odd-who")).size() == 1);
    CHECK(good(book->given("odd-given")).why == text);
    CHECK(good(book->own_exercises())[0].document == in_json(text));
  }
  CHECK(good(book->pupil("robin")) == some_pupil());
  CHECK(good(book->check()).sound);
}

TEST_CASE("NUL bytes, invalid UTF-8 and control characters are refused in every field") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const std::string before = good(book->export_json());
  for (const std::string& text :
       {std::string("a\0b", 3),
        std::string("a\xff"
                    "b"),
        std::string("\xc0\x80"), std::string("\xed\xa0\x80"), std::string("bell\x07")})
    CHECK(fields_that_take(*book, text).empty());
  CHECK(good(book->export_json()) == before);
  Pupil pupil = some_pupil();
  pupil.name = std::string("a\0b", 3);
  const Fault fault = bad(book->keep(pupil, "coach"));
  CHECK(fault.place == "name of pupil robin");
  CHECK_FALSE(is_of_the_file(fault));
}

TEST_CASE("a field that cannot be so says which, what was found and what is expected") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const auto pupil = [&](auto change) {
    Pupil p = some_pupil();
    change(p);
    return bad(book->keep(p, "coach")).sentence();
  };
  CHECK(pupil([](Pupil& p) { p.name = "  "; }) == "name of pupil robin: found nothing, expected a name");
  CHECK(pupil([](Pupil& p) { p.hand = "lefty"; }).find("did you mean 'left'?") != std::string::npos);
  CHECK(pupil([](Pupil& p) { p.height_m = 178; }) ==
        "height_m of pupil robin: found 178, expected 0.5 to 2.5");
  CHECK(pupil([](Pupil& p) { p.birth_year = 71; }).find("birth_year of pupil robin: found 71") == 0);
  CHECK(pupil([](Pupil& p) { p.skill = "expert"; }).find("skill of pupil robin") == 0);
  CHECK(pupil([](Pupil& p) { p.id = "../x"; }).find("id of pupil '../x'") == 0);
  CHECK(pupil([](Pupil& p) { p.made_at = "2026-02-30"; }).find("made_at of pupil robin") == 0);
  CHECK(pupil([](Pupil& p) { p.language = "E"; }) ==
        "language of pupil robin: found 'E', expected 2 to 8 of the letters a-z");
  CHECK(pupil([](Pupil& p) { p.language = ""; }).find("language of pupil robin") == 0);
  CHECK(pupil([](Pupil& p) { p.consent_at = "2026-11-25T10:30:00Z"; }) ==
        "consent_at of pupil robin: found '2026-11-25T10:30:00Z', expected a day such as 2026-12-03");
  CHECK(pupil([](Pupil& p) { p.next_lesson_at = "2026-13-01"; }).find("next_lesson_at of pupil robin") == 0);
  CHECK(pupil([](Pupil& p) { p.weekly_balls = 2001; }).find("weekly_balls of pupil robin: found 2001") == 0);
  CHECK(pupil([](Pupil& p) { p.weekly_balls = -1; }).find("weekly_balls of pupil robin: found -1") == 0);
  KeptSwing swing = some_swing();
  swing.seen = {{"carry_m", "1"}, {"carry_m", "2"}};
  CHECK(bad(book->keep(swing, "coach")).found == "'carry_m' twice");
  swing.seen = {{"hand", "left"}};
  CHECK(bad(book->keep(swing, "coach")).place == "seen of swing swing-1");
  swing.seen = {{"carry m", "1"}};
  CHECK(bad(book->keep(swing, "coach")).found == "'carry m'");
  CHECK(bad(book->keep(Settings{.sure = {{"carry_m", "-1"}}})).place == "sure of settings own");
}

TEST_CASE("what is given says which of its fields cannot be so") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const auto place = [&](auto change) {
    Given given{.id = "g", .pupil = "robin", .lesson = "", .exercise = "step", .at = "", .notes = ""};
    change(given);
    return bad(book->keep(given)).place;
  };
  CHECK(place([](Given& g) { g.id = "../g"; }) == "id of given '../g'");
  CHECK(place([](Given& g) { g.pupil = "nobody"; }) == "pupil nobody");
  CHECK(place([](Given& g) { g.lesson = "none"; }) == "lesson none");
  CHECK(place([](Given& g) { g.lesson = "Not an id"; }) == "lesson of given g");
  CHECK(place([](Given& g) { g.exercise = "two\nlines"; }) == "exercise of given g");
  CHECK(place([](Given& g) { g.at = "yesterday"; }) == "at of given g");
  CHECK(place([](Given& g) { g.ended_at = "soon"; }) == "ended_at of given g");
  CHECK(place([](Given& g) { g.cause = std::string(101, 'c'); }) == "cause of given g");
  for (const char* text : {"3 times", "[]", "3", "{", "{\"a\":1} x", "null"}) {
    CHECK(place([&](Given& g) { g.dose = text; }) == "dose of given g");
    CHECK(place([&](Given& g) { g.sheet = text; }) == "sheet of given g");
  }
  CHECK(place([](Given& g) { g.dose = "{\"a\":\"" + std::string(10'000, 'x') + "\"}"; }) ==
        "dose of given g");
  for (const char* text :
       {"{}", R"({"language":"en","paper":"a4"})", R"({"language":"en","paper":4,"made_at":"2026-11-22"})",
        R"({"language":"","paper":"a4","made_at":"2026-11-22"})",
        R"({"language":"en","paper":"a4","made_at":"today"})"})
    CHECK(place([&](Given& g) { g.sheet = text; }) == "sheet of given g");
  CHECK(good(book->given_to("robin")).empty());
}

TEST_CASE("a coach's own exercise is JSON of half a megabyte at most, under a name") {
  const Folder folder;
  const auto book = opened(folder / "b");
  CHECK(bad(book->keep(OwnExercise{.id = "", .document = "{}"})).place == "id of own exercise ''");
  for (const std::string& text : {std::string(), std::string("{"), std::string("step"), std::string("{} {}"),
                                  '"' + std::string(1u << 19, 'x') + '"'})
    CHECK(bad(book->keep(OwnExercise{.id = "o", .document = text})).place == "document of own exercise o");
  CHECK(bad(book->keep(OwnExercise{.id = "o", .document = "{}", .made_at = "x"})).place ==
        "made_at of own exercise o");
  CHECK(good(book->own_exercises()).empty());
}

TEST_CASE("handicaps and plus handicaps are skills, and times without a clock are times") {
  const Folder folder;
  const auto book = begun(folder / "b");
  for (const char* skill : {"beginner", "18", "+2", "4.5"}) {
    Pupil pupil = some_pupil();
    pupil.skill = skill;
    good(book->keep(pupil, "coach"));
  }
  for (const char* at : {"2026-11-20", "2026-11-20T10:05", "2026-11-20 10:05:00.25-03:30", "2024-02-29"}) {
    Lesson lesson = some_lesson();
    lesson.begun_at = at;
    CHECK_MESSAGE(book->keep(lesson, "coach").has_value(), at);
  }
  for (const char* at :
       {"2026-11-20T25:00", "2026-13-01", "20.11.2026", "2026-11-20T10:05+1", "2026-11-20T10:05:61"}) {
    Lesson lesson = some_lesson();
    lesson.begun_at = at;
    CHECK_MESSAGE(!book->keep(lesson, "coach").has_value(), at);
  }
}
