#include "verbs/demo_verb.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "verbs/reading_verb.hpp"
#include "verbs/test/scratch_book.hpp"

using namespace strikewright;

TEST_CASE("the demo's lessons can all be read, the left-hander's too") {
  const ScratchBook scratch;
  Book& book = *scratch.book;
  REQUIRE(fill_demo(book) == Result<int>(3));
  const auto pupils = book.pupils("", 100, 0);
  REQUIRE(pupils);
  REQUIRE(pupils->size() == 3);
  int left = 0, lessons = 0;
  for (const PupilLine& line : *pupils) {
    left += line.pupil.hand == "left";
    const auto own = book.lessons_of(line.pupil.id);
    REQUIRE(own);
    for (const LessonLine& lesson : *own) {
      ++lessons;
      const auto swings = book.swings_of(lesson.lesson.id);
      REQUIRE(swings);
      const std::string csv = sightings_csv(line.pupil, Settings{}, *swings);
      const auto reading = reading_document({.csv = csv, .skill = line.pupil.skill});
      REQUIRE_MESSAGE(reading.has_value(), reading.error().front().sentence());
      CHECK(reading->at("n") == swings->size());
      for (const nlohmann::ordered_json& pattern : reading->at("patterns"))
        CHECK(pattern.at("hand") == line.pupil.hand);
    }
  }
  CHECK(left == 1);
  CHECK(lessons == 6);
}

TEST_CASE("the last lesson of the demo that had an exercise says which") {
  const ScratchBook scratch;
  REQUIRE(fill_demo(*scratch.book));
  const auto given = scratch.book->given_to("demo-osk");
  REQUIRE(given);
  CHECK(given->size() == 3);
}

TEST_CASE("the demo is the same every time, and never mixes with anybody's records") {
  const ScratchBook one, other;
  REQUIRE(fill_demo(*one.book));
  REQUIRE(fill_demo(*other.book));
  CHECK(one.book->swings_of("demo-osk-1") == other.book->swings_of("demo-osk-1"));
  CHECK(!fill_demo(*one.book));
  CHECK(one.book->pupils("", 100, 0)->size() == 3);
}
