// What a coach sees when club, ball and ground meet. Trade facts: common practice, no source.

#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "passes.hpp"
#include "rows.hpp"

using namespace strikewright;
using namespace strikewright::test;

namespace {

Pass<double> fat_pass() {
  Pass<double> p = clean_pass();
  p.low_point = -0.050;
  p.low_point_depth = -0.008;
  return p;
}

Pass<double> with(Pass<double> p, double Pass<double>::*what, double value) {
  p.*what = value;
  return p;
}

double divot_length(const Strike<double>& s) { return s.divot.end - s.divot.start; }

}  // namespace

TEST_CASE("a good iron strike takes the ball first, then the turf in front of it") {
  const Pass<double> pass = clean_pass();
  const Strike<double> s = struck(pass);
  const double edge = delivery_of(pass, sample_seven_iron(), Ball{}, 0.0).edge_along;
  CHECK(s.speed_left > 0.999);
  CHECK(s.turf_before < 1e-6);
  CHECK(s.grass < 0.02);
  CHECK(s.divot.any);
  CHECK(s.divot.start >
        edge - 0.015);  // the leading edge is about 1 cm behind the ball's centre when they meet
  CHECK(s.divot.deepest_at > 0.02);
  CHECK(s.divot.end > s.divot.deepest_at);
}

TEST_CASE("a fat strike spends its speed on the turf") {
  const Strike<double> clean = struck(clean_pass());
  const Strike<double> fat = struck(fat_pass());
  CHECK(fat.divot.start < -0.10);
  CHECK(fat.speed_left < 0.85);
  CHECK(fat.launch.speed < 0.8 * clean.launch.speed);
  CHECK(fat.grass > 0.9);
  CHECK(fat.launch.spin < 0.8 * clean.launch.spin);
}

TEST_CASE("the further behind the ball the turf is met, the more speed is gone") {
  double before = 1.0;
  for (double low = 0.10; low > -0.13; low -= 0.02) {
    const double left = struck(with(fat_pass(), &Pass<double>::low_point, low)).speed_left;
    CHECK(left < before);
    before = left;
  }
}

TEST_CASE("a mat hides a fat strike: little speed lost, no divot") {
  const Strike<double> turf = struck(fat_pass());
  const Strike<double> mat = struck(fat_pass(), Surface::mat);
  CHECK_FALSE(mat.divot.any);
  CHECK(mat.divot.depth <= 0.0);
  CHECK(mat.turf_before == 0.0);
  CHECK(mat.grass == 0.0);
  CHECK(1.0 - mat.speed_left < 0.5 * (1.0 - turf.speed_left));
  CHECK(mat.launch.speed > 0.9 * struck(clean_pass(), Surface::mat).launch.speed);
}

TEST_CASE("a lower arc takes a deeper, longer divot and more energy") {
  Strike<double> before = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.0));
  for (double depth = -0.002; depth > -0.013; depth -= 0.002) {
    const Strike<double> s = struck(with(clean_pass(), &Pass<double>::low_point_depth, depth));
    CHECK(s.divot.depth > before.divot.depth);
    CHECK(divot_length(s) > divot_length(before));
    CHECK(s.energy_lost > before.energy_lost);
    before = s;
  }
}

TEST_CASE("the divot moves with the low point") {
  const Strike<double> back = struck(with(clean_pass(), &Pass<double>::low_point, 0.06));
  const Strike<double> forward = struck(with(clean_pass(), &Pass<double>::low_point, 0.14));
  CHECK(forward.divot.start > back.divot.start);
  CHECK(forward.divot.deepest_at > back.divot.deepest_at + 0.03);
  CHECK(forward.divot.end > back.divot.end + 0.05);
}

TEST_CASE("exposed bounce lifts the head, bounce gone lets the leading edge dig") {
  // Chalk line, no ball, so that the turf alone moves the head off its arc of 6 mm depth.
  Pass<double> p = with(clean_pass(), &Pass<double>::low_point_depth, -0.006);
  const auto depth_at = [&](double lean_deg, Surface surface) {
    return struck(with(p, &Pass<double>::shaft_lean, lean_deg * kDegree), surface, sample_seven_iron(), false)
        .divot.depth;
  };
  CHECK(depth_at(-8.0, Surface::fairway) < 0.006 - 0.0005);
  CHECK(depth_at(-8.0, Surface::fairway) < depth_at(0.0, Surface::fairway));
  CHECK(depth_at(0.0, Surface::fairway) < depth_at(10.0, Surface::fairway));
  CHECK(depth_at(10.0, Surface::fairway) > 0.006);
  CHECK(depth_at(-8.0, Surface::fairway_firm) < depth_at(-8.0, Surface::fairway_soft));
}

