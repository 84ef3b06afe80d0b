// Facts of the trade, through the complete chain: flail, contact, turf, ball, flight. Common practice, no
// source. Right-hander, generic 7-iron, ball on a fairway. Each case moves a cause in the swing and looks at
// what a coach sees.

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "delivery/default_swing.hpp"
#include "numeric/draws.hpp"
#include "numeric/root.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

namespace {

const Club& iron() {
  static const Club club = club_named(generic_bag(), "7i").value();
  return club;
}

struct Struck {
  Passing<double> passing;
  Shot<double> shot;
};

/// The swing carried to the ball and on; the arc that the turf sees has the swing's own radius.
Struck struck(const Swing<double>& swing, bool with_ball = true) {
  const auto passing = passing_of(swing, iron(), Ball{}, 0.0);
  REQUIRE_MESSAGE(passing.has_value(), (passing ? "" : passing.error().sentence()));
  Setting setting;
  setting.club = iron();
  setting.club.arc_radius = passing->low_point_radius;
  setting.club.turn_radius = passing->turn_radius;
  setting.with_ball = with_ball;
  return {*passing, shot_of(passing->pass, setting)};
}

Swing<double> solved(double speed, double low_point, double depth, double lean, const SwingManner& manner) {
  Pass<double> aim = usual_pass(iron(), SwingBand::county);
  aim.club_speed = speed;
  aim.low_point = low_point;
  aim.low_point_depth = depth;
  aim.shaft_lean = lean;
  const auto swing = swing_for(aim, manner, iron(), Ball{}, 0.0);
  REQUIRE_MESSAGE(swing.has_value(), (swing ? "" : swing.error().sentence()));
  return *swing;
}

/// A good player's iron swing: 36 m/s, low point 115 mm ahead and 3 mm deep, shaft 8 deg forward.
const Swing<double>& good_swing() {
  static const Swing<double> swing =
      solved(36.0, 0.115, -0.003, 8.0 * kDegree, usual_manner(SwingBand::county));
  return swing;
}

/// The same swing with the face turned until it points at the target at contact.
Swing<double> face_to_target(Swing<double> swing) {
  const auto face = [&swing](double turn) {
    swing.stance.face.contact = turn;
    return struck(swing).shot.delivery.face;
  };
  const auto turn = root_between(face, -0.6, 0.6, 1e-10);
  REQUIRE(turn.has_value());
  swing.stance.face.contact = *turn;
  return swing;
}

/// The plane turned until the club travels to the target at contact, and the face with it.
Swing<double> straight_at_target(Swing<double> swing) {
  const auto path = [&swing](double direction) {
    swing.stance.plane_direction = direction;
    return struck(swing).shot.delivery.path;
  };
  const auto direction = root_between(path, -0.3, 0.3, 1e-10);
  REQUIRE(direction.has_value());
  swing.stance.plane_direction = *direction;
  return face_to_target(swing);
}

Swing<double> with_hub(double forward, double up = 0.0) {
  Swing<double> swing = good_swing();
  swing.stance.hub_along += forward;
  swing.stance.hub_up += up;
  return swing;
}

Swing<double> with_release(double earlier) {
  Swing<double> swing = good_swing();
  swing.flail.wrist.release.value -= earlier;
  return swing;
}

Swing<double> with_plane(double right) {
  Swing<double> swing = straight_at_target(good_swing());
  swing.stance.plane_direction += right;
  return face_to_target(swing);
}

/// Spread of what a coach sees under noise of the release's time.
struct Spread {
  double low_point, depth, strike_up, start;
};
Spread spread_of(const Swing<double>& swing, double release_noise, int swings) {
  const double usual = struck(swing).passing.run.release.time;
  Draws draws(20261125);
  Eigen::ArrayX4d seen(swings, 4);
  for (int k = 0; k < swings; ++k) {
    Swing<double> drawn = swing;
    drawn.flail.wrist.release = {Release<double>::Kind::at_time, usual + release_noise * draws.normal()};
    const Struck s = struck(drawn);
    seen.row(k) << s.passing.pass.low_point, s.passing.pass.low_point_depth, s.shot.strike.strike_up,
        s.shot.strike.launch.azimuth;
  }
  const Eigen::Array4d sd =
      (seen.rowwise() - seen.colwise().mean()).square().colwise().mean().sqrt().transpose();
  return {sd[0], sd[1], sd[2], sd[3]};
}

}  // namespace

