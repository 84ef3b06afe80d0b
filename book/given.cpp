// The calls about what was given, and about the coach's own exercises.

#include "book/entered.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

/// Of the lesson as it stands; without one, or with one that is gone, of the pupil.
Changed change_of(Store& store, const Given& given) {
  const std::optional<Lesson> lesson = find_lesson(store, given.lesson);
  return {given.pupil, given.lesson, lesson ? lesson->revision : 0};
}

}  // namespace

Result<std::vector<Given>> SqliteBook::given_to(const Id& pupil) {
  return reading([&]() -> Result<std::vector<Given>> {
    if (!find_pupil(*store_, pupil)) return unexpected(absent("pupil", pupil));
    return given_in(*store_, pupil);
  });
}

Result<Given> SqliteBook::given(const Id& id) {
  return reading([&]() -> Result<Given> {
    if (auto found = find_given(*store_, id)) return *std::move(found);
    return unexpected(absent("given", id));
  });
}

Result<void> SqliteBook::keep(const Given& given) {
  if (auto good = fit(given); !good) return good;
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    if (!find_pupil(*store_, given.pupil)) return unexpected(absent("pupil", given.pupil));
    const std::optional<Lesson> lesson = find_lesson(*store_, given.lesson);
    if (!given.lesson.empty() && !lesson) return unexpected(absent("lesson", given.lesson));
    if (lesson && lesson->pupil != given.pupil) return unexpected(conflict("lesson", given.lesson, "pupil"));
    const std::optional<Given> before = find_given(*store_, given.id);
    if (before && before->pupil != given.pupil) return unexpected(conflict("given", given.id, "pupil"));
    Given now = given;
    if (now.at.empty()) now.at = before ? before->at : now_text();
    if (before == now) return {};
    put(*store_, now);
    changes.push_back(change_of(*store_, now));
    if (before && before->lesson != now.lesson) changes.push_back(change_of(*store_, *before));
    return {};
  });
}

Result<void> SqliteBook::remove_given(const Id& id) {
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    const std::optional<Given> before = find_given(*store_, id);
    if (!before) return {};
    Query(*store_, "DELETE FROM given WHERE id = ?", id).run();
    changes.push_back(change_of(*store_, *before));
    return {};
  });
}

Result<std::vector<OwnExercise>> SqliteBook::own_exercises() {
  return reading([&]() -> Result<std::vector<OwnExercise>> { return own_exercises_in(*store_); });
}

Result<void> SqliteBook::keep(const OwnExercise& exercise) {
  if (auto good = fit(exercise); !good) return good;
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    const std::optional<OwnExercise> before = find_own_exercise(*store_, exercise.id);
    OwnExercise now = exercise;
    if (now.made_at.empty()) now.made_at = before ? before->made_at : now_text();
    if (before == now) return {};
    put(*store_, now);
    changes.emplace_back();
    return {};
  });
}

Result<void> SqliteBook::remove_own_exercise(const Id& id) {
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    if (Query(*store_, "DELETE FROM own_exercise WHERE id = ?", id).run() > 0) changes.emplace_back();
    return {};
  });
}

}  // namespace strikewright::kept
