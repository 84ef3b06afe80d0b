// Drag, lift and trajectories against closed forms, runs of other code and published figures.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "check_groups.hpp"
#include "flight/air.hpp"
#include "flight/flight.hpp"
#include "flight/landing.hpp"
#include "numeric/integrate.hpp"
#include "quantity/angle.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace {

constexpr const char* kFlightGroup = "flight";

Launch<double> launch(double speed, double angle_deg, double rpm, double tilt_deg = 0.0) {
  return launched(speed, angle_deg * kDegree, 0.0, rpm * kRpm, tilt_deg * kDegree);
}

Launch<double> launch_of_row(const ReferenceRow& base, double tilt_deg = 0.0) {
  return launch(base.number("v_ms"), base.number("launch_deg"), base.number("rpm"), tilt_deg);
}

/// 75 degF, 30.0 inHg, 50 % humidity: the air of the governing bodies' distance test.
Day test_day() {
  return air_of({.celsius = 23.889, .pressure = 101591.7, .altitude = {}, .humidity = 0.5}).value();
}

FlightLaw law_named(const std::string& name) {
  return name == "UR06" ? FlightLaw::iron : name == "F22" ? FlightLaw::played : FlightLaw::naruo;
}

double fall_speed(double drag) {
  Day day;
  day.density = 1.225;
  day.target_height = -1500.0;
  Ball ball;
  ball.drag_scale = drag / NaruoLaw::at(0.0, 1.0, 1e5).drag;
  return flight_of(launch(1.0, 0.0, 0.0), ball, day).landing_speed;
}

/// Distance between a landing in uniform wind and the still-air flight of the launch relative to the air.
double galilean_error(double along, double across) {
  Day windy;
  windy.uniform_wind = true;
  windy.wind_along = along;
  windy.wind_across = across;
  const Launch<double> seen = launch(53.0, 17.0, 7000.0, 10.0);
  Launch<double> relative = seen;
  relative.v_WB_W -= Vec3<double>(along, -across, 0.0);
  const Flight<double> a = flight_of(seen, Ball{}, windy);
  const Flight<double> b = flight_of(relative, Ball{}, Day{});
  return std::hypot(a.along - b.along - along * b.time, a.side - b.side - across * b.time);
}

void flight_exact_rows(CheckReport& report) {
  Day vacuum;
  vacuum.density = 0.0;
  const Flight<double> thrown = flight_of(launch(60.0, 20.0, 3000.0), Ball{}, vacuum);
  const Flight<double> right = flight_of(launch(53.0, 17.0, 7000.0, 10.0), Ball{}, Day{});
  const Flight<double> left = flight_of(launch(53.0, 17.0, 7000.0, -10.0), Ball{}, Day{});
  const Launch<double> drive = launch(74.7, 11.0, 2600.0);
  FlightOptions fine;
  fine.step = 0.001;
  const std::map<std::string, double> measured{
      {"vacuum range", thrown.carry},
      {"vacuum apex", thrown.apex},
      {"vacuum time", thrown.time},
      {"terminal speed at CD 0.25", fall_speed(0.25)},
      {"terminal speed at CD 0.50", fall_speed(0.50)},
      {"mirrored side plus side", left.side + right.side},
      {"mirrored carry minus carry", left.carry - right.carry},
      {"wind along 8 m/s: landing against the same flight seen from the air", galilean_error(8.0, 0.0)},
      {"wind across 8 m/s: landing against the same flight seen from the air", galilean_error(0.0, 8.0)},
      {"carry at a step of 0.05 s minus carry at 0.001 s",
       flight_of(drive, Ball{}, Day{}).carry - flight_of(drive, Ball{}, Day{}, fine).carry}};
  CheckTable table(report, kFlightGroup, "flight_exact");
  for (const ReferenceRow& row : table.rows()) {
    const std::string& check = row.text("check");
    if (row.has("allowed")) {
      table.compare(check, row.text("unit"), measured.at(check), row.number("value"), row.number("allowed"));
    } else {
      table.printed(check, row.text("unit"), measured.at(check), row, "value");
    }
  }
}

