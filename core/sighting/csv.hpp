#pragma once
// Comma-separated text, pushed in by pieces, out by rows (RFC 4180: Y. Shafranovich, Common Format and MIME
// Type for Comma-Separated Values (CSV) Files, 2005).

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

struct CsvRow {
  std::size_t line = 0;            ///< line of the file where the row begins, first = 1
  std::vector<std::string> cells;  ///< valid UTF-8, quotes taken off
};

/// "day.csv:14:3", cell counted from 1.
[[nodiscard]] std::string csv_place(const std::string& file, std::size_t line, std::size_t cell);

/// A cell as it must stand in a file: quoted when it holds a comma, a quote, a line's end, or begins with
/// '#'.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// Splits text into rows. Line ends: LF, CR LF or CR. Skipped: a byte-order mark, lines of nothing but commas
/// and blanks, lines that begin with '#'. Refused: NUL and other control bytes, text that is not UTF-8, a
/// quote inside an unquoted cell, text after a closing quote, an unterminated quote, more than 256 cells in a
/// row or 4096 bytes in a cell (so that memory stays bounded whatever comes).
class CsvReader {
 public:
  /// @param row  called for each row; returns false to stop (then feed and finish do nothing more)
  CsvReader(std::string file, std::function<bool(CsvRow&&)> row);

  Result<void> feed(std::string_view piece);
  Result<void> finish();
  /// Lines begun so far.
  [[nodiscard]] std::size_t line() const { return line_; }

 private:
  enum class State { row_start, cell_start, plain, quoted, quote_in_quoted, comment, stopped };

  /// Takes the ordinary letters at the front of a piece at once; how many.
  std::size_t take_run(std::string_view piece);
  Result<void> take(char c);
  Result<void> take_in_row(char c);
  Result<void> put(char c);
  Result<void> end_cell();
  Result<void> end_row();
  [[nodiscard]] tl::unexpected<Fault> wrong(std::string found, std::string expected);

  std::string file_;
  std::function<bool(CsvRow&&)> each_;
  State state_ = State::row_start;
  CsvRow row_;
  std::string cell_;
  std::size_t line_ = 1;
  std::size_t quote_line_ = 0, quote_cell_ = 0;
  std::size_t bytes_ = 0;
  bool after_cr_ = false;
  bool any_in_row_ = false;
};

}  // namespace strikewright
