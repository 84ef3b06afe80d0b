// Settings, pupils, lessons, readings, what was given, devices.

#include "some_book.hpp"

using namespace strikewright;

TEST_CASE("a record that is kept is there when the book is opened again") {
  const Folder folder;
  Settings settings{.units = "yards", .from = "best", .place = "the range", .surface = "mat"};
  settings.sure = {{"carry_yd", "6"}, {"divot_start_mm", "12"}};
  const KeptReading reading{.lesson = "first",
                            .revision = 2,
                            .from = "usual",
                            .version = "0.1.0",
                            .made_at = "2026-11-20T11:00:00Z",
                            .document = "{\"n\":1}",
                            .summary = "{}"};
  const Given given{.id = "g1",
                    .pupil = "robin",
                    .lesson = "first",
                    .exercise = "step",
                    .at = "2026-11-20T11:00:00Z",
                    .notes = "twice a day",
                    .dose = "{\"balls\": 20}",
                    .cause = "weight",
                    .why = "So that the club reaches the ball first.",
                    .ended_at = "2026-11-27T11:00:00Z",
                    .sheet = R"({"language":"en","paper":"letter","made_at":"2026-11-20T11:05:00Z"})"};
  const Book::Device device{
      .id = "d1", .name = "phone", .token_hash = "abc", .paired_at = "2026-11-20T11:00:00Z", .seen_at = ""};
  {
    const auto book = begun(folder / "b");
    good(book->keep(settings));
    good(book->keep(some_swing(), "coach"));
    good(book->keep(reading));
    good(book->keep(given));
    good(book->keep(device));
  }
  const auto book = opened(folder / "b");
  CHECK(good(book->settings()) == settings);
  CHECK(good(book->pupil("robin")) == some_pupil());
  Lesson lesson = some_lesson();
  lesson.revision = 2;
  CHECK(good(book->lesson("first")) == lesson);
  KeptSwing swing = some_swing();
  swing.number = 1;
  CHECK(good(book->swings_of("first")) == std::vector<KeptSwing>{swing});
  CHECK(good(book->reading_of("first")) == reading);
  CHECK(good(book->given_to("robin")) == std::vector<Given>{given});
  REQUIRE(good(book->devices()).size() == 1);
  CHECK(good(book->devices())[0].token_hash == "abc");
  good(book->revoke_device("d1"));
  CHECK(good(book->devices()).empty());
}

TEST_CASE("an empty book has the usual settings and nobody in it") {
  const Folder folder;
  const auto book = opened(folder / "b");
  CHECK(good(book->settings()) == Settings{});
  CHECK(good(book->pupils("", 10, 0)).empty());
  CHECK(good(book->check()).sound);
}

TEST_CASE("what is not in the book is said to be absent") {
  const Folder folder;
  const auto book = begun(folder / "b");
  CHECK(is_absent(bad(book->pupil("nobody"))));
  CHECK(is_absent(bad(book->lesson("none"))));
  CHECK(is_absent(bad(book->swings_of("none"))));
  CHECK(is_absent(bad(book->lessons_of("nobody"))));
  CHECK(is_absent(bad(book->keep(some_lesson("l", "nobody"), "coach"))));
  CHECK(is_absent(bad(book->keep(some_swing("s", "none"), "coach"))));
  CHECK(is_absent(bad(book->remove_swing("none", "coach"))));
  CHECK(is_absent(bad(book->changes_of("none"))));
  const Fault fault = bad(book->pupil("nobody"));
  CHECK_FALSE(is_conflict(fault));
  CHECK_FALSE(is_of_the_file(fault));
  CHECK(fault.place == "pupil nobody");
}

TEST_CASE("a lesson stays with its pupil and a swing with its lesson") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_pupil("kim", "Kim Sod"), "coach"));
  good(book->keep(some_lesson("second"), "coach"));
  good(book->keep(some_swing(), "coach"));
  CHECK(is_conflict(bad(book->keep(some_lesson("first", "kim"), "coach"))));
  CHECK(is_conflict(bad(book->keep(some_swing("swing-1", "second"), "coach"))));
  CHECK(good(book->lesson("first")).pupil == "robin");
}

