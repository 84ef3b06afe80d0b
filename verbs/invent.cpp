#include "verbs/invent.hpp"

#include <algorithm>
#include <cmath>

#include "reading/recovery.hpp"
#include "shot/shot_of.hpp"
#include "sighting/columns.hpp"
#include "sighting/csv.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

/// What the invented coach looks at: every swing, every second, every third.
struct Habit {
  Kind kind;
  std::size_t every, from;
};
constexpr std::array kCoach{
    Habit{Kind::start_word, 1, 0},   Habit{Kind::curve_word, 1, 0},      Habit{Kind::height_word, 1, 0},
    Habit{Kind::contact_word, 1, 0}, Habit{Kind::divot_word, 1, 0},      Habit{Kind::divot_start, 1, 0},
    Habit{Kind::divot_end, 2, 0},    Habit{Kind::divot_direction, 2, 0}, Habit{Kind::toe_heel_word, 3, 1},
    Habit{Kind::strike_toe, 2, 1},   Habit{Kind::strike_up, 2, 1},       Habit{Kind::shaft_lean, 3, 2},
};

std::vector<Kind> kinds_for(const std::string& look, std::size_t swing) {
  std::vector<Kind> kinds;
  for (const Look& known : looks()) {
    if (known.name == look) return known.kinds;
  }
  for (const Habit& habit : kCoach) {
    if (swing % habit.every == habit.from) kinds.push_back(habit.kind);
  }
  return kinds;
}

/// How finely a coach writes a column, in the column's own unit.
double grain(const Column& column) {
  switch (facts_of(column.kind).measure) {
    case Measure::angle:
      return 0.5;
    case Measure::speed:
      return 0.1;
    case Measure::spin:
      return 10.0;
    default:
      return 1.0;
  }
}

/// What was seen as it is written into a file, or nothing where a coach would not have written it.
class Eye {
 public:
  Eye(const Shot<double>& shot, const InventOptions& options) : shot_{shot}, options_{options} {}

  std::vector<Sighting> look(const std::vector<Kind>& kinds, Draws& draws) const {
    std::vector<Sighting> out;
    for (const Kind kind : kinds) {
      const Sighting s =
          seen(kind, shot_, options_.setting, draws);  // drawn in any case: equal seeds, equal rest
      if (is_there(kind) && (is_word(kind) || is_possible(s))) out.push_back(s);
    }
    const auto none = [](const Sighting& s) { return s.kind == Kind::divot_word && s.word == 0; };
    if (std::any_of(out.begin(), out.end(), none)) {
      std::erase_if(out, [](const Sighting& s) { return of_the_mark(s.kind); });
    }
    return out;
  }

 private:
  [[nodiscard]] bool is_there(Kind kind) const {
    if (kind == Kind::divot_word && options_.setting.ground.surface == Surface::mat) return false;
    return can_be_seen(kind, shot_);
  }
  [[nodiscard]] static bool is_possible(const Sighting& s) {
    const Facts& facts = facts_of(s.kind);
    return s.value >= facts.low && s.value <= facts.high;
  }

  const Shot<double>& shot_;
  const InventOptions& options_;
};

Pass<double> pass_of_swing(const InventOptions& options, const Prior& prior, const Coordinates& centre,
                           Draws& draws) {
  Coordinates z;
  for (int k = 0; k < z.size(); ++k) z[k] = draws.normal();
  const double s = options.scatter;
  const Coordinates usual = std::sqrt(1.0 - s * s) * centre;
  const Numbers middle = prior.numbers_at(usual);
  const Numbers moved = wanted(options.pattern, middle);
  Pass<double> pass = pass_with(prior, moved + prior.numbers_at(usual + s * z) - middle);
  if (const auto& depth = options.pattern.at[kGivenDepth]) {
    pass.low_point_depth += *depth - pass_with(prior, moved).low_point_depth;
  }
  return pass;
}

std::string cell_of(const InventedSwing& swing, const Column& column, Hand hand) {
  const auto at = std::find_if(swing.seen.begin(), swing.seen.end(),
                               [&](const Sighting& s) { return s.kind == column.kind; });
  if (at == swing.seen.end()) return "";
  const Sighting s = hand == Hand::left ? mirrored(*at) : *at;
  if (is_word(s.kind)) return words_of(s.kind)[static_cast<std::size_t>(s.word)];
  const double step = grain(column);
  return figure(std::round(s.value / column.scale / step) * step, step < 1.0 ? 1 : 0);
}

/// The columns that any swing fills, in the order of the documentation, each in its first unit.
std::vector<Column> columns_of(const std::vector<InventedSwing>& swings) {
  std::vector<Column> out;
  for (const Column& column : known_columns()) {
    if (column.role != Role::measured && column.role != Role::word) continue;
    if (!out.empty() && out.back().kind == column.kind) continue;
    if (column.name != column_of(column.kind)) continue;
    const auto has = [&](const InventedSwing& swing) {
      return std::any_of(swing.seen.begin(), swing.seen.end(),
                         [&](const Sighting& s) { return s.kind == column.kind; });
    };
    if (std::any_of(swings.begin(), swings.end(), has)) out.push_back(column);
  }
  return out;
}

}  // namespace

std::vector<InventedSwing> invent(const InventOptions& options) {
  Setting setting = options.setting;
  if (options.hand == Hand::left) setting.day.wind_across = -setting.day.wind_across;
  const Prior prior = prior_for(setting.club, options.skill, setting.ground.surface);
  Draws pattern(options.seed, 0);
  Coordinates centre;
  for (int k = 0; k < centre.size(); ++k) centre[k] = pattern.normal();
  std::vector<InventedSwing> out;
  for (std::size_t i = 0; i < options.swings; ++i) {
    Draws draws(options.seed, i + 1);
    InventedSwing swing{.shot = shot_of(pass_of_swing(options, prior, centre, draws), setting), .seen = {}};
    InventOptions own = options;
    own.setting = setting;
    swing.seen = Eye(swing.shot, own).look(kinds_for(options.look, i), draws);
    out.push_back(std::move(swing));
  }
  return out;
}

std::vector<std::string> look_names() {
  std::vector<std::string> names{"coach"};
  for (const Look& look : looks()) names.push_back(look.name);
  return names;
}

std::vector<WrittenSighting> written(const InventedSwing& swing, Hand hand) {
  std::vector<WrittenSighting> out;
  for (const Column& column : columns_of({swing})) out.push_back({column.name, cell_of(swing, column, hand)});
  return out;
}

std::string sightings_csv(const std::vector<InventedSwing>& swings, const InventOptions& options,
                          const std::string& comment) {
  const std::vector<Column> columns = columns_of(swings);
  std::string out = comment + "swing,club,hand,ball,surface";
  for (const Column& column : columns) out += "," + column.name;
  out += '\n';
  for (std::size_t i = 0; i < swings.size(); ++i) {
    out += std::to_string(i + 1) + "," + csv_cell(options.setting.club.name);
    out += options.hand == Hand::left ? ",left" : ",right";
    out += options.setting.with_ball ? ",yes," : ",no,";
    out += name_of(options.setting.ground.surface);
    for (const Column& column : columns) out += "," + cell_of(swings[i], column, options.hand);
    out += '\n';
  }
  return out;
}

}  // namespace strikewright
