// Settings and pupils as rows.

#include "book/fold.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"

namespace strikewright::kept {

Settings settings_in(Store& store) {
  Settings out;
  Query row(store, "SELECT units, reference, place, surface FROM settings");
  if (row.next())
    out = {.units = row.text(0), .from = row.text(1), .place = row.text(2), .surface = row.text(3)};
  Query eye(store, "SELECT name, sd FROM own_eye ORDER BY name");
  while (eye.next()) out.sure[eye.text(0)] = eye.text(1);
  return out;
}

void put(Store& store, const Settings& settings) {
  Query(store,
        "INSERT OR REPLACE INTO settings (one, units, reference, place, surface) VALUES (1, ?, ?, ?, ?)",
        settings.units, settings.from, settings.place, settings.surface)
      .run();
  Query(store, "DELETE FROM own_eye").run();
  for (const auto& [name, sd] : settings.sure)
    Query(store, "INSERT INTO own_eye (name, sd) VALUES (?, ?)", name, sd).run();
}

std::optional<Pupil> find_pupil(Store& store, const Id& id) {
  Query row(store,
            "SELECT id, name, hand, skill, height_m, birth_year, notes, cautions, bag, made_at, language,"
            " guardian, consent_at, weekly_balls, next_lesson_at FROM pupil WHERE id = ?",
            id);
  if (!row.next()) return std::nullopt;
  Pupil out{.id = row.text(0), .name = row.text(1), .hand = row.text(2), .skill = row.text(3)};
  if (!row.is_null(4)) out.height_m = row.real(4);
  if (!row.is_null(5)) out.birth_year = row.whole(5);
  out.notes = row.text(6);
  out.cautions = row.text(7);
  out.bag = row.text(8);
  out.made_at = row.text(9);
  out.language = row.text(10);
  out.guardian = row.text(11);
  out.consent_at = row.text(12);
  if (!row.is_null(13)) out.weekly_balls = row.whole(13);
  out.next_lesson_at = row.text(14);
  return out;
}

void put(Store& store, const Pupil& pupil, const By& by) {
  Query(
      store,
      "INSERT INTO pupil (id, name, plain, hand, skill, height_m, birth_year, notes, cautions, bag, made_at, "
      "made_s,"
      " changed_at, changed_by, language, guardian, consent_at, weekly_balls, next_lesson_at)"
      " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
      " ON CONFLICT (id) DO UPDATE SET name = excluded.name, plain = excluded.plain, hand = excluded.hand,"
      " skill = excluded.skill, height_m = excluded.height_m, birth_year = excluded.birth_year,"
      " notes = excluded.notes, cautions = excluded.cautions, bag = excluded.bag, made_at = excluded.made_at,"
      " made_s = excluded.made_s, changed_at = excluded.changed_at, changed_by = excluded.changed_by,"
      " language = excluded.language, guardian = excluded.guardian, consent_at = excluded.consent_at,"
      " weekly_balls = excluded.weekly_balls, next_lesson_at = excluded.next_lesson_at",
      pupil.id, pupil.name, folded(pupil.name), pupil.hand, pupil.skill, pupil.height_m, pupil.birth_year,
      pupil.notes, pupil.cautions, pupil.bag, pupil.made_at, moment_of(pupil.made_at), by.at, by.who,
      pupil.language, pupil.guardian, pupil.consent_at, pupil.weekly_balls, pupil.next_lesson_at)
      .run();
}

}  // namespace strikewright::kept
