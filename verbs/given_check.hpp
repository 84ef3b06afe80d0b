#pragma once
// What may be given.

#include "book/book.hpp"

namespace strikewright {

/// Is it something that a pupil can be given? An exercise must be known, unless the record says so already (a
/// name from before the catalogue, or of an own exercise that was taken out); a cause must be one of the
/// seven; a dose `{balls, sets, rest_s, minutes, days_a_week}`, whole numbers, each may be left out.
Result<void> check_given(Book& book, const Given& given);

}  // namespace strikewright
