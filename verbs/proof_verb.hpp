#pragma once
// Did the exercise work? docs/contract.md, "The proof".

#include <vector>

#include "verbs/given_swings.hpp"

namespace strikewright {

/// @param units  "" = as in the settings
Answer<Document> proof_document(Book& book, const Id& given, const std::string& units, unsigned threads = 0);

/// The verdict first, then what became of it later, in plain sentences.
std::vector<std::string> proof_sentences(const GivenFile& file, const Proof& proof, UnitSystem units);

/// Fat and thin before and after, where the contact was seen; "" where it was not.
std::string bad_strikes_sentence(const GivenFile& file);

}  // namespace strikewright
