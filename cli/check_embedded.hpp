#pragma once
// The files of reference/ as the build put them into the program (cmake/write_reference.cmake).

#include <span>
#include <string_view>

namespace strikewright {

struct EmbeddedTable {
  std::string_view name;  ///< file name without ".csv"
  std::string_view text;
};

/// All tables, by name.
std::span<const EmbeddedTable> embedded_tables();

}  // namespace strikewright
