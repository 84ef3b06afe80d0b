// The calls about swings.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "book/entered.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

Result<void> fit_all(const std::vector<KeptSwing>& swings) {
  std::set<Id> ids;
  if (swings.empty()) return unexpected(Fault{"swings", "none", "one at least"});
  for (const KeptSwing& swing : swings) {
    if (auto good = fit(swing); !good) return good;
    if (swing.lesson != swings.front().lesson)
      return unexpected(
          Fault{"lesson of " + called("swing", swing.id), swing.lesson,
                swings.front().lesson + ", as the others: swings of one lesson are kept together"});
    if (!ids.insert(swing.id).second)
      return unexpected(Fault{called("swing", swing.id), "it twice", "every swing once"});
  }
  return {};
}

/// A swing may say that it was a part of what its own pupil was given.
Result<void> fit_given(Store& store, const KeptSwing& swing) {
  const std::optional<Given> given = find_given(store, swing.given);
  if (!given) return unexpected(absent("given", swing.given));
  if (find_lesson(store, swing.lesson)->pupil == given->pupil) return {};
  return unexpected(conflict("given", swing.given, "pupil"));
}

/// Did anything change?
Result<bool> keep_one(Store& store, KeptSwing swing, const By& by) {
  swing.seen = told(swing.seen);
  const std::optional<SwingRow> before = find_swing(store, swing.id);
  if (!swing.given.empty() && (!before || before->swing.given != swing.given)) {
    if (auto good = fit_given(store, swing); !good) return unexpected(good.error());
  }
  if (!before) {
    swing.number = next_number(store, swing.lesson);
    add_change(store, add_swing(store, swing), change_to(swing, 1, "added", by));
    return true;
  }
  if (before->swing.lesson != swing.lesson) return unexpected(conflict("swing", swing.id, "lesson"));
  swing.number = before->swing.number;
  if (!before->removed && before->swing == swing) return false;
  add_change(store, before->key,
             change_to(swing, before->changes + 1, before->removed ? "put back" : "changed", by));
  return true;
}

}  // namespace

Result<std::vector<KeptSwing>> SqliteBook::swings_of(const Id& lesson) {
  return reading([&]() -> Result<std::vector<KeptSwing>> {
    if (!find_lesson(*store_, lesson)) return unexpected(absent("lesson", lesson));
    std::vector<KeptSwing> out;
    for (SwingRow& row : swing_rows(*store_, lesson, false)) out.push_back(std::move(row.swing));
    return out;
  });
}

Result<std::int64_t> SqliteBook::keep(const KeptSwing& swing, const std::string& who) {
  return keep_all({swing}, who);
}

Result<std::int64_t> SqliteBook::keep_all(const std::vector<KeptSwing>& swings, const std::string& who) {
  if (auto good = fit_all(swings); !good) return unexpected(good.error());
  if (auto good = fit_who(who); !good) return unexpected(good.error());
  return writing([&](std::vector<Changed>& changes) -> Result<std::int64_t> {
    const Id& id = swings.front().lesson;
    const std::optional<Lesson> lesson = find_lesson(*store_, id);
    if (!lesson) return unexpected(absent("lesson", id));
    const By by{who, now_text()};
    bool changed = false;
    for (const KeptSwing& swing : swings) {
      const Result<bool> one = keep_one(*store_, swing, by);
      if (!one) return unexpected(one.error());
      changed = changed || *one;
    }
    if (!changed) return lesson->revision;
    const std::int64_t revision = raise_revision(*store_, id);
    changes.push_back({lesson->pupil, id, revision});
    return revision;
  });
}

Result<std::int64_t> SqliteBook::remove_swing(const Id& id, const std::string& who) {
  if (auto good = fit_who(who); !good) return unexpected(good.error());
  return writing([&](std::vector<Changed>& changes) -> Result<std::int64_t> {
    const std::optional<SwingRow> before = find_swing(*store_, id);
    if (!before) return unexpected(absent("swing", id));
    const Lesson lesson = *find_lesson(*store_, before->swing.lesson);
    if (before->removed) return lesson.revision;
    add_change(*store_, before->key,
               change_to(before->swing, before->changes + 1, "removed", {who, now_text()}));
    const std::int64_t revision = raise_revision(*store_, lesson.id);
    changes.push_back({lesson.pupil, lesson.id, revision});
    return revision;
  });
}

Result<std::vector<SwingChange>> SqliteBook::changes_of(const Id& swing) {
  return reading([&]() -> Result<std::vector<SwingChange>> {
    std::vector<SwingChange> out = changes_in(*store_, swing);
    if (out.empty()) return unexpected(absent("swing", swing));
    return out;
  });
}

}  // namespace strikewright::kept