TEST_CASE("no bounce on the path, no lift: the sole's force is gone") {
  const Club club = sample_seven_iron();
  const Delivery<double> d = delivery_of(with(fat_pass(), &Pass<double>::shaft_lean, 0.3), club, Ball{}, 0.0);
  REQUIRE(d.exposed_bounce < -2.0 * kDegree);
  // The same club without a sole to speak of cuts the same mark.
  Club thin = club;
  thin.sole_width = 1e-6;
  const Strike<double> a = strike_of(d, club, Ball{}, Ground{}, false);
  const Strike<double> b = strike_of(d, thin, Ball{}, Ground{}, false);
  CHECK(a.divot.depth == doctest::Approx(b.divot.depth).epsilon(0.01));
}

TEST_CASE("the toe side is deeper when the toe hangs down, the heel side when it stands up") {
  const Strike<double> down = struck(with(clean_pass(), &Pass<double>::lie_offset, 4.0 * kDegree));
  const Strike<double> up = struck(with(clean_pass(), &Pass<double>::lie_offset, -4.0 * kDegree));
  CHECK(down.divot.toe_depth > 0.001);
  CHECK(up.divot.toe_depth < -0.001);
}

TEST_CASE("the divot points where the club was going") {
  for (const double deg : {-6.0, 0.0, 6.0}) {
    const Pass<double> p = with(clean_pass(), &Pass<double>::plane_direction, deg * kDegree);
    Pass<double> square = p;  // face with the plane: little kick sideways from the ball
    CHECK(std::abs(struck(square).divot.direction / kDegree - deg) < 2.0);
  }
  const Strike<double> left = struck(with(clean_pass(), &Pass<double>::plane_direction, -0.1));
  const Strike<double> right = struck(with(clean_pass(), &Pass<double>::plane_direction, 0.1));
  CHECK(right.divot.direction - left.divot.direction == doctest::Approx(0.2).epsilon(0.1));
}

TEST_CASE("without a ball the same arc leaves its mark, a little shallower") {
  const Strike<double> ball = struck(clean_pass());
  const Strike<double> chalk = struck(clean_pass(), Surface::fairway, sample_seven_iron(), false);
  CHECK(chalk.divot.any);
  CHECK(chalk.divot.depth > 0.002);
  CHECK(chalk.divot.depth < ball.divot.depth);  // the ball pushes the head down
  CHECK(chalk.divot.start >= ball.divot.start);
  CHECK(chalk.divot.start - ball.divot.start < 0.015);
  CHECK(chalk.launch.speed == 0.0);
  CHECK(chalk.launch.spin == 0.0);
  CHECK(chalk.launch.axis_tilt == 0.0);
}

TEST_CASE("a club that stays over the turf leaves no mark and loses nothing") {
  const Strike<double> s = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.009));
  CHECK_FALSE(s.divot.any);
  CHECK(s.divot.depth < -0.002);
  CHECK(s.divot.start == s.divot.deepest_at);
  CHECK(s.divot.end == s.divot.deepest_at);
  CHECK(s.energy_lost == 0.0);
  CHECK(s.speed_left == 1.0);
  CHECK(s.divot.toe_depth == 0.0);
  const Strike<double> chalk = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.009),
                                      Surface::fairway, sample_seven_iron(), false);
  // The free arc itself: series for the arc's height, 1e-9 m; its low point found between two nodes, 1e-5 m.
  CHECK(chalk.divot.depth == doctest::Approx(-0.009).epsilon(1e-6));
  CHECK(std::abs(chalk.divot.deepest_at - 0.100) < 1e-4);
}

TEST_CASE("as the arc rises the divot shrinks into its low point without a jump") {
  // 0.05 mm at a time; the mark's ends may move by the root of it near the end: less than 8 mm a step.
  Strike<double> before = struck(with(clean_pass(), &Pass<double>::low_point_depth, -0.006));
  for (int k = 1; k <= 300; ++k) {
    const Strike<double> s = struck(with(clean_pass(), &Pass<double>::low_point_depth, -0.006 + 5e-5 * k));
    CHECK(std::abs(s.divot.start - before.divot.start) < 0.008);
    CHECK(std::abs(s.divot.end - before.divot.end) < 0.008);
    CHECK(std::abs(s.divot.deepest_at - before.divot.deepest_at) < 0.003);
    CHECK(std::abs(s.divot.depth - before.divot.depth) < 2e-4);
    CHECK(std::abs(s.launch.speed - before.launch.speed) < 0.5);
    before = s;
  }
}

