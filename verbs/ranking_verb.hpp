#pragma once
// Which exercise to give in a lesson: the reading, the pupil's body, the place and the coach's own book.

#include "exercise/ranking.hpp"
#include "verbs/answer.hpp"
#include "verbs/explain.hpp"
#include "verbs/known_exercises.hpp"
#include "verbs/lesson_file.hpp"

namespace strikewright {

/// What was given before, to whom, and where the low point was in that lesson and in the pupil's next one
/// with the same club, out of the readings that the book keeps. Lessons whose reading was never made say
/// nothing.
Result<std::vector<Trial>> trials_in(Book& book);

/// docs/contract.md, "Which exercise".
/// @param units     "" = as in the settings
/// @param language  en, de: of titles and cautions; sentences are English
Answer<Document> ranking_document(Book& book, const Id& lesson, const std::string& units,
                                  const std::string& language, unsigned threads = 0);

/// Out of a sightings file: the built-in exercises, nothing learned. Nothing where the file has no swings.
/// @param body  what is known of the pupil's body, free text
std::optional<Ranking> ranking_for(const std::vector<Explained>& all, const std::vector<SeenSwing>& seen,
                                   const std::string& body, unsigned threads);

/// The group that exercises are chosen for: the one with most swings.
const Explained* group_spoken_of(const std::vector<Explained>& all);

}  // namespace strikewright
