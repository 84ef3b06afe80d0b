#pragma once
// A pupil over the months: where the low point was, how much it scattered, what was given meanwhile.

#include "book/book.hpp"
#include "verbs/answer.hpp"

namespace strikewright {

/// docs/contract.md, "Progress". Out of the readings that the book keeps: a lesson whose reading was never
/// made has no figures. The club is the one with most lessons, unless asked for.
Answer<Document> progress_document(Book& book, const Id& pupil, const std::string& units,
                                   const std::string& club);

}  // namespace strikewright
