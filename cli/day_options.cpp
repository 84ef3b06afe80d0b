#include "day_options.hpp"

#include "bag/generic.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

constexpr const char* kHeading = "The day";
constexpr double kZeroCelsius = 273.15;  // K
constexpr Range kWind{-40.0, 40.0};      // m/s

const std::vector<std::string> kLaws{"naruo", "iron"};
const std::vector<std::string> kProfiles{"log", "uniform"};
const std::vector<std::string> kBalls{"standard", "range"};

}  // namespace

void add_day_options(std::vector<Option>& options, const std::shared_ptr<DayGiven>& given) {
  const auto add = [&](Option option) { options.push_back(under(kHeading, std::move(option))); };
  add(quantity("--temperature", Dimension::temperature, into(given, given->kelvin), {233.15, 333.15},
               "of the air: C or F", "15C"));
  add(quantity("--pressure", Dimension::pressure, into(given, given->pressure), {50e3, 110e3},
               "of the air where you stand: hPa, Pa or inHg", "the standard one at the altitude"));
  add(number("--humidity", into(given, given->humidity), {0.0, 1.0}, "0 to 1, or 0% to 100%", "0"));
  add(quantity("--altitude", Dimension::length, into(given, given->altitude), {-430.0, 5000.0},
               "over the sea: m or ft; not needed with --pressure", "0m"));
  add(quantity("--wind-along", Dimension::speed, into(given, given->day.wind_along), kWind,
               "wind with the shot +, against it -", "0mps"));
  add(quantity("--wind-across", Dimension::speed, into(given, given->day.wind_across), kWind,
               "wind to the right +, to the left -", "0mps"));
  add(choice("--wind-profile", member(given, given->profile), kProfiles,
             "log: the wind is that at 10 m, weaker below; uniform: the same at every height", "log"));
  add(quantity("--target-height", Dimension::length, into(given, given->day.target_height), {-100.0, 100.0},
               "where the ball comes down, above + or below - the ball", "0m"));
  add(choice("--ball", member(given, given->ball), kBalls,
             "range: slower off the face and draggier (an assumption)", "standard"));
}

void add_flight_options(std::vector<Option>& options, const std::shared_ptr<DayGiven>& given) {
  options.push_back(
      under(kHeading, number("--firmness", into(given, given->day.firmness), {0.0, 1.0},
                             "of the landing ground, 0 soft to 1 firm: for the run only", "0.5")));
  options.push_back(
      under(kHeading, choice("--law", member(given, given->law), kLaws,
                             "drag and lift: naruo for any club, iron for irons only", "naruo")));
}

Result<Day> day_of(const DayGiven& given) {
  Day day = given.day;
  day.uniform_wind = given.profile == 1;
  day.law = given.law == 1 ? FlightLaw::iron : FlightLaw::naruo;
  Weather weather{
      .celsius = {}, .pressure = given.pressure, .altitude = given.altitude, .humidity = given.humidity};
  if (given.kelvin) weather.celsius = *given.kelvin - kZeroCelsius;
  return air_of(weather, day);
}

Result<Ball> ball_of(const DayGiven& given) { return ball_named(kBalls[given.ball], "--ball"); }

}  // namespace strikewright
