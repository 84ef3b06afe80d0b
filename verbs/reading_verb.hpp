#pragma once
// From a lesson's sightings to the document that the page shows: reading, causes, words, pictures.

#include <cstdint>
#include <string>
#include <vector>

#include "verbs/answer.hpp"

namespace strikewright {
class FitMemory;
}

namespace strikewright {

/// One reading to be made. Everything that was entered is in `csv`; nothing else decides but the members
/// below.
struct ReadingAsked {
  std::string csv;  ///< a sightings file (docs/file-formats.md); a header alone is a lesson without swings
  std::string name = "lesson";     ///< what faults call the file
  std::string skill = "club";      ///< beginner, club, county, tour, or a handicap
  std::string bag{};               ///< JSON of own clubs, "" = the generic bag
  std::string from = "usual";      ///< usual, best
  std::string units = "metric";    ///< metric, yards: of the words
  std::vector<std::string> ids{};  ///< of the swings, in the order of the rows; may be empty
  std::vector<int> numbers{};      ///< of the swings in their lesson; may be empty
  std::size_t left_out = 0;        ///< swings of an exercise or after it, which the proof speaks of
  FitMemory* memory = nullptr;     ///< of fits made before, may be shared by threads; the answer is the same
  unsigned threads = 0;            ///< 0 = all cores; the answer is the same for any number
};

/// The document of docs/contract.md, "The reading", without what only the book knows (lesson, revision).
Answer<Document> reading_document(const ReadingAsked& asked);

/// The little of a reading that a timeline shows: `{patterns: [{club, condition, hand, n, low_point_mm {mean,
/// p10, p90}, low_point_scatter_mm {mean, p10, p90}, result_m {mean, p10, p90}}]}`; `result_m` only where it
/// is known.
Document reading_summary(const Document& reading);

}  // namespace strikewright