TEST_CASE(
    "common practice, no source: closed about the shaft and the handle forward until the face points at the "
    "target: straight, lower, less bounce") {
  // Two swings through the same low point, one with the handle farther forward; plane and face set to the
  // target in both, as a player who hits it straight does.
  const SwingManner manner = usual_manner(SwingBand::county);
  const Swing<double> usual_swing = straight_at_target(solved(36.0, 0.115, -0.003, 5.0 * kDegree, manner));
  const Swing<double> leant_swing = straight_at_target(solved(36.0, 0.115, -0.003, 10.0 * kDegree, manner));
  const Struck usual = struck(usual_swing);
  const Struck leant = struck(leant_swing);
  CHECK(leant.shot.delivery.handle_lead > usual.shot.delivery.handle_lead + 0.04);
  CHECK(leant_swing.stance.face.contact > usual_swing.stance.face.contact + 1.0 * kDegree);
  CHECK(std::abs(leant.shot.delivery.face) < 1e-6);
  // Straight: within what a coach's eye calls straight (1.5 deg of start, 3 m of curve).
  CHECK(std::abs(leant.shot.strike.launch.azimuth) < 1.5 * kDegree);
  CHECK(std::abs(leant.shot.flight.curve) < 3.0);
  CHECK(leant.shot.delivery.loft < usual.shot.delivery.loft - 3.0 * kDegree);
  CHECK(leant.shot.delivery.loft < iron().loft - 5.0 * kDegree);
  CHECK(leant.shot.strike.launch.elevation < usual.shot.strike.launch.elevation - 1.0 * kDegree);
  CHECK(leant.shot.delivery.sole_to_ground < usual.shot.delivery.sole_to_ground - 3.0 * kDegree);
  CHECK(leant.shot.delivery.sole_to_ground < iron().bounce);
}

TEST_CASE(
    "common practice, no source: handle forward, all else equal, moves the low point toward the target") {
  const Struck usual = struck(good_swing());
  const Struck forward = struck(with_hub(0.03));
  CHECK(forward.shot.delivery.handle_lead > usual.shot.delivery.handle_lead + 0.02);
  CHECK(forward.passing.pass.low_point > usual.passing.pass.low_point + 0.02);
  // The mark moves less than the low point: a steeper club is pushed down more by the ball.
  CHECK(forward.shot.strike.divot.start > usual.shot.strike.divot.start + 0.01);
  CHECK(forward.shot.strike.divot.deepest_at > usual.shot.strike.divot.deepest_at + 0.01);
}

TEST_CASE(
    "common practice, no source: wrists that release earlier move the low point back, take lean off, add "
    "loft: fat or thin") {
  // Whether the early club is too low or too high depends on where the hub stands: both come out.
  const Swing<double> over_the_ball =
      solved(36.0, 0.050, -0.008, 6.0 * kDegree, usual_manner(SwingBand::county));
  for (const bool hub_ahead : {true, false}) {
    CAPTURE(hub_ahead);
    const Swing<double>& swing = hub_ahead ? good_swing() : over_the_ball;
    Swing<double> early_swing = swing;
    early_swing.flail.wrist.release.value -= 20.0 * kDegree;
    const Struck usual = struck(swing);
    const Struck early = struck(early_swing);
    CHECK(early.passing.run.release.time < usual.passing.run.release.time);
    CHECK(early.passing.pass.low_point < usual.passing.pass.low_point - 0.03);
    CHECK(early.passing.pass.shaft_lean < usual.passing.pass.shaft_lean - 3.0 * kDegree);
    CHECK(early.shot.delivery.loft > usual.shot.delivery.loft + 2.0 * kDegree);
    CHECK(early.shot.strike.launch.elevation > usual.shot.strike.launch.elevation + 1.0 * kDegree);
    CHECK(early.shot.flight.carry < usual.shot.flight.carry - 10.0);
    const bool fat = early.shot.strike.speed_left < usual.shot.strike.speed_left - 0.1;
    const bool thin =
        early.shot.strike.strike_up < iron().first_groove && early.shot.strike.turf_before < 1e-5;
    CHECK(thin == hub_ahead);
    CHECK(fat == !hub_ahead);
  }
}