TEST_CASE("grass between face and ball cuts a wedge's spin") {
  Pass<double> p = clean_pass();
  p.club_speed = 32.0;
  const Strike<double> fairway = struck(p, Surface::fairway, sample_wedge());
  const Strike<double> rough = struck(p, Surface::rough, sample_wedge());
  CHECK(rough.grass > fairway.grass);
  CHECK(rough.launch.spin < 0.9 * fairway.launch.spin);
  CHECK(rough.launch.elevation > fairway.launch.elevation);
}

TEST_CASE("thin is low on the face, bladed is under it, topped goes into the ground") {
  const Strike<double> clean = struck(clean_pass());
  const Strike<double> thin = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.004));
  const Strike<double> bladed = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.010));
  const Strike<double> topped = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.026));
  CHECK(thin.strike_up < clean.strike_up - 0.005);
  CHECK(thin.launch.elevation < clean.launch.elevation);
  CHECK_FALSE(thin.bladed);
  CHECK(bladed.bladed);
  CHECK(bladed.strike_up < 0.0);
  CHECK(bladed.launch.elevation < thin.launch.elevation);
  CHECK(topped.launch.elevation < 0.0);
  CHECK(topped.launch.speed > 5.0);
}

TEST_CASE("a club over the top of the ball moves nothing, and the last graze fades") {
  const Strike<double> over = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.060));
  CHECK(over.missed);
  CHECK(over.launch.speed == 0.0);
  CHECK(over.launch.elevation == 0.0);
  double before = struck(with(clean_pass(), &Pass<double>::low_point_depth, 0.030)).launch.speed;
  for (double depth = 0.0301; depth < 0.046; depth += 1e-4) {
    const double speed = struck(with(clean_pass(), &Pass<double>::low_point_depth, depth)).launch.speed;
    CHECK(std::isfinite(speed));
    CHECK(std::abs(speed - before) < 2.5);
    before = speed;
  }
}

TEST_CASE("off the hosel the ball shoots right and short") {
  const Strike<double> middle = struck(clean_pass());
  const Strike<double> shank = struck(with(clean_pass(), &Pass<double>::strike_toe, -0.045));
  CHECK(shank.off_face);
  CHECK(shank.launch.azimuth > middle.launch.azimuth + 20.0 * kDegree);
  CHECK(shank.launch.speed < 0.7 * middle.launch.speed);
  double before = struck(with(clean_pass(), &Pass<double>::strike_toe, -0.034)).launch.azimuth;
  for (double toe = -0.0341; toe > -0.05; toe -= 1e-4) {
    const double azimuth = struck(with(clean_pass(), &Pass<double>::strike_toe, toe)).launch.azimuth;
    CHECK(std::abs(azimuth - before) < 1.5 * kDegree);
    before = azimuth;
  }
}

TEST_CASE("past the toe or over the top line little is left of the strike") {
  const Strike<double> middle = struck(clean_pass());
  const Strike<double> toe = struck(with(clean_pass(), &Pass<double>::strike_toe, 0.052));
  CHECK(toe.off_face);
  CHECK(toe.launch.speed < 0.7 * middle.launch.speed);
  const Strike<double> under =
      struck(with(clean_pass(), &Pass<double>::low_point_depth, -0.012), Surface::tee);
  CHECK(under.strike_up > middle.strike_up);
}

TEST_CASE("a bulging driver face starts a toe strike right and brings it back") {
  Pass<double> p = clean_pass();
  p.club_speed = 45.0;
  p.low_point = -0.08;
  p.low_point_depth = 0.012;
  p.shaft_lean = 0.0;
  p.face_turn = 0.0;
  p.plane_direction = 0.0;
  p.closing_rate = 0.0;
  const Club driver = sample_driver();
  const Strike<double> middle = struck(p, Surface::tee, driver);
  const Strike<double> toe = struck(with(p, &Pass<double>::strike_toe, 0.015), Surface::tee, driver);
  CHECK(toe.launch.azimuth > middle.launch.azimuth + 2.0 * kDegree);
  CHECK(toe.launch.axis_tilt < middle.launch.axis_tilt);
  CHECK_FALSE(middle.divot.any);
  CHECK(middle.energy_lost == 0.0);
}

TEST_CASE("a closing face drags a driver's contact point left of where its weight goes") {
  const Club driver = sample_driver();
  Delivery<double> d =
      delivery_of(with(clean_pass(), &Pass<double>::low_point_depth, 0.012), driver, Ball{}, 0.030);
  const Strike<double> quiet = strike_of(d, driver, Ball{}, Ground{Surface::tee});
  d.w_WH_W.z() += 40.0;
  CHECK(strike_of(d, driver, Ball{}, Ground{Surface::tee}).launch.azimuth < quiet.launch.azimuth);
}

