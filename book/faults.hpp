#pragma once
// The faults of a book, made in one place, so that the three questions of book.hpp can tell them apart.

#include <string>

#include "quantity/fault.hpp"

namespace strikewright::kept {

/// "pupil anna": what a record is called in a fault's place. An id that is none is shown in quotes.
[[nodiscard]] std::string called(const std::string& kind, const std::string& id);

/// Nothing of that id is in the book.
[[nodiscard]] Fault absent(const std::string& kind, const std::string& id);

/// Something of that id is in the book and says otherwise in `field`.
[[nodiscard]] Fault conflict(const std::string& kind, const std::string& id, const std::string& field);

/// The file, the disk or another program stands in the way.
[[nodiscard]] Fault of_the_file(const std::string& file, std::string found, std::string expected);

/// What an SQLite result code means to a person.
[[nodiscard]] Fault fault_of_code(const std::string& file, int code, const std::string& message);

}  // namespace strikewright::kept
