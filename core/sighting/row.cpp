#include "sighting/row.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "quantity/nearest.hpp"
#include "quantity/number.hpp"

namespace strikewright {
namespace {

constexpr std::array kConditions{Condition::normal,        Condition::lead_leg,   Condition::trail_leg,
                                 Condition::feet_together, Condition::trail_hand, Condition::step};
constexpr std::array kSurfaces{Surface::fairway_soft, Surface::fairway, Surface::fairway_firm, Surface::rough,
                               Surface::sand,         Surface::mat,     Surface::tee};

/// "Far left" -> "far_left".
std::string word_of(std::string_view cell) {
  std::string out;
  for (const char c : trimmed(cell)) {
    if (c == ' ' || c == '-') {
      out += '_';
    } else {
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  return out;
}

std::string one_of(const std::vector<std::string>& words) {
  std::string list;
  for (std::size_t k = 0; k < words.size(); ++k) {
    list += (k == 0 ? "" : k + 1 == words.size() ? " or " : ", ") + words[k];
  }
  return list;
}

const std::vector<std::string> kHandWords{"right", "left"};
const std::vector<std::string> kBallWords{"yes", "no"};

template <class Enum, std::size_t N>
std::vector<std::string> names_of(const std::array<Enum, N>& all) {
  std::vector<std::string> out;
  out.reserve(N);
  for (const Enum e : all) out.emplace_back(name_of(e));
  return out;
}

const std::vector<std::string> kConditionWords = names_of(kConditions);
const std::vector<std::string> kSurfaceWords = names_of(kSurfaces);

bool is_divot_number(Kind kind) {
  return kind == Kind::divot_start || kind == Kind::divot_end || kind == Kind::divot_direction ||
         kind == Kind::divot_depth || kind == Kind::divot_toe_depth;
}

class Row {
 public:
  Row(const CsvRow& row, const std::vector<Column>& columns, const TableOptions& options)
      : row_{row}, columns_{columns}, options_{options} {}

  Result<SeenSwing> read(std::size_t number) {
    if (row_.cells.size() != columns_.size()) return unexpected(cell_count());
    swing_.row = number;
    swing_.line = row_.line;
    swing_.hand = options_.hand;
    swing_.club = options_.club;
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      if (trimmed(row_.cells[k]).empty()) continue;
      if (auto ok = take(k); !ok) return unexpected(ok.error());
    }
    if (swing_.club.empty()) return unexpected(no_club());
    if (auto ok = agrees(); !ok) return unexpected(ok.error());
    finish();
    swing_.cells = row_.cells;
    return std::move(swing_);
  }

 private:
  [[nodiscard]] Fault fault(std::size_t k, std::string found, std::string expected) const {
    return {csv_place(options_.file, row_.line, k + 1) + ", " + columns_[k].name, std::move(found),
            std::move(expected)};
  }

  [[nodiscard]] Fault cell_count() const {
    const std::size_t got = row_.cells.size();
    const std::size_t wanted = columns_.size();
    std::string expected = fmt::format("{} cells, as in the header", wanted);
    if (got > wanted) expected += " (a decimal comma makes two cells of one: write 3.5)";
    return {csv_place(options_.file, row_.line, std::min(got, wanted) + 1), fmt::format("{} cells", got),
            expected};
  }

  [[nodiscard]] Fault no_club() const {
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      if (columns_[k].role == Role::club) return fault(k, "nothing", "the club's name, such as 7i or driver");
    }
    return {csv_place(options_.file, row_.line, 1), "no club",
            "a column 'club' (or a club for the whole file)"};
  }

  /// The place of a word in a list.
  [[nodiscard]] Result<std::size_t> pick(std::size_t k, const std::vector<std::string>& words) const {
    const std::string word = word_of(row_.cells[k]);
    const auto at = std::find(words.begin(), words.end(), word);
    if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
    return unexpected(fault(k, quoted(trimmed(row_.cells[k])), one_of(words) + suggestion(word, words)));
  }

  [[nodiscard]] Result<double> number(std::size_t k) const {
    const auto plain = leading_number(trimmed(row_.cells[k]));
    if (plain && plain->rest.empty()) return plain->value;
    std::string place = csv_place(options_.file, row_.line, k + 1) + ", " + columns_[k].name;
    return plain_number(row_.cells[k], columns_[k].unit, std::move(place));
  }

  Result<void> take(std::size_t k) {
    const Column& column = columns_[k];
    const std::string_view cell = trimmed(row_.cells[k]);
    switch (column.role) {
      case Role::club:
        swing_.club = std::string(cell);
        return {};
      case Role::hand:
        return pick(k, kHandWords).map([&](std::size_t w) {
          swing_.hand = w == 0 ? Hand::right : Hand::left;
        });
      case Role::condition:
        return pick(k, kConditionWords).map([&](std::size_t w) { swing_.condition = kConditions.at(w); });
      case Role::ball:
        return pick(k, kBallWords).map([&](std::size_t w) { swing_.ball = w == 0; });
      case Role::surface:
        return pick(k, kSurfaceWords).map([&](std::size_t w) { swing_.surface = kSurfaces.at(w); });
      case Role::time:
        if (!is_iso_time(cell))
          return unexpected(fault(k, quoted(cell), "a time such as 2026-11-25T10:30:00"));
        swing_.time = std::string(cell);
        return {};
      case Role::order:
        return number(k).map([&](double order) { swing_.order = order; });
      case Role::word:
        return pick(k, words_of(column.kind)).map([&](std::size_t w) {
          add(k, judged(column.kind, static_cast<int>(w)));
        });
      case Role::measured:
        return take_measured(k);
      case Role::sure:
        return take_sure(k);
    }
    return {};
  }

  Result<void> take_measured(std::size_t k) {
    const Column& column = columns_[k];
    const auto value = number(k);
    if (!value) return unexpected(value.error());
    const Facts& facts = facts_of(column.kind);
    const double si = *value * column.scale;
    if (si < facts.low || si > facts.high) {
      return unexpected(
          fault(k, quoted(trimmed(row_.cells[k])),
                fmt::format("a number from {:.4g} to {:.4g}{}{}", facts.low / column.scale,
                            facts.high / column.scale, column.unit.empty() ? "" : " ", column.unit)));
    }
    add(k, measured(column.kind, si));
    return {};
  }

  Result<void> take_sure(std::size_t k) {
    const Column& column = columns_[k];
    const auto value = number(k);
    if (!value) return unexpected(value.error());
    const double si = *value * column.scale;
    const Facts& facts = facts_of(column.kind);
    const double most = facts.high - facts.low;
    if (si > 0.0 && si <= most) {
      sure_[static_cast<std::size_t>(column.kind)] = si;
      return {};
    }
    return unexpected(fault(k, quoted(trimmed(row_.cells[k])),
                            fmt::format("a number over 0 to {:.4g}{}{}", most / column.scale,
                                        column.unit.empty() ? "" : " ", column.unit)));
  }

  void add(std::size_t k, const Sighting& sighting) {
    swing_.sightings.push_back(sighting);
    cell_of_.push_back(k);
  }

  [[nodiscard]] std::optional<std::size_t> word_seen(Kind kind) const {
    for (std::size_t i = 0; i < swing_.sightings.size(); ++i) {
      if (swing_.sightings[i].kind == kind) return i;
    }
    return std::nullopt;
  }

  /// Cells that cannot both be true.
  [[nodiscard]] Result<void> agrees() const {
    const auto divot = word_seen(Kind::divot_word);
    const bool none = divot && swing_.sightings[*divot].word == 0;
    for (std::size_t i = 0; i < swing_.sightings.size(); ++i) {
      const Sighting& s = swing_.sightings[i];
      const std::size_t k = cell_of_[i];
      const auto cell = [&] { return quoted(trimmed(row_.cells[k])); };
      if (!swing_.ball && needs_ball(s.kind)) {
        return unexpected(
            fault(k, cell() + " with ball = no", "nothing: without a ball there is none to see"));
      }
      const bool in_turf = is_divot_number(s.kind) && !(s.kind == Kind::divot_depth && s.value == 0.0);
      const bool word_in_turf = s.kind == Kind::divot_begins_word || s.kind == Kind::toe_heel_word;
      if (none && (in_turf || word_in_turf)) {
        return unexpected(
            fault(k, cell() + " with divot = none", "nothing: no divot begins, ends or points anywhere"));
      }
      if (swing_.surface == Surface::mat && s.kind == Kind::divot_word && s.word != 0) {
        return unexpected(fault(k, cell() + " with surface = mat", "none or nothing: a mat takes no divot"));
      }
    }
    return {};
  }

  /// The coach's own spreads, a left-hander's sightings into the right-hander's frame, and always the same
  /// order: in which order columns stand means nothing, and a reading's draws follow the order of the
  /// sightings.
  void finish() {
    for (Sighting& s : swing_.sightings) {
      if (const auto& sure = sure_[static_cast<std::size_t>(s.kind)]; sure && !is_word(s.kind)) {
        s = measured(s.kind, s.value, sure);
      }
      if (swing_.hand == Hand::left) s = mirrored(s);
    }
    std::stable_sort(swing_.sightings.begin(), swing_.sightings.end(),
                     [](const Sighting& a, const Sighting& b) { return a.kind < b.kind; });
  }

  const CsvRow& row_;
  const std::vector<Column>& columns_;
  const TableOptions& options_;
  SeenSwing swing_;
  std::vector<std::size_t> cell_of_;
  std::array<std::optional<double>, kKinds> sure_{};
};

/// Digits of a pattern "dddd-dd-dd" at the front; taken off when they fit.
bool takes(std::string_view& text, std::string_view pattern) {
  if (text.size() < pattern.size()) return false;
  for (std::size_t k = 0; k < pattern.size(); ++k) {
    const bool digit = text[k] >= '0' && text[k] <= '9';
    if (pattern[k] == 'd' ? !digit : text[k] != pattern[k]) return false;
  }
  text.remove_prefix(pattern.size());
  return true;
}

int two(std::string_view text, std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); }

bool is_date(std::string_view d) {
  const int month = two(d, 5);
  const int day = two(d, 8);
  constexpr std::array kDays{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month >= 1 && month <= 12 && day >= 1 && day <= kDays.at(static_cast<std::size_t>(month - 1));
}

}  // namespace

bool is_iso_time(std::string_view text) {
  const std::string_view whole = text;
  if (!takes(text, "dddd-dd-dd") || !is_date(whole)) return false;
  if (text.empty()) return true;
  if (text.front() != 'T' && text.front() != ' ') return false;
  text.remove_prefix(1);
  const std::string_view clock = text;
  if (!takes(text, "dd:dd") || two(clock, 0) > 23 || two(clock, 3) > 59) return false;
  const std::string_view seconds = text;
  if (takes(text, ":dd")) {
    if (two(seconds, 1) > 60) return false;
    if (takes(text, ".d")) {
      while (takes(text, "d")) {
      }
    }
  }
  if (text.empty() || text == "Z") return true;
  const std::string_view zone = text;
  if (!takes(text, "+dd:dd") && !takes(text, "-dd:dd")) return false;
  return text.empty() && two(zone, 1) < 24 && two(zone, 4) < 60;
}

Result<SeenSwing> read_row(const CsvRow& row, const std::vector<Column>& columns, const TableOptions& options,
                           std::size_t number) {
  return Row{row, columns, options}.read(number);
}

}  // namespace strikewright
