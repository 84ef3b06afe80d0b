#pragma once
// The book's file among other files: copies, and getting rid of what was erased.

#include "book/store.hpp"

namespace strikewright::kept {

/// An empty file that only its owner may read. Fault: it is there, or cannot be made.
[[nodiscard]] Result<void> make_private(const std::string& shown, const std::string& path);

/// The book as it stands, in one new file of its own; appears whole or not at all. Fault where `to` is there.
[[nodiscard]] Result<void> copy_to(Store& store, const std::string& to);

/// A copy F.before-N beside the book, N = the schema to which it is about to be moved; its name.
[[nodiscard]] Result<std::string> copy_before(Store& store, int schema);

/// All files F.before-*, half-made ones, too.
[[nodiscard]] std::vector<std::string> copies_of(const std::string& file);

/// Does the copy hold the pupil? One that cannot be read might.
[[nodiscard]] bool may_hold(const std::string& copy, const std::string& pupil);

/// Writes the file anew without anything that was erased, and empties what lies beside it. A fault when
/// another program is reading.
[[nodiscard]] Result<void> clean(Store& store);

}  // namespace strikewright::kept