TEST_CASE("common practice, no source: the club passes the hands before the ball and the lean reverses") {
  Swing<double> cast = with_release(20.0 * kDegree);
  cast.flail.wrist.drive += 10.0;
  const Struck s = struck(cast);
  CHECK(s.passing.pass.shaft_lean < -1.0 * kDegree);
  CHECK(s.shot.delivery.loft > iron().loft);
}

TEST_CASE(
    "common practice, no source: a low point well behind the ball is fat, or the club is rising and strikes "
    "low") {
  const Struck fat = struck(with_hub(-0.16));
  CHECK(fat.passing.pass.low_point < -0.04);
  CHECK(fat.shot.strike.turf_before > 1e-4);
  CHECK(fat.shot.strike.divot.start < -0.08);
  CHECK(fat.shot.strike.speed_left < 0.97);
  const Struck thin = struck(with_hub(-0.16, 0.014));
  CHECK(thin.passing.pass.low_point < -0.04);
  CHECK(thin.shot.delivery.attack > 0.0);
  CHECK(thin.shot.strike.turf_before < 1e-5);
  CHECK(thin.shot.strike.strike_up < iron().first_groove + 2.0 * iron().groove_pitch);
}

TEST_CASE(
    "common practice, no source: a good iron strike is ball first, then turf, deepest in front of the ball") {
  const Struck good = struck(good_swing());
  CHECK(good.shot.delivery.attack < -2.0 * kDegree);
  CHECK(good.shot.strike.divot.any);
  CHECK(good.shot.strike.divot.start >= 0.0);
  CHECK(good.shot.strike.divot.deepest_at > good.shot.strike.divot.start);
  CHECK(good.shot.strike.divot.deepest_at > 0.03);
  CHECK(good.shot.strike.turf_before < 1e-5);
  CHECK(good.shot.strike.speed_left > 0.999);
  CHECK(good.shot.strike.strike_up > iron().first_groove);
  const Struck deep = struck(solved(36.0, 0.050, -0.008, 6.0 * kDegree, usual_manner(SwingBand::county)));
  MESSAGE("low point 115 mm ahead, 3 deep: mark from ", 1e3 * good.shot.strike.divot.start,
          " mm; 50 mm ahead, 8 deep: from ", 1e3 * deep.shot.strike.divot.start, " mm, speed kept ",
          deep.shot.strike.speed_left);
  CHECK(deep.shot.strike.divot.start < 0.0);
  CHECK(deep.shot.strike.speed_left < 0.99);
}

TEST_CASE(
    "common practice, no source: on the trail leg the turf is struck clearly behind, on the lead leg clearly "
    "in "
    "front, the marks far apart") {
  // A leg's width to either side: the feet stand about 0.35 m apart, the hub goes half-way to the foot
  // (assumption).
  for (const bool ball : {true, false}) {
    CAPTURE(ball);
    const double trail = struck(with_hub(-0.09), ball).shot.strike.divot.start;
    const double normal = struck(good_swing(), ball).shot.strike.divot.start;
    const double lead = struck(with_hub(0.09), ball).shot.strike.divot.start;
    CHECK(trail < normal - 0.05);
    CHECK(lead > normal + 0.05);
    CHECK(lead - trail > 0.15);
  }
}

TEST_CASE(
    "common practice, no source: going down the club travels outward, at the low point along the plane, "
    "after it "
    "inward") {
  // Without a turn about the shaft: that swings the head's centre of mass about the hosel by about 1 deg of
  // its own.
  const auto at = [](double forward) {
    Swing<double> swing = with_hub(forward);
    swing.stance.face.closing_rate = 0.0;
    return struck(swing).shot.delivery;
  };
  const auto attack = [&at](double forward) { return at(forward).attack; };
  const auto level = root_between(attack, -0.3, 0.1, 1e-8);
  REQUIRE(level.has_value());
  CHECK(at(*level + 0.08).attack < -2.0 * kDegree);
  CHECK(at(*level + 0.08).path > 1.0 * kDegree);
  CHECK(std::abs(at(*level).path) < 1e-4);
  CHECK(at(*level - 0.08).attack > 2.0 * kDegree);
  CHECK(at(*level - 0.08).path < -1.0 * kDegree);
}

