// Many at once against one by one.
#include "flight/flights.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstring>

#include "numeric/draws.hpp"
#include "quantity/angle.hpp"

using namespace strikewright;

namespace {

Launches some_launches(int count) {
  Draws draws{11};
  const auto between = [&draws](double low, double high) { return low + (high - low) * draws.uniform(); };
  Launches out;
  for (int i = 0; i < count; ++i) {
    // Every eighth is topped or dead: neighbours of a ball that never leaves the ground.
    const double angle = i % 8 == 3 ? -5.0 : between(1.0, 50.0);
    const double speed = i % 16 == 5 ? 0.0 : between(8.0, 80.0);
    const double rpm = i % 8 == 6 ? 0.0 : between(0.0, 10000.0);
    const auto launch = launched(speed, angle * kDegree, between(-0.2, 0.2), rpm * kRpm, between(-0.4, 0.4));
    out.add(launch.v_WB_W, launch.w_WB_W);
  }
  return out;
}

Launch<double> launch_at(const Launches& all, std::size_t i) {
  Launch<double> out;
  out.v_WB_W = {all.vx[i], all.vy[i], all.vz[i]};
  out.w_WB_W = {all.wx[i], all.wy[i], all.wz[i]};
  return out;
}

bool same_bits(const std::vector<double>& a, const std::vector<double>& b) {
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0;
}
bool same(const Flights& a, const Flights& b) {
  return same_bits(a.carry, b.carry) && same_bits(a.along, b.along) && same_bits(a.side, b.side) &&
         same_bits(a.curve, b.curve) && same_bits(a.apex, b.apex) && same_bits(a.time, b.time) &&
         same_bits(a.landing_angle, b.landing_angle) && same_bits(a.landing_speed, b.landing_speed) &&
         same_bits(a.landing_spin, b.landing_spin) && a.reached == b.reached && a.beyond == b.beyond;
}

}  // namespace

TEST_CASE("a thousand flights at once are a thousand flights one by one, bit for bit") {
  const Launches all = some_launches(1003);
  for (const double target : {0.0, 6.0, -12.0}) {
    Day day;
    day.target_height = target;
    for (const auto& options : {FlightOptions::accurate(), FlightOptions::fast()}) {
      const Flights many = flights_of(all, Ball{}, day, options);
      REQUIRE(many.size() == all.size());
      int differ = 0;
      for (std::size_t i = 0; i < all.size(); ++i) {
        const auto one = flight_of(launch_at(all, i), Ball{}, day, options);
        differ += one.carry == many.carry[i] && one.side == many.side[i] && one.curve == many.curve[i] &&
                          one.apex == many.apex[i] && one.time == many.time[i] &&
                          one.landing_angle == many.landing_angle[i] &&
                          one.landing_speed == many.landing_speed[i] &&
                          one.landing_spin == many.landing_spin[i] && one.reached == (many.reached[i] != 0) &&
                          one.beyond == (many.beyond[i] != 0)
                      ? 0
                      : 1;
      }
      CHECK(differ == 0);
    }
  }
}

TEST_CASE("with logarithms, of wind and of the iron law, only last bits differ") {
  const Launches all = some_launches(501);
  Day day;
  day.wind_along = -6.0;
  day.wind_across = 3.0;
  for (const FlightLaw law : {FlightLaw::naruo, FlightLaw::iron, FlightLaw::played}) {
    day.law = law;
    const Flights many = flights_of(all, Ball{}, day);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto one = flight_of(launch_at(all, i), Ball{}, day);
      // 2e-16 in a logarithm moves the landing by far less than a nanometre.
      CHECK(std::abs(one.carry - many.carry[i]) <= 1e-9);
      CHECK(std::abs(one.side - many.side[i]) <= 1e-9);
      CHECK(std::abs(one.apex - many.apex[i]) <= 1e-9);
      CHECK(one.reached == (many.reached[i] != 0));
    }
  }
}

TEST_CASE("threads, company and order do not change a bit") {
  const Launches all = some_launches(2000);
  Day day;
  day.wind_along = 4.0;
  const Flights alone = flights_of(all, Ball{}, day, {}, 1);
  CHECK(same(flights_of(all, Ball{}, day, {}, 2), alone));
  CHECK(same(flights_of(all, Ball{}, day, {}, 7), alone));
  CHECK(same(flights_of(all, Ball{}, day, {}, 0), alone));
  Launches backwards;
  for (std::size_t i = all.size(); i-- > 0;) {
    const auto launch = launch_at(all, i);
    backwards.add(launch.v_WB_W, launch.w_WB_W);
  }
  const Flights turned = flights_of(backwards, Ball{}, day, {}, 2);
  int differ = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    differ +=
        turned.carry[i] == alone.carry[all.size() - 1 - i] && turned.side[i] == alone.side[all.size() - 1 - i]
            ? 0
            : 1;
  }
  CHECK(differ == 0);
}

TEST_CASE("no launches, no flights; one launch, one flight") {
  CHECK(flights_of({}, Ball{}, Day{}).size() == 0);
  Launches one;
  const auto launch = launched(53.0, 0.3, 0.0, 730.0, 0.0);
  one.add(launch.v_WB_W, launch.w_WB_W);
  CHECK(flights_of(one, Ball{}, Day{}).carry[0] == flight_of(launch, Ball{}, Day{}).carry);
}