void coefficient_rows(CheckReport& report) {
  CheckTable laws(report, kFlightGroup, "flight_laws");
  for (const ReferenceRow& row : laws.rows()) {
    const double s = row.number("S");
    const Coefficients<double> c = NaruoLaw::at(s, 1.0 / s, 1e5);
    laws.printed(fmt::format("S {}: drag coefficient", row.text("S")), "", c.drag, row, "CD");
    laws.printed(fmt::format("S {}: lift coefficient", row.text("S")), "", c.lift_per_s * s, row, "CL");
  }
  CheckTable balls(report, kFlightGroup, "flight_coefficients");
  const std::string why = "other balls than ours: about 0.02 in both is real, more near the drag crisis";
  for (const ReferenceRow& row : balls.rows()) {
    const double s = row.number("S");
    const Coefficients<double> c = NaruoLaw::at(s, s > 0.0 ? 1.0 / s : 1e9, row.number("Re"));
    const std::string name =
        fmt::format("{}, Re {}, S {}: ", row.text("source"), row.text("Re"), row.text("S"));
    balls.show(name + "drag", "", c.drag, row.number("CD"), row.number("CD"), why);
    if (row.has("CL"))
      balls.show(name + "lift", "", c.lift_per_s * s, row.number("CL"), row.number("CL"), why);
  }
}

void flight_run_rows(CheckReport& report) {
  constexpr double kRowsDensity = 1.22552;
  CheckTable table(report, kFlightGroup, "flight_runs");
  for (const ReferenceRow& row : table.rows()) {
    // The rows were made with a spin decay of 2.0e-5, which this build has at 1.2 kg/m3: that air, with drag,
    // lift and viscosity in proportion to the rows' density.
    Day day;
    day.density = kSpinDecayDensity;
    day.viscosity = 1.7894e-5 * kSpinDecayDensity / kRowsDensity;
    day.law = law_named(row.text("law"));
    Ball ball;
    ball.drag_scale = ball.lift_scale = kRowsDensity / kSpinDecayDensity;
    const Flight<double> f = flight_of(launch_of_row(row), ball, day);
    const std::string name = row.text("case") + ", " + row.text("law") + ": ";
    const auto add = [&](const char* what, const char* unit, double measured, const char* column,
                         double step) {
      table.compare(
          name + what, unit, measured, row.number(column), row.half_digit(column) + step,
          "half of the last printed digit and 0.002 m or s of step error; spin decay held at the rows' own");
    };
    add("carry", "m", f.carry, "carry_m", 0.002);
    add("apex", "m", f.apex, "apex_m", 0.002);
    add("time", "s", f.time, "time_s", 0.002);
    add("landing angle", "deg", f.landing_angle / kDegree, "land_deg", 0.002);
    add("landing speed", "m/s", f.landing_speed, "land_speed_ms", 0.002);
    add("landing spin", "rpm", f.landing_spin / kRpm, "land_rpm", 0.0);
  }
}

/// Carry [m] in air of another density with the spin decay of the day's own: the rows were made with the
/// decay held, in this build it grows with density. Drag and lift in proportion to the density, the day's
/// density unchanged.
double carry_with_decay_held(const ReferenceRow& base, const Day& day, const Day& air) {
  Ball ball;
  ball.drag_scale = ball.lift_scale = air.density / day.density;
  return flight_of(launch_of_row(base), ball, day).carry;
}

Day windy(double along, double across) {
  Day day;
  day.uniform_wind = true;
  day.wind_along = along;
  day.wind_across = across;
  return day;
}

const ReferenceRow& base_flight(const ReferenceTable& runs, const std::string& name) {
  const auto at = std::find_if(runs.rows.begin(), runs.rows.end(), [&](const ReferenceRow& r) {
    return r.text("case") == name && r.text("law") == "N04";
  });
  ensure(at != runs.rows.end(), "every case of the weather rows has a base flight");
  return *at;
}

void weather_case(CheckTable& table, const ReferenceRow& row, const ReferenceRow& base) {
  const Day day = air_of({}).value();
  const Day warm = air_of({.celsius = 25.0, .pressure = {}, .altitude = {}, .humidity = 0.0}).value();
  const Day high = air_of({.celsius = {}, .pressure = {}, .altitude = 1000.0, .humidity = 0.0}).value();
  const Day thin = air_of({.celsius = 15.0, .pressure = {}, .altitude = 1609.344, .humidity = 0.0}).value();
  const Day humid = air_of({.celsius = {}, .pressure = {}, .altitude = {}, .humidity = 1.0}).value();
  const double still = flight_of(launch_of_row(base), Ball{}, day).carry;
  const auto add = [&](const std::string& what, double measured, const std::string& column) {
    const double published = row.number(column);
    table.compare(row.text("case") + ": " + what, "m", measured, published,
                  std::max(0.05, 0.01 * std::abs(published)));
  };
  const std::tuple<const char*, Day, const char*> airs[] = {{"10 degC warmer", warm, "d_plus10C"},
                                                            {"1000 m up", high, "d_1000m_ISA"},
                                                            {"1609 m up at 15 degC", thin, "d_1609m_sameT"},
                                                            {"humid instead of dry", humid, "d_RH0to100"}};
  for (const auto& [name, air, column] : airs) {
    add(fmt::format("carry, {}, spin decay held", name), carry_with_decay_held(base, day, air) - still,
        column);
    table.show(row.text("case") + ": carry, " + name, "m",
               flight_of(launch_of_row(base), Ball{}, air).carry - still, row.number(column),
               row.number(column),
               "in this build the spin decays with the air's density, in the rows it does not");
  }
  for (const int wind : {5, 10}) {
    const auto in_wind = [&](double along, double across) {
      return flight_of(launch_of_row(base), Ball{}, windy(along, across));
    };
    add(fmt::format("carry, tailwind {} m/s", wind), in_wind(wind, 0.0).along - still,
        fmt::format("tail{}_d", wind));
    add(fmt::format("carry, headwind {} m/s", wind), in_wind(-wind, 0.0).along - still,
        fmt::format("head{}_d", wind));
    add(fmt::format("side, crosswind {} m/s", wind), in_wind(0.0, wind).side,
        fmt::format("cross{}_side", wind));
  }
  for (const int tilt : {5, 10, 20})
    add(fmt::format("side, axis tilt {} deg", tilt), flight_of(launch_of_row(base, tilt), Ball{}, day).side,
        fmt::format("tilt{}_side", tilt));
}

