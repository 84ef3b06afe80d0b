// `strikewright shot`: the whole chain from what the club does to where the ball lands.

#include <ostream>

#include "bag_option.hpp"
#include "commands.hpp"
#include "day_options.hpp"
#include "quantity/angle.hpp"
#include "reading/prior.hpp"
#include "shot/shot_of.hpp"
#include "show_shot.hpp"
#include "sighting/sighting.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

struct ShotInput {
  PassGiven pass;
  BagGiven bag;
  std::size_t hand = 0, surface = 1;
  bool no_ball = false;
};

Result<Setting> setting_of(const ShotInput& in, const DayGiven& given) {
  Setting setting;
  const Result<Club> club = club_of(in.bag);
  if (!club) return unexpected(club.error());
  const Result<Day> day = day_of(given);
  if (!day) return unexpected(day.error());
  const Result<Ball> ball = ball_of(given);
  if (!ball) return unexpected(ball.error());
  setting.club = *club;
  setting.day = *day;
  setting.ball = *ball;
  setting.ground.surface = static_cast<Surface>(in.surface);
  setting.with_ball = !in.no_ball;
  return setting;
}

Result<int> run(const ShotInput& in, const DayGiven& given, Doors& doors) {
  const Result<Setting> setting = setting_of(in, given);
  if (!setting) return unexpected(setting.error());
  const Result<Skill> skill = skill_of(in.bag);
  if (!skill) return unexpected(skill.error());
  const Pass<double> pass = pass_given(in.pass, prior_for(setting->club, *skill, setting->ground.surface));
  const bool left = in.hand == 1;
  const Shot<double> shot = left ? mirrored(shot_of(pass, mirrored(*setting))) : shot_of(pass, *setting);
  if (doors.json) {
    doors.out << json_text(shot, *setting) << '\n';
  } else {
    doors.out << lines_of(shot, *setting, doors.units);
  }
  return kGood;
}

}  // namespace

Command shot_command() {
  const auto in = std::make_shared<ShotInput>();
  const auto given = std::make_shared<DayGiven>();
  Command command{
      .name = "shot",
      .says = "what a swing's numbers at the ball do to turf and ball",
      .more =
          "Every number of the club that is not given is what a player of that skill usually does with "
          "that club. The club's numbers are in the player's terms (in to out +, open +, toe +), for "
          "left-handers too; what the ball and the divot do is as seen (right +).",
      .options = {},
      .examples = {{.says = "a 7-iron whose arc bottoms out behind the ball",
                    .line = "strikewright shot --club 7i --low-point -4cm"}},
      .run = {}};
  add_bag_options(command.options, member(in, in->bag));
  command.options.push_back(
      choice("--hand", member(in, in->hand), {"right", "left"}, "of the player", "right"));
  command.options.push_back(
      choice("--surface", member(in, in->surface), surface_names(), "under the ball", "fairway"));
  command.options.push_back(toggle("--no-ball", member(in, in->no_ball), "a swing without ball"));
  add_pass_options(command.options, member(in, in->pass));
  add_day_options(command.options, given);
  add_flight_options(command.options, given);
  command.run = [in, given](Doors& doors) { return run(*in, *given, doors); };
  return command;
}

}  // namespace strikewright
