#pragma once
// The day and the ball, as options of every command that flies a ball.

#include <memory>
#include <vector>

#include "command.hpp"
#include "flight/air.hpp"

namespace strikewright {

/// What the options said. SI; temperature in K.
struct DayGiven {
  Day day;
  std::optional<double> kelvin, pressure, altitude;
  double humidity = 0.0;
  std::size_t law = 0;
  std::size_t profile = 0;
  std::size_t ball = 0;
};

/// --temperature --pressure --humidity --altitude --wind-along --wind-across --wind-profile --target-height
/// --ball, under the heading "The day".
void add_day_options(std::vector<Option>& options, const std::shared_ptr<DayGiven>& given);

/// --law and --firmness, which only single flights ask for.
void add_flight_options(std::vector<Option>& options, const std::shared_ptr<DayGiven>& given);

Result<Day> day_of(const DayGiven& given);
Result<Ball> ball_of(const DayGiven& given);

}  // namespace strikewright
