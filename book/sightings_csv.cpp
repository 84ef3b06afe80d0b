// A lesson as a sightings file. The book knows no columns, only that some of them end in a unit of length or
// speed.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "book/book.hpp"
#include "quantity/number.hpp"
#include "quantity/unit.hpp"

namespace strikewright {
namespace {

constexpr std::string_view kSure = "sure_";

/// "carry_yd" in two: "carry" and the unit. Columns of one stem and one dimension are the same sighting.
struct Split {
  std::string stem, unit;  ///< unit "" = not one of length or speed: the stem is the whole name
  Dimension dimension = Dimension::none;
  [[nodiscard]] bool same_sighting(const Split& other) const {
    return stem == other.stem && dimension == other.dimension;
  }
};

struct Ending {
  std::string_view unit;
  Dimension dimension;
};

constexpr std::array kEndings{
    Ending{"mm", Dimension::length}, Ending{"cm", Dimension::length}, Ending{"m", Dimension::length},
    Ending{"in", Dimension::length}, Ending{"ft", Dimension::length}, Ending{"yd", Dimension::length},
    Ending{"mps", Dimension::speed}, Ending{"mph", Dimension::speed}, Ending{"kmh", Dimension::speed}};

Split split(const std::string& column) {
  const std::size_t at = column.rfind('_');
  if (at == std::string::npos) return {column, "", Dimension::none};
  const std::string unit = column.substr(at + 1);
  for (const Ending& ending : kEndings) {
    if (ending.unit == unit) return {column.substr(0, at), unit, ending.dimension};
  }
  return {column, "", Dimension::none};
}

/// The text in another unit; as it stands where it is no number, so that whoever reads the file can name the
/// cell.
std::string in_unit(const std::string& text, const Split& from, const Split& to) {
  if (from.unit == to.unit) return text;
  const Result<double> number = plain_number(text, from.unit, "");
  if (!number) return text;
  const double si = *parse_quantity("1" + from.unit, from.dimension, "");
  return fmt::format("{:.10g}", *number * si / *parse_quantity("1" + to.unit, to.dimension, ""));
}

bool is_sure(const std::string& column) { return column.rfind(kSure, 0) == 0; }

std::string cell(const std::string& text) {
  const bool plain =
      text.find_first_of(",\"\r\n") == std::string::npos && (text.empty() || text.front() != '#');
  if (plain) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

/// The columns beside those of the swing itself, each with the unit in which it came first.
class Columns {
 public:
  Columns(const Settings& settings, const std::vector<KeptSwing>& swings) {
    for (const KeptSwing& swing : swings) {
      for (const Entered& entered : swing.seen) add(entered.column);
    }
    for (const auto& [column, sd] : settings.sure) {
      const std::string name = std::string(kSure) + column;
      if (!find(column)) continue;
      add(name);
      own_.push_back({name, sd});
    }
    // By name, not by entry: a lesson in which a slip was corrected is the same file as one without the slip.
    std::sort(names_.begin(), names_.end(), [](const std::string& a, const std::string& b) {
      return std::pair(is_sure(a), a) < std::pair(is_sure(b), b);
    });
  }

  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

  /// The cells of one swing, in the order of the names.
  [[nodiscard]] std::vector<std::string> cells_of(const KeptSwing& swing) const {
    std::vector<std::string> cells(names_.size());
    for (const Entered& entered : swing.seen) put(entered, cells);
    for (const Entered& own : own_) {
      const auto seen = find(own.column.substr(kSure.size()));
      const auto at = find(own.column);
      if (seen && at && !cells[*seen].empty() && cells[*at].empty()) put(own, cells);
    }
    return cells;
  }

 private:
  /// "sure_carry_yd" is in yards as "carry_yd" is.
  [[nodiscard]] std::optional<std::size_t> find(const std::string& column) const {
    const Split wanted = split(column);
    for (std::size_t k = 0; k < names_.size(); ++k) {
      if (split(names_[k]).same_sighting(wanted)) return k;
    }
    return std::nullopt;
  }

  void add(const std::string& column) {
    if (!find(column)) names_.push_back(column);
  }

  void put(const Entered& entered, std::vector<std::string>& cells) const {
    const std::size_t at = *find(entered.column);
    cells[at] = in_unit(entered.text, split(entered.column), split(names_[at]));
  }

  std::vector<std::string> names_;
  std::vector<Entered> own_;
};

void add_line(const std::vector<std::string>& cells, std::string& out) {
  for (std::size_t k = 0; k < cells.size(); ++k) out += (k == 0 ? "" : ",") + cell(cells[k]);
  out += '\n';
}

}  // namespace

std::string sightings_csv(const Pupil& pupil, const Settings& settings,
                          const std::vector<KeptSwing>& swings) {
  const Columns columns(settings, swings);
  std::vector<std::string> header{"club", "condition", "ball", "surface", "hand", "time"};
  header.insert(header.end(), columns.names().begin(), columns.names().end());
  std::string out;
  add_line(header, out);
  for (const KeptSwing& swing : swings) {
    std::vector<std::string> line{swing.club,    swing.condition, swing.ball ? "yes" : "no",
                                  swing.surface, pupil.hand,      swing.at};
    for (std::string& text : columns.cells_of(swing)) line.push_back(std::move(text));
    add_line(line, out);
  }
  return out;
}

}  // namespace strikewright
