#include "book/migrations.hpp"

#include <array>

namespace strikewright::kept {
namespace {

// Records as they were entered. A swing's sightings hang on its changes: the newest change is how it stands.
constexpr const char* kRecords = R"sql(
CREATE TABLE settings (
  one       INTEGER PRIMARY KEY CHECK (one = 1),
  units     TEXT NOT NULL,
  reference TEXT NOT NULL,
  place     TEXT NOT NULL,
  surface   TEXT NOT NULL
) STRICT;
CREATE TABLE own_eye (name TEXT PRIMARY KEY, sd TEXT NOT NULL) STRICT;
CREATE TABLE pupil (
  key        INTEGER PRIMARY KEY,
  id         TEXT NOT NULL UNIQUE,
  name       TEXT NOT NULL,
  plain      TEXT NOT NULL,
  hand       TEXT NOT NULL,
  skill      TEXT NOT NULL,
  height_m   REAL,
  birth_year INTEGER,
  notes      TEXT NOT NULL,
  cautions   TEXT NOT NULL,
  bag        TEXT NOT NULL,
  made_at    TEXT NOT NULL,
  made_s     REAL NOT NULL,
  changed_at TEXT NOT NULL,
  changed_by TEXT NOT NULL
) STRICT;
CREATE TABLE lesson (
  key        INTEGER PRIMARY KEY,
  id         TEXT NOT NULL UNIQUE,
  pupil      INTEGER NOT NULL REFERENCES pupil(key) ON DELETE CASCADE,
  begun_at   TEXT NOT NULL,
  begun_s    REAL NOT NULL,
  place      TEXT NOT NULL,
  notes      TEXT NOT NULL,
  club       TEXT NOT NULL,
  condition  TEXT NOT NULL,
  surface    TEXT NOT NULL,
  ball       INTEGER NOT NULL CHECK (ball IN (0, 1)),
  revision   INTEGER NOT NULL,
  changed_at TEXT NOT NULL,
  changed_by TEXT NOT NULL
) STRICT;
CREATE INDEX lesson_of_pupil ON lesson(pupil, begun_s);
CREATE TABLE swing (
  key     INTEGER PRIMARY KEY,
  id      TEXT NOT NULL UNIQUE,
  lesson  INTEGER NOT NULL REFERENCES lesson(key) ON DELETE CASCADE,
  number  INTEGER NOT NULL CHECK (number > 0),
  removed INTEGER NOT NULL CHECK (removed IN (0, 1)),
  changes INTEGER NOT NULL CHECK (changes > 0),
  UNIQUE (lesson, number)
) STRICT;
CREATE INDEX swing_there ON swing(lesson, removed);
CREATE TABLE swing_change (
  swing     INTEGER NOT NULL REFERENCES swing(key) ON DELETE CASCADE,
  number    INTEGER NOT NULL CHECK (number > 0),
  at        TEXT NOT NULL,
  who       TEXT NOT NULL,
  what      TEXT NOT NULL CHECK (what IN ('added', 'changed', 'removed', 'put back')),
  club      TEXT NOT NULL,
  condition TEXT NOT NULL,
  surface   TEXT NOT NULL,
  ball      INTEGER NOT NULL CHECK (ball IN (0, 1)),
  hit_at    TEXT NOT NULL,
  PRIMARY KEY (swing, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE sighting (
  swing   INTEGER NOT NULL,
  change  INTEGER NOT NULL,
  place   INTEGER NOT NULL,
  name    TEXT NOT NULL,
  entered TEXT NOT NULL,
  PRIMARY KEY (swing, change, place),
  FOREIGN KEY (swing, change) REFERENCES swing_change(swing, number) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
CREATE TABLE reading (
  lesson    INTEGER PRIMARY KEY REFERENCES lesson(key) ON DELETE CASCADE,
  revision  INTEGER NOT NULL,
  reference TEXT NOT NULL,
  version   TEXT NOT NULL,
  made_at   TEXT NOT NULL,
  document  TEXT NOT NULL
) STRICT;
CREATE TABLE given (
  key      INTEGER PRIMARY KEY,
  id       TEXT NOT NULL UNIQUE,
  pupil    INTEGER NOT NULL REFERENCES pupil(key) ON DELETE CASCADE,
  lesson   INTEGER REFERENCES lesson(key) ON DELETE CASCADE,
  exercise TEXT NOT NULL,
  at       TEXT NOT NULL,
  at_s     REAL NOT NULL,
  notes    TEXT NOT NULL
) STRICT;
CREATE INDEX given_to_pupil ON given(pupil, at_s);
CREATE INDEX given_in_lesson ON given(lesson);
)sql";

// Phones that were let in; what a timeline shows of a reading, before the long document, so that a list of
// lessons does not walk through it; and what is still to be done about the file itself.
constexpr const char* kSharing = R"sql(
CREATE TABLE device (
  id         TEXT PRIMARY KEY,
  name       TEXT NOT NULL,
  token_hash TEXT NOT NULL,
  paired_at  TEXT NOT NULL,
  seen_at    TEXT NOT NULL
) STRICT;
CREATE TABLE chore (what TEXT PRIMARY KEY) STRICT;
CREATE TABLE summed_reading (
  lesson    INTEGER PRIMARY KEY REFERENCES lesson(key) ON DELETE CASCADE,
  revision  INTEGER NOT NULL,
  reference TEXT NOT NULL,
  version   TEXT NOT NULL,
  made_at   TEXT NOT NULL,
  summary   TEXT NOT NULL,
  document  TEXT NOT NULL
) STRICT;
INSERT INTO summed_reading SELECT lesson, revision, reference, version, made_at, '', document FROM reading;
DROP TABLE reading;
ALTER TABLE summed_reading RENAME TO reading;
)sql";

// What exercises need: whom a sheet is for and how much practice there is time for; what was given, why and
// till when; what a swing was hit for; and the coach's own exercises. A column that is added stands at the
// end, with what a record of before says.
constexpr const char* kExercises = R"sql(
ALTER TABLE pupil ADD COLUMN language TEXT NOT NULL DEFAULT 'en';
ALTER TABLE pupil ADD COLUMN guardian TEXT NOT NULL DEFAULT '';
ALTER TABLE pupil ADD COLUMN consent_at TEXT NOT NULL DEFAULT '';
ALTER TABLE pupil ADD COLUMN weekly_balls INTEGER;
ALTER TABLE pupil ADD COLUMN next_lesson_at TEXT NOT NULL DEFAULT '';
ALTER TABLE given ADD COLUMN dose TEXT NOT NULL DEFAULT '';
ALTER TABLE given ADD COLUMN cause TEXT NOT NULL DEFAULT '';
ALTER TABLE given ADD COLUMN why TEXT NOT NULL DEFAULT '';
ALTER TABLE given ADD COLUMN ended_at TEXT NOT NULL DEFAULT '';
ALTER TABLE given ADD COLUMN sheet TEXT NOT NULL DEFAULT '';
ALTER TABLE swing_change ADD COLUMN given TEXT NOT NULL DEFAULT '';
ALTER TABLE swing_change ADD COLUMN purpose TEXT NOT NULL DEFAULT '';
CREATE TABLE own_exercise (
  id       TEXT PRIMARY KEY,
  made_at  TEXT NOT NULL,
  document TEXT NOT NULL
) STRICT;
)sql";

constexpr std::array kSteps{kRecords, kSharing, kExercises};

}  // namespace

std::span<const char* const> schema_steps() { return kSteps; }

int newest_schema() { return static_cast<int>(kSteps.size()); }

void move_up(Store& store) {
  SQLite::Database& database = store.database();
  SQLite::Transaction all(database, SQLite::TransactionBehavior::EXCLUSIVE);
  // Asked again inside: another program may have moved it up while we waited.
  const auto from = static_cast<std::size_t>(store.pragma_number("user_version"));
  for (std::size_t k = from; k < kSteps.size(); ++k) database.exec(kSteps[k]);
  database.exec("PRAGMA application_id = " + std::to_string(kApplicationId));
  database.exec("PRAGMA user_version = " + std::to_string(kSteps.size()));
  all.commit();
}

}  // namespace strikewright::kept
