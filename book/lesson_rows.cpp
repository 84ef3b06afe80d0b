// Lessons and their readings as rows.

#include "book/moment.hpp"
#include "book/rows.hpp"

namespace strikewright::kept {

std::optional<Lesson> find_lesson(Store& store, const Id& id) {
  Query row(
      store,
      "SELECT l.id, p.id, l.begun_at, l.place, l.notes, l.club, l.condition, l.surface, l.ball, l.revision"
      " FROM lesson l JOIN pupil p ON p.key = l.pupil WHERE l.id = ?",
      id);
  if (!row.next()) return std::nullopt;
  return Lesson{.id = row.text(0),
                .pupil = row.text(1),
                .begun_at = row.text(2),
                .place = row.text(3),
                .notes = row.text(4),
                .club = row.text(5),
                .condition = row.text(6),
                .surface = row.text(7),
                .ball = row.whole(8) != 0,
                .revision = row.number(9)};
}

void put(Store& store, const Lesson& lesson, const By& by) {
  Query(
      store,
      "INSERT INTO lesson (id, pupil, begun_at, begun_s, place, notes, club, condition, surface, ball, "
      "revision,"
      " changed_at, changed_by) VALUES (?, (SELECT key FROM pupil WHERE id = ?), ?, ?, ?, ?, ?, ?, ?, ?, ?, "
      "?, ?)"
      " ON CONFLICT (id) DO UPDATE SET begun_at = excluded.begun_at, begun_s = excluded.begun_s,"
      " place = excluded.place, notes = excluded.notes, club = excluded.club, condition = excluded.condition,"
      " surface = excluded.surface, ball = excluded.ball, revision = excluded.revision,"
      " changed_at = excluded.changed_at, changed_by = excluded.changed_by",
      lesson.id, lesson.pupil, lesson.begun_at, moment_of(lesson.begun_at), lesson.place, lesson.notes,
      lesson.club, lesson.condition, lesson.surface, lesson.ball, lesson.revision, by.at, by.who)
      .run();
}

std::int64_t raise_revision(Store& store, const Id& lesson) {
  Query row(store, "UPDATE lesson SET revision = revision + 1 WHERE id = ? RETURNING revision", lesson);
  const std::int64_t revision = row.next() ? row.number(0) : 0;
  row.next();  // the change is made when the statement has come to its end
  return revision;
}

std::optional<KeptReading> find_reading(Store& store, const Id& lesson) {
  Query row(store,
            "SELECT r.revision, r.reference, r.version, r.made_at, r.document, r.summary"
            " FROM reading r JOIN lesson l ON l.key = r.lesson WHERE l.id = ?",
            lesson);
  if (!row.next()) return std::nullopt;
  return KeptReading{.lesson = lesson,
                     .revision = row.number(0),
                     .from = row.text(1),
                     .version = row.text(2),
                     .made_at = row.text(3),
                     .document = row.text(4),
                     .summary = row.text(5)};
}

void put(Store& store, const KeptReading& reading) {
  Query(store,
        "INSERT INTO reading (lesson, revision, reference, version, made_at, summary, document)"
        " VALUES ((SELECT key FROM lesson WHERE id = ?), ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (lesson) DO UPDATE SET revision = excluded.revision, reference = excluded.reference,"
        " version = excluded.version, made_at = excluded.made_at, summary = excluded.summary,"
        " document = excluded.document WHERE excluded.revision >= revision",
        reading.lesson, reading.revision, reading.from, reading.version, reading.made_at, reading.summary,
        reading.document)
      .run();
}

}  // namespace strikewright::kept
