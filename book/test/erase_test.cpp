// Erasing a pupil: no byte stays.

#include <SQLiteCpp/SQLiteCpp.h>

#include "some_book.hpp"

using namespace strikewright;

namespace {

constexpr const char* kMark = "Zzyzzyva";  // stands in every text of the pupil

/// Files of the folder in which the mark still stands.
std::vector<std::string> marked(const Folder& folder) {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    const std::string all = contents(entry.path().string());
    if (all.find(kMark) != std::string::npos || all.find("zzyzzyva") != std::string::npos)
      out.push_back(entry.path().filename().string());
  }
  return out;
}

/// An exercise of that lesson and a note outside of it, with the mark in every text.
void keep_given(Book& book, const Id& lesson, const Id& pupil, const std::string& mark) {
  Given given{.id = lesson, .pupil = pupil, .lesson = lesson, .exercise = mark, .at = "", .notes = mark};
  given.cause = given.why = mark;
  given.dose = "{\"sets\":\"" + mark + "\"}";
  given.sheet = R"({"language":"en","paper":"a4","made_at":"2026-11-22","for":")" + std::string(4000, 's') +
                mark + "\"}";
  good(book.keep(given));
  given.id += "-note";
  given.lesson = "";
  good(book.keep(given));
}

/// A pupil of many lessons, with the mark in every text, among others.
void fill(Book& book) {
  const std::string mark = kMark;
  good(book.keep(some_pupil("robin"), "coach"));
  Pupil pupil = some_pupil("zzyzzyva-1", mark + " Furrow");
  pupil.notes = pupil.cautions = pupil.bag = pupil.guardian = std::string(9000, 'n') + mark;
  good(book.keep(pupil, mark));
  for (int k = 0; k < 12; ++k) {
    const std::string lesson = "zzyzzyva-l" + std::to_string(k), other = "l" + std::to_string(k);
    good(book.keep(some_lesson(other, "robin"), "coach"));
    Lesson mine = some_lesson(lesson, pupil.id);
    mine.notes = mine.place = mark;
    good(book.keep(mine, mark));
    for (int n = 0; n < 12; ++n) {
      KeptSwing swing = some_swing("zzyzzyva-s" + std::to_string(k * 100 + n), lesson);
      swing.seen.push_back({"toe_heel", mark});
      good(book.keep(swing, mark));
      swing.club = mark;
      good(book.keep(swing, mark));
      good(book.keep(some_swing("s" + std::to_string(k * 100 + n), other), "coach"));
    }
    good(book.keep(KeptReading{.lesson = lesson,
                               .revision = 1,
                               .from = "usual",
                               .version = "0.1.0",
                               .made_at = "",
                               .document = std::string(20'000, 'd') + mark,
                               .summary = mark}));
    keep_given(book, lesson, pupil.id, mark);
    KeptSwing last = some_swing("zzyzzyva-s" + std::to_string(k * 100), lesson);
    last.given = lesson;
    good(book.keep(last, mark));
  }
  good(book.remove_lesson("zzyzzyva-l3"));
  good(book.remove_given("zzyzzyva-l4"));
}

}  // namespace

TEST_CASE("erasing a pupil leaves no byte of them in the file or beside it") {
  const Folder folder;
  const auto book = opened(folder / "b");
  fill(*book);
  REQUIRE_FALSE(marked(folder).empty());
  const Erased erased = good(book->erase_pupil("zzyzzyva-1"));
  CHECK(erased.lessons == 11);
  CHECK(erased.swings == 11 * 12);
  CHECK(marked(folder).empty());
  CHECK(is_absent(bad(book->pupil("zzyzzyva-1"))));
  CHECK(good(book->lessons_of("robin")).size() == 12);
  CHECK(is_absent(bad(book->given("zzyzzyva-l1"))));
  CHECK(is_absent(bad(book->given("zzyzzyva-l1-note"))));
  CHECK(good(book->check()).sound);
  CHECK(good(book->erase_pupil("zzyzzyva-1")).lessons == 0);
}

TEST_CASE("copies that hold an erased pupil go, others stay") {
  const Folder folder;
  const auto book = opened(folder / "b");
  good(book->keep(some_pupil("robin"), "coach"));
  good(book->backup(folder / "b.before-1"));
  fill(*book);
  good(book->backup(folder / "b.before-2"));
  write(folder / "b.before-2.part", std::string("half a copy, ") + kMark);
  write(folder / "bb.before-2", "of another book");
  const Erased erased = good(book->erase_pupil("zzyzzyva-1"));
  CHECK(erased.copies == std::vector<std::string>{folder / "b.before-2", folder / "b.before-2.part"});
  CHECK(marked(folder).empty());
  CHECK(std::filesystem::exists(folder / "b.before-1"));
  CHECK(std::filesystem::exists(folder / "bb.before-2"));
}

TEST_CASE("while another program reads, the rows go and the file is cleaned at the next opening") {
  const Folder folder;
  {
    const auto book = opened(folder / "b");
    fill(*book);
    SQLite::Database reader(folder / "b", SQLite::OPEN_READONLY);
    SQLite::Statement held(reader, "SELECT id FROM swing");
    REQUIRE(held.executeStep());
    const Fault fault = bad(book->erase_pupil("zzyzzyva-1"));
    CHECK(is_of_the_file(fault));
    CHECK(fault.expected.find("cleaned") != std::string::npos);
    CHECK(is_absent(bad(book->pupil("zzyzzyva-1"))));
    CHECK_FALSE(marked(folder).empty());
  }
  const auto book = opened(folder / "b");
  CHECK(marked(folder).empty());
  CHECK(good(book->check()).sound);
}
