#pragma once
// The columns of a sightings file and what a header makes of them.

#include <optional>
#include <string>
#include <vector>

#include "quantity/fault.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// What a column is about.
enum class Role { club, hand, condition, ball, surface, time, order, measured, word, sure };

struct Column {
  std::string name;  ///< as documented: "carry_yd"
  Role role = Role::measured;
  Kind kind = Kind::start;  ///< of measured, word and sure columns
  std::string unit;         ///< "yd"; "" where there is none
  double scale = 1.0;       ///< SI units in one unit
};

/// Every column that a file may have, sure_ columns aside, in the order of the documentation; lengths also
/// end in _m _cm _mm _yd _ft _in, speeds in _mps _mph _kmh.
[[nodiscard]] const std::vector<Column>& known_columns();

/// The header's columns, or what is wrong with it: an unknown column (nearest suggested), one twice, two
/// units for one column, sure_ without its column, no club, a first row that is no header, a file cut by
/// semicolons or tabs.
/// @param need_club  there must be a column `club`
[[nodiscard]] Result<std::vector<Column>> read_header(const std::vector<std::string>& cells,
                                                      const std::string& file, std::size_t line,
                                                      bool need_club);

}  // namespace strikewright
