// What was given, the swings that were a part of it, and the coach's own exercises.

#include "some_book.hpp"

using namespace strikewright;

namespace {

Given some_given(const Id& id = "g", const Id& pupil = "robin", const Id& lesson = "first") {
  return {.id = id,
          .pupil = pupil,
          .lesson = lesson,
          .exercise = "step",
          .at = "2026-11-20T11:00:00Z",
          .notes = "",
          .cause = "weight"};
}

KeptSwing part_of(const Id& given, const std::string& purpose) {
  KeptSwing swing = some_swing();
  swing.given = given;
  swing.purpose = purpose;
  return swing;
}

}  // namespace

TEST_CASE("what a pupil was given comes in order of time and can be asked for one by one") {
  const Folder folder;
  const auto book = begun(folder / "b");
  Given later = some_given("a"), earlier = some_given("b");
  earlier.at = "2026-11-20T12:30:00+02:00";
  good(book->keep(later));
  good(book->keep(earlier));
  CHECK(good(book->given_to("robin")) == std::vector<Given>{earlier, later});
  CHECK(good(book->given("a")) == later);
  CHECK(good(book->lessons_of("robin"))[0].given.size() == 2);
  CHECK(is_absent(bad(book->given("c"))));
  CHECK(is_absent(bad(book->given_to("nobody"))));
}

TEST_CASE("an exercise is ended, moved out of its lesson and kept at its time, but stays the pupil's") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_pupil("kim", "Kim Sod"), "coach"));
  good(book->keep(some_lesson("of-kim", "kim"), "coach"));
  good(book->keep(some_given()));
  Given now = some_given();
  now.at = "";
  now.lesson = "";
  now.ended_at = "2026-11-27";
  good(book->keep(now));
  now.at = some_given().at;
  CHECK(good(book->given("g")) == now);
  CHECK(is_conflict(bad(book->keep(some_given("g", "kim", "")))));
  CHECK(is_conflict(bad(book->keep(some_given("h", "robin", "of-kim")))));
}

TEST_CASE("a swing says what it was hit for") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_given()));
  for (const char* purpose : {"baseline", "exercise", "after", "retention", "transfer", "pressure", ""}) {
    good(book->keep(part_of("g", purpose), "coach"));
    CHECK(good(book->swings_of("first"))[0].purpose == purpose);
  }
  CHECK(good(book->changes_of("swing-1")).size() == 7);
  CHECK(good(book->changes_of("swing-1"))[3].purpose == "retention");
  CHECK(good(book->changes_of("swing-1"))[3].given == "g");
  const Fault fault = bad(book->keep(part_of("g", "aftr"), "coach"));
  CHECK(fault.place == "purpose of swing swing-1");
  CHECK(fault.expected.find("did you mean 'after'?") != std::string::npos);
}

TEST_CASE("a swing is a part only of what its own pupil was given") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_pupil("kim", "Kim Sod"), "coach"));
  good(book->keep(some_given("of-kim", "kim", "")));
  CHECK(is_absent(bad(book->keep(part_of("none", ""), "coach"))));
  CHECK(bad(book->keep(part_of("none", ""), "coach")).place == "given none");
  CHECK(is_conflict(bad(book->keep(part_of("of-kim", ""), "coach"))));
  CHECK(bad(book->keep(part_of("Of Kim", ""), "coach")).place == "given of swing swing-1");
  CHECK(good(book->swings_of("first")).empty());
}

TEST_CASE("an exercise that is taken out leaves its swings as they are") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_given()));
  good(book->keep(part_of("g", "after"), "coach"));
  const auto revision = good(book->lesson("first")).revision;
  good(book->remove_given("g"));
  good(book->remove_given("g"));
  CHECK(is_absent(bad(book->given("g"))));
  CHECK(good(book->given_to("robin")).empty());
  KeptSwing swing = part_of("g", "after");
  swing.number = 1;
  CHECK(good(book->swings_of("first")) == std::vector<KeptSwing>{swing});
  CHECK(good(book->lesson("first")).revision == revision);
  // It can still be corrected, and the book goes out and comes in again.
  swing.club = "8i";
  good(book->keep(swing, "coach"));
  const auto copy = opened(folder / "copy");
  good(copy->import_json(good(book->export_json()), "b"));
  CHECK(good(copy->swings_of("first")) == good(book->swings_of("first")));
}

TEST_CASE("an import does not make a swing a part of what another pupil was given") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_pupil("kim", "Kim Sod"), "coach"));
  good(book->keep(some_given("of-kim", "kim", "")));
  const std::string before = good(book->export_json());
  const Fault fault = bad(book->import_json(
      R"({"format":2,"lessons":[{"id":"new","pupil":"robin","swings":[{"id":"s","number":1,"given":"of-kim"}]}]})",
      "f.json"));
  CHECK(is_conflict(fault));
  CHECK(fault.place == "f.json, lessons[0].swings[0], given of-kim");
  CHECK(good(book->export_json()) == before);
}

TEST_CASE("the coach's own exercises are kept as written, replaced and taken out") {
  const Folder folder;
  const auto book = opened(folder / "b");
  const OwnExercise one{.id = "towel", .document = "{\"n\": 1.0}", .made_at = "2026-11-20T11:00:00Z"};
  good(book->keep(one));
  good(book->keep(OwnExercise{.id = "alone", .document = "[]"}));
  const auto all = good(book->own_exercises());
  REQUIRE(all.size() == 2);
  CHECK(all[0].id == "alone");
  CHECK_FALSE(all[0].made_at.empty());
  CHECK(all[1] == one);
  good(book->keep(OwnExercise{.id = "towel", .document = "{\"n\": 2}"}));
  CHECK(good(book->own_exercises())[1].document == "{\"n\": 2}");
  CHECK(good(book->own_exercises())[1].made_at == one.made_at);
  good(book->remove_own_exercise("alone"));
  good(book->remove_own_exercise("alone"));
  CHECK(good(book->own_exercises()).size() == 1);
}

TEST_CASE("other screens hear of what is given and of own exercises, and of nothing that stayed the same") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_lesson("second"), "coach"));
  std::vector<std::string> heard;
  book->on_change([&](const Changed& c) {
    heard.push_back(c.pupil + "/" + c.lesson + "/" + std::to_string(c.revision));
  });
  good(book->keep(some_given()));
  good(book->keep(some_given()));
  good(book->keep(some_given("g", "robin", "second")));
  good(book->remove_given("g"));
  good(book->remove_given("g"));
  CHECK(heard ==
        std::vector<std::string>{"robin/first/1", "robin/second/1", "robin/first/1", "robin/second/1"});
  heard.clear();
  good(book->keep(OwnExercise{.id = "o", .document = "{}"}));
  good(book->keep(OwnExercise{.id = "o", .document = "{}"}));
  good(book->remove_own_exercise("o"));
  good(book->remove_own_exercise("o"));
  CHECK(heard == std::vector<std::string>{"//0", "//0"});
}
