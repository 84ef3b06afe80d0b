#include "verbs/own_exercise.hpp"

#include "exercise/exercise.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

Fault taken(const std::string& name, const char* by) {
  return {"document: exercise, name", strikewright::quoted(name),
          std::string("a name that ") + by + " does not have"};
}

}  // namespace

Result<void> check_own_exercise(Book& book, const OwnExercise& exercise) {
  const Result<Exercise> read = exercise_from(exercise.document);
  if (!read) {
    Fault fault = read.error();
    fault.place = "document: " + fault.place;
    return unexpected(std::move(fault));
  }
  if (exercise_named(read->name) != nullptr)
    return unexpected(taken(read->name, "an exercise of the catalogue"));
  const auto all = book.own_exercises();
  if (!all) return unexpected(all.error());
  for (const OwnExercise& other : *all) {
    if (other.id == exercise.id) continue;
    const Result<Exercise> there = exercise_from(other.document);
    if (there && there->name == read->name)
      return unexpected(taken(read->name, "another of your own exercises"));
  }
  return {};
}

}  // namespace strikewright
