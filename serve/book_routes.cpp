// The book as a whole: about, words, settings, demo, export, changes.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "serve/sensible.hpp"
#include "verbs/demo_verb.hpp"
#include "verbs/words_verb.hpp"

namespace strikewright {
namespace {

Result<bool> is_empty(Book& book) {
  const auto pupils = book.pupils("", 1, 0);
  if (!pupils) return unexpected(pupils.error());
  return pupils->empty();
}

Reply about(Means& means, const Asked& asked) {
  const Result<bool> empty = is_empty(means.book);
  if (!empty) return faulty(empty.error());
  return reply({{"version", means.version},
                {"book", means.book_name},
                {"empty", *empty},
                {"shared", means.address.shared},
                {"at_home", asked.at_home}});
}

Reply words(Means& means, const Asked& asked) {
  std::string bag;
  if (const auto pupil = asked.query.find("pupil"); pupil != asked.query.end()) {
    const Result<Pupil> owner = means.book.pupil(pupil->second);
    if (!owner) return faulty(owner.error());
    bag = owner->bag;
  }
  return reply_or_fault(entry_words(bag));
}

Reply settings(Means& means) {
  const Result<Settings> now = means.book.settings();
  return now ? reply(json_of(*now)) : faulty(now.error());
}

Reply keep_settings(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<Settings> given = settings_from(*document);
  if (!given) return faulty(given.error());
  if (const auto faults = not_readable(*given); !faults.empty()) return faulty(faults);
  const Result<void> kept = means.book.keep(*given);
  return kept ? settings(means) : faulty(kept.error());
}

Reply demo(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  if (!document->empty()) return faulty(400, Fault{"body", "members", "{}"});
  const Result<bool> empty = is_empty(means.book);
  if (!empty) return faulty(empty.error());
  if (!*empty) return faulty(409, Fault{"book " + means.book_name, "pupils", "an empty book for the demo"});
  const Result<int> pupils = fill_demo(means.book);
  return pupils ? reply({{"pupils", *pupils}}) : faulty(pupils.error());
}

Reply whole_book(Means& means) {
  Result<std::string> text = means.book.export_json();
  if (!text) return faulty(text.error());
  return {.body = std::move(*text),
          .headers = {{"Content-Disposition", "attachment; filename=\"book.json\""}}};
}

}  // namespace

std::vector<Route> book_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/about",
       .says = "which book, which version, who asks",
       .gives = "About",
       .handle = about},
      {.method = "GET",
       .pattern = "/api/words",
       .says = "the words that a page may offer; pupil: with that pupil's own clubs",
       .gives = "Words",
       .query = {"pupil"},
       .handle = words},
      {.method = "GET",
       .pattern = "/api/settings",
       .says = "the coach's settings",
       .gives = "Settings",
       .handle = [](Means& m, const Asked&) { return settings(m); }},
      {.method = "PUT",
       .pattern = "/api/settings",
       .says = "replaces the settings",
       .takes = "Settings",
       .gives = "Settings",
       .handle = keep_settings},
      {.method = "POST",
       .pattern = "/api/demo",
       .says = "fills an empty book with invented pupils",
       .takes = "Nothing",
       .gives = "Filled",
       .slow = true,
       .handle = demo},
      {.method = "GET",
       .pattern = "/api/book/export",
       .says = "the whole book as one document",
       .gives = "WholeBook",
       .slow = true,
       .handle = [](Means& m, const Asked&) { return whole_book(m); }},
      {.method = "GET",
       .pattern = "/api/changes",
       .says = "an event for every change of the book, as it happens",
       .gives = "Events",
       .handle =
           [](Means&, const Asked& a) {
             return Reply{.type = "text/event-stream", .device = a.device, .streams = true};
           }},
  };
}

}  // namespace strikewright
