// Swings: one, several, their changes.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "serve/sensible.hpp"

namespace strikewright {
namespace {

Reply revised(const Result<std::int64_t>& revision) {
  return revision ? reply({{"revision", *revision}}) : faulty(revision.error());
}

/// What no reading would understand of these swings; a lesson that is not there is the book's to refuse.
std::vector<Fault> not_readable_in(Book& book, const Id& lesson, const std::vector<KeptSwing>& swings) {
  const Result<Lesson> into = book.lesson(lesson);
  const Result<Pupil> pupil = into ? book.pupil(into->pupil) : unexpected(into.error());
  return pupil ? not_readable(*pupil, swings) : std::vector<Fault>{};
}

Reply keep_swing(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<KeptSwing> swing = swing_from(*document, asked.named.at("id"), "");
  if (!swing) return faulty(swing.error());
  if (const auto faults = not_readable_in(means.book, swing->lesson, {*swing}); !faults.empty())
    return faulty(faults);
  return revised(means.book.keep(*swing, asked.who));
}

Reply keep_swings(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const auto swings = swings_from(*document, asked.named.at("id"));
  if (!swings) return faulty(swings.error());
  if (const auto faults = not_readable_in(means.book, asked.named.at("id"), *swings); !faults.empty())
    return faulty(faults);
  return revised(means.book.keep_all(*swings, asked.who));
}

Reply changes(Means& means, const Asked& asked) {
  const auto all = means.book.changes_of(asked.named.at("id"));
  if (!all) return faulty(all.error());
  Document out{{"changes", Document::array()}};
  for (const SwingChange& change : *all) out["changes"].push_back(json_of(change));
  return reply(out);
}

}  // namespace

std::vector<Route> swings_routes() {
  return {
      {.method = "PUT",
       .pattern = "/api/swings/{id}",
       .says = "adds a swing, replaces it, or puts a removed one back",
       .takes = "Swing",
       .gives = "Revision",
       .handle = keep_swing},
      {.method = "DELETE",
       .pattern = "/api/swings/{id}",
       .says = "removes a swing; its changes are kept",
       .gives = "Revision",
       .handle = [](Means& m,
                    const Asked& a) { return revised(m.book.remove_swing(a.named.at("id"), a.who)); }},
      {.method = "GET",
       .pattern = "/api/swings/{id}/changes",
       .says = "what a swing was before, by whom and when",
       .gives = "Changes",
       .handle = changes},
      {.method = "PUT",
       .pattern = "/api/lessons/{id}/swings",
       .says = "several swings of a lesson, all or none",
       .takes = "Swings",
       .gives = "Revision",
       .handle = keep_swings},
  };
}

}  // namespace strikewright
