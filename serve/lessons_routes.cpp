// Lessons: with their swings, keep, remove, somebody else's table.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "serve/secrets.hpp"
#include "verbs/json_door.hpp"
#include "verbs/preview_verb.hpp"

namespace strikewright {
namespace {

Reply lesson(Means& means, const Asked& asked) {
  const Result<Lesson> found = means.book.lesson(asked.named.at("id"));
  if (!found) return faulty(found.error());
  const Result<Pupil> pupil = means.book.pupil(found->pupil);
  if (!pupil) return faulty(pupil.error());
  const auto swings = means.book.swings_of(found->id);
  if (!swings) return faulty(swings.error());
  Document out{{"lesson", json_of(*found)}, {"pupil", json_of(*pupil)}, {"swings", Document::array()}};
  for (const KeptSwing& swing : *swings) out["swings"].push_back(json_of(swing));
  return reply(out);
}

Reply keep_lesson(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<Lesson> given = lesson_from(*document, asked.named.at("id"));
  if (!given) return faulty(given.error());
  if (const auto kept = means.book.keep(*given, asked.who); !kept) return faulty(kept.error());
  const Result<Lesson> now = means.book.lesson(given->id);
  return now ? reply(json_of(*now)) : faulty(now.error());
}

Reply remove_lesson(Means& means, const Asked& asked) {
  const Result<void> gone = means.book.remove_lesson(asked.named.at("id"));
  return gone ? reply(Document::object()) : faulty(gone.error());
}

Result<std::map<std::string, std::string>> mapping_from(const Document& document) {
  std::map<std::string, std::string> out;
  if (!document.contains("columns")) return out;
  const Document& columns = document["columns"];
  const Fault wrong{"columns", "something else", "an object { theirs: ours, or \"\" to leave it out }"};
  if (!columns.is_object()) return unexpected(wrong);
  for (const auto& [theirs, ours] : columns.items()) {
    if (!ours.is_string()) return unexpected(wrong);
    out[theirs] = ours.get<std::string>();
  }
  return out;
}

/// The same row of the same table in the same lesson always has the same name: a table taken over twice is
/// there once.
void name_swings(Document& preview, const Id& lesson) {
  constexpr std::size_t kLetters = 24;
  if (!preview.contains("swings")) return;
  int row = 0;
  for (Document& swing : preview["swings"]) {
    const std::string text = lesson + ' ' + std::to_string(++row) + ' ' + dumped(swing);
    Document named{{"id", "row-" + hash_of(text).substr(0, kLetters)}, {"lesson", lesson}};
    named.update(swing);
    swing = std::move(named);
  }
}

Reply preview(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  std::optional<Fault> fault;
  JsonDoor door{*document, "", fault};
  const std::string text = door.text("text");
  static_cast<void>(door.has("columns"));
  door.done();
  if (fault) return faulty(*fault);
  const auto columns = mapping_from(*document);
  if (!columns) return faulty(columns.error());
  const Result<Lesson> into = means.book.lesson(asked.named.at("id"));
  if (!into) return faulty(into.error());
  const Result<Pupil> pupil = means.book.pupil(into->pupil);
  if (!pupil) return faulty(pupil.error());
  Answer<Document> answer = preview_of({.text = text,
                                        .columns = *columns,
                                        .club = into->club,
                                        .condition = into->condition,
                                        .surface = into->surface,
                                        .hand = pupil->hand,
                                        .ball = into->ball});
  if (answer) name_swings(*answer, into->id);
  return reply_or_fault(answer);
}

}  // namespace

std::vector<Route> lessons_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/lessons/{id}",
       .says = "a lesson, its pupil and its swings",
       .gives = "LessonAndSwings",
       .handle = lesson},
      {.method = "PUT",
       .pattern = "/api/lessons/{id}",
       .says = "adds or replaces a lesson",
       .takes = "Lesson",
       .gives = "Lesson",
       .handle = keep_lesson},
      {.method = "DELETE",
       .pattern = "/api/lessons/{id}",
       .says = "removes a lesson with all that is in it",
       .gives = "Nothing",
       .handle = remove_lesson},
      {.method = "POST",
       .pattern = "/api/lessons/{id}/preview",
       .says = "somebody else's table: which columns are ours, what would be taken over",
       .takes = "Table",
       .gives = "Preview",
       .slow = true,
       .handle = preview},
  };
}

}  // namespace strikewright