void weather_rows(CheckReport& report) {
  const ReferenceTable runs = reference_table("flight_runs");
  CheckTable table(report, kFlightGroup, "flight_weather");
  for (const ReferenceRow& row : table.rows()) weather_case(table, row, base_flight(runs, row.text("case")));
}

void slope_rows(CheckReport& report) {
  const ReferenceTable runs = reference_table("flight_runs");
  CheckTable table(report, kFlightGroup, "flight_slopes");
  for (const ReferenceRow& row : table.rows()) {
    const ReferenceRow& base = base_flight(runs, row.text("case"));
    const auto carry = [&](double speed, double angle, double rpm) {
      return flight_of(launch(base.number("v_ms") + speed, base.number("launch_deg") + angle,
                              base.number("rpm") + rpm),
                       Ball{}, Day{})
          .carry;
    };
    const auto add = [&](const char* what, double measured, const char* column) {
      table.compare(row.text("case") + ": carry " + what, "m", measured, row.number(column),
                    4.0 * row.half_digit(column));
    };
    add("for 1 m/s more", 0.5 * (carry(1, 0, 0) - carry(-1, 0, 0)), "dcarry_per_m_s");
    add("for 1 deg higher", 0.5 * (carry(0, 1, 0) - carry(0, -1, 0)), "dcarry_per_deg_launch");
    add("for 100 rpm more", 0.5 * (carry(0, 0, 100) - carry(0, 0, -100)), "dcarry_per_100rpm");
  }
}

/// Steepest climb [rad] on the way, by the same law integrated here: flight_of gives only the ends.
double steepest_climb(double speed, double angle_deg, double rpm, const Day& day) {
  const Ball ball;
  const double push = 0.5 * day.density * M_PI * ball.radius * ball.radius / ball.mass;
  const double rim = rpm * kRpm * ball.radius;
  const auto rate = [&](double, const State<double, 2>& v) {
    const double fast = v.norm();
    const double s = rim / fast;
    const Coefficients<double> c = NaruoLaw::at(s, 1.0 / s, 1e5);
    const double drag = push * c.drag * fast, lift = push * c.lift_per_s * s * fast;
    return State<double, 2>(-drag * v[0] - lift * v[1], -drag * v[1] + lift * v[0] - kGravity);
  };
  State<double, 2> v(speed * std::cos(angle_deg * kDegree), speed * std::sin(angle_deg * kDegree));
  double steepest = 0.0;
  for (int k = 0; k < 300; ++k) {
    steepest = std::max(steepest, std::atan2(v[1], v[0]));
    v = integrate<double, 2>(rate, v, 0.0, 0.01).y;
  }
  return steepest;
}

/// The number in text such as "<=317 (+3)", "about 28" or the two of "18.93-20.60".
std::vector<double> numbers_in(const std::string& text) {
  std::vector<double> out;
  for (std::size_t k = 0; k < text.size();) {
    std::size_t used = 0;
    if (std::isdigit(static_cast<unsigned char>(text[k])) != 0)
      out.push_back(std::stod(text.substr(k), &used));
    k += std::max<std::size_t>(used, 1);
  }
  return out;
}

struct Envelope {
  double low = 1e9, high = -1e9;
  void take(double x) {
    low = std::min(low, x);
    high = std::max(high, x);
  }
};

