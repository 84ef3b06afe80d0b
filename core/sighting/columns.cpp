#include "sighting/columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "bag/generic.hpp"
#include "quantity/angle.hpp"
#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "sighting/csv.hpp"

namespace strikewright {
namespace {

constexpr std::string_view kSure = "sure_";

struct Ending {
  const char* unit;
  double scale;
};

std::vector<Ending> endings_of(Measure measure) {
  switch (measure) {
    case Measure::angle:
      return {{"deg", kDegree}};
    case Measure::small_length:
      return {{"mm", 1e-3}, {"cm", 1e-2}, {"in", kInch}, {"m", 1.0}, {"ft", kFoot}, {"yd", kYard}};
    case Measure::long_length:
      return {{"m", 1.0}, {"yd", kYard}, {"ft", kFoot}, {"cm", 1e-2}, {"mm", 1e-3}, {"in", kInch}};
    case Measure::speed:
      return {{"mps", 1.0}, {"mph", kMph}, {"kmh", kKmh}};
    case Measure::spin:
      return {{"rpm", kRpm}};
    case Measure::count:
    case Measure::word:
      break;
  }
  return {{"", 1.0}};
}

std::vector<Column> all_columns() {
  std::vector<Column> out{{"club", Role::club, {}, "", 1.0},           {"hand", Role::hand, {}, "", 1.0},
                          {"condition", Role::condition, {}, "", 1.0}, {"ball", Role::ball, {}, "", 1.0},
                          {"surface", Role::surface, {}, "", 1.0},     {"time", Role::time, {}, "", 1.0},
                          {"swing", Role::order, {}, "", 1.0}};
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Kind kind = static_cast<Kind>(k);
    const Facts& facts = facts_of(kind);
    for (const Ending& e : endings_of(facts.measure)) {
      const std::string ending = *e.unit == '\0' ? "" : std::string("_") + e.unit;
      out.push_back(
          {facts.column + ending, is_word(kind) ? Role::word : Role::measured, kind, e.unit, e.scale});
    }
  }
  return out;
}

std::string folded(std::string_view name) {
  std::string out{trimmed(name)};
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

const Column* known(std::string_view name) {
  for (const Column& column : known_columns()) {
    if (column.name == name) return &column;
  }
  return nullptr;
}

std::vector<std::string> names() {
  std::vector<std::string> out;
  for (const Column& column : known_columns()) out.push_back(column.name);
  return out;
}

/// The header while it is being read.
class Header {
 public:
  Header(const std::vector<std::string>& cells, std::string file, std::size_t line)
      : cells_{cells}, file_{std::move(file)}, line_{line} {}

  Result<std::vector<Column>> read(bool need_club) {
    if (auto ok = is_header(); !ok) return unexpected(ok.error());
    for (std::size_t k = 0; k < cells_.size(); ++k) {
      if (auto ok = add(k); !ok) return unexpected(ok.error());
    }
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      if (columns_[k].role != Role::sure) continue;
      if (auto ok = settle_sure(k); !ok) return unexpected(ok.error());
    }
    const bool has_club =
        std::any_of(columns_.begin(), columns_.end(), [](const Column& c) { return c.role == Role::club; });
    if (need_club && !has_club) {
      return unexpected(Fault{fmt::format("{}:{}, club", file_, line_), "no column 'club'",
                              "a column 'club' (or a club for the whole file)"});
    }
    return columns_;
  }

 private:
  [[nodiscard]] tl::unexpected<Fault> wrong(std::size_t cell, std::string found, std::string expected) const {
    const std::string name = folded(cells_[cell]);
    const std::string place = csv_place(file_, line_, cell + 1);
    return unexpected(Fault{name.empty() ? place : place + ", " + std::string(trimmed(cells_[cell])),
                            std::move(found), std::move(expected)});
  }

  /// Cut by commas, and names rather than a swing.
  [[nodiscard]] Result<void> is_header() const {
    const auto other = [](const std::string& cell) { return cell.find_first_of(";\t"); };
    for (const std::string& cell : cells_) {
      const auto at = other(cell);
      if (at == std::string::npos) continue;
      return unexpected(Fault{csv_place(file_, line_, 1),
                              cell[at] == ';' ? "columns cut by semicolons" : "columns cut by tabs",
                              "columns cut by commas (save it as CSV with commas, points for decimals)"});
    }
    const bool any_known = std::any_of(
        cells_.begin(), cells_.end(), [](const std::string& cell) { return known(folded(cell)) != nullptr; });
    const bool like_data = std::any_of(cells_.begin(), cells_.end(), [](const std::string& cell) {
      const auto number = leading_number(trimmed(cell));
      return !canonical_name(cell).empty() || (number && number->rest.empty());
    });
    if (any_known || !like_data) return {};
    return unexpected(Fault{csv_place(file_, line_, 1),
                            "a first row that looks like a swing, " + quoted(cells_[0]),
                            "a header: a row of column names such as club, divot_start_mm, carry_m"});
  }

  Result<void> add(std::size_t k) {
    const std::string name = folded(cells_[k]);
    if (name.empty()) return wrong(k, "a column without a name", "a column name in every cell of the header");
    Column column;
    if (const Column* found = known(name)) {
      column = *found;
    } else if (name.substr(0, kSure.size()) == kSure) {
      column = {name, Role::sure, {}, "", 1.0};
    } else {
      return wrong(k, quoted(trimmed(cells_[k])), "a column of the sightings file" + suggested(name));
    }
    for (std::size_t other = 0; other < columns_.size(); ++other) {
      const Column& before = columns_[other];
      if (before.name == column.name) {
        return wrong(k, fmt::format("'{}' a second time (first in cell {})", column.name, other + 1),
                     "each column once");
      }
      if (column.role == Role::measured && before.role == Role::measured && before.kind == column.kind) {
        return wrong(k, fmt::format("'{}' beside '{}' (cell {})", column.name, before.name, other + 1),
                     "one unit for one sighting");
      }
    }
    columns_.push_back(column);
    return {};
  }

  /// "divot_start" is divot_start_mm to be written out; else the nearest name, sure_ ones through their
  /// column.
  [[nodiscard]] static std::string suggested(const std::string& name) {
    for (const Column& column : known_columns()) {
      if (name + "_" + column.unit == column.name) return ", did you mean '" + column.name + "'?";
    }
    return suggestion(name, names());
  }

  /// sure_carry_yd or sure_carry: the spread of a measured column of this header.
  Result<void> settle_sure(std::size_t k) {
    Column& sure = columns_[k];
    const std::string base = sure.name.substr(kSure.size());
    const Column* target = known(base);
    if (target != nullptr && target->role == Role::word && has_measured(base)) target = nullptr;
    const Column* beside = nullptr;
    for (const Column& column : columns_) {
      if (column.role != Role::measured) continue;
      const bool same_kind =
          target != nullptr && target->role == Role::measured && column.kind == target->kind;
      if (same_kind || column.name == base + "_" + column.unit) beside = &column;
    }
    if (beside == nullptr) return no_column_for(k, base, target);
    const Column& unit = target != nullptr ? *target : *beside;
    for (std::size_t other = 0; other < k; ++other) {
      if (columns_[other].role == Role::sure && columns_[other].kind == beside->kind) {
        return wrong(k, fmt::format("'{}' beside '{}' (cell {})", sure.name, columns_[other].name, other + 1),
                     "one spread for one sighting");
      }
    }
    sure.kind = beside->kind;
    sure.unit = unit.unit;
    sure.scale = unit.scale;
    return {};
  }

  [[nodiscard]] bool has_measured(const std::string& base) const {
    return std::any_of(columns_.begin(), columns_.end(), [&](const Column& c) {
      return c.role == Role::measured && facts_of(c.kind).column == base;
    });
  }

  [[nodiscard]] tl::unexpected<Fault> no_column_for(std::size_t k, const std::string& base,
                                                    const Column* target) const {
    if (target != nullptr && target->role == Role::measured) {
      return wrong(k, quoted(columns_[k].name), "a column '" + base + "' that it belongs to");
    }
    std::vector<std::string> measured;
    for (const Column& column : columns_) {
      if (column.role == Role::measured) measured.push_back(std::string(kSure) + column.name);
    }
    return wrong(
        k, quoted(columns_[k].name),
        "sure_ and the name of a measured column of this file" + suggestion(columns_[k].name, measured));
  }

  const std::vector<std::string>& cells_;
  std::string file_;
  std::size_t line_;
  std::vector<Column> columns_;
};

}  // namespace

const std::vector<Column>& known_columns() {
  static const std::vector<Column> columns = all_columns();
  return columns;
}

Result<std::vector<Column>> read_header(const std::vector<std::string>& cells, const std::string& file,
                                        std::size_t line, bool need_club) {
  return Header{cells, file, line}.read(need_club);
}

}  // namespace strikewright
