// What pupils were given to do: list, one, keep, take out.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "verbs/given_check.hpp"

namespace strikewright {
namespace {

Result<Language> language_asked(const Asked& asked) {
  const auto at = asked.query.find("language");
  return language_named(at == asked.query.end() ? "en" : at->second);
}

Reply given_to_pupil(Means& means, const Asked& asked) {
  const Result<Language> language = language_asked(asked);
  if (!language) return faulty(language.error());
  const auto all = means.book.given_to(asked.named.at("id"));
  if (!all) return faulty(all.error());
  const Result<PupilCare> care = PupilCare::of(means.book, asked.named.at("id"), *language);
  if (!care) return faulty(care.error());
  Document out{{"given", Document::array()}};
  for (const Given& one : *all) {
    const Result<GivenCare> about = care->about(one);
    if (!about) return faulty(about.error());
    out["given"].push_back(json_of(one, *about));
  }
  return reply(out);
}

Reply given(Means& means, const Asked& asked) {
  const Result<Language> language = language_asked(asked);
  if (!language) return faulty(language.error());
  const Result<Given> found = means.book.given(asked.named.at("id"));
  if (!found) return faulty(found.error());
  const Result<PupilCare> care = PupilCare::of(means.book, found->pupil, *language);
  if (!care) return faulty(care.error());
  const Result<GivenCare> about = care->about(*found);
  return about ? reply(json_of(*found, *about)) : faulty(about.error());
}

Reply keep_given(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<Given> one = given_from(*document, asked.named.at("id"));
  if (!one) return faulty(one.error());
  if (const Result<void> good = check_given(means.book, *one); !good) return faulty(good.error());
  const Result<void> kept = means.book.keep(*one);
  return kept ? given(means, asked) : faulty(kept.error());
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
       .says = "what a pupil was given, and notes, in order of time, with the cautions for this pupil",
       .gives = "GivenList",
       .query = {"language"},
       .handle = given_to_pupil},
      {.method = "GET",
       .pattern = "/api/given/{id}",
       .says = "one exercise given, with the cautions for this pupil, or a note",
       .gives = "Given",
       .query = {"language"},
       .handle = given},
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
