#pragma once
// Records out of rows and into them: what the calls, export and import share. Everything here throws
// SQLite::Exception and runs inside a transaction of the caller's.

#include "book/book.hpp"
#include "book/store.hpp"

namespace strikewright::kept {

/// Who made a change, and when (ISO 8601).
struct By {
  std::string who, at;
};

/// A swing as it stands, and what the book knows beside it.
struct SwingRow {
  KeptSwing swing;
  std::int64_t key = 0;  ///< of the row
  bool removed = false;
  int changes = 0;  ///< how many; the newest is how it stands
};

[[nodiscard]] Settings settings_in(Store& store);
void put(Store& store, const Settings& settings);

[[nodiscard]] std::optional<Pupil> find_pupil(Store& store, const Id& id);
/// Adds or replaces. `made_at` must be a time.
void put(Store& store, const Pupil& pupil, const By& by);

[[nodiscard]] std::optional<Lesson> find_lesson(Store& store, const Id& id);
/// Adds or replaces, with the revision that it has. The pupil must be there, `begun_at` a time.
void put(Store& store, const Lesson& lesson, const By& by);
/// One more; the new revision.
std::int64_t raise_revision(Store& store, const Id& lesson);

/// Of a lesson, by number. @param removed_too  those that were taken out, too
[[nodiscard]] std::vector<SwingRow> swing_rows(Store& store, const Id& lesson, bool removed_too);
[[nodiscard]] std::optional<SwingRow> find_swing(Store& store, const Id& id);
/// The next free number of a lesson.
[[nodiscard]] int next_number(Store& store, const Id& lesson);
/// A row without changes yet; `number` must be free. Its key.
std::int64_t add_swing(Store& store, const KeptSwing& swing);
/// One more change, which is how the swing stands from now on.
void add_change(Store& store, std::int64_t swing_key, const SwingChange& change);
/// The change that makes a swing what it is here.
[[nodiscard]] SwingChange change_to(const KeptSwing& swing, int number, const char* what, const By& by);
[[nodiscard]] std::vector<SwingChange> changes_in(Store& store, const Id& swing);

[[nodiscard]] std::optional<KeptReading> find_reading(Store& store, const Id& lesson);
/// Replaces an older one; one of an older revision than is there is let go. The lesson must be there.
void put(Store& store, const KeptReading& reading);

[[nodiscard]] std::optional<Given> find_given(Store& store, const Id& id);
[[nodiscard]] std::vector<Given> given_in(Store& store, const Id& pupil);
[[nodiscard]] std::vector<Given> given_during(Store& store, const Id& lesson);
/// Adds or replaces. Pupil and lesson must be there, `at` a time.
void put(Store& store, const Given& given);

[[nodiscard]] std::optional<OwnExercise> find_own_exercise(Store& store, const Id& id);
/// By id.
[[nodiscard]] std::vector<OwnExercise> own_exercises_in(Store& store);
/// Adds or replaces. `made_at` must be a time.
void put(Store& store, const OwnExercise& exercise);

}  // namespace strikewright::kept
