// `strikewright recover`: how well readings find the truth of invented swings.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "bag_option.hpp"
#include "commands.hpp"
#include "lesson_tables.hpp"
#include "reading/recovery.hpp"
#include "sightings_input.hpp"
#include "take.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

struct RecoverInput {
  BagGiven bag;
  std::size_t look = 0, surface = 1;
  std::uint64_t swings = 500, seed = 20261125;
  bool no_ball = false;
};

std::vector<std::string> names_of_looks() {
  std::vector<std::string> names;
  for (const Look& look : looks()) names.push_back(look.name);
  return names;
}

std::string lines_of(const Recovery& r, UnitSystem units) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t k = 0; k < kReported; ++k) {
    const Shown s = shown_field(k, units);
    const RecoveryRow& row = r.rows[k];
    const auto on = [&](double value) { return figure(value / s.scale, s.places + 1); };
    rows.push_back({s.name.substr(0, s.name.find(" (")), s.unit, on(row.prior_sd), on(row.mean_error),
                    on(row.rms_error), on(row.mean_sd), on(row.bound), percent(row.inside50),
                    percent(row.inside80), percent(row.inside95)});
  }
  std::string out =
      table({"", "", "before", "bias", "error", "said", "bound", "50 %", "80 %", "95 %"}, rows, 2);
  const std::string note = fmt::format(
      "{} swings, {} of them rough. Errors: root mean square, reading minus truth; before: the same without "
      "any sighting; bias: their mean; said: what the readings themselves said; bound: the linear "
      "information "
      "bound; 50, 80, 95 %: how often the truth lay inside that interval.",
      r.swings, r.rough);
  out += '\n';
  for (const std::string& line : wrapped(note, kColumns - 2)) out += "  " + line + '\n';
  return out;
}

std::string json_lines(const Recovery& r) {
  nlohmann::ordered_json out{{"swings", r.swings}, {"rough", r.rough}};
  for (std::size_t k = 0; k < kReported; ++k) {
    const RecoveryRow& row = r.rows[k];
    const double scale = kReportedFields[k].scale;
    out["rows"][kReportedFields[k].key] = {{"prior_error", row.prior_sd / scale},
                                           {"mean_error", row.mean_error / scale},
                                           {"rms_error", row.rms_error / scale},
                                           {"stated_sd", row.mean_sd / scale},
                                           {"bound", row.bound / scale},
                                           {"inside50", row.inside50},
                                           {"inside80", row.inside80},
                                           {"inside95", row.inside95}};
  }
  return out.dump(2) + '\n';
}

Result<int> run(const RecoverInput& in, Doors& doors) {
  const Result<Club> club = club_of(in.bag);
  if (!club) return unexpected(club.error());
  const Result<Skill> skill = skill_of(in.bag);
  if (!skill) return unexpected(skill.error());
  Setting setting;
  setting.club = *club;
  setting.ground.surface = static_cast<Surface>(in.surface);
  setting.with_ball = !in.no_ball;
  Recovery recovery;
  {
    Progress progress(doors);
    recovery = recover(
        static_cast<std::size_t>(in.swings), looks()[in.look], setting, *skill, in.seed,
        [&](std::size_t done) { progress.say(fmt::format("reading: {} of {} swings", done, in.swings)); });
  }
  doors.out << (doors.json ? json_lines(recovery) : lines_of(recovery, doors.units));
  return kGood;
}

}  // namespace

Command recover_command() {
  const auto in = std::make_shared<RecoverInput>();
  Command command{
      .name = "recover",
      .says = "how well readings find the truth of invented swings",
      .more =
          "Draws swings from what such players usually do, lets an invented coach look, reads each swing "
          "by itself and compares with the truth and with the linear information bound.",
      .options = {choice("--look", member(in, in->look), names_of_looks(), "what is looked at",
                         names_of_looks().front()),
                  count("--swings", member(in, in->swings), 1, 100'000, "how many", "500"),
                  count("--seed", member(in, in->seed), 0, 1'000'000'000, "of the random draws",
                        std::to_string(in->seed)),
                  choice("--surface", member(in, in->surface), surface_names(), "under the ball", "fairway"),
                  toggle("--no-ball", member(in, in->no_ball), "swings without ball")},
      .examples = {{.says = "what the eye alone can tell, on fifty swings",
                    .line = "strikewright recover --look eye --swings 50"}},
      .run = {}};
  add_bag_options(command.options, member(in, in->bag));
  command.run = [in](Doors& doors) { return run(*in, doors); };
  return command;
}

}  // namespace strikewright
