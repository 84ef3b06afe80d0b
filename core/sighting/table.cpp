#include "sighting/table.hpp"

#include <fmt/format.h>

#include <utility>

#include "sighting/columns.hpp"
#include "sighting/csv.hpp"
#include "sighting/row.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kMostFaults = 20;

}  // namespace

class TableReader::Work {
 public:
  Work(TableOptions options, std::function<void(SeenSwing&&)> each)
      : options_{std::move(options)}, each_{std::move(each)}, csv_{options_.file, [this](CsvRow&& row) {
                                                                     return take(row);
                                                                   }} {}

  Result<void> feed(std::string_view piece) {
    if (auto ok = csv_.feed(piece); !ok) add(ok.error());
    return state();
  }

  Result<std::size_t> finish() {
    if (auto ok = csv_.finish(); !ok) add(ok.error());
    if (faults_.empty()) end();
    if (!faults_.empty()) return unexpected(faults_.front());
    return rows_;
  }

  [[nodiscard]] const std::vector<std::string>& header() const { return header_; }
  [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

 private:
  [[nodiscard]] Result<void> state() const {
    if (faults_.empty()) return {};
    return unexpected(faults_.front());
  }

  bool add(Fault fault) {
    faults_.push_back(std::move(fault));
    return faults_.size() < kMostFaults;
  }

  bool take(const CsvRow& row) {
    if (header_.empty()) {
      auto columns = read_header(row.cells, options_.file, row.line, options_.club.empty());
      if (!columns) {
        add(columns.error());
        return false;  // without a header the rows mean nothing
      }
      header_ = row.cells;
      columns_ = std::move(*columns);
      return true;
    }
    auto swing = read_row(row, columns_, options_, ++rows_);
    if (!swing) return add(swing.error());
    if (faults_.empty() && rows_ <= options_.most_rows) each_(std::move(*swing));
    return true;
  }

  /// What only the end of the file tells.
  void end() {
    if (header_.empty()) {
      add({options_.file, "an empty file", "a header row of column names and one row for each swing"});
    } else if (rows_ == 0) {
      add({options_.file, "a header and no swings", "one row for each swing below the header"});
    } else if (rows_ > options_.most_rows) {
      add({options_.file, fmt::format("{} swings", rows_),
           fmt::format("at most {} swings in one file", options_.most_rows)});
    }
  }

  TableOptions options_;
  std::function<void(SeenSwing&&)> each_;
  CsvReader csv_;
  std::vector<std::string> header_;
  std::vector<Column> columns_;
  std::vector<Fault> faults_;
  std::size_t rows_ = 0;
};

TableReader::TableReader(TableOptions options, std::function<void(SeenSwing&&)> each)
    : work_{std::make_unique<Work>(std::move(options), std::move(each))} {}
TableReader::~TableReader() = default;
TableReader::TableReader(TableReader&&) noexcept = default;
TableReader& TableReader::operator=(TableReader&&) noexcept = default;

Result<void> TableReader::feed(std::string_view piece) { return work_->feed(piece); }
Result<std::size_t> TableReader::finish() { return work_->finish(); }
const std::vector<std::string>& TableReader::header() const { return work_->header(); }
const std::vector<Fault>& TableReader::faults() const { return work_->faults(); }

Result<std::vector<SeenSwing>> read_table(std::string_view text, const TableOptions& options) {
  std::vector<SeenSwing> swings;
  TableReader reader{options, [&](SeenSwing&& swing) { swings.push_back(std::move(swing)); }};
  static_cast<void>(reader.feed(text));
  if (auto count = reader.finish(); !count) return unexpected(count.error());
  return swings;
}

}  // namespace strikewright