TEST_CASE("a range ball comes off slower") {
  Ball range;
  range.restitution_scale = 0.93;
  const Club club = sample_seven_iron();
  const Delivery<double> d = delivery_of(clean_pass(), club, range, 0.0);
  CHECK(strike_of(d, club, range, Ground{}).launch.speed < strike_of(d, club, Ball{}, Ground{}).launch.speed);
}

TEST_CASE("harder ground today takes more out of a fat strike") {
  const Club club = sample_seven_iron();
  const Delivery<double> d = delivery_of(fat_pass(), club, Ball{}, 0.0);
  const Strike<double> soft = strike_of(d, club, Ball{}, Ground{Surface::fairway, 0.5});
  const Strike<double> hard = strike_of(d, club, Ball{}, Ground{Surface::fairway, 1.5});
  CHECK(hard.speed_left < soft.speed_left);
}

TEST_CASE("every drawn strike is finite and loses, never gains") {
  Draws draws(99);
  for (int k = 0; k < 20000; ++k) {
    const DrawnPass d = drawn_pass(draws);
    const Strike<double> s = struck(d.pass, d.surface);
    const double all = s.launch.speed + s.launch.elevation + s.launch.azimuth + s.launch.spin +
                       s.launch.axis_tilt + s.divot.start + s.divot.end + s.divot.depth + s.divot.direction +
                       s.divot.deepest_at + s.divot.toe_depth + s.energy_lost + s.attack_at_ball;
    REQUIRE(std::isfinite(all));
    CHECK(s.speed_left > 0.0);
    CHECK(s.speed_left <= 1.0);
    CHECK(s.energy_lost >= 0.0);
    CHECK(s.energy_lost < 1.0);
    CHECK(s.divot.start <= s.divot.deepest_at + 1e-9);
    CHECK(s.divot.deepest_at <= s.divot.end + 1e-9);
  }
}

TEST_CASE("a typical 7-iron's divot is of the measured size") {
  // The published figures are means over golfers and clubs; nothing in the model was fitted to them. The
  // model's mark is measured where the leading edge passes the surface, bruised leaf included, and comes out
  // longer than turf that is missing. Volume: depth runs over the length as a parabola, two thirds of depth
  // times length times width.
  std::map<std::string, double> published;
  for (const Row& row : rows_of("impact_divots.csv")) published[row.text("what")] = row.number("value");
  const Club club = sample_seven_iron();
  for (const Surface surface : {Surface::fairway_soft, Surface::fairway, Surface::fairway_firm}) {
    const Strike<double> s = struck(clean_pass(), surface);
    const double length = divot_length(s) * 1e3;
    const double volume = 2.0 / 3.0 * s.divot.depth * divot_length(s) * club.blade_length * 1e6;
    MESSAGE("surface " << int(surface) << ": start " << s.divot.start * 1e3 << " mm, deepest at "
                       << s.divot.deepest_at * 1e3 << " mm, length " << length << " mm, depth "
                       << s.divot.depth * 1e3 << " mm, volume " << volume << " cm3, energy "
                       << s.energy_lost);
    CHECK(length < 2.5 * published["length"]);
    CHECK(length > published["length"] / 2.5);
    CHECK(volume < published["volume_largest_mean"]);
    CHECK(volume > published["volume_smallest_mean"]);
  }
}

TEST_CASE("how much the turf's strength matters, halved and doubled") {
  const Club club = sample_seven_iron();
  const auto at = [&](const Pass<double>& pass, double strength) {
    return strike_of(delivery_of(pass, club, Ball{}, 0.0), club, Ball{}, Ground{Surface::fairway, strength});
  };
  for (const double strength : {0.5, 1.0, 2.0}) {
    const Strike<double> clean = at(clean_pass(), strength);
    const Strike<double> fat = at(fat_pass(), strength);
    MESSAGE("strength " << strength << ": clean divot " << clean.divot.start * 1e3 << " to "
                        << clean.divot.end * 1e3 << " mm, " << clean.divot.depth * 1e3
                        << " mm deep; fat speed left " << fat.speed_left << ", ball " << fat.launch.speed
                        << " of " << clean.launch.speed << " m/s");
  }
  // The mark's place is geometry; what the turf takes is not.
  CHECK(std::abs(at(clean_pass(), 2.0).divot.start - at(clean_pass(), 0.5).divot.start) < 0.002);
  CHECK(at(fat_pass(), 2.0).speed_left < at(fat_pass(), 0.5).speed_left - 0.1);
}
