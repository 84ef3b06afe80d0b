#include "calibration_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <ostream>

#include "command.hpp"
#include "sightings_input.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;
constexpr double kEnough = 5000.0, kUneven = 0.001;

std::string quantity_name(std::size_t k) {
  const std::string says = kReportedFields[k].says;
  return says.substr(0, says.find(", "));
}

/// The word that tells it from the others: five quantities beside a world fit on 80 columns.
std::string short_name(std::size_t k) {
  std::string name = quantity_name(k);
  for (const std::string_view more : {"shaft ", "club "})
    if (name.starts_with(more)) name.erase(0, more.size());
  for (const std::string_view more : {" angle"})
    if (name.ends_with(more)) name.erase(name.size() - more.size());
  return name;
}

std::string tenth_percent(double share) { return fmt::format("{:.1f}", 100.0 * share); }

std::string label(const CalibrationSet& set, bool swing, std::size_t k, const char* what) {
  return fmt::format("{}, {} of {}, {}", set.name, quantity_name(k), swing ? "a swing" : "the pattern", what);
}

bool is_judged(std::size_t k) {
  const auto& all = judged_quantities();
  return std::find(all.begin(), all.end(), k) != all.end();
}

/// Each judged quantity of a set, swings first: visit(swing?, k, row).
template <class Visit>
void each_judged(const CalibrationSet& set, const Visit& visit) {
  for (const bool swing : {true, false})
    for (const std::size_t k : judged_quantities()) visit(swing, k, (swing ? set.swing : set.mean)[k]);
}

/// One row a quantity of single swings or of patterns. With these places it fits on 80 columns.
std::string half_table(const CalibrationSet& set, bool swing, bool every) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t k = 0; k < kReported; ++k) {
    if (!every && !is_judged(k)) continue;
    const CalibrationRow& r = (swing ? set.swing : set.mean)[k];
    const auto& field = kReportedFields[k];
    const int places = std::string_view(field.unit) == "mm" ? 1 : 2;
    const auto on = [&](double value) { return figure(value / field.scale, places); };
    rows.push_back({quantity_name(k) + (is_judged(k) ? " *" : ""), field.unit, tenth_percent(r.inside(0.5)),
                    tenth_percent(r.inside(0.8)), tenth_percent(r.inside(0.95)), on(r.bias()),
                    on(r.rms_error()), on(r.said()), fmt::format("{:.1g}", r.chance())});
  }
  const char* of = swing ? "of a swing" : "of the pattern";
  return table({of, "", "50 %", "80 %", "95 %", "bias", "error", "said", "chance"}, rows, 2);
}

std::string set_table(const CalibrationSet& set, bool every) {
  return fmt::format("{}: {} patterns, {} judged swings rough, {} readings no number\n", set.name,
                     set.patterns, set.rough, set.failed) +
         half_table(set, true, every) + half_table(set, false, every) + '\n';
}

std::string note_of(const Calibration& c) {
  const double w = wider_for(c.patterns);
  const double tests = 2.0 * static_cast<double>(judged_quantities().size() * (c.sets.size() + 1));
  const auto band = [w](double middle, double half) {
    return fmt::format("{:.1f} to {:.1f}", std::max(0.0, middle - half * w),
                       std::min(100.0, middle + half * w));
  };
  return fmt::format(
      "One swing a pattern is judged, and where the pattern sits; * has to keep a band. Bands at {} "
      "patterns: over "
      "all sets 50 %: {}, 80 %: {}, 95 %: {}; within a set 80 %: {} (those of 5,000 patterns, made wider by "
      "sqrt(5000 / {})). Chance: of ranks as uneven as these (8 bins between the stated limits, chi-square "
      "with 7 "
      "degrees of freedom); has to be over {:.2g}. Error: root mean square; said: what the readings said.",
      c.patterns, band(50, 3), band(80, 2), band(95, 1.5), band(80, 6), c.patterns, kUneven / tests);
}

void print_wrapped(const std::string& note, std::ostream& out) {
  for (const std::string& line : wrapped(note, kColumns - 2)) out << "  " << line << '\n';
  out << '\n';
}

void print_limits(const Calibration& c, bool verbose, std::ostream& out) {
  for (const CalibrationSet& set : c.sets) out << set_table(set, verbose);
  out << set_table(c.all, true);
  print_wrapped(note_of(c), out);
}

void print_worlds(const std::vector<Calibration>& worlds, std::ostream& out) {
  std::vector<std::string> head{"80 % intervals, % inside"};
  for (const std::size_t k : judged_quantities()) head.push_back(short_name(k));
  std::vector<std::vector<std::string>> rows;
  for (const Calibration& c : worlds)
    for (const bool swing : {true, false}) {
      std::vector<std::string> row{fmt::format("{}, {}", kWorldFacts[static_cast<std::size_t>(c.world)].says,
                                               swing ? "swing" : "pattern")};
      for (const std::size_t k : judged_quantities())
        row.push_back(tenth_percent((swing ? c.all.swing : c.all.mean)[k].inside(0.8)));
      rows.push_back(std::move(row));
    }
  out << table(head, rows) << '\n';
  print_wrapped(fmt::format("{} patterns a world, all evidence sets. Band: 65 to 92, not made wider.",
                            worlds.front().patterns),
                out);
}

