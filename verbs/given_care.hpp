#pragma once
// What an exercise that was given asks of this one pupil: may it be done, why not or only after asking, and
// every caution.

#include <string>
#include <vector>

#include "book/book.hpp"
#include "exercise/safety.hpp"
#include "verbs/answer.hpp"
#include "verbs/known_exercises.hpp"

namespace strikewright {

struct GivenCare {
  Permission permission;  ///< free for a note
  std::vector<std::string>
      cautions;  ///< empty only for a note: its own, the pupil's, those of every exercise
};

/// Everything given to one pupil, looked at with the same eyes.
class PupilCare {
 public:
  static Result<PupilCare> of(Book& book, const Id& pupil, Language language);

  /// The age is that of the day on which it was given, the ground that of its lesson; outside of a lesson any
  /// ground that suits the exercise. An exercise that nobody knows any more is hidden, with every caution but
  /// its own.
  [[nodiscard]] Result<GivenCare> about(const Given& given) const;

 private:
  PupilCare(Book& book, Pupil pupil, KnownExercises known, Language language)
      : book_{&book}, pupil_{std::move(pupil)}, known_{std::move(known)}, language_{language} {}
  Book* book_;
  Pupil pupil_;
  KnownExercises known_;
  Language language_;
};

}  // namespace strikewright