TEST_CASE("search finds words anywhere in a name, whatever their case and accents") {
  const Folder folder;
  const auto book = opened(folder / "b");
  const std::vector<std::pair<Id, std::string>> people{
      {"a", "Łucja Żółw"}, {"b", "JOSÉ Müller-Straße"}, {"c", "Ægir Þórsson"},    {"d", "Άννα Ωραία"},
      {"e", "Пётр Зай"},   {"f", "100% o'Brien"},       {"g", "Zoe\u0308 Nguyễn"}};
  for (const auto& [id, name] : people) good(book->keep(some_pupil(id, name), "coach"));
  const auto found = [&](const std::string& search) {
    std::string ids;
    for (const PupilLine& line : good(book->pupils(search, 100, 0))) ids += line.pupil.id;
    return ids;
  };
  CHECK(found("lucja") == "a");
  CHECK(found("ZOLW łu") == "a");
  CHECK(found("jose strasse") == "b");
  CHECK(found("MULLER") == "b");
  CHECK(found("aegir thor") == "c");
  CHECK(found("ανναω") == "");
  CHECK(found("ωραια ΑΝΝΑ") == "d");
  CHECK(found("петр") == "e");
  CHECK(found("%") == "f");
  CHECK(found("O'B") == "f");
  CHECK(found("_") == "");
  CHECK(found("zoë") == "g");
  CHECK(found("nguyen zoe") == "g");
  CHECK(found("  ") == "abcdefg");
  CHECK(found("jose lucja") == "");
}

TEST_CASE("pupils come with the newest lesson first, in pieces") {
  const Folder folder;
  const auto book = opened(folder / "b");
  for (const char* id : {"a", "b", "c", "d"}) good(book->keep(some_pupil(id, id), "coach"));
  // Times of one moment in three zones: text order is not time order.
  good(book->keep(some_lesson("la", "a", "2026-11-20T12:00:00+03:00"), "coach"));
  good(book->keep(some_lesson("lb", "b", "2026-11-20T10:00:00Z"), "coach"));
  good(book->keep(some_lesson("lc", "c", "2026-11-20T09:30:00-02:00"), "coach"));
  good(book->keep(some_lesson("lc2", "c", "2026-11-01"), "coach"));
  good(book->keep(some_swing("s1", "lc"), "coach"));
  good(book->keep(some_swing("s2", "lc2"), "coach"));
  good(book->keep(some_swing("s3", "lc2"), "coach"));
  good(book->remove_swing("s3", "coach"));
  const auto all = good(book->pupils("", 10, 0));
  REQUIRE(all.size() == 4);
  CHECK(all[0].pupil.id == "c");
  CHECK(all[0].lessons == 2);
  CHECK(all[0].swings == 2);
  CHECK(all[0].last_lesson_at == "2026-11-20T09:30:00-02:00");
  CHECK(all[1].pupil.id == "b");
  CHECK(all[2].pupil.id == "a");
  CHECK(all[3].pupil.id == "d");
  CHECK(all[3].last_lesson_at.empty());
  const auto piece = good(book->pupils("", 2, 1));
  REQUIRE(piece.size() == 2);
  CHECK(piece[0].pupil.id == "b");
  CHECK(piece[1].pupil.id == "a");
  CHECK(good(book->pupils("", 0, 0)).empty());
}

