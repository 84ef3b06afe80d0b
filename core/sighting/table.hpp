#pragma once
// The sightings file: comma-separated text in, one SeenSwing a row out. Fed by chunks, so memory stays
// bounded.

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/fault.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

struct TableOptions {
  std::string file = "sightings.csv";  ///< as it is to be named in a Fault's place
  std::string club{};                  ///< club of rows that name none; "" = every row must
  Hand hand = Hand::right;             ///< hand of rows that name none
  std::size_t most_rows =
      100'000;  ///< beyond: rows are checked and counted, not handed over, and finish() refuses
};

/// Reads a sightings file as it arrives.
///
/// UTF-8 with or without a mark, comma-separated, quotes doubled inside quotes (RFC 4180), any line ending,
/// blank lines and lines that begin with # skipped. Columns: docs/file-formats.md. The first fault ends the
/// reading; nothing is handed over after it. Swings handed over before it are to be thrown away when finish()
/// returns a Fault. A Fault's place is "file:line:cell, column": line and cell count from 1, an unterminated
/// quote names its own line.
class TableReader {
 public:
  TableReader(TableOptions options, std::function<void(SeenSwing&&)> each);
  ~TableReader();
  TableReader(TableReader&&) noexcept;
  TableReader& operator=(TableReader&&) noexcept;

  /// Any piece of the text, cut anywhere. Returns the first fault found, again and again once found.
  Result<void> feed(std::string_view piece);
  /// The end of the file. The number of swings handed over.
  Result<std::size_t> finish();
  /// Column names as written, empty until the header has been read.
  [[nodiscard]] const std::vector<std::string>& header() const;
  /// All faults found so far, in the order of the file; after 20 the reading stops.
  [[nodiscard]] const std::vector<Fault>& faults() const;

 private:
  class Work;
  std::unique_ptr<Work> work_;
};

/// A whole file at once.
[[nodiscard]] Result<std::vector<SeenSwing>> read_table(std::string_view text, const TableOptions& options);

}  // namespace strikewright
