// `strikewright swing`: the flail from the top of the swing to the ball.

#include <fmt/format.h>

#include <ostream>

#include "bag/generic.hpp"
#include "bag_option.hpp"
#include "commands.hpp"
#include "delivery/default_swing.hpp"
#include "quantity/angle.hpp"
#include "show_shot.hpp"
#include "swing_json.hpp"
#include "take.hpp"
#include "verbs/json_door.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

struct SwingInput {
  std::string file;
  BagGiven bag{.club = "", .file = "", .skill = "club"};
  bool document = false;
};

/// A default swing, or the one in the document.
Result<SwingAsked> asked_of(const SwingInput& in, Doors& doors) {
  const Result<std::vector<Club>> bag = bag_of(in.bag);
  if (!bag) return unexpected(bag.error());
  if (in.bag.club.empty()) {
    const Result<std::string> document = document_of(in.file, doors.in);
    if (!document) return unexpected(document.error());
    const std::string name = in.file.empty() || in.file == "-" ? "standard input" : in.file;
    return swing_from_json(*document, name, *bag);
  }
  if (!in.file.empty())
    return unexpected(Fault{"--default", "FILE as well", "either a default swing or a document"});
  const Result<Club> club = club_named(*bag, in.bag.club, "--default");
  if (!club) return unexpected(club.error());
  const Result<Skill> skill = skill_of(in.bag);
  if (!skill) return unexpected(skill.error());
  const Result<Swing<double>> swing = default_swing(*club, static_cast<SwingBand>(*skill));
  if (!swing) return unexpected(swing.error());
  return SwingAsked{
      .swing = *swing, .end = End::contact, .club = *club, .ball = {}, .ball_lift = usual_ball_lift(*club)};
}

std::string words_of(const SwingAsked& asked, const SwingAnswer& answer, UnitSystem units) {
  const Moment<double>& release = answer.run.release;
  const Moment<double>& end = answer.run.end;
  std::string out;
  const auto line = [&](const char* says, const std::string& value) {
    out += "  " + padded(says, 22) + value + '\n';
  };
  out += "Release\n";
  if (release.time >= 0.0) {
    line("time", figure(release.time, 4) + " s");
    line("arm angle", degrees(release.arm));
    line("arm rate", figure(release.arm_rate / kDegree, 0) + " deg/s");
  } else {
    line("never", "the wrists hold to the end");
  }
  out += asked.end == End::contact ? "\nContact\n" : "\nShaft vertical\n";
  line("time", figure(end.time, 4) + " s");
  line("arm angle", degrees(end.arm));
  line("club angle", degrees(end.club));
  line("arm rate", figure(end.arm_rate, 2) + " rad/s");
  line("club rate", figure(end.club_rate, 2) + " rad/s");
  line("head speed", show(answer.head.v.norm(), Dimension::speed, units));
  line("hand speed", show(answer.hands.v.norm(), Dimension::speed, units));
  if (answer.passing) {
    out += "\nClub at the ball (" + asked.club.name + ")\n" +
           lines_of(delivery_figures(delivered(asked, answer)), units);
  }
  return out;
}

}  // namespace

Command swing_command() {
  const auto in = std::make_shared<SwingInput>();
  Command command{
      .name = "swing",
      .says = "the two pendulums, arms and club, from the top to the ball",
      .more =
          "Reads a JSON document from FILE or standard input: arm and club as levers, the tilt of the "
          "plane, where they start, the torques of shoulder and wrist, when the wrists release, how the "
          "hub moves, and the end: \"club_vertical\" or \"contact\". docs/commands.md lists every key.",
      .options = {text("FILE", "FILE", member(in, in->file), "the JSON document", "standard input"),
                  text("--default", "CLUB", member(in, in->bag.club),
                       "no document: the usual swing with that club"),
                  text("--skill", "SKILL", member(in, in->bag.skill),
                       "whose usual swing: beginner, club, county, tour, or a handicap", "club"),
                  text("--bag", "FILE", member(in, in->bag.file), "own clubs (JSON)", "a generic bag"),
                  toggle("--document", member(in, in->document), "print the JSON document, run nothing")},
      .examples = {{.says = "a swing that ends with the shaft vertical",
                    .line = "strikewright swing demo/swing.json"},
                   {.says = "a county player's usual swing with a 7-iron",
                    .line = "strikewright swing --default 7i --skill county"}},
      .run = {}};
  command.run = [in](Doors& doors) -> Result<int> {
    const Result<SwingAsked> asked = asked_of(*in, doors);
    if (!asked) return unexpected(asked.error());
    if (in->document) {
      doors.out << json_text(*asked) << '\n';
      return kGood;
    }
    const Result<SwingAnswer> answer = swing_of(*asked);
    if (!answer) return unexpected(answer.error());
    if (doors.json) {
      doors.out << json_text(*asked, *answer) << '\n';
    } else {
      doors.out << words_of(*asked, *answer, doors.units);
    }
    return kGood;
  };
  return command;
}

}  // namespace strikewright
