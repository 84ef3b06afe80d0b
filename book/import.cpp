// A document of export_json back into a book: all of it or nothing.

#include <fmt/format.h>

#include "book/entered.hpp"
#include "book/json.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

/// 1 is from before exercises; everything given stood in one list.
constexpr int kOldestFormat = 1, kFormat = 2;

/// The fault of a record, found in the document.
tl::unexpected<Fault> at(const std::string& place, Fault fault) {
  fault.place = place + ", " + fault.place;
  return unexpected(std::move(fault));
}

class Import {
 public:
  Import(Store& store, std::vector<Changed>& changes, std::string name)
      : store_{store}, changes_{changes}, name_{std::move(name)} {}

  Result<int> take_all(const Json& document) {
    Members whole(document, name_);
    int format = 0;
    whole.take("format", format);
    if (format < kOldestFormat || format > kFormat)
      return unexpected(Fault{name_ + ".format", format == 0 ? "nothing" : std::to_string(format),
                              "1 or 2: a document of strikewright book export --json"});
    const Json* settings = whole.object("settings");
    const Json *pupils = whole.list("pupils"), *lessons = whole.list("lessons"), *given = whole.list("given"),
               *own = whole.list("own_exercises");
    if (auto good = whole.done(); !good) return unexpected(good.error());
    if (auto good = take_settings(settings); !good) return unexpected(good.error());
    if (auto good = each(pupils, "pupils", &Import::take_pupil); !good) return unexpected(good.error());
    if (auto good = each(lessons, "lessons", &Import::take_lesson); !good) return unexpected(good.error());
    if (auto good = each(given, "given", &Import::take_any_given); !good) return unexpected(good.error());
    if (auto good = each(own, "own_exercises", &Import::take_own); !good) return unexpected(good.error());
    if (auto good = fit_parts(); !good) return unexpected(good.error());
    return came_;
  }

 private:
  using Take = Result<void> (Import::*)(const Json&, const std::string&);
  struct Part {  ///< a swing that came in as a part of something given
    std::string place;
    Id given, lesson;
  };

  Result<void> each(const Json* list, const char* key, Take take) {
    for (std::size_t k = 0; list != nullptr && k < list->size(); ++k) {
      if (auto good = (this->*take)((*list)[k], fmt::format("{}, {}[{}]", name_, key, k)); !good) return good;
    }
    return {};
  }

