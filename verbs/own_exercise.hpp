#pragma once
// May this be kept as an exercise of the coach's own?

#include "book/book.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

/// @returns a Fault where the document is no exercise (place "document: exercise, moves[1].cause"), or calls
/// itself what the catalogue or another of the coach's own is called: what was given names its exercise by
/// that.
Result<void> check_own_exercise(Book& book, const OwnExercise& exercise);

}  // namespace strikewright