void print_causes(const CauseCalibration& c, std::ostream& out) {
  std::vector<std::vector<std::string>> rows;
  for (const CauseRow& r : c.rows)
    rows.push_back({r.after, tenth_percent(r.share()), tenth_percent(r.bound()),
                    fmt::format("{}", r.pupils - r.right), fmt::format("{}", r.wrong_flagged)});
  out << table({"First cause right after", "%", "bound", "wrong", "flagged"}, rows) << '\n';
  print_wrapped(
      fmt::format(
          "{} pupils. Bound: the same naming, given what linear information allows. Flagged: the first cause "
          "was wrong, but was said not to be told apart from the right one. Next look: {} conditions, {} "
          "more columns, {} times none. Bands: after 10 swings 85, after the next look 92, or 95 % of the "
          "bound; 80 % of the wrong ones flagged.",
          c.rows[0].pupils, c.condition_looks, c.rows[0].pupils - c.condition_looks - c.no_next_look,
          c.no_next_look),
      out);
}

Json json_of(const CalibrationRow& r, double scale) {
  return {{"n", r.n},
          {"inside50", r.inside(0.5)},
          {"inside80", r.inside(0.8)},
          {"inside95", r.inside(0.95)},
          {"mean_error", r.bias() / scale},
          {"rms_error", r.rms_error() / scale},
          {"stated_sd", r.said() / scale},
          {"ranks", r.ranks},
          {"chance", r.chance()}};
}

Json json_of(const Calibration& c) {
  Json out{{"world", kWorldFacts[static_cast<std::size_t>(c.world)].key}, {"patterns", c.patterns}};
  const auto put = [&](const CalibrationSet& set) {
    Json one{{"name", set.name}, {"patterns", set.patterns}, {"rough", set.rough}, {"failed", set.failed}};
    for (std::size_t k = 0; k < kReported; ++k) {
      one["swing"][kReportedFields[k].key] = json_of(set.swing[k], kReportedFields[k].scale);
      one["pattern"][kReportedFields[k].key] = json_of(set.mean[k], kReportedFields[k].scale);
    }
    out["sets"].push_back(std::move(one));
  };
  for (const CalibrationSet& set : c.sets) put(set);
  put(c.all);
  return out;
}

Json json_of(const CauseCalibration& c) {
  Json out{{"condition_looks", c.condition_looks}, {"no_next_look", c.no_next_look}};
  for (const CauseRow& r : c.rows)
    out["rows"].push_back({{"after", r.after},
                           {"pupils", r.pupils},
                           {"right", r.share()},
                           {"bound", r.bound()},
                           {"wrong_flagged", r.wrong_flagged}});
  return out;
}

Json json_of(const std::vector<Judged>& all) {
  Json out = Json::array();
  for (const Judged& j : all)
    out.push_back(
        {{"what", j.what}, {"value", j.value}, {"low", j.low}, {"high", j.high}, {"inside", j.inside()}});
  return out;
}

/// Everything that was asked for.
struct Ran {
  std::vector<Calibration> limits, worlds;
  std::vector<CauseCalibration> causes;  ///< none or one
  std::vector<Judged> verdicts;
  void judge(const std::vector<Judged>& more) { verdicts.insert(verdicts.end(), more.begin(), more.end()); }
};

Ran run_all(const CalibrationInput& in, Doors& doors) {
  Ran ran;
  Progress progress(doors);
  CalibrationOptions options;
  options.patterns = static_cast<std::size_t>(in.swings);
  options.seed = in.seed;
  options.size = static_cast<std::size_t>(in.size);
  const auto say = [&](std::string what, std::size_t all) {
    options.progress = [&progress, what = std::move(what), all](std::size_t done) {
      progress.say(fmt::format("{}: {} of {}", what, done, all));
    };
  };
  const bool plain = !in.worlds && !in.causes;
  for (std::size_t w = 0; w < kWorlds; ++w) {
    options.world = static_cast<World>(w);
    const bool usual = options.world == World::as_thought;
    if (usual ? !plain : !in.worlds) continue;
    say(fmt::format("patterns, {}", kWorldFacts[w].says), options.patterns);
    auto& where = usual ? ran.limits : ran.worlds;
    where.push_back(calibrate(options));
    ran.judge(judged(where.back()));
  }
  if (plain || in.causes) {
    constexpr std::size_t kAtLeast = 20, kShare = 10;  // a pupil costs about ten patterns
    const std::size_t pupils = std::max(kAtLeast, options.patterns / kShare);
    say("causes, pupils", pupils);
    ran.causes.push_back(calibrate_causes(
        pupils, options,
        [](const Group& group, const std::vector<SeenSwing>& seen) { return causes_of(group, seen); }));
    ran.judge(judged(ran.causes.back()));
  }
  return ran;
}

