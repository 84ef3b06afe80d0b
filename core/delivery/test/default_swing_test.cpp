#include "delivery/default_swing.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "delivery/delivery_of.hpp"

using namespace strikewright;

namespace {

Club club(const char* name) { return club_named(generic_bag(), name).value(); }

Passing<double> passing(const Swing<double>& s, const Club& c) {
  return passing_of(s, c, Ball{}, usual_ball_lift(c)).value();
}

}  // namespace

TEST_CASE("every club and every band has a swing that comes out as asked") {
  for (const Club& c : generic_bag()) {
    for (const SwingBand band : kSwingBands) {
      CAPTURE(c.name);
      CAPTURE(static_cast<int>(band));
      const auto s = default_swing(c, band);
      REQUIRE(s.has_value());
      const SwingAim aim = usual_aim(c, band);
      const Pass<double> p = passing(*s, c).pass;
      CHECK(std::fabs(p.club_speed - aim.club_speed) < 0.05);
      CHECK(std::fabs(p.low_point - aim.low_point) < 5e-4);
      CHECK(std::fabs(p.low_point_depth - aim.low_point_depth) < 5e-4);
      CHECK(std::fabs(p.shaft_lean - aim.shaft_lean) < 0.05 * kDegree);
      CHECK(std::fabs(delivery_of(p, c, Ball{}, usual_ball_lift(c)).face) < 2.0 * kDegree);
    }
  }
}

TEST_CASE("the radii that the bag takes from the default swings are those of arms and club") {
  // Leading edge: no tighter than the club alone, no wider than arms and club in line. The lines are the
  // table of docs/models/swing.md.
  for (const char* name : {"driver", "3w", "4h", "5i", "7i", "9i", "pw", "sw"}) {
    const Club c = club(name);
    for (const SwingBand band : {SwingBand::club, SwingBand::tour}) {
      const Passing<double> p = passing(default_swing(c, band).value(), c);
      CHECK(p.arc_radius > club_lever(c).length);
      CHECK(p.arc_radius < usual_arms().length + club_lever(c).length);
      CHECK(p.turn_radius < p.arc_radius);
      MESSAGE(c.name, band == SwingBand::club ? " club" : " tour", ": arc ", p.arc_radius,
              " m, at the low point ", p.low_point_radius, " m, turn ", p.turn_radius, " m, attack ",
              p.attack / kDegree, " deg");
    }
  }
}

TEST_CASE("in every default swing a somewhat earlier release moves the low point back") {
  for (const SwingBand band : kSwingBands) {
    const Club c = club("7i");
    Swing<double> s = default_swing(c, band).value();
    const Passing<double> base = passing(s, c);
    CHECK(base.run.release.arm ==
          doctest::Approx(s.flail.wrist.release.value));  // an active hold: it can go both ways
    s.flail.wrist.release.value -= 3.0 * kDegree;
    const Passing<double> early = passing(s, c);
    CHECK(early.pass.low_point < base.pass.low_point);
    CHECK(early.pass.shaft_lean < base.pass.shaft_lean);
  }
}

TEST_CASE("default swings stay within what is published about swings, although nothing was fitted to it") {
  const Club driver = club("driver");
  const Passing<double> tour = passing(default_swing(driver, SwingBand::tour).value(), driver);
  // Zheng N et al., Kinematic analysis of swing in pro and amateur golfers, Int. J. Sports Med. 29 (2008)
  // 487-493: peak shaft rate of 18 professionals 2413 deg/s, sd 442. The flail's rate at contact is close to
  // its peak.
  const double rate = tour.run.contact.club_rate / kDegree;
  MESSAGE("club rate of the tour driver swing at contact: ", rate, " deg/s");
  CHECK(rate > 2413.0 - 2.0 * 442.0);
  CHECK(rate < 2413.0 + 2.0 * 442.0);
  // Cochran & Stobbs, The Search for the Perfect Swing, 1968 (from memory): a downswing takes 0.20 to 0.25 s.
  // The flail starts from rest with its torque rising, which adds about its 0.04 s time constant.
  MESSAGE("its downswing lasts ", tour.run.contact.time, " s");
  CHECK(tour.run.contact.time > 0.18);
  CHECK(tour.run.contact.time < 0.33);
}

TEST_CASE("a swing that a flail cannot do is refused by name") {
  const Club c = club("7i");
  Pass<double> aim = usual_pass(c, SwingBand::club);
  aim.shaft_lean = -40.0 * kDegree;
  aim.low_point = 0.30;
  const auto s = swing_for(aim, usual_manner(SwingBand::club), c, Ball{}, 0.0);
  REQUIRE_FALSE(s.has_value());
  CAPTURE(s.error().sentence());
  CHECK(s.error().place.rfind("swing.", 0) == 0);
}

TEST_CASE("the same aim gives the same swing, bit for bit") {
  const Club c = club("7i");
  CHECK(default_swing(c, SwingBand::club)->flail.shoulder.torque ==
        default_swing(c, SwingBand::club)->flail.shoulder.torque);
}
