#pragma once
// What was wrong with something that came from outside, and where. Never thrown: returned.

#include <string>
#include <tl/expected.hpp>

namespace strikewright {

/// A fault in what a person or a file gave us. Our own mistakes are `ensure`d, not returned.
struct Fault {
  std::string place;     ///< "lesson.csv:14:3, ball_speed_mps" or "--ball-speed" or "head.inertia_kgm2[1]"
  std::string found;     ///< what stood there: "'fast'"
  std::string expected;  ///< what should stand there: "a number, 0 to 100 m/s"

  /// "lesson.csv:14:3, ball_speed_mps: found 'fast', expected a number, 0 to 100 m/s"
  [[nodiscard]] std::string sentence() const { return place + ": found " + found + ", expected " + expected; }
  bool operator==(const Fault&) const = default;
};

template <class T>
using Result = tl::expected<T, Fault>;

using tl::unexpected;

/// Ends the program with a sentence when `truth` is false: our own bug, in every build type.
void ensure(bool truth, const char* sentence);

}  // namespace strikewright
