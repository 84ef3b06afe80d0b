// Older books are moved up, and a copy of each stays beside it.

#include <SQLiteCpp/SQLiteCpp.h>

#include "book/migrations.hpp"
#include "some_book.hpp"

using namespace strikewright;

namespace {

void make_old(const std::string& file, int schema) {
  SQLite::Database old(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  old.exec(contents(std::string(SOURCE_DIR) + "/book/test/old/schema_" + std::to_string(schema) + ".sql"));
}

std::string schema_of(const std::string& file) {
  SQLite::Database book(file, SQLite::OPEN_READONLY);
  SQLite::Statement row(book, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name");
  std::string out;
  while (row.executeStep()) out += row.getColumn(0).getString() + "\n";
  return out;
}

}  // namespace

TEST_CASE("a book of every older schema opens with all that was in it") {
  for (int schema = 1; schema < kept::newest_schema(); ++schema) {
    CAPTURE(schema);
    const Folder folder;
    make_old(folder / "b", schema);
    const auto book = opened(folder / "b");
    CHECK(good(book->settings()).sure == std::map<std::string, std::string>{{"carry_yd", "6"}});
    CHECK(good(book->pupil("robin")).notes == "slices\nwhen tired");
    CHECK(good(book->pupils("sodling", 9, 0)).size() == 1);
    CHECK(good(book->swings_of("may-3")).size() == 2);
    CHECK(good(book->swings_of("may-9"))[2].seen[0] == Entered{"divot_start_mm", "-30"});
    CHECK(good(book->changes_of("s-1-3"))[1].what == "removed");
    CHECK(good(book->reading_of("may-3"))->document == "{\"n\":2}");
    CHECK(good(book->given_to("robin"))[0].notes == "twice a day");
    const BookCheck check = good(book->check());
    CHECK(check.sound);
    CHECK(check.version == kept::newest_schema());
  }
}

TEST_CASE("a book that was moved up has the schema of a new one") {
  for (int schema = 1; schema < kept::newest_schema(); ++schema) {
    CAPTURE(schema);
    const Folder folder;
    make_old(folder / "old", schema);
    { opened(folder / "old"); }
    { opened(folder / "new"); }
    CHECK(schema_of(folder / "old") == schema_of(folder / "new"));
  }
}

TEST_CASE("records from before exercises say what a new record says when nothing is noted") {
  const Folder folder;
  make_old(folder / "b", 2);
  const auto book = opened(folder / "b");
  const Pupil pupil = good(book->pupil("robin"));
  CHECK(pupil.language == "en");
  CHECK(pupil.guardian + pupil.consent_at + pupil.next_lesson_at == "");
  CHECK_FALSE(pupil.weekly_balls);
  const auto given = good(book->given_to("robin"));
  REQUIRE(given.size() == 2);
  CHECK(given[0] == Given{.id = "g-1",
                          .pupil = "robin",
                          .lesson = "may-3",
                          .exercise = "step",
                          .at = "2026-05-03T11:00:00.000Z",
                          .notes = "twice a day"});
  CHECK(given[1].lesson.empty());
  for (const KeptSwing& swing : good(book->swings_of("may-3"))) CHECK(swing.given + swing.purpose == "");
  CHECK(good(book->own_exercises()).empty());
  CHECK(good(book->devices()).size() == 1);
  CHECK(good(book->reading_of("may-3"))->summary == "{\"short\":2}");
}

TEST_CASE("the old file stays beside the new one, even where there is one already") {
  const Folder folder;
  const std::string copy_name = "b.before-" + std::to_string(kept::newest_schema());
  for (int k = 0; k < 2; ++k) {
    make_old(folder / "b", 1);
    { opened(folder / "b"); }
    for (const char* ending : {"", "-wal", "-shm"})
      std::filesystem::remove(folder / (std::string("b") + ending));
  }
  for (const std::string& name : {copy_name, copy_name + "-2"}) {
    SQLite::Database copy(folder / name, SQLite::OPEN_READONLY);
    CHECK(copy.execAndGet("PRAGMA user_version").getInt() == 1);
    CHECK(copy.execAndGet("SELECT count(*) FROM swing").getInt() == 9);
  }
}

TEST_CASE("erasing a pupil reaches the copy of the old book") {
  const Folder folder;
  make_old(folder / "b", 1);
  const auto book = opened(folder / "b");
  const std::string copy = folder / ("b.before-" + std::to_string(kept::newest_schema()));
  CHECK(good(book->erase_pupil("kim")).copies == std::vector<std::string>{copy});
  CHECK(contents(folder / "b").find("Kim S") == std::string::npos);
  CHECK(good(book->pupil("robin")).name == "Robin Furrow");
}

TEST_CASE("a book that cannot be moved up stays what it was") {
  const Folder folder;
  make_old(folder / "b", 1);
  // Something is in the way of the last step; the one before it would have gone.
  { SQLite::Database(folder / "b", SQLite::OPEN_READWRITE).exec("CREATE TABLE own_exercise (id TEXT)"); }
  CHECK(is_of_the_file(bad(open_book(folder / "b"))));
  SQLite::Database raw(folder / "b", SQLite::OPEN_READONLY);
  CHECK(raw.execAndGet("PRAGMA user_version").getInt() == 1);
  CHECK(raw.execAndGet("SELECT count(*) FROM swing").getInt() == 9);
  CHECK(raw.execAndGet("SELECT count(*) FROM sqlite_schema WHERE name = 'device'").getInt() == 0);
  for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
    CHECK(entry.path().filename().string().find(".before-") == std::string::npos);
}
