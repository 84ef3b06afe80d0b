#pragma once
// The truth of an invented lesson: written beside it, compared with its reading.

#include <array>
#include <istream>
#include <string>
#include <vector>

#include "quantity/unit.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// What the club really did, one swing a row; SI, player's terms.
struct TrueSwing {
  std::size_t row = 0;  ///< first data row = 1
  Reported at;
};

/// Comma-separated: `swing` and the keys of kReportedFields, any order, all present. # begins a comment.
Result<std::vector<TrueSwing>> truth_from(const std::string& text, const std::string& file);
std::string csv_of(const std::vector<TrueSwing>& truths, const std::string& comment);

/// Reading against truth: for each pattern the mean with its 80 % interval beside the true mean, and over all
/// swings how many truths lie inside the 80 % intervals. A swing without truth is a Fault.
Result<std::string> comparison(const LessonReading& lesson, const std::vector<TrueSwing>& truths,
                               const std::string& file, UnitSystem units);

}  // namespace strikewright
