#pragma once
// Every exercise that this coach can give: the catalogue's and the coach's own.

#include <string>
#include <vector>

#include "book/book.hpp"
#include "exercise/exercise.hpp"
#include "verbs/answer.hpp"

namespace strikewright {

struct KnownExercises {
  std::vector<Exercise> all;     ///< the catalogue's by name, then the coach's own by name
  std::vector<std::string> own;  ///< id of the coach's own, "" = the catalogue's; as many as `all`
  std::vector<Fault> unread;     ///< own ones that this version cannot read
  [[nodiscard]] const Exercise* named(const std::string& name) const;
};

Result<KnownExercises> known_exercises(Book& book);

/// "en", "de"; a Fault with the place `language` for any other.
Result<Language> language_named(const std::string& text);

/// A Fault with the place `NAME` and the nearest name.
Fault no_such_exercise(const std::string& name);

/// The catalogue with its cautions: docs/contract.md, "Exercises".
Document exercises_document(Language language);

/// The same with the coach's own.
Answer<Document> exercises_document(Book& book, const std::string& language);

}  // namespace strikewright
