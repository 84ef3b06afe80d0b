#pragma once
// Which exercise first, and why, in words and as JSON.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "exercise/ranking.hpp"
#include "verbs/cause_words.hpp"

namespace strikewright {

/// Sentences, best first: the first exercise with what it gains and through what, the second, what would make
/// the second the first, what was left out for the body's sake.
/// @param known  all that were ranked, for their titles
/// @param ball   false: the swings were made at a chalk line
/// @param most   so many exercises are spoken of
std::vector<std::string> ranking_sentences(const Ranking& ranking, const std::vector<Exercise>& known,
                                           Hand hand, bool ball, UnitSystem units, std::size_t most);

/// What would have to be otherwise for the second to be the first.
std::vector<std::string> second_first_sentences(const Ranking& ranking, const std::vector<Exercise>& known,
                                                Hand hand, UnitSystem units);

/// `exercises[]` of docs/commands.md, read, and `ranked[]` of docs/contract.md: name, title, figures, one
/// sentence each, cautions.
nlohmann::ordered_json ranked_json(const Ranking& ranking, const std::vector<Exercise>& known,
                                   const BookEffects* learned, UnitSystem units, const BodyNotes& notes,
                                   Language language);

/// `{mean, p10, p90}`.
nlohmann::ordered_json spread_json(const Spread& spread);

}  // namespace strikewright
