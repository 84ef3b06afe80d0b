// What pupils were given to do: list, one, keep, take out.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "verbs/given_check.hpp"

namespace strikewright {
namespace {

Reply given_to_pupil(Means& means, const Asked& asked) {
  const auto all = means.book.given_to(asked.named.at("id"));
  if (!all) return faulty(all.error());
  Document out{{"given", Document::array()}};
  for (const Given& one : *all) out["given"].push_back(json_of(one));
  return reply(out);
}

Reply given(Means& means, const Id& id) {
  const Result<Given> found = means.book.given(id);
  return found ? reply(json_of(*found)) : faulty(found.error());
}

Reply keep_given(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<Given> one = given_from(*document, asked.named.at("id"));
  if (!one) return faulty(one.error());
  if (const Result<void> good = check_given(means.book, *one); !good) return faulty(good.error());
  const Result<void> kept = means.book.keep(*one);
  return kept ? given(means, one->id) : faulty(kept.error());
}

Reply remove_given(Means& means, const Asked& asked) {
  const Result<void> gone = means.book.remove_given(asked.named.at("id"));
  return gone ? reply(Document::object()) : faulty(gone.error());
}

}  // namespace

std::vector<Route> given_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/pupils/{id}/given",
       .says = "what a pupil was given, and notes, in order of time",
       .gives = "GivenList",
       .handle = given_to_pupil},
      {.method = "GET",
       .pattern = "/api/given/{id}",
       .says = "one exercise given, or a note",
       .gives = "Given",
       .handle = [](Means& m, const Asked& a) { return given(m, a.named.at("id")); }},
      {.method = "PUT",
       .pattern = "/api/given/{id}",
       .says = "gives an exercise, notes something, or replaces what was noted",
       .takes = "Given",
       .gives = "Given",
       .handle = keep_given},
      {.method = "DELETE",
       .pattern = "/api/given/{id}",
       .says = "takes out what was given; its swings stay",
       .gives = "Nothing",
       .handle = remove_given},
  };
}

}  // namespace strikewright