TEST_CASE("a timeline is in order of date and shows the kept summary") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_lesson("earlier", "robin", "2026-11-02T10:00:00Z"), "coach"));
  good(book->keep(some_swing("s1", "first"), "coach"));
  good(book->keep(some_swing("s2", "first"), "coach"));
  good(book->remove_swing("s1", "coach"));
  KeptReading reading{.lesson = "first",
                      .revision = 4,
                      .from = "usual",
                      .version = "0.1.0",
                      .made_at = "",
                      .document = "{\"long\":1}",
                      .summary = "{\"short\":1}"};
  good(book->keep(reading));
  reading.lesson = "earlier";
  reading.revision = 1;
  reading.summary = "";
  good(book->keep(reading));
  good(book->keep(
      Given{.id = "g", .pupil = "robin", .lesson = "first", .exercise = "step", .at = "", .notes = ""}));
  const auto lines = good(book->lessons_of("robin"));
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].lesson.id == "earlier");
  CHECK(lines[0].reading->document == "{\"long\":1}");
  CHECK(lines[1].swings == 1);
  CHECK(lines[1].reading->summary == "{\"short\":1}");
  CHECK(lines[1].reading->document.empty());
  REQUIRE(lines[1].given.size() == 1);
  CHECK_FALSE(lines[1].given[0].at.empty());
}

TEST_CASE("a reading of an older revision is let go, one of a revision to come is refused") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_swing(), "coach"));
  KeptReading reading{.lesson = "first",
                      .revision = 2,
                      .from = "usual",
                      .version = "0.1.0",
                      .made_at = "2026-11-20T11:00:00Z",
                      .document = "new"};
  good(book->keep(reading));
  KeptReading older = reading;
  older.revision = 1;
  older.document = "old";
  good(book->keep(older));
  CHECK(good(book->reading_of("first")) == reading);
  older.revision = 3;
  CHECK(bad(book->keep(older)).expected == "0 to 2, the lesson's");
}

TEST_CASE("the revision of a lesson grows with its changes and only with them") {
  const Folder folder;
  const auto book = begun(folder / "b");
  Lesson lesson = some_lesson();
  CHECK(good(book->keep(lesson, "coach")) == 1);
  lesson.notes = "rain";
  CHECK(good(book->keep(lesson, "coach")) == 2);
  CHECK(good(book->keep(some_swing(), "coach")) == 3);
  CHECK(good(book->keep(some_swing(), "coach")) == 3);
  lesson.begun_at = "";
  CHECK(good(book->keep(lesson, "coach")) == 3);
  CHECK(good(book->lesson("first")).begun_at == "2026-11-20T10:00:00Z");
}

TEST_CASE("a removed lesson takes everything with it, once or twice") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_swing(), "coach"));
  good(book->keep(
      Given{.id = "g", .pupil = "robin", .lesson = "first", .exercise = "step", .at = "", .notes = ""}));
  good(book->keep(
      Given{.id = "h", .pupil = "robin", .lesson = "", .exercise = "", .at = "", .notes = "a note"}));
  good(book->remove_lesson("first"));
  good(book->remove_lesson("first"));
  CHECK(is_absent(bad(book->lesson("first"))));
  CHECK(is_absent(bad(book->changes_of("swing-1"))));
  REQUIRE(good(book->given_to("robin")).size() == 1);
  CHECK(good(book->given_to("robin"))[0].id == "h");
  CHECK(good(book->check()).sightings == 0);
}

TEST_CASE("other screens hear of every change, and of nothing else") {
  const Folder folder;
  const auto book = begun(folder / "b");
  std::vector<std::string> heard;
  book->on_change([&](const Changed& c) {
    heard.push_back(c.pupil + "/" + c.lesson + "/" + std::to_string(c.revision));
    good(book->settings());  // asking the book from inside is allowed
  });
  good(book->keep(some_swing(), "coach"));
  good(book->keep(some_swing(), "coach"));
  bad(book->keep(some_swing("s", "none"), "coach"));
  good(book->remove_swing("swing-1", "coach"));
  good(book->keep(Settings{.units = "yards"}));
  good(book->keep(some_pupil("kim", "Kim"), "coach"));
  good(book->erase_pupil("kim"));
  CHECK(heard == std::vector<std::string>{"robin/first/2", "robin/first/3", "//0", "kim//0", "kim//0"});
}
