// The calls about lessons and readings.

#include <fmt/format.h>

#include "book/entered.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

/// Lines of a timeline without what hangs on them.
std::vector<LessonLine> lines_of(Store& store, const Id& pupil) {
  Query row(
      store,
      "SELECT l.id, l.begun_at, l.place, l.notes, l.club, l.condition, l.surface, l.ball, l.revision,"
      " (SELECT count(*) FROM swing WHERE lesson = l.key AND removed = 0), r.revision, r.reference, "
      "r.version,"
      " r.made_at, r.summary, CASE WHEN r.summary = '' THEN r.document ELSE '' END"
      " FROM pupil p JOIN lesson l ON l.pupil = p.key LEFT JOIN reading r ON r.lesson = l.key WHERE p.id = ?"
      " ORDER BY l.begun_s, l.id",
      pupil);
  std::vector<LessonLine> out;
  while (row.next()) {
    LessonLine& line = out.emplace_back();
    line.lesson = {.id = row.text(0),
                   .pupil = pupil,
                   .begun_at = row.text(1),
                   .place = row.text(2),
                   .notes = row.text(3),
                   .club = row.text(4),
                   .condition = row.text(5),
                   .surface = row.text(6),
                   .ball = row.whole(7) != 0,
                   .revision = row.number(8)};
    line.swings = row.whole(9);
    if (row.is_null(10)) continue;
    line.reading = KeptReading{.lesson = line.lesson.id,
                               .revision = row.number(10),
                               .from = row.text(11),
                               .version = row.text(12),
                               .made_at = row.text(13),
                               .document = row.text(15),
                               .summary = row.text(14)};
  }
  return out;
}

}  // namespace

Result<std::vector<LessonLine>> SqliteBook::lessons_of(const Id& pupil) {
  return reading([&]() -> Result<std::vector<LessonLine>> {
    if (!find_pupil(*store_, pupil)) return unexpected(absent("pupil", pupil));
    std::vector<LessonLine> out = lines_of(*store_, pupil);
    std::map<Id, std::vector<Given>> given;
    for (Given& one : given_in(*store_, pupil)) given[one.lesson].push_back(std::move(one));
    for (LessonLine& line : out) line.given = std::move(given[line.lesson.id]);
    return out;
  });
}

Result<Lesson> SqliteBook::lesson(const Id& id) {
  return reading([&]() -> Result<Lesson> {
    if (auto found = find_lesson(*store_, id)) return *std::move(found);
    return unexpected(absent("lesson", id));
  });
}

Result<std::int64_t> SqliteBook::keep(const Lesson& lesson, const std::string& who) {
  if (auto good = fit(lesson); !good) return unexpected(good.error());
  if (auto good = fit_who(who); !good) return unexpected(good.error());
  return writing([&](std::vector<Changed>& changes) -> Result<std::int64_t> {
    if (!find_pupil(*store_, lesson.pupil)) return unexpected(absent("pupil", lesson.pupil));
    const std::optional<Lesson> before = find_lesson(*store_, lesson.id);
    if (before && before->pupil != lesson.pupil) return unexpected(conflict("lesson", lesson.id, "pupil"));
    Lesson now = lesson;
    const std::string at = now_text();
    if (now.begun_at.empty()) now.begun_at = before ? before->begun_at : at;
    now.revision = before ? before->revision : 0;
    if (before == now) return now.revision;
    ++now.revision;
    put(*store_, now, {who, at});
    changes.push_back({lesson.pupil, lesson.id, now.revision});
    return now.revision;
  });
}

Result<void> SqliteBook::remove_lesson(const Id& id) {
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    const std::optional<Lesson> before = find_lesson(*store_, id);
    if (!before) return {};
    Query(*store_, "DELETE FROM lesson WHERE id = ?", id).run();
    changes.push_back({before->pupil, id, before->revision + 1});
    return {};
  });
}

Result<void> SqliteBook::keep(const KeptReading& reading) {
  if (auto good = fit(reading); !good) return good;
  return writing([&](std::vector<Changed>&) -> Result<void> {
    const std::optional<Lesson> lesson = find_lesson(*store_, reading.lesson);
    if (!lesson) return unexpected(absent("lesson", reading.lesson));
    if (reading.revision < 0 || reading.revision > lesson->revision)
      return unexpected(Fault{"revision of " + called("reading of lesson", reading.lesson),
                              std::to_string(reading.revision),
                              fmt::format("0 to {}, the lesson's", lesson->revision)});
    KeptReading now = reading;
    if (now.made_at.empty()) now.made_at = now_text();
    put(*store_, now);
    return {};
  });
}

Result<std::optional<KeptReading>> SqliteBook::reading_of(const Id& lesson) {
  return reading([&]() -> Result<std::optional<KeptReading>> {
    if (!find_lesson(*store_, lesson)) return unexpected(absent("lesson", lesson));
    return find_reading(*store_, lesson);
  });
}

}  // namespace strikewright::kept