  Result<void> take_settings(const Json* object) {
    if (object == nullptr) return {};
    Members members(*object, name_ + ", settings");
    Settings settings;
    take(members, settings);
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(settings); !good) return at(members.place(), good.error());
    Query any(store_, "SELECT 1 FROM pupil LIMIT 1");
    if (any.next()) return {};
    put(store_, settings);
    changes_.emplace_back();
    return {};
  }

  /// "changed": {"at", "by"}.
  static Result<By> by_of(Members& members, const std::string& standard) {
    By by{"import", standard};
    if (const Json* object = members.object("changed")) {
      Members inner(*object, members.place() + ".changed");
      inner.take("at", by.at).take("by", by.who);
      if (auto good = inner.done(); !good) return unexpected(good.error());
    }
    if (!moment_of(by.at))
      members.wrong("changed.at", "'" + by.at + "'", "a time such as 2026-11-25T10:30:00Z");
    if (auto good = fit_who(by.who); !good) return at(members.place(), good.error());
    return by;
  }

  Result<void> take_pupil(const Json& object, const std::string& place) {
    Members members(object, place);
    Pupil pupil;
    pupil.made_at = now_;
    take(members, pupil);
    const Result<By> by = by_of(members, now_);
    if (!by) return unexpected(by.error());
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(pupil); !good) return at(place, good.error());
    const std::optional<Pupil> before = find_pupil(store_, pupil.id);
    if (before == pupil) return {};
    if (before) return at(place, conflict("pupil", pupil.id, "pupil"));
    put(store_, pupil, *by);
    changes_.push_back({.pupil = pupil.id});
    ++came_;
    return {};
  }

  Result<void> take_lesson(const Json& object, const std::string& place) {
    Members members(object, place);
    Lesson lesson;
    lesson.begun_at = now_;
    take(members, lesson);
    const Result<By> by = by_of(members, now_);
    if (!by) return unexpected(by.error());
    const Json *swings = members.list("swings"), *reading = members.object("reading"),
               *given = members.list("given");
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(lesson); !good) return at(place, good.error());
    if (lesson.revision < 0)
      return unexpected(Fault{place + ".revision", std::to_string(lesson.revision), "0 or more"});
    if (!find_pupil(store_, lesson.pupil)) return at(place, absent("pupil", lesson.pupil));
    const int came_before = came_;
    const std::optional<Lesson> before = find_lesson(store_, lesson.id);
    if (auto good = put_lesson(lesson, before, *by, place); !good) return good;
    for (std::size_t k = 0; swings != nullptr && k < swings->size(); ++k) {
      if (auto good = take_swing((*swings)[k], lesson.id, fmt::format("{}.swings[{}]", place, k)); !good)
        return good;
    }
    if (came_ > came_before) settle_revision(lesson, before, *by);
    for (std::size_t k = 0; given != nullptr && k < given->size(); ++k) {
      if (auto good = take_given((*given)[k], fmt::format("{}.given[{}]", place, k), &lesson); !good)
        return good;
    }
    return reading == nullptr ? Result<void>{} : take_reading(*reading, lesson.id, place + ".reading");
  }

  Result<void> put_lesson(const Lesson& lesson, const std::optional<Lesson>& before, const By& by,
                          const std::string& place) {
    Lesson there = before.value_or(Lesson{});
    there.revision = lesson.revision;  // grows with the swings, which are looked at one by one
    if (before && there != lesson) return at(place, conflict("lesson", lesson.id, "lesson"));
    if (before) return {};
    put(store_, lesson, by);
    ++came_;
    return {};
  }

  /// A lesson that was there and got swings is newer than both were.
  void settle_revision(Lesson lesson, const std::optional<Lesson>& before, const By& by) {
    if (before) {
      lesson.revision = std::max(before->revision, lesson.revision) + 1;
      put(store_, lesson, by);
    }
    changes_.push_back({lesson.pupil, lesson.id, lesson.revision});
  }

  /// The list of changes that makes the swing what it is, the newest last.
  Result<std::vector<SwingChange>> changes_of(Members& members, const KeptSwing& swing, bool removed) {
    SwingChange newest = change_to(swing, 1, "added", {"import", now_});
    std::vector<SwingChange> out;
    if (const Json* object = members.object("change")) {
      Members inner(*object, members.place() + ".change");
      inner.take("number", newest.number)
          .take("at", newest.at)
          .take("who", newest.who)
          .take("what", newest.what);
      if (auto good = inner.done(); !good) return unexpected(good.error());
    }
    const Json* older = members.list("before");
    for (std::size_t k = 0; older != nullptr && k < older->size(); ++k) {
      Members inner((*older)[k], fmt::format("{}.before[{}]", members.place(), k));
      take(inner, out.emplace_back());
      if (auto good = inner.done(); !good) return unexpected(good.error());
    }
    out.push_back(std::move(newest));
    return fit_changes(std::move(out), swing, removed, members.place());
  }

  static Result<std::vector<SwingChange>> fit_changes(std::vector<SwingChange> changes,
                                                      const KeptSwing& swing, bool removed,
                                                      const std::string& place) {
    for (std::size_t k = 0; k < changes.size(); ++k) {
      const SwingChange& c = changes[k];
      KeptSwing as_it_was{.id = swing.id,
                          .lesson = swing.lesson,
                          .club = c.club,
                          .condition = c.condition,
                          .surface = c.surface,
                          .at = c.hit_at,
                          .seen = c.seen,
                          .given = c.given,
                          .purpose = c.purpose};
      if (auto good = fit(as_it_was); !good) return at(place, good.error());
      if (auto good = fit_who(c.who); !good) return at(place, good.error());
      Fields fields("swing", swing.id);
      fields.one_of("what", c.what, {"added", "changed", "removed", "put back"});
      if (c.number != static_cast<int>(k + 1))
        fields.wrong("change", std::to_string(c.number),
                     fmt::format("{}: changes are numbered from 1 on", k + 1));
      if (!moment_of(c.at)) fields.wrong("change", "'" + c.at + "'", "a time such as 2026-11-25T10:30:00Z");
      if (fields.fault()) return at(place, *fields.fault());
    }
    if (removed == (changes.back().what == "removed")) return changes;
    return unexpected(Fault{place + ".removed", removed ? "true" : "false", "what the newest change says"});
  }

  Result<void> take_swing(const Json& object, const Id& lesson, const std::string& place) {
    Members members(object, place);
    SwingRow row;
    row.swing.lesson = lesson;
    take(members, row.swing);
    members.take("removed", row.removed);
    const Result<std::vector<SwingChange>> changes = changes_of(members, row.swing, row.removed);
    if (!changes) return unexpected(changes.error());
    if (auto good = members.done(); !good) return good;
    if (row.swing.lesson != lesson) return unexpected(Fault{place + ".lesson", row.swing.lesson, lesson});
    if (row.swing.number < 1)
      return unexpected(Fault{place + ".number", std::to_string(row.swing.number), "1 or more"});
    if (const std::optional<SwingRow> before = find_swing(store_, row.swing.id)) {
      const bool same = before->swing == row.swing && changes_in(store_, row.swing.id) == *changes;
      return same ? Result<void>{} : at(place, conflict("swing", row.swing.id, "swing"));
    }
    if (is_taken(lesson, row.swing.number))
      return at(place, conflict("swing", row.swing.id, "swing of its number"));
    const std::int64_t key = add_swing(store_, row.swing);
    for (const SwingChange& change : *changes) add_change(store_, key, change);
    if (!row.swing.given.empty()) parts_.push_back({place, row.swing.given, lesson});
    ++came_;
    return {};
  }

  /// What a swing was a part of comes in after it, or was taken out long ago; here it must be its own
  /// pupil's.
  Result<void> fit_parts() {
    for (const Part& part : parts_) {
      const std::optional<Given> given = find_given(store_, part.given);
      if (given && given->pupil != find_lesson(store_, part.lesson)->pupil)
        return at(part.place, conflict("given", part.given, "pupil"));
    }
    return {};
  }

  bool is_taken(const Id& lesson, int number) {
    Query row(store_,
              "SELECT 1 FROM lesson l JOIN swing s ON s.lesson = l.key WHERE l.id = ? AND s.number = ?",
              lesson, number);
    return row.next();
  }

  /// Readings can be made again: the newer one stays, and nothing is said about it.
  Result<void> take_reading(const Json& object, const Id& lesson, const std::string& place) {
    Members members(object, place);
    KeptReading kept;
    kept.lesson = lesson;
    kept.made_at = now_;
    take(members, kept);
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(kept); !good) return at(place, good.error());
    const std::int64_t newest = find_lesson(store_, lesson)->revision;
    if (kept.lesson != lesson || kept.revision < 0 || kept.revision > newest)
      return unexpected(
          Fault{place + ".revision", std::to_string(kept.revision), fmt::format("0 to {}", newest)});
    const std::optional<KeptReading> before = find_reading(store_, lesson);
    if (before && before->revision >= kept.revision) return {};
    put(store_, kept);
    ++came_;
    return {};
  }

  Result<void> take_any_given(const Json& object, const std::string& place) {
    return take_given(object, place, nullptr);
  }

  /// @param within  the lesson in which it stands, which it need not name then; null = in none
  Result<void> take_given(const Json& object, const std::string& place, const Lesson* within) {
    Members members(object, place);
    Given given{.id = "",
                .pupil = within == nullptr ? "" : within->pupil,
                .lesson = within == nullptr ? "" : within->id,
                .exercise = "",
                .at = now_,
                .notes = ""};
    take(members, given);
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(given); !good) return at(place, good.error());
    if (within != nullptr && given.lesson != within->id)
      return unexpected(Fault{place + ".lesson", "'" + given.lesson + "'", within->id});
    if (!find_pupil(store_, given.pupil)) return at(place, absent("pupil", given.pupil));
    const std::optional<Lesson> lesson = find_lesson(store_, given.lesson);
    if (!given.lesson.empty() && !lesson) return at(place, absent("lesson", given.lesson));
    if (lesson && lesson->pupil != given.pupil) return at(place, conflict("lesson", given.lesson, "pupil"));
    const std::optional<Given> before = find_given(store_, given.id);
    if (before == given) return {};
    if (before) return at(place, conflict("given", given.id, "exercise or note"));
    put(store_, given);
    changes_.push_back({given.pupil, given.lesson, lesson ? lesson->revision : 0});
    ++came_;
    return {};
  }

  Result<void> take_own(const Json& object, const std::string& place) {
    Members members(object, place);
    OwnExercise exercise;
    exercise.made_at = now_;
    take(members, exercise);
    if (auto good = members.done(); !good) return good;
    if (auto good = fit(exercise); !good) return at(place, good.error());
    const std::optional<OwnExercise> before = find_own_exercise(store_, exercise.id);
    if (before == exercise) return {};
    if (before) return at(place, conflict("own exercise", exercise.id, "exercise"));
    put(store_, exercise);
    changes_.emplace_back();
    ++came_;
    return {};
  }

  Store& store_;
  std::vector<Changed>& changes_;
  std::string name_;
  std::string now_ = now_text();
  std::vector<Part> parts_;
  int came_ = 0;
};

}  // namespace

Result<int> SqliteBook::import_json(const std::string& text, const std::string& name) {
  const Result<Json> document = parsed(text, name);
  if (!document) return unexpected(document.error());
  return writing([&](std::vector<Changed>& changes) -> Result<int> {
    return Import(*store_, changes, name).take_all(*document);
  });
}

}  // namespace strikewright::kept
