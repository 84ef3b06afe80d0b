#pragma once
// Can what is about to be kept be read? The book takes any text; a lesson with one word that no reading
// understands would have no reading at all.

#include <vector>

#include "book/book.hpp"

namespace strikewright {

/// Faults with the place "carry_m of swing s-1".
std::vector<Fault> not_readable(const Pupil& pupil, const std::vector<KeptSwing>& swings);

/// The pupil's skill and own clubs.
std::vector<Fault> not_readable(const Pupil& pupil);

/// The columns and figures of the own eye.
std::vector<Fault> not_readable(const Settings& settings);

}  // namespace strikewright
