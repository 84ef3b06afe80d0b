// `strikewright simulate`: invents a lesson whose truth is known.

#include <fmt/format.h>

#include <fstream>
#include <ostream>

#include "bag_option.hpp"
#include "commands.hpp"
#include "day_options.hpp"
#include "take.hpp"
#include "truth.hpp"
#include "verbs/invent.hpp"

namespace strikewright {
namespace {

std::string truth_csv(const std::vector<InventedSwing>& swings, const std::string& comment) {
  std::vector<TrueSwing> truths;
  for (std::size_t i = 0; i < swings.size(); ++i) truths.push_back({i + 1, reported_of(swings[i].shot)});
  return csv_of(truths, comment);
}

struct SimulateInput {
  InventOptions options;
  BagGiven bag;
  std::size_t hand = 0, surface = 1, look = 0;
  std::uint64_t swings = 12, seed = 1;
  bool no_ball = false;
  std::string out = "-", truth;
};

Result<void> write_file(const std::string& file, const std::string& option, const std::string& text,
                        Doors& doors) {
  if (file == "-") {
    doors.out << text;
    return {};
  }
  std::ofstream stream(file, std::ios::binary);
  stream << text;
  stream.close();
  if (!stream)
    return unexpected(
        Fault{option, "'" + file + "', which cannot be written", "a file in a folder of yours"});
  return {};
}

Result<InventOptions> options_of(const SimulateInput& in, const DayGiven& given) {
  InventOptions o = in.options;
  const Result<Club> club = club_of(in.bag);
  if (!club) return unexpected(club.error());
  const Result<Day> day = day_of(given);
  if (!day) return unexpected(day.error());
  const Result<Ball> ball = ball_of(given);
  if (!ball) return unexpected(ball.error());
  const Result<Skill> skill = skill_of(in.bag);
  if (!skill) return unexpected(skill.error());
  o.setting.club = *club;
  o.setting.day = *day;
  o.setting.ball = *ball;
  o.setting.ground.surface = static_cast<Surface>(in.surface);
  o.setting.with_ball = !in.no_ball;
  o.skill = *skill;
  o.hand = in.hand == 1 ? Hand::left : Hand::right;
  o.swings = static_cast<std::size_t>(in.swings);
  o.seed = in.seed;
  o.look = look_names()[in.look];
  return o;
}

Result<int> run(const SimulateInput& in, const DayGiven& given, Doors& doors) {
  const Result<InventOptions> options = options_of(in, given);
  if (!options) return unexpected(options.error());
  const std::vector<InventedSwing> swings = invent(*options);
  const std::string made = fmt::format(
      "# Invented by strikewright simulate: no such swing was ever made.\n"
      "# club {}, skill {}, seed {}, look {}\n",
      options->setting.club.name, name_of(options->skill), options->seed, options->look);
  if (auto ok = write_file(in.out, "--out", sightings_csv(swings, *options, made), doors); !ok) {
    return unexpected(ok.error());
  }
  if (in.truth.empty()) return kGood;
  if (auto ok = write_file(in.truth, "--truth", truth_csv(swings, made), doors); !ok)
    return unexpected(ok.error());
  return kGood;
}

}  // namespace

Command simulate_command() {
  const auto in = std::make_shared<SimulateInput>();
  const auto given = std::make_shared<DayGiven>();
  Command command{
      .name = "simulate",
      .says = "invent a lesson whose truth is known",
      .more =
          "Draws a pattern and swings around it, runs each through the whole chain, and lets an invented "
          "coach "
          "look. What the pattern's numbers are not given, they are drawn from what such players usually do. "
          "Equal seeds give equal lessons.",
      .options = {count("--swings", member(in, in->swings), 1, 10'000, "how many", "12"),
                  count("--seed", member(in, in->seed), 0, 1'000'000'000, "of the random draws", "1"),
                  choice("--look", member(in, in->look), look_names(), "what the invented coach looks at",
                         "coach"),
                  number("--scatter", into(in, in->options.scatter), {0.0, 1.0},
                         "swing to swing, as a share of how such players differ", "0.45"),
                  text("--out", "FILE", member(in, in->out), "the sightings file, - for standard output",
                       "-"),
                  text("--truth", "FILE", member(in, in->truth), "what the club really did"),
                  choice("--hand", member(in, in->hand), {"right", "left"}, "of the player", "right"),
                  choice("--surface", member(in, in->surface), surface_names(), "under the ball", "fairway"),
                  toggle("--no-ball", member(in, in->no_ball), "swings without ball")},
      .examples = {{.says = "three swings that bottom out 2 cm behind the ball",
                    .line = "strikewright simulate --swings 3 --club 7i --low-point -2cm"}},
      .run = {}};
  add_bag_options(command.options, member(in, in->bag));
  add_pass_options(command.options, member(in, in->options.pattern));
  add_day_options(command.options, given);
  command.run = [in, given](Doors& doors) { return run(*in, *given, doors); };
  return command;
}

}  // namespace strikewright
