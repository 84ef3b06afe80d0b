#pragma once
// Where the coach's own book is when nobody says otherwise.

#include <string>

#include "quantity/fault.hpp"

namespace strikewright {

/// strikewright/book.strike among the user's other data ($XDG_DATA_HOME, else .local/share at home); its
/// folder is made.
Result<std::string> usual_book();

}  // namespace strikewright
