// Exercises that the coach wrote: list, keep, take out.

#include <nlohmann/json.hpp>

#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "verbs/own_exercise.hpp"

namespace strikewright {
namespace {

Reply own_exercises(Means& means) {
  const auto all = means.book.own_exercises();
  if (!all) return faulty(all.error());
  Document out{{"exercises", Document::array()}};
  for (const OwnExercise& one : *all) out["exercises"].push_back(json_of(one));
  return reply(out);
}

Reply keep_own_exercise(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<OwnExercise> exercise = own_exercise_from(*document, asked.named.at("id"));
  if (!exercise) return faulty(exercise.error());
  if (const auto good = check_own_exercise(means.book, *exercise); !good) return faulty(good.error());
  if (const auto kept = means.book.keep(*exercise); !kept) return faulty(kept.error());
  const auto all = means.book.own_exercises();
  if (!all) return faulty(all.error());
  for (const OwnExercise& one : *all)
    if (one.id == exercise->id) return reply(json_of(one));
  return faulty(404, Fault{"own exercise " + exercise->id, "nothing", "what was kept just now"});
}

Reply remove_own_exercise(Means& means, const Asked& asked) {
  const Result<void> gone = means.book.remove_own_exercise(asked.named.at("id"));
  return gone ? reply(Document::object()) : faulty(gone.error());
}

}  // namespace

std::vector<Route> exercises_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/exercises/own",
       .says = "the exercises that the coach wrote, as they were entered",
       .gives = "OwnExercises",
       .handle = [](Means& m, const Asked&) { return own_exercises(m); }},
      {.method = "PUT",
       .pattern = "/api/exercises/own/{id}",
       .says = "adds or replaces an exercise of the coach's own",
       .takes = "OwnExercise",
       .gives = "OwnExercise",
       .handle = keep_own_exercise},
      {.method = "DELETE",
       .pattern = "/api/exercises/own/{id}",
       .says = "takes out an exercise of the coach's own; what was given stays",
       .gives = "Nothing",
       .handle = remove_own_exercise},
  };
}

}  // namespace strikewright
