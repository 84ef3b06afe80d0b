// What the club did, and the flail: everything that is worked out.

#include "serve/routes.hpp"
#include "verbs/flail_verb.hpp"

namespace strikewright {
namespace {

Reply reading(Means& means, const Asked& asked) {
  const auto units = asked.query.find("units");
  auto text = means.readings.of(asked.named.at("id"), units == asked.query.end() ? "" : units->second);
  if (!text) return faulty(text.error());
  return {.body = std::move(*text)};
}

using Verb = Answer<Document> (*)(const Document&);

Reply flail(const Asked& asked, Verb verb) {
  const Result<Document> document = document_of(asked);
  return document ? reply_or_fault(verb(*document)) : faulty(document.error());
}

}  // namespace

std::vector<Route> reading_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/lessons/{id}/reading",
       .says = "what the club did, why, and how sure that is",
       .gives = "Reading",
       .query = {"units"},
       .slow = true,
       .handle = reading},
      {.method = "POST",
       .pattern = "/api/flail",
       .says = "where both levers are, and what a push of a slider does",
       .takes = "FlailAsked",
       .gives = "Flail",
       .handle = [](Means&, const Asked& a) { return flail(a, flail_picture); }},
      {.method = "POST",
       .pattern = "/api/flail/scatter",
       .says = "what the same noise makes of two ways of swinging",
       .takes = "FlailAsked",
       .gives = "FlailScatter",
       .slow = true,
       .handle = [](Means&, const Asked& a) { return flail(a, flail_scatter); }},
  };
}

}  // namespace strikewright
