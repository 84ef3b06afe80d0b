// The whole book as one JSON document. Written record by record: a long life of lessons need not fit into
// memory twice.

#include "book/json.hpp"
#include "book/rows.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

class Document {
 public:
  explicit Document(Store& store) : store_{store} {}

  std::string write() {
    out_ = "{\"format\":2,\n\"settings\":" + json_of(settings_in(store_)).dump();
    open("pupils");
    const std::vector<Id> pupils = ids("SELECT id FROM pupil ORDER BY made_s, id");
    for (const Id& id : pupils) add(pupil_json(id));
    close();
    open("lessons");
    for (const Id& id : ids("SELECT id FROM lesson ORDER BY begun_s, id")) add(lesson_json(id));
    close();
    open("given");  // outside of lessons
    for (const Id& id : pupils) {
      for (const Given& given : given_in(store_, id))
        if (given.lesson.empty()) add(json_of(given));
    }
    close();
    open("own_exercises");
    for (const OwnExercise& exercise : own_exercises_in(store_)) add(json_of(exercise));
    close();
    return std::move(out_) + "}\n";
  }

 private:
  std::vector<Id> ids(const char* sql) {
    std::vector<Id> out;
    Query row(store_, sql);
    while (row.next()) out.push_back(row.text(0));
    return out;
  }

  Json changed(const char* sql, const Id& id) {
    Query row(store_, sql, id);
    row.next();
    return {{"at", row.text(0)}, {"by", row.text(1)}};
  }

  Json pupil_json(const Id& id) {
    Json out = json_of(*find_pupil(store_, id));
    out["changed"] = changed("SELECT changed_at, changed_by FROM pupil WHERE id = ?", id);
    return out;
  }

  /// How it stands, who made it so, and what it was before.
  Json swing_json(const SwingRow& row) {
    Json out = json_of(row.swing);
    out.erase("lesson");
    out["removed"] = row.removed;
    out["before"] = Json::array();
    const std::vector<SwingChange> changes = changes_in(store_, row.swing.id);
    for (std::size_t k = 0; k + 1 < changes.size(); ++k) out["before"].push_back(json_of(changes[k]));
    const SwingChange& last = changes.back();
    out["change"] = {{"number", last.number}, {"at", last.at}, {"who", last.who}, {"what", last.what}};
    return out;
  }

  Json lesson_json(const Id& id) {
    Json out = json_of(*find_lesson(store_, id));
    out["changed"] = changed("SELECT changed_at, changed_by FROM lesson WHERE id = ?", id);
    out["given"] = Json::array();
    for (const Given& given : given_during(store_, id)) out["given"].push_back(json_of(given));
    out["swings"] = Json::array();
    for (const SwingRow& row : swing_rows(store_, id, true)) out["swings"].push_back(swing_json(row));
    const std::optional<KeptReading> kept = find_reading(store_, id);
    out["reading"] = kept ? json_of(*kept) : Json(nullptr);
    if (kept) out["reading"].erase("lesson");
    return out;
  }

  void open(const char* key) {
    out_ += std::string(",\n\"") + key + "\":[";
    first_ = true;
  }
  void add(const Json& record) {
    out_ += (first_ ? "\n" : ",\n") + record.dump();
    first_ = false;
  }
  void close() { out_ += first_ ? "]" : "\n]"; }

  Store& store_;
  std::string out_;
  bool first_ = true;
};

}  // namespace

Result<std::string> SqliteBook::export_json() {
  return reading([&]() -> Result<std::string> { return Document(*store_).write(); });
}

}  // namespace strikewright::kept