void envelope_rows(CheckTable& table) {
  Envelope carry, time, landing;
  Launch<double> hit;
  for (const ReferenceRow& row : table.rows()) {
    if (row.text("quantity") != "carry;time;landing") continue;
    hit = launch(row.number("ball_speed_ms"), row.number("launch_deg"), row.number("spin_rpm"));
    const std::vector<double> v = numbers_in(row.text("value"));
    carry.take(v[0]);
    time.take(v[1]);
    landing.take(v[2]);
  }
  ensure(carry.high > carry.low, "the published rows hold the four of the patent's table");
  const Flight<double> f = flight_of(hit, Ball{}, test_day());
  const std::string why = "inside the envelope of the four balls, 1 % more at its ends";
  table.band("T1-T4: carry", "yd", f.carry / kYard, carry.low, carry.high, 0.01 * carry.high, why);
  table.band("T1-T4: time", "s", f.time, time.low, time.high, 0.01 * time.high, why);
  table.band("T1-T4: landing angle", "deg", f.landing_angle / kDegree, landing.low, landing.high,
             0.01 * landing.high, why);
}

/// Figures of one published row that has a launch, or stands for drives in general.
void published_row(CheckTable& table, const ReferenceRow& row) {
  const std::string& id = row.text("id");
  const std::string name = id + ": " + row.text("quantity");
  const Launch<double> drive = launch(74.7, 11.0, 2600.0);
  if (id == "T5") {
    const Day day = test_day();
    const Launch<double> hit =
        launch(row.number("ball_speed_ms"), row.number("launch_deg"), row.number("spin_rpm"));
    table.band(name, row.text("unit"), run_of(flight_of(hit, Ball{}, day), Ball{}, day).total / kYard, 300.0,
               320.0, 0.0,
               "a nominal ball sits close under the limit of 317 + 3; the run is of low confidence");
  } else if (id == "T6") {
    const std::vector<double> v = numbers_in(row.text("value"));
    const double climb = steepest_climb(row.number("ball_speed_ms"), row.number("launch_deg"),
                                        row.number("spin_rpm"), test_day());
    table.band(name, row.text("unit"), climb / kDegree, v[0], v[1], 0.0,
               "the spread of nineteen ball designs");
  } else if (id == "T7") {
    const Launch<double> low =
        launch(row.number("ball_speed_ms"), row.number("launch_deg"), row.number("spin_rpm"));
    const double s = low.spin * Ball{}.radius / low.speed;
    Ball draggy;
    draggy.drag_scale = 1.0 + 0.0025 / NaruoLaw::at(s, 1.0 / s, 1e5).drag;
    const double change = flight_of(low, draggy, Day{}).carry - flight_of(low, Ball{}, Day{}).carry;
    table.band(name, "m per 0.0025", change, -1.4 * 2.3, -0.6 * 2.3, 0.0,
               "40 % about the printed -2.3: the balls' own lift differs; 0.0025 of drag at launch, in "
               "proportion after");
  } else if (id == "T8") {
    const Launch<double> low =
        launch(row.number("ball_speed_ms"), row.number("launch_deg"), row.number("spin_rpm"));
    const double s = low.spin * Ball{}.radius / low.speed;
    const double share = 0.01 / NaruoLaw::at(s, 1.0 / s, 1e5).drag;
    Ball fast, slow;
    fast.drag_scale = 1.0 - share;
    slow.drag_scale = 1.0 + share;
    const double spread = flight_of(low, fast, Day{}).carry - flight_of(low, slow, Day{}).carry;
    table.show(name + " (drag 0.02 apart)", "m", spread, 18.0, 18.0,
               "the balls' drag and lift differ together in a way that is not printed");
  } else if (id == "T9") {
    const Flight<double> f = flight_of(drive, Ball{}, Day{});
    table.band(name, "", f.landing_spin / drive.spin, 0.70, 0.82, 0.0,
               "the printed 'about'; drive of 74.7 m/s");
  } else if (id == "T10") {
    Day day;
    day.target_height = flight_of(drive, Ball{}, day).apex - 0.001;
    table.band(name, "m/s", flight_of(drive, Ball{}, day).landing_speed, 25.0, 31.0, 0.0,
               "the printed 'about', 'under 30'; drive of 74.7 m/s");
  }
}

void flight_published_rows(CheckReport& report) {
  CheckTable table(report, kFlightGroup, "flight_published");
  envelope_rows(table);
  for (const ReferenceRow& row : table.rows()) published_row(table, row);
}

}  // namespace

void check_flight(CheckReport& report) {
  flight_exact_rows(report);
  coefficient_rows(report);
  flight_run_rows(report);
  weather_rows(report);
  slope_rows(report);
  flight_published_rows(report);
}

}  // namespace strikewright
