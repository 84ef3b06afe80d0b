// `strikewright flight`: where a ball lands from how it left the face.

#include <ostream>

#include "commands.hpp"
#include "day_options.hpp"
#include "flight/landing.hpp"
#include "quantity/angle.hpp"
#include "show_flight.hpp"
#include "take.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

struct FlightInput {
  double speed = 0.0, elevation = 0.0, spin = 0.0, start = 0.0, axis_tilt = 0.0;
};

std::vector<Option> launch_options(const std::shared_ptr<FlightInput>& in) {
  return {
      needed(quantity("--ball-speed", Dimension::speed, into(in, in->speed), {1.0, 110.0},
                      "off the face: mps, mph or kmh")),
      needed(quantity("--launch-angle", Dimension::angle, into(in, in->elevation),
                      {-20 * kDegree, 89 * kDegree}, "up from the horizontal")),
      needed(quantity("--spin", Dimension::spin, into(in, in->spin), {0.0, 15000 * kRpm},
                      "turns a minute: rpm")),
      quantity("--start", Dimension::angle, into(in, in->start), {-60 * kDegree, 60 * kDegree},
               "start direction, right of the target +", "0deg"),
      quantity("--axis-tilt", Dimension::angle, into(in, in->axis_tilt), {-90 * kDegree, 90 * kDegree},
               "of the spin axis, + = fade (the ball curves right)", "0deg"),
  };
}

}  // namespace

Command flight_command() {
  const auto in = std::make_shared<FlightInput>();
  const auto given = std::make_shared<DayGiven>();
  Command command{
      .name = "flight",
      .says = "where a ball lands from how it left the face",
      .more =
          "Carry is known to about 3 %: that is how far published drag and lift laws of golf balls lie "
          "apart. The run after landing is a rough guess.",
      .options = launch_options(in),
      .examples = {{.says = "a 7-iron into a breeze",
                    .line = "strikewright flight --ball-speed 53mps --launch-angle 17deg "
                            "--spin 6500rpm --wind-along -4mps"}},
      .run = {}};
  add_day_options(command.options, given);
  add_flight_options(command.options, given);
  command.run = [in, given](Doors& doors) -> Result<int> {
    const Result<Day> day = day_of(*given);
    if (!day) return unexpected(day.error());
    const Result<Ball> ball = ball_of(*given);
    if (!ball) return unexpected(ball.error());
    const Launch<double> launch = launched(in->speed, in->elevation, in->start, in->spin, in->axis_tilt);
    const Flight<double> flight = flight_of(launch, *ball, *day);
    const Run run = run_of(flight, *ball, *day);
    if (doors.json) {
      doors.out << json_text(flight, run) << '\n';
    } else {
      doors.out << lines_of(flight, run, doors.units);
    }
    return kGood;
  };
  return command;
}

}  // namespace strikewright
