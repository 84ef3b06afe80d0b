// The calls about the file as a whole: erasing a pupil, backup, check.

#include <fmt/format.h>

#include <filesystem>

#include "book/file.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

constexpr const char* kClean = "clean";

bool owes(Store& store) {
  Query row(store, "SELECT 1 FROM chore WHERE what = ?", kClean);
  return row.next();
}

/// What was erased lies in the file's free pages and beside it until this is done; the chore outlives a power
/// cut.
Result<void> do_chore(Store& store) {
  return guarded(store.file(), [&]() -> Result<void> {
    if (!owes(store)) return {};
    if (auto done = clean(store); !done) return done;
    Query(store, "DELETE FROM chore WHERE what = ?", kClean).run();
    return {};
  });
}

std::vector<std::string> drop_copies(const std::string& file, const Id& pupil) {
  std::vector<std::string> gone;
  for (const std::string& copy : copies_of(file)) {
    std::error_code failed;
    if (may_hold(copy, pupil) && std::filesystem::remove(copy, failed)) gone.push_back(copy);
  }
  return gone;
}

std::int64_t count_of(Store& store, const char* sql) {
  Query row(store, sql);
  row.next();
  return row.number(0);
}

/// What SQLite itself has to say, and what only we know about our rows.
void listen(Store& store, BookCheck& check) {
  SQLite::Statement whole(store.database(), "PRAGMA integrity_check");
  while (whole.executeStep()) {
    if (const std::string said = whole.getColumn(0).getString(); said != "ok")
      check.complaints.push_back(said);
  }
  SQLite::Statement keys(store.database(), "PRAGMA foreign_key_check");
  while (keys.executeStep())
    check.complaints.push_back("a row of " + keys.getColumn(0).getString() + " belongs to nothing");
  const std::int64_t lost =
      count_of(store,
               "SELECT count(*) FROM swing s WHERE s.changes <> (SELECT count(*) FROM swing_change WHERE "
               "swing = s.key)"
               " OR s.changes <> (SELECT max(number) FROM swing_change WHERE swing = s.key)");
  if (lost > 0) check.complaints.push_back(fmt::format("{} swings without all of their changes", lost));
}

}  // namespace

void SqliteBook::clean_if_owed() {
  const Lock lock(mutex_);
  (void)do_chore(*store_);
}

Result<Erased> SqliteBook::erase_pupil(const Id& id) {
  Result<Erased> erased = writing([&](std::vector<Changed>& changes) -> Result<Erased> {
    Erased out;
    if (!find_pupil(*store_, id)) return out;
    {
      Query row(
          *store_,
          "SELECT count(DISTINCT l.key), count(s.key) FROM pupil p LEFT JOIN lesson l ON l.pupil = p.key"
          " LEFT JOIN swing s ON s.lesson = l.key AND s.removed = 0 WHERE p.id = ?",
          id);
      row.next();
      out.lessons = row.whole(0);
      out.swings = row.whole(1);
    }
    Query(*store_, "DELETE FROM pupil WHERE id = ?", id).run();
    Query(*store_, "INSERT OR REPLACE INTO chore (what) VALUES (?)", kClean).run();
    changes.push_back({.pupil = id});
    return out;
  });
  if (!erased) return erased;
  const Lock lock(mutex_);
  erased->copies = drop_copies(store_->file(), id);
  if (auto done = do_chore(*store_); !done) return unexpected(done.error());
  return erased;
}

Result<void> SqliteBook::backup(const std::string& file) {
  const Lock lock(mutex_);
  return copy_to(*store_, file);
}

Result<BookCheck> SqliteBook::check() {
  BookCheck out;
  const Result<void> done = reading([&]() -> Result<void> {
    listen(*store_, out);
    out.version = static_cast<int>(store_->pragma_number("user_version"));
    out.pupils = count_of(*store_, "SELECT count(*) FROM pupil");
    out.lessons = count_of(*store_, "SELECT count(*) FROM lesson");
    out.swings = count_of(*store_, "SELECT count(*) FROM swing WHERE removed = 0");
    out.sightings = count_of(*store_, "SELECT count(*) FROM sighting");
    return {};
  });
  // A file so broken that it cannot be counted is not a failure of the check, but its answer.
  if (!done) out.complaints.push_back(done.error().sentence());
  out.sound = out.complaints.empty();
  return out;
}

}  // namespace strikewright::kept
