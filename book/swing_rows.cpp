// Swings, their changes and sightings as rows.

#include <algorithm>

#include "book/rows.hpp"

namespace strikewright::kept {
namespace {

SwingRow row_of(Query& row) {
  return {.swing = {.id = row.text(1),
                    .lesson = row.text(2),
                    .number = row.whole(3),
                    .club = row.text(6),
                    .condition = row.text(7),
                    .surface = row.text(8),
                    .ball = row.whole(9) != 0,
                    .at = row.text(10),
                    .seen = {},
                    .given = row.text(11),
                    .purpose = row.text(12)},
          .key = row.number(0),
          .removed = row.whole(4) != 0,
          .changes = row.whole(5)};
}

}  // namespace

std::vector<SwingRow> swing_rows(Store& store, const Id& lesson, bool removed_too) {
  std::vector<SwingRow> out;
  Query row(store,
            "SELECT s.key, s.id, l.id, s.number, s.removed, s.changes, c.club, c.condition, c.surface, "
            "c.ball, c.hit_at, c.given, c.purpose"
            " FROM lesson l JOIN swing s ON s.lesson = l.key JOIN swing_change c ON c.swing = s.key AND "
            "c.number = s.changes"
            " WHERE l.id = ? AND s.removed <= ? ORDER BY s.number",
            lesson, removed_too);
  while (row.next()) out.push_back(row_of(row));
  // The sightings come in the same order, so that one walk hands them out.
  Query seen(store,
             "SELECT s.key, g.name, g.entered FROM lesson l JOIN swing s ON s.lesson = l.key"
             " JOIN sighting g ON g.swing = s.key AND g.change = s.changes"
             " WHERE l.id = ? AND s.removed <= ? ORDER BY s.number, g.place",
             lesson, removed_too);
  auto at = out.begin();
  while (seen.next()) {
    at = std::find_if(at, out.end(), [&](const SwingRow& s) { return s.key == seen.number(0); });
    if (at == out.end()) break;
    at->swing.seen.push_back({seen.text(1), seen.text(2)});
  }
  return out;
}

std::optional<SwingRow> find_swing(Store& store, const Id& id) {
  Query row(store,
            "SELECT s.key, s.id, l.id, s.number, s.removed, s.changes, c.club, c.condition, c.surface, "
            "c.ball, c.hit_at, c.given, c.purpose"
            " FROM swing s JOIN lesson l ON l.key = s.lesson JOIN swing_change c ON c.swing = s.key AND "
            "c.number = s.changes"
            " WHERE s.id = ?",
            id);
  if (!row.next()) return std::nullopt;
  SwingRow out = row_of(row);
  Query seen(store, "SELECT name, entered FROM sighting WHERE swing = ? AND change = ? ORDER BY place",
             out.key, out.changes);
  while (seen.next()) out.swing.seen.push_back({seen.text(0), seen.text(1)});
  return out;
}

int next_number(Store& store, const Id& lesson) {
  Query row(
      store,
      "SELECT coalesce(max(s.number), 0) + 1 FROM lesson l JOIN swing s ON s.lesson = l.key WHERE l.id = ?",
      lesson);
  row.next();
  return row.whole(0);
}

std::int64_t add_swing(Store& store, const KeptSwing& swing) {
  Query(store,
        "INSERT INTO swing (id, lesson, number, removed, changes) VALUES (?, (SELECT key FROM lesson WHERE "
        "id = ?), ?, 0,"
        " 1)",
        swing.id, swing.lesson, swing.number)
      .run();
  return store.database().getLastInsertRowid();
}

void add_change(Store& store, std::int64_t swing_key, const SwingChange& change) {
  Query(
      store,
      "INSERT INTO swing_change (swing, number, at, who, what, club, condition, surface, ball, hit_at, given,"
      " purpose) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      swing_key, change.number, change.at, change.who, change.what, change.club, change.condition,
      change.surface, change.ball, change.hit_at, change.given, change.purpose)
      .run();
  for (std::size_t k = 0; k < change.seen.size(); ++k)
    Query(store, "INSERT INTO sighting (swing, change, place, name, entered) VALUES (?, ?, ?, ?, ?)",
          swing_key, change.number, k + 1, change.seen[k].column, change.seen[k].text)
        .run();
  Query(store, "UPDATE swing SET changes = ?, removed = ? WHERE key = ?", change.number,
        change.what == "removed", swing_key)
      .run();
}

SwingChange change_to(const KeptSwing& swing, int number, const char* what, const By& by) {
  return {.number = number,
          .at = by.at,
          .who = by.who,
          .what = what,
          .seen = swing.seen,
          .club = swing.club,
          .condition = swing.condition,
          .surface = swing.surface,
          .ball = swing.ball,
          .hit_at = swing.at,
          .given = swing.given,
          .purpose = swing.purpose};
}

std::vector<SwingChange> changes_in(Store& store, const Id& swing) {
  std::vector<SwingChange> out;
  Query row(store,
            "SELECT c.number, c.at, c.who, c.what, c.club, c.condition, c.surface, c.ball, c.hit_at, c.given,"
            " c.purpose FROM swing s JOIN swing_change c ON c.swing = s.key WHERE s.id = ? ORDER BY c.number",
            swing);
  while (row.next())
    out.push_back({.number = row.whole(0),
                   .at = row.text(1),
                   .who = row.text(2),
                   .what = row.text(3),
                   .seen = {},
                   .club = row.text(4),
                   .condition = row.text(5),
                   .surface = row.text(6),
                   .ball = row.whole(7) != 0,
                   .hit_at = row.text(8),
                   .given = row.text(9),
                   .purpose = row.text(10)});
  Query seen(store,
             "SELECT g.change, g.name, g.entered FROM swing s JOIN sighting g ON g.swing = s.key"
             " WHERE s.id = ? ORDER BY g.change, g.place",
             swing);
  auto at = out.begin();
  while (seen.next()) {
    at = std::find_if(at, out.end(), [&](const SwingChange& c) { return c.number == seen.whole(0); });
    if (at == out.end()) break;
    at->seen.push_back({seen.text(1), seen.text(2)});
  }
  return out;
}

}  // namespace strikewright::kept
