#pragma once
// The coach's book: pupils, lessons, swings as they were entered. Structs in, structs out; no algorithm is
// known here.
//
// This header is the only way to a book. What is behind it today is one SQLite file; another store needs
// another implementation of `Book` and nothing else.

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

/// Names records; made by whoever makes the record, so that sending one twice makes it once. 1 to 40 of a-z
/// 0-9 -.
using Id = std::string;

/// The coach's own settings; one row.
struct Settings {
  std::string units = "metric";               ///< metric, yards
  std::string from = "usual";                 ///< usual, best: what causes are measured from
  std::string place{};                        ///< where lessons usually are, free text
  std::string surface = "fairway";            ///< usual surface
  std::map<std::string, std::string> sure{};  ///< own eye: column -> standard deviation in the column's unit
  bool operator==(const Settings&) const = default;
};

struct Pupil {
  Id id;
  std::string name;
  std::string hand = "right";         ///< right, left
  std::string skill = "club";         ///< beginner, club, county, tour, or a handicap as text
  std::optional<double> height_m{};   ///< 0.5 to 2.5
  std::optional<int> birth_year{};    ///< 1900 to 2100
  std::string notes{};                ///< free text
  std::string cautions{};             ///< of the body, free text
  std::string bag{};                  ///< JSON document of own clubs (docs/file-formats.md); "" = generic bag
  std::string made_at{};              ///< ISO 8601, UTC; set by the book when empty
  std::string language = "en";        ///< of what the pupil is given to read: 2 to 8 of a-z; en, de
  std::string guardian{};             ///< the adult who answers for the pupil, and for what; "" = none noted
  std::string consent_at{};           ///< day on which consent was given, "2026-11-25"; "" = none noted
  std::optional<int> weekly_balls{};  ///< that the pupil has time for, 0 to 2000
  std::string next_lesson_at{};       ///< day of the next lesson, "2026-12-03"; "" = not known
  bool operator==(const Pupil&) const = default;
};

struct Lesson {
  Id id;
  Id pupil;
  std::string begun_at{};        ///< ISO 8601; set by the book when empty
  std::string place{}, notes{};  ///< free text
  std::string club = "7i", condition = "normal", surface = "fairway";  ///< of the next swing on the pad
  bool ball = true;           ///< of the next swing: false = at a chalk line
  std::int64_t revision = 0;  ///< grows with every change of the lesson or its swings; set by the book
  bool operator==(const Lesson&) const = default;
};

/// One thing seen, as entered: a column of the sightings file (its unit is in the name) and the text of the
/// cell.
struct Entered {
  std::string column, text;
  bool operator==(const Entered&) const = default;
};

/// A swing as it was entered.
struct KeptSwing {
  Id id;
  Id lesson;
  int number = 0;  ///< place in the lesson, first = 1; given by the book, kept for ever
  std::string club = "7i", condition = "normal", surface = "fairway";
  bool ball = true;
  std::string at{};             ///< ISO 8601, when it was hit
  std::vector<Entered> seen{};  ///< in the order of entry; every column once
  Id given{};                   ///< of the exercise that it was a part of; "" = of none
  /// What it was hit for: "" (plain), baseline, exercise, after, retention, transfer, pressure.
  std::string purpose{};
  bool operator==(const KeptSwing&) const = default;
};

/// What a swing was before: every change is kept, with who and when.
struct SwingChange {
  int number = 0;               ///< first = 1
  std::string at, who, what;    ///< what: "added", "changed", "removed", "put back"
  std::vector<Entered> seen{};  ///< as it was after the change, like the rest
  std::string club, condition, surface;
  bool ball = true;
  std::string hit_at;  ///< the swing's `at`
  Id given{};
  std::string purpose{};
  bool operator==(const SwingChange&) const = default;
};

