#include "reading/lesson.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>

#include "bag/generic.hpp"

using namespace strikewright;

namespace {

LessonReading lesson(const std::string& text, LessonOptions options = {}) {
  options.bag = generic_bag();
  const auto swings = read_table(text, {.file = "lesson.csv"});
  REQUIRE(swings.has_value());
  const auto reading = read_lesson(*swings, options, "lesson.csv");
  REQUIRE(reading.has_value());
  return *reading;
}

double worst_gap(const LessonReading& a, const LessonReading& b) {
  REQUIRE(a.swings.size() == b.swings.size());
  double worst = 0.0;
  for (std::size_t i = 0; i < a.swings.size(); ++i)
    for (std::size_t k = 0; k < kReported; ++k)
      worst = std::max({worst, std::abs(a.swings[i].reading.at[k].mean - b.swings[i].reading.at[k].mean),
                        std::abs(a.swings[i].reading.at[k].p90 - b.swings[i].reading.at[k].p90)});
  return worst;
}

}  // namespace

TEST_CASE("a left-hander's mirrored evidence gives the same figures in the player's terms") {
  const LessonReading right = lesson(
      "club,hand,start_deg,curve_m,divot_direction_deg,path_deg,spin_axis_deg,contact\n"
      "7i,right,3,-12,4,2.5,-6,clean\n");
  const LessonReading left = lesson(
      "club,hand,start_deg,curve_m,divot_direction_deg,path_deg,spin_axis_deg,contact\n"
      "7i,left,-3,12,-4,2.5,6,clean\n");
  CHECK(worst_gap(right, left) < 1e-9);
}

TEST_CASE("words mirror too: a left-hander's ball that curves right is a right-hander's that curves left") {
  const LessonReading right = lesson("club,hand,start,curve\n7i,right,left,big_left\n");
  const LessonReading left = lesson("club,hand,start,curve\n7i,left,right,big_right\n");
  CHECK(worst_gap(right, left) < 1e-9);
}

TEST_CASE("a side wind blows the left-hander's mirrored ball the mirrored way") {
  LessonOptions from_left, from_right;
  from_left.day.wind_across = 5.0;
  from_right.day.wind_across = -5.0;
  const LessonReading right = lesson("club,hand,start_deg,curve_m\n7i,right,1,6\n", from_left);
  const LessonReading left = lesson("club,hand,start_deg,curve_m\n7i,left,-1,-6\n", from_right);
  CHECK(worst_gap(right, left) < 1e-9);
}

TEST_CASE("yards and inches give the same reading as metres and millimetres") {
  const LessonReading metric =
      lesson("club,carry_m,divot_start_mm,club_speed_mps\n7i,109.728,25.4,35.7632\n");
  const LessonReading yards = lesson("club,carry_yd,divot_start_in,club_speed_mph\n7i,120,1,80\n");
  CHECK(worst_gap(metric, yards) < 1e-9);
}

TEST_CASE("a lesson reads the same on one core and on all") {
  const std::string text =
      "club,start_deg,contact,divot_start_mm\n7i,1,clean,10\n7i,-2,fat,-40\n7i,0,thin,\n6i,3,clean,20\n";
  LessonOptions one;
  one.threads = 1;
  CHECK(worst_gap(lesson(text, one), lesson(text)) == 0.0);
}

TEST_CASE("swings of one club and condition make one pattern") {
  const LessonReading r = lesson(
      "club,condition,divot_start_mm\n7i,normal,10\n7i,lead_leg,60\n7i,normal,-10\n8i,normal,0\n7i,lead_leg,"
      "70\n");
  REQUIRE(r.patterns.size() == 3);
  CHECK(r.patterns[0].n == 2);
  CHECK(r.patterns[1].condition == Condition::lead_leg);
  CHECK(r.patterns[1].n == 2);
  CHECK(r.patterns[2].club == "8i");
  const auto low = [&](std::size_t i) { return r.patterns[i].mean[0].mean; };
  CHECK(low(1) > low(0));  // lead leg: turf struck further forward
}

TEST_CASE("a club that is not in the bag is named with its place") {
  LessonOptions options;
  options.bag = {*club_named(generic_bag(), "7i")};
  const auto swings = read_table("club,start_deg\n7i,1\n6i,2\n", {.file = "lesson.csv"});
  REQUIRE(swings.has_value());
  const auto reading = read_lesson(*swings, options, "lesson.csv");
  REQUIRE(!reading.has_value());
  CHECK(reading.error().place.find("lesson.csv:3") != std::string::npos);
}

TEST_CASE("the order of the rows changes nothing") {
  const LessonReading a = lesson("club,contact,divot_start_mm\n7i,clean,10\n7i,fat,-40\n7i,thin,5\n");
  const LessonReading b = lesson("club,contact,divot_start_mm\n7i,thin,5\n7i,clean,10\n7i,fat,-40\n");
  for (std::size_t k = 0; k < kReported; ++k) {
    CHECK(a.patterns[0].mean[k].mean == b.patterns[0].mean[k].mean);
    CHECK(a.swings[0].reading.at[k].p90 == b.swings[1].reading.at[k].p90);
  }
}

TEST_CASE("a blank column changes not one bit") {
  const LessonReading a = lesson("club,contact,divot_start_mm\n7i,clean,10\n7i,fat,-40\n");
  const LessonReading b =
      lesson("club,contact,divot_start_mm,carry_m,shaft_lean_deg\n7i,clean,10,,\n7i,fat,-40,,\n");
  CHECK(worst_gap(a, b) == 0.0);
}

TEST_CASE("left-handed and right-handed rows of one file are two players") {
  const LessonReading r = lesson("club,hand,divot_start_mm\n7i,right,10\n7i,left,-60\n7i,right,12\n");
  REQUIRE(r.groups.size() == 2);
  CHECK(r.groups[0].swings.size() == 2);
  CHECK(r.groups[1].hand == Hand::left);
}

TEST_CASE("two swings of which little was seen do not scatter more than players differ") {
  const LessonReading r = lesson("club,start,curve,contact\n7i,right,left,thin\n7i,,,clean\n");
  for (std::size_t k = 0; k < kReported; ++k) {
    INFO(kReportedFields[k].key);
    CHECK(r.patterns[0].scatter[k].mean <= r.patterns[0].scatter[k].prior_sd);
  }
}
