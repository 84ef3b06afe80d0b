#pragma once
// One row of a sightings file into one swing.

#include <string>
#include <vector>

#include "sighting/columns.hpp"
#include "sighting/csv.hpp"
#include "sighting/table.hpp"

namespace strikewright {

/// The swing in a row, or the first thing wrong with it: cell count, a cell's text, a value that no swing
/// has, or cells that cannot both be true. Left-handers' sightings come out mirrored.
[[nodiscard]] Result<SeenSwing> read_row(const CsvRow& row, const std::vector<Column>& columns,
                                         const TableOptions& options, std::size_t number);

/// Is it a date, or a date with a time of day and maybe a zone, as in ISO 8601: 2026-11-25,
/// 2026-11-25T10:30:00+01:00?
[[nodiscard]] bool is_iso_time(std::string_view text);

}  // namespace strikewright
