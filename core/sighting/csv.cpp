#include "sighting/csv.hpp"

#include <fmt/format.h>

#include <utility>

#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "quantity/utf8.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kMostCells = 256;
constexpr std::size_t kMostBytes = 4096;
constexpr std::string_view kMark = "\xef\xbb\xbf";  // U+FEFF at the front of a file: a mark, no text

}  // namespace

std::string csv_place(const std::string& file, std::size_t line, std::size_t cell) {
  return fmt::format("{}:{}:{}", file, line, cell);
}

std::string csv_cell(std::string_view text) {
  const bool plain = text.find_first_of(",\"\r\n") == std::string_view::npos &&
                     (text.empty() || text.front() != '#') && trimmed(text).size() == text.size();
  if (plain) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

CsvReader::CsvReader(std::string file, std::function<bool(CsvRow&&)> row)
    : file_{std::move(file)}, each_{std::move(row)} {}

tl::unexpected<Fault> CsvReader::wrong(std::string found, std::string expected) {
  state_ = State::stopped;
  return unexpected(
      Fault{csv_place(file_, line_, row_.cells.size() + 1), std::move(found), std::move(expected)});
}

Result<void> CsvReader::feed(std::string_view piece) {
  while (!piece.empty() && state_ != State::stopped) {
    if (const std::size_t run = take_run(piece); run > 0) {
      piece.remove_prefix(run);
      continue;
    }
    if (auto ok = take(piece.front()); !ok) return ok;
    piece.remove_prefix(1);
  }
  return {};
}

std::size_t CsvReader::take_run(std::string_view piece) {
  if (state_ != State::plain || bytes_ < kMark.size()) return 0;
  const auto ordinary = [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte > 0x20 && byte != 0x7f && c != ',' && c != '"';
  };
  std::size_t run = 0;
  while (run < piece.size() && ordinary(piece[run])) ++run;
  if (run == 0 || cell_.size() + run > kMostBytes) return 0;
  cell_.append(piece.substr(0, run));
  bytes_ += run;
  any_in_row_ = true;
  after_cr_ = false;
  return run;
}

Result<void> CsvReader::finish() {
  if (state_ == State::quoted) {
    state_ = State::stopped;
    return unexpected(Fault{csv_place(file_, quote_line_, quote_cell_), "a quote that is never closed",
                            "a second \" at the end of the cell"});
  }
  const bool begun =
      state_ == State::cell_start || state_ == State::plain || state_ == State::quote_in_quoted;
  if (begun) {
    if (auto ok = end_row(); !ok) return ok;
  }
  state_ = State::stopped;
  return {};
}

Result<void> CsvReader::take(char c) {
  const auto byte = static_cast<unsigned char>(c);
  ++bytes_;
  if (bytes_ == 1 && (byte == 0xff || byte == 0xfe)) {
    return wrong("a file in UTF-16", "a text file in UTF-8 (save it as CSV UTF-8)");
  }
  const bool in_mark = bytes_ <= kMark.size() && cell_.size() + 1 == bytes_ && row_.cells.empty();
  if (in_mark && bytes_ == kMark.size() && cell_ + c == kMark) {
    cell_.clear();
    any_in_row_ = false;
    state_ = State::row_start;
    return {};
  }
  if ((byte < 0x20 && c != '\t' && c != '\n' && c != '\r') || byte == 0x7f) {
    return wrong(fmt::format("the byte 0x{:02x}", byte), "text (this looks like a binary file)");
  }
  const bool second_half = after_cr_ && c == '\n';
  after_cr_ = c == '\r' && !second_half;
  if (second_half) {
    if (state_ == State::quoted) return put(c);
    return {};
  }
  return take_in_row(c);
}

Result<void> CsvReader::take_in_row(char c) {
  const bool line_end = c == '\n' || c == '\r';
  if (state_ == State::comment) {
    if (line_end) {
      state_ = State::row_start;
      ++line_;
    }
    return {};
  }
  if (state_ == State::row_start) {
    row_.line = line_;
    if (c == '#') {
      state_ = State::comment;
      return {};
    }
    state_ = State::cell_start;
  }
  if (state_ == State::quoted) {
    if (c == '"') {
      state_ = State::quote_in_quoted;
      return {};
    }
    if (line_end) ++line_;
    return put(c);
  }
  if (line_end) {
    auto ok = end_row();
    ++line_;
    return ok;
  }
  if (c == ',') return end_cell();
  if (c == '"') {
    if (state_ == State::cell_start) {
      state_ = State::quoted;
      quote_line_ = line_;
      quote_cell_ = row_.cells.size() + 1;
      any_in_row_ = true;
      return {};
    }
    if (state_ == State::quote_in_quoted) {
      state_ = State::quoted;
      return put(c);
    }
    return wrong("a quote inside the cell " + quoted(cell_),
                 "the whole cell in quotes, quotes in it doubled");
  }
  if (state_ == State::quote_in_quoted && c != ' ' && c != '\t') {
    return wrong("text after the closing quote", "a comma or the end of the line");
  }
  if (state_ == State::quote_in_quoted) return {};
  state_ = State::plain;
  if (c != ' ' && c != '\t') any_in_row_ = true;
  return put(c);
}

Result<void> CsvReader::put(char c) {
  if (cell_.size() >= kMostBytes) {
    return wrong(fmt::format("a cell of more than {} bytes", kMostBytes), "a number or a word");
  }
  cell_ += c;
  return {};
}

Result<void> CsvReader::end_cell() {
  if (!is_utf8(cell_)) {
    return wrong("bytes that are not UTF-8 text: " + quoted(cell_), "text in UTF-8 (save it as CSV UTF-8)");
  }
  if (row_.cells.size() >= kMostCells) {
    return wrong(fmt::format("more than {} cells in a row", kMostCells), "a row of a sightings file");
  }
  row_.cells.push_back(std::exchange(cell_, {}));
  state_ = State::cell_start;
  return {};
}

Result<void> CsvReader::end_row() {
  if (auto ok = end_cell(); !ok) return ok;
  CsvRow done = std::exchange(row_, {});
  state_ = State::row_start;
  const bool blank = !std::exchange(any_in_row_, false);
  if (blank) return {};
  if (!each_(std::move(done))) state_ = State::stopped;
  return {};
}

}  // namespace strikewright