TEST_CASE(
    "common practice, no source: plane turned left fades, turned right draws, the face held to the target") {
  const Struck left = struck(with_plane(-5.0 * kDegree));
  const Struck right = struck(with_plane(5.0 * kDegree));
  CHECK(std::abs(left.shot.delivery.face) < 1e-6);
  CHECK(left.shot.delivery.path < -4.0 * kDegree);
  CHECK(left.shot.strike.launch.axis_tilt > 0.0);
  CHECK(left.shot.flight.curve > 3.0);
  CHECK(right.shot.delivery.path > 4.0 * kDegree);
  CHECK(right.shot.strike.launch.axis_tilt < 0.0);
  CHECK(right.shot.flight.curve < -3.0);
}

TEST_CASE(
    "common practice, no source: face closed by rolling, toe digging in: toe-deep divot, low, left and "
    "further "
    "left") {
  const Struck square = struck(face_to_target(good_swing()));
  Swing<double> rolled_swing = face_to_target(good_swing());
  rolled_swing.stance.face.contact += 10.0 * kDegree;
  const Struck rolled = struck(rolled_swing);
  CHECK(rolled.shot.delivery.attack < 0.0);
  CHECK(rolled.shot.delivery.lie < square.shot.delivery.lie - 0.5 * kDegree);
  CHECK(rolled.shot.strike.divot.toe_depth > square.shot.strike.divot.toe_depth);
  CHECK(rolled.shot.strike.divot.toe_depth > 0.0005);
  CHECK(rolled.shot.strike.launch.elevation < square.shot.strike.launch.elevation - 1.0 * kDegree);
  CHECK(rolled.shot.strike.launch.azimuth < -3.0 * kDegree);
  CHECK(rolled.shot.flight.curve < -5.0);
}

TEST_CASE(
    "common practice, no source: a swing of the wrists alone has its low point near the ball and scatters "
    "more than "
    "a handle-led one at the same timing noise") {
  // Both at 25 m/s, release noise 10 ms (natural scale 5 to 15 ms). Wrists alone: the hub stands still, the
  // arms are carried by a tenth of the torque, the wrists drive with 60 N m. Handle-led: the hub travels, the
  // wrists let go.
  SwingManner wrists = usual_manner(SwingBand::county);
  wrists.start_arm = -120.0 * kDegree;
  wrists.shift.size = wrists.rise.size = 0.0;
  wrists.drive = 60.0;
  wrists.drive_spread = 2.0;
  wrists.release_arm = -30.0 * kDegree;
  wrists.release_spread = 60.0 * kDegree;
  SwingManner led = usual_manner(SwingBand::county);
  led.drive = 0.0;
  led.drive_spread = 2.0;
  const Swing<double> by_wrists = solved(25.0, 0.005, -0.003, 0.0, wrists);
  const Swing<double> by_handle = solved(25.0, 0.09, -0.003, 8.0 * kDegree, led);
  CHECK(by_wrists.flail.shoulder.torque < 0.4 * by_handle.flail.shoulder.torque);
  CHECK(struck(by_wrists).passing.pass.low_point < 0.02);
  const Spread loose = spread_of(by_wrists, 0.010, 300);
  const Spread firm = spread_of(by_handle, 0.010, 300);
  MESSAGE("wrists alone: low point ", 1e3 * loose.low_point, " mm, depth ", 1e3 * loose.depth,
          " mm, strike height ", 1e3 * loose.strike_up, " mm, start ", loose.start / kDegree, " deg");
  MESSAGE("handle-led:   low point ", 1e3 * firm.low_point, " mm, depth ", 1e3 * firm.depth,
          " mm, strike height ", 1e3 * firm.strike_up, " mm, start ", firm.start / kDegree, " deg");
  // A standard deviation from 300 draws is good to 4 %: half as much again is no accident.
  CHECK(loose.low_point > 1.5 * firm.low_point);
  CHECK(loose.strike_up > 1.5 * firm.strike_up);
  CHECK(loose.start > 1.5 * firm.start);
}