/// A reading that was made, with the version that made it.
struct KeptReading {
  Id lesson;
  std::int64_t revision = 0;           ///< of the lesson that was read
  std::string from, version, made_at;  ///< made_at: set by the book when empty
  std::string document;                ///< JSON
  std::string summary{};               ///< JSON, the little that a timeline shows; "" = none
  bool operator==(const KeptReading&) const = default;
};

/// An exercise given, or a note about a pupil.
struct Given {
  Id id, pupil, lesson;        ///< lesson: "" = outside of one
  std::string exercise;        ///< its name in the catalogue or among the coach's own; "" = a note
  std::string at, notes;       ///< at: ISO 8601, set by the book when empty
  std::string dose{};          ///< JSON object: what is to be done of it; "" = as the exercise says
  std::string cause{}, why{};  ///< the cause that it is for, by name, and one sentence to the pupil; or ""
  std::string ended_at{};      ///< ISO 8601; "" = still being done
  /// The sheet handed over, as a JSON object {"language", "paper", "made_at"} of texts; "" = none.
  std::string sheet{};
  bool operator==(const Given&) const = default;
};

/// An exercise that the coach wrote.
struct OwnExercise {
  Id id;
  std::string document;   ///< JSON, docs/exercises.md; the book knows only that it is JSON
  std::string made_at{};  ///< ISO 8601, UTC; set by the book when empty
  bool operator==(const OwnExercise&) const = default;
};

struct PupilLine {  ///< one line of the list of pupils
  Pupil pupil;
  int lessons = 0, swings = 0;
  std::string last_lesson_at;
};

struct LessonLine {  ///< one line of a pupil's timeline
  Lesson lesson;
  int swings = 0;
  std::optional<KeptReading> reading;  ///< newest kept; `document` left out ("") where there is a summary
  std::vector<Given> given;
};

struct BookCheck {
  bool sound = true;
  int version = 0;  ///< of the schema
  std::int64_t pupils = 0, lessons = 0, swings = 0, sightings = 0;
  std::vector<std::string> complaints;
};

/// What went with an erased pupil.
struct Erased {
  int lessons = 0, swings = 0;
  std::vector<std::string> copies;  ///< files F.before-N that held the pupil, too, and are gone
};

/// A change that has been kept, for other open screens. Both ids empty: the settings or the coach's own
/// exercises. No lesson: the pupil.
struct Changed {
  Id pupil{}, lesson{};
  std::int64_t revision = 0;
};

/// One open book. All calls may come from any thread. A call that returns has been kept: power may fail after
/// it. Faults have the place "book F" or "FIELD of pupil ID" and are never thrown; the three questions below
/// tell them apart.
class Book {
 public:
  virtual ~Book() = default;

  virtual Result<Settings> settings() = 0;
  virtual Result<void> keep(const Settings&) = 0;

  /// Pupils whose name holds all words of `search` (case and accents do not matter), newest lesson first; a
  /// pupil without lessons stands where the day of entry puts it.
  virtual Result<std::vector<PupilLine>> pupils(const std::string& search, int most, int skip) = 0;
  virtual Result<Pupil> pupil(const Id&) = 0;
  virtual Result<void> keep(const Pupil&, const std::string& who) = 0;  ///< adds or replaces
  /// The pupil with all lessons, swings, readings: no byte of them stays in the file or beside it. Twice =
  /// once. Where another program is reading the book, the rows go and a Fault says that the file is to be
  /// cleaned: at the next erase or opening.
  virtual Result<Erased> erase_pupil(const Id&) = 0;

  virtual Result<std::vector<LessonLine>> lessons_of(const Id& pupil) = 0;  ///< in order of date
  virtual Result<Lesson> lesson(const Id&) = 0;
  virtual Result<std::int64_t> keep(const Lesson&, const std::string& who) = 0;  ///< the new revision
  /// With its swings, their changes, its reading and what was given in it. Twice = once.
  virtual Result<void> remove_lesson(const Id&) = 0;

