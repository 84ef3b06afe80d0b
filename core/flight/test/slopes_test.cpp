// Slopes of the flight by dual numbers, against differences and against tabled ones, at ordinary points and
// edges.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "flight/flight_any.hpp"
#include "quantity/angle.hpp"
#include "quantity/dual.hpp"
#include "rows.hpp"

using namespace strikewright;
using strikewright::test::rows_of;

namespace {

using Five = std::array<double, 5>;  // speed, elevation, azimuth, spin, tilt

template <class T>
std::array<T, 8> answers(const Flight<T>& f) {
  return {f.along, f.side, f.carry, f.curve, f.apex, f.time, f.landing_angle, f.landing_speed};
}

Flight<double> plain_flight(const Five& x, const Day& day, const FlightOptions& options) {
  return flight_of(launched(x[0], x[1], x[2], x[3], x[4]), Ball{}, day, options);
}

template <int N>
Flight<Dual<N>> dual_flight(const Five& x, const Day& day, const FlightOptions& options) {
  std::array<Dual<N>, 5> d;
  for (int i = 0; i < 5; ++i) d[static_cast<std::size_t>(i)] = Dual<N>(x[static_cast<std::size_t>(i)], i);
  return flight_of(launched(d[0], d[1], d[2], d[3], d[4]), Ball{}, day, options);
}

/// Largest difference between exact slopes and central differences, as a share of 1 + slope; infinite if not
/// finite.
double worst_off(const Five& x, const Day& day, const FlightOptions& options) {
  // Steps that balance rounding (1e-13 of 100 m) and curvature: 1e-4 of m/s, rad/100, rad/s.
  constexpr Five step{1e-4, 1e-6, 1e-6, 1e-3, 1e-6};
  const auto exact = answers(dual_flight<10>(x, day, options));
  double worst = 0.0;
  for (std::size_t j = 0; j < 5; ++j) {
    Five up = x;
    Five down = x;
    up[j] += step[j];
    down[j] -= step[j];
    const auto high = answers(plain_flight(up, day, options));
    const auto low = answers(plain_flight(down, day, options));
    for (std::size_t i = 0; i < high.size(); ++i) {
      const double rough = (high[i] - low[i]) / (2.0 * step[j]);
      const double off = std::abs(exact[i].v[static_cast<int>(j)] - rough) / (1.0 + std::abs(rough));
      if (!std::isfinite(off)) return std::numeric_limits<double>::infinity();
      worst = std::max(worst, off);
    }
  }
  return worst;
}

/// Largest difference between the slopes of a fast and an accurate flight, as a share of 1 + slope; the
/// landing speed apart from all else.
struct Between {
  double places = 0.0;
  double landing = 0.0;
};
Between between_options(const Five& x, const Day& day) {
  const auto fine = answers(dual_flight<10>(x, day, FlightOptions::accurate()));
  const auto fast = answers(dual_flight<10>(x, day, FlightOptions::fast()));
  Between worst;
  for (std::size_t i = 0; i < fine.size(); ++i) {
    double& at = i < 6 ? worst.places : worst.landing;
    for (int j = 0; j < 5; ++j) {
      at = std::max(at, std::abs(fast[i].v[j] - fine[i].v[j]) / (1.0 + std::abs(fine[i].v[j])));
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("slopes are those of central differences, for every law, in wind and to raised and sunk greens") {
  // The second shot is a drive; for the irons' law, whose range ends at the Reynolds number of 70 m/s, a
  // short iron.
  const Five drive{70.0, 0.19, -0.02, 280.0, -0.2};
  const Five short_iron{45.0, 0.4, -0.02, 850.0, -0.2};
  for (const FlightLaw law : {FlightLaw::naruo, FlightLaw::iron, FlightLaw::played}) {
    for (const double target : {0.0, 6.0, -12.0}) {
      for (const double wind : {0.0, -6.0}) {
        Day day;
        day.law = law;
        day.target_height = target;
        day.wind_along = wind;
        day.wind_across = wind;
        CAPTURE(static_cast<int>(law));
        CAPTURE(target);
        CAPTURE(wind);
        for (const Five& x :
             {Five{53.0, 0.3, 0.05, 730.0, 0.1}, law == FlightLaw::iron ? short_iron : drive}) {
          // Where wind changes with height the step lengths follow the height; the duals hold them fixed, the
          // differences do not, and see the slope of the integration error too: 1 mm over a radian's
          // hundredth.
          CHECK(worst_off(x, day, FlightOptions::accurate()) <= (wind == 0.0 ? 1e-5 : 5e-3));
          // Fast against accurate: 1 % of the slopes of places and time (the laws' kinks at the ends of their
          // ranges are felt most). Angle and speed of the landing are coarser in wind: the last step spans
          // the layer in which the wind falls to nothing.
          const Between off = between_options(x, day);
          CHECK(off.places <= 1e-2);
          CHECK(off.landing <= (wind == 0.0 ? 3e-2 : 0.3));
        }
      }
    }
  }
}

TEST_CASE("slopes stay right at the edges: straight, hardly lofted, nearly without spin") {
  const Day day;
  const auto options = FlightOptions::accurate();
  CHECK(worst_off({53.0, 0.3, 0.0, 730.0, 0.0}, day, options) <= 1e-5);
  // A flight of half a second is cut into steps by its length, which the duals hold fixed.
  CHECK(worst_off({25.0, 0.03, 0.0, 100.0, 0.0}, day, options) <= 1e-4);
  CHECK(worst_off({50.0, 0.3, 0.0, 1.0, 0.0}, day, options) <= 1e-5);
}

TEST_CASE("without spin the slopes are finite, and more backspin lifts the ball") {
  // |w| has two one-sided slopes at zero, through the drag; lift has one. Differences see lift's alone.
  const auto f = dual_flight<10>({50.0, 0.3, 0.0, 0.0, 0.0}, Day{}, {});
  for (const auto& y : answers(f)) CHECK(y.v.allFinite());
  const Five up{50.0, 0.3, 0.0, 1e-3, 0.0};
  const Five down{50.0, 0.3, 0.0, -1e-3, 0.0};
  const double rough = (plain_flight(up, Day{}, {}).apex - plain_flight(down, Day{}, {}).apex) / 2e-3;
  CHECK(f.apex.v[3] > 0.0);
  CHECK(f.apex.v[3] == doctest::Approx(rough).epsilon(1e-4));
}

TEST_CASE("no slope is ever NaN: at rest, topped, out of reach, straight up, grazing the top") {
  Day high;
  high.target_height = 40.0;
  Day grazing;
  grazing.target_height = plain_flight({53.0, 0.3, 0.0, 730.0, 0.0}, Day{}, {}).apex;
  Day windy;
  windy.wind_along = 5.0;
  for (const Day& day : {Day{}, high, grazing, windy}) {
    for (const FlightLaw law : {FlightLaw::naruo, FlightLaw::iron, FlightLaw::played}) {
      Day at = day;
      at.law = law;
      for (const Five& x : {Five{0.0, 0.0, 0.0, 0.0, 0.0}, Five{30.0, -0.3, 0.0, -100.0, 0.0},
                            Five{53.0, 0.3, 0.0, 730.0, 0.0}, Five{30.0, 1.5707963267948966, 0.0, 0.0, 0.0},
                            Five{20.0, 0.0, 0.0, 0.0, 0.0}, Five{1e-9, 0.1, 0.0, 1000.0, 0.0}}) {
        const auto f = dual_flight<10>(x, at, {});
        for (const auto& y : answers(f)) {
          CHECK(std::isfinite(y.a));
          CHECK(y.v.allFinite());
        }
      }
    }
  }
}

TEST_CASE("a wider and a narrower dual number carry the same slopes") {
  const Five x{53.0, 0.3, 0.05, 730.0, 0.1};
  const auto narrow = answers(dual_flight<5>(x, Day{}, {}));
  const auto wide = answers(dual_flight<12>(x, Day{}, {}));
  const auto value = answers(plain_flight(x, Day{}, {}));
  for (std::size_t i = 0; i < narrow.size(); ++i) {
    // The dual's division multiplies by the inverse: last bits differ.
    CHECK(narrow[i].a == doctest::Approx(value[i]).epsilon(1e-12));
    CHECK(wide[i].a == doctest::Approx(value[i]).epsilon(1e-12));
    // Chained through six inputs or direct: rounding only.
    for (int j = 0; j < 5; ++j) CHECK(wide[i].v[j] == doctest::Approx(narrow[i].v[j]).epsilon(1e-9));
  }
}

TEST_CASE("carry's slopes are those of the tabled runs") {
  struct Start {
    const char* name;
    Five x;
  };
  const std::array<Start, 6> starts{{{"driver_fast", {74.7, 11.0 * kDegree, 0.0, 2600.0 * kRpm, 0.0}},
                                     {"driver_mid", {60.0, 13.0 * kDegree, 0.0, 2900.0 * kRpm, 0.0}},
                                     {"iron_low", {58.0, 13.0 * kDegree, 0.0, 5400.0 * kRpm, 0.0}},
                                     {"iron_mid", {53.0, 17.0 * kDegree, 0.0, 7000.0 * kRpm, 0.0}},
                                     {"iron_short", {48.0, 21.0 * kDegree, 0.0, 8500.0 * kRpm, 0.0}},
                                     {"wedge", {42.0, 26.0 * kDegree, 0.0, 9500.0 * kRpm, 0.0}}}};
  const auto rows = rows_of("flight_slopes.csv");
  REQUIRE(rows.size() == starts.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(rows[i].text("case"));
    REQUIRE(rows[i].text("case") == starts[i].name);
    const auto carry = dual_flight<10>(starts[i].x, Day{}, {}).carry;
    // Two units of the last printed digit: the table's own differences, whose step is not stated.
    CHECK(std::abs(carry.v[0] - rows[i].number("dcarry_per_m_s")) <= 0.02);
    CHECK(std::abs(carry.v[1] * kDegree - rows[i].number("dcarry_per_deg_launch")) <= 0.02);
    CHECK(std::abs(carry.v[3] * 100.0 * kRpm - rows[i].number("dcarry_per_100rpm")) <= 0.02);
  }
}
