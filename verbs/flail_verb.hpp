#pragma once
// The flail as the page shows it: where both levers are, what a push of a slider does, what noise makes of
// it.

#include "verbs/answer.hpp"

namespace strikewright {

/// @param asked  docs/contract.md, "The flail"; members may be left out
/// @returns a Fault for a member that is not known, of another type or out of reach; never an empty picture
Answer<Document> flail_picture(const Document& asked);

/// The same noise in two ways of swinging around that flail.
Answer<Document> flail_scatter(const Document& asked);

}  // namespace strikewright
