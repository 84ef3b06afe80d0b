#pragma once
// Somebody else's table of swings: which of its columns are ours, what would be taken over.

#include <map>
#include <string>

#include "verbs/answer.hpp"

namespace strikewright {

struct PreviewAsked {
  std::string text;                              ///< comma-, semicolon- or tab-separated, first row its names
  std::map<std::string, std::string> columns{};  ///< theirs -> ours, "" = left out; not named = guessed
  std::string club = "7i", condition = "normal", surface = "fairway";  ///< of rows that do not say
  std::string hand = "right";
  bool ball = true;
};

/// `columns[] {theirs, ours, guessed}`, `rows[][]` (the first 10), `swings[]` as docs/contract.md has them
/// but for `id` and `lesson`, `faults[] {place, found, expected}`; swings are there only where there are no
/// faults.
Answer<Document> preview_of(const PreviewAsked& asked);

}  // namespace strikewright