void print(const Ran& ran, bool verbose, std::ostream& out) {
  for (const Calibration& c : ran.limits) print_limits(c, verbose, out);
  if (!ran.worlds.empty()) print_worlds(ran.worlds, out);
  for (const CauseCalibration& c : ran.causes) print_causes(c, out);
  std::size_t outside = 0;
  for (const Judged& j : ran.verdicts) {
    if (j.inside()) continue;
    ++outside;
    const std::string said =
        fmt::format("{}: {:.4g}, has to be {:.4g} to {:.4g}", j.what, j.value, j.low, j.high);
    const char* mark = "NOT  ";
    for (const std::string& line : wrapped(said, kColumns - 5)) {
      out << mark << line << '\n';
      mark = "     ";
    }
  }
  out << fmt::format("{} figures judged, {} inside their band, {} not\n", ran.verdicts.size(),
                     ran.verdicts.size() - outside, outside);
}

void print_json(const Ran& ran, std::ostream& out) {
  Json json;
  for (const Calibration& c : ran.limits) json["limits"] = json_of(c);
  for (const Calibration& c : ran.worlds) json["worlds"].push_back(json_of(c));
  for (const CauseCalibration& c : ran.causes) json["causes"] = json_of(c);
  json["judged"] = json_of(ran.verdicts);
  out << json.dump(1) << '\n';
}

}  // namespace

const std::vector<std::size_t>& judged_quantities() {
  static const std::vector<std::size_t> all = [] {
    std::vector<std::size_t> out;
    for (std::size_t k = 0; k < kReported; ++k)
      for (const auto at :
           {&Reported::low_point, &Reported::shaft_lean, &Reported::attack, &Reported::path, &Reported::face})
        if (kReportedFields[k].at == at) out.push_back(k);
    return out;
  }();
  return all;
}

double wider_for(std::size_t patterns) {
  return std::max(1.0, std::sqrt(kEnough / static_cast<double>(patterns)));
}

std::vector<Judged> judged(const Calibration& c) {
  const char* world = kWorldFacts[static_cast<std::size_t>(c.world)].says;
  std::vector<Judged> out{
      {fmt::format("{}: readings that are no number", world), static_cast<double>(c.all.failed), 0.0, 0.0}};
  if (c.world != World::as_thought) {
    each_judged(c.all, [&](bool swing, std::size_t k, const CalibrationRow& r) {
      out.push_back(
          {fmt::format("{}: {}", world, label(c.all, swing, k, "80 %")), r.inside(0.8), 0.65, 0.92});
    });
    return out;
  }
  const double wider = wider_for(c.patterns);
  const double tests = 2.0 * static_cast<double>(judged_quantities().size() * (c.sets.size() + 1));
  const auto band = [&](const std::string& what, double value, double middle, double half) {
    out.push_back({what, value, std::max(0.0, middle - half * wider), std::min(1.0, middle + half * wider)});
  };
  const auto judge_set = [&](const CalibrationSet& set, bool all) {
    each_judged(set, [&](bool swing, std::size_t k, const CalibrationRow& r) {
      if (all) band(label(set, swing, k, "50 %"), r.inside(0.5), 0.5, 0.03);
      band(label(set, swing, k, "80 %"), r.inside(0.8), 0.8, all ? 0.02 : 0.06);
      if (all) band(label(set, swing, k, "95 %"), r.inside(0.95), 0.95, 0.015);
      out.push_back({label(set, swing, k, "chance of the ranks"), r.chance(), kUneven / tests, 1.0});
    });
  };
  judge_set(c.all, true);
  for (const CalibrationSet& set : c.sets) judge_set(set, false);
  return out;
}

std::vector<Judged> judged(const CauseCalibration& c) {
  std::vector<Judged> out;
  const auto right = [&](const CauseRow& row, double least) {
    out.push_back({fmt::format("first cause right after {}", row.after), row.share(),
                   std::min(least, 0.95 * row.bound()), 1.0});
  };
  right(c.rows[1], 0.85);
  right(c.rows[3], 0.92);
  std::size_t wrong = 0, flagged = 0;
  for (const CauseRow& row : c.rows) {
    wrong += row.pupils - row.right;
    flagged += row.wrong_flagged;
  }
  const double share = wrong == 0 ? 1.0 : static_cast<double>(flagged) / static_cast<double>(wrong);
  out.push_back({"wrong first causes flagged", share, 0.80, 1.0});
  return out;
}

int run_calibration(const CalibrationInput& input, Doors& doors) {
  const Ran ran = run_all(input, doors);
  if (doors.json) {
    print_json(ran, doors.out);
  } else {
    print(ran, input.verbose, doors.out);
  }
  const bool good =
      std::all_of(ran.verdicts.begin(), ran.verdicts.end(), [](const Judged& j) { return j.inside(); });
  return good ? kGood : kCheckFailed;
}

}  // namespace strikewright
