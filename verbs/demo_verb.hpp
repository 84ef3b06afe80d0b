#pragma once
// An invented coach's book, to look around in.

#include "book/book.hpp"

namespace strikewright {

/// Fills a book that has no pupils with invented ones: three pupils (one left-handed), their lessons, one
/// with an exercise given. The same every time. A book with pupils is a Fault and stays as it is.
/// @returns how many pupils came in
Result<int> fill_demo(Book& book);

}  // namespace strikewright
