// The calls about settings, pupils and devices.

#include <nlohmann/json.hpp>

#include "book/entered.hpp"
#include "book/fold.hpp"
#include "book/moment.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {

Result<Settings> SqliteBook::settings() {
  return reading([&]() -> Result<Settings> { return settings_in(*store_); });
}

Result<void> SqliteBook::keep(const Settings& settings) {
  if (auto good = fit(settings); !good) return good;
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    if (settings == settings_in(*store_)) return {};
    put(*store_, settings);
    changes.emplace_back();
    return {};
  });
}

Result<std::vector<PupilLine>> SqliteBook::pupils(const std::string& search, int most, int skip) {
  Fields asked("search", "of-pupils");
  if (asked.line("text", search); asked.fault()) return unexpected(*asked.fault());
  const std::string words = nlohmann::json(words_to_find(search)).dump();
  return reading([&]() -> Result<std::vector<PupilLine>> {
    // Counts only for the lines that are shown: the list may be long.
    Query row(*store_,
              "WITH shown AS (SELECT key, coalesce((SELECT max(begun_s) FROM lesson WHERE pupil = "
              "pupil.key), made_s) AS s"
              " FROM pupil WHERE NOT EXISTS (SELECT 1 FROM json_each(?1) WHERE instr(plain, value) = 0)"
              " ORDER BY s DESC, id LIMIT ?2 OFFSET ?3)"
              " SELECT p.id, (SELECT count(*) FROM lesson WHERE pupil = p.key),"
              " (SELECT count(*) FROM lesson l JOIN swing w ON w.lesson = l.key AND w.removed = 0 WHERE "
              "l.pupil = p.key),"
              " coalesce((SELECT begun_at FROM lesson WHERE pupil = p.key ORDER BY begun_s DESC, id DESC "
              "LIMIT 1), '')"
              " FROM shown JOIN pupil p ON p.key = shown.key ORDER BY shown.s DESC, p.id",
              words, std::max(0, most), std::max(0, skip));
    std::vector<PupilLine> out;
    while (row.next())
      out.push_back({.pupil = *find_pupil(*store_, row.text(0)),
                     .lessons = row.whole(1),
                     .swings = row.whole(2),
                     .last_lesson_at = row.text(3)});
    return out;
  });
}

Result<Pupil> SqliteBook::pupil(const Id& id) {
  return reading([&]() -> Result<Pupil> {
    if (auto found = find_pupil(*store_, id)) return *std::move(found);
    return unexpected(absent("pupil", id));
  });
}

Result<void> SqliteBook::keep(const Pupil& pupil, const std::string& who) {
  if (auto good = fit(pupil); !good) return good;
  if (auto good = fit_who(who); !good) return good;
  return writing([&](std::vector<Changed>& changes) -> Result<void> {
    const std::optional<Pupil> before = find_pupil(*store_, pupil.id);
    Pupil now = pupil;
    const std::string at = now_text();
    if (now.made_at.empty()) now.made_at = before ? before->made_at : at;
    if (before == now) return {};
    put(*store_, now, {who, at});
    changes.push_back({.pupil = pupil.id});
    return {};
  });
}

Result<std::vector<Book::Device>> SqliteBook::devices() {
  return reading([&]() -> Result<std::vector<Device>> {
    std::vector<Device> out;
    Query row(*store_, "SELECT id, name, token_hash, paired_at, seen_at FROM device ORDER BY paired_at, id");
    while (row.next()) out.push_back({row.text(0), row.text(1), row.text(2), row.text(3), row.text(4)});
    return out;
  });
}

Result<void> SqliteBook::keep(const Device& device) {
  if (auto good = fit(device); !good) return good;
  return writing([&](std::vector<Changed>&) -> Result<void> {
    Query(*store_,
          "INSERT OR REPLACE INTO device (id, name, token_hash, paired_at, seen_at) VALUES (?, ?, ?, ?, ?)",
          device.id, device.name, device.token_hash, device.paired_at, device.seen_at)
        .run();
    return {};
  });
}

Result<void> SqliteBook::revoke_device(const Id& id) {
  return writing([&](std::vector<Changed>&) -> Result<void> {
    Query(*store_, "DELETE FROM device WHERE id = ?", id).run();
    return {};
  });
}

void SqliteBook::on_change(std::function<void(const Changed&)> call) {
  const Lock lock(mutex_);
  call_ = std::move(call);
}

}  // namespace strikewright::kept
