#include "verbs/given_care.hpp"

#include "verbs/lesson_file.hpp"

namespace strikewright {

Result<PupilCare> PupilCare::of(Book& book, const Id& pupil, Language language) {
  Result<Pupil> who = book.pupil(pupil);
  if (!who) return unexpected(who.error());
  Result<KnownExercises> known = known_exercises(book);
  if (!known) return unexpected(known.error());
  return PupilCare(book, *std::move(who), *std::move(known), language);
}

Result<GivenCare> PupilCare::about(const Given& given) const {
  if (given.exercise.empty()) return GivenCare{};
  const BodyNotes notes = notes_of(pupil_, given.at);
  const Exercise* exercise = known_.named(given.exercise);
  if (exercise == nullptr)
    return GivenCare{{Permit::hidden, {"Its words and its own cautions are no longer in the book."}},
                     cautions_of(Exercise{}, language_, notes)};
  Place place{.surface = exercise->ground.front()};
  if (!given.lesson.empty()) {
    const Result<Lesson> lesson = book_->lesson(given.lesson);
    if (!lesson && !is_absent(lesson.error())) return unexpected(lesson.error());
    if (lesson) place.surface = surface_of(lesson->surface);
  }
  return GivenCare{allowed(*exercise, notes, place), cautions_of(*exercise, language_, notes)};
}

}  // namespace strikewright
