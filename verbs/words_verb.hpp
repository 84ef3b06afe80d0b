#pragma once
// The words that a page may offer: clubs, surfaces, conditions, columns.

#include <string>

#include "verbs/answer.hpp"

namespace strikewright {

/// docs/contract.md, `GET /api/words`.
/// @param bag  JSON of own clubs, "" = the generic bag
Answer<Document> entry_words(const std::string& bag);

}  // namespace strikewright
