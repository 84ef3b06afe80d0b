// What was given, and the coach's own exercises, as rows.

#include "book/moment.hpp"
#include "book/rows.hpp"

namespace strikewright::kept {
namespace {

Given given_of(Query& row) {
  return {.id = row.text(0),
          .pupil = row.text(1),
          .lesson = row.text(2),
          .exercise = row.text(3),
          .at = row.text(4),
          .notes = row.text(5),
          .dose = row.text(6),
          .cause = row.text(7),
          .why = row.text(8),
          .ended_at = row.text(9),
          .sheet = row.text(10)};
}

OwnExercise own_of(Query& row) {
  return {.id = row.text(0), .document = row.text(1), .made_at = row.text(2)};
}

}  // namespace

std::optional<Given> find_given(Store& store, const Id& id) {
  Query row(store,
            "SELECT g.id, p.id, coalesce(l.id, ''), g.exercise, g.at, g.notes, g.dose, g.cause, g.why,"
            " g.ended_at, g.sheet FROM given g JOIN pupil p ON p.key = g.pupil"
            " LEFT JOIN lesson l ON l.key = g.lesson WHERE g.id = ?",
            id);
  if (!row.next()) return std::nullopt;
  return given_of(row);
}

std::vector<Given> given_in(Store& store, const Id& pupil) {
  Query row(store,
            "SELECT g.id, p.id, coalesce(l.id, ''), g.exercise, g.at, g.notes, g.dose, g.cause, g.why,"
            " g.ended_at, g.sheet FROM pupil p JOIN given g ON g.pupil = p.key"
            " LEFT JOIN lesson l ON l.key = g.lesson WHERE p.id = ? ORDER BY g.at_s, g.id",
            pupil);
  std::vector<Given> out;
  while (row.next()) out.push_back(given_of(row));
  return out;
}

std::vector<Given> given_during(Store& store, const Id& lesson) {
  Query row(store,
            "SELECT g.id, p.id, l.id, g.exercise, g.at, g.notes, g.dose, g.cause, g.why, g.ended_at, g.sheet"
            " FROM lesson l JOIN given g ON g.lesson = l.key JOIN pupil p ON p.key = g.pupil WHERE l.id = ?"
            " ORDER BY g.at_s, g.id",
            lesson);
  std::vector<Given> out;
  while (row.next()) out.push_back(given_of(row));
  return out;
}

void put(Store& store, const Given& given) {
  Query(store,
        "INSERT INTO given (id, pupil, lesson, exercise, at, at_s, notes, dose, cause, why, ended_at, sheet)"
        " VALUES (?, (SELECT key FROM pupil WHERE id = ?), (SELECT key FROM lesson WHERE id = ?), ?, ?, ?, ?,"
        " ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET pupil = excluded.pupil, lesson = excluded.lesson,"
        " exercise = excluded.exercise, at = excluded.at, at_s = excluded.at_s, notes = excluded.notes,"
        " dose = excluded.dose, cause = excluded.cause, why = excluded.why, ended_at = excluded.ended_at,"
        " sheet = excluded.sheet",
        given.id, given.pupil, given.lesson, given.exercise, given.at, moment_of(given.at), given.notes,
        given.dose, given.cause, given.why, given.ended_at, given.sheet)
      .run();
}

std::optional<OwnExercise> find_own_exercise(Store& store, const Id& id) {
  Query row(store, "SELECT id, document, made_at FROM own_exercise WHERE id = ?", id);
  if (!row.next()) return std::nullopt;
  return own_of(row);
}

std::vector<OwnExercise> own_exercises_in(Store& store) {
  Query row(store, "SELECT id, document, made_at FROM own_exercise ORDER BY id");
  std::vector<OwnExercise> out;
  while (row.next()) out.push_back(own_of(row));
  return out;
}

void put(Store& store, const OwnExercise& exercise) {
  Query(store, "INSERT OR REPLACE INTO own_exercise (id, made_at, document) VALUES (?, ?, ?)", exercise.id,
        exercise.made_at, exercise.document)
      .run();
}

}  // namespace strikewright::kept