  virtual Result<std::vector<KeptSwing>> swings_of(
      const Id& lesson) = 0;  ///< by number, removed ones left out
  /// Adds, or replaces what is different; sending the same again changes nothing, not even the revision.
  /// A removed swing that is kept again is put back at its old number. Sightings without text are left out.
  /// What it newly says it was a part of (`given`) must be there and the same pupil's; taken out later, the
  /// swing keeps its name.
  virtual Result<std::int64_t> keep(const KeptSwing&, const std::string& who) = 0;
  /// Several of one lesson: all or none. At least one.
  virtual Result<std::int64_t> keep_all(const std::vector<KeptSwing>&, const std::string& who) = 0;
  virtual Result<std::int64_t> remove_swing(const Id&, const std::string& who) = 0;  ///< twice = once
  virtual Result<std::vector<SwingChange>> changes_of(const Id& swing) = 0;

  virtual Result<void> keep(
      const KeptReading&) = 0;  ///< replaces the lesson's older one; one of an older revision is let go
  virtual Result<std::optional<KeptReading>> reading_of(const Id& lesson) = 0;
  virtual Result<std::vector<Given>> given_to(const Id& pupil) = 0;  ///< in order of time
  virtual Result<Given> given(const Id&) = 0;
  /// Adds or replaces; the pupil stays the same. No lesson gets another revision by it.
  virtual Result<void> keep(const Given&) = 0;
  virtual Result<void> remove_given(const Id&) = 0;  ///< twice = once

  virtual Result<std::vector<OwnExercise>> own_exercises() = 0;  ///< by id
  virtual Result<void> keep(const OwnExercise&) = 0;             ///< adds or replaces
  virtual Result<void> remove_own_exercise(const Id&) = 0;       ///< twice = once

  /// Everything, as one JSON document ("format": 2; 1, from before exercises, comes in, too), and back into
  /// an empty or another book. Import changes nothing unless all of it is right; a record whose id is there
  /// and equal is passed over, one that differs is a Fault. Settings come in only where there are no pupils
  /// yet. Devices neither go out nor come in.
  virtual Result<std::string> export_json() = 0;
  virtual Result<int> import_json(const std::string& text,
                                  const std::string& name) = 0;  ///< how many records came in

  /// A copy of the open book, itself a book. Fails when `file` is there.
  virtual Result<void> backup(const std::string& file) = 0;
  virtual Result<BookCheck> check() = 0;

  /// Secrets of the server that outlive it: paired devices. Values are hashes, never tokens.
  struct Device {
    Id id;
    std::string name, token_hash, paired_at, seen_at;
  };
  virtual Result<std::vector<Device>> devices() = 0;
  virtual Result<void> keep(const Device&) = 0;
  virtual Result<void> revoke_device(const Id&) = 0;

  /// Called after every change, from the thread that made it.
  virtual void on_change(std::function<void(const Changed&)>) = 0;
};

/// Is it about something that is not in the book?
bool is_absent(const Fault& fault);
/// Is it about something that is in the book and says otherwise?
bool is_conflict(const Fault& fault);
/// Is it the file, the disk or another program, not what was given?
bool is_of_the_file(const Fault& fault);

/// Opens a book, makes it when it is not there, moves an older one up to this version's schema (a copy of the
/// old file is kept beside it as F.before-N). A Fault says what stands in the way: not a database, another
/// program's database, a newer schema, read-only, locked by another process, disk full, no such folder.
Result<std::unique_ptr<Book>> open_book(const std::string& file);

/// The lesson as a sightings file (docs/file-formats.md): the row of swings[k] is line k + 2. Columns: club,
/// condition, ball, surface, hand, time, then every column that any swing has, by name, lengths and speeds in
/// the unit in which they were entered first; own-eye columns `sure_...` from the settings where a swing does
/// not say itself.
std::string sightings_csv(const Pupil&, const Settings&, const std::vector<KeptSwing>& swings);

}  // namespace strikewright
