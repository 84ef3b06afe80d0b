#include "verbs/reading_verb.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace strikewright;

namespace {

std::string demo() {
  std::ifstream in(SOURCE_DIR "/demo/lesson.csv");
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

const char* const kThree =
    "club,hand,condition,start,divot_start_mm,divot_end_mm,divot_direction_deg,strike_toe_mm,strike_up_mm\n"
    "7i,HAND,normal,left,-40,90,-6,-8,14\n"
    "7i,HAND,normal,left,-20,100,,,\n"
    "7i,HAND,lead_leg,straight,10,120,,4,16\n";

/// The same swings for a right-hander, and in a mirror for a left-hander: what is seen changes sides.
std::string three(const std::string& hand) {
  std::string text = kThree;
  for (std::size_t at = text.find("HAND"); at != std::string::npos; at = text.find("HAND"))
    text.replace(at, 4, hand);
  if (hand == "right") return text;
  for (std::size_t at = text.find(",left,-"); at != std::string::npos; at = text.find(",left,-"))
    text.replace(at, 6, ",right,");
  text.replace(text.find(",-6,"), 4, ",6,");
  return text;
}

Document read(const std::string& csv, const std::string& units = "metric") {
  const auto out =
      reading_document({.csv = csv, .units = units, .ids = {"a", "b", "c"}, .numbers = {1, 2, 4}});
  REQUIRE_MESSAGE(out.has_value(), out.error().front().sentence());
  return *out;
}

}  // namespace

TEST_CASE("a lesson's document says first what the club did, then why, then shows it") {
  const auto out = reading_document({.csv = demo()});
  REQUIRE(out);
  CHECK(out->at("n") == 12);
  REQUIRE(out->at("words").size() >= 2);
  CHECK(out->at("words")[0].at("kind") == "pattern");
  CHECK(out->at("words")[0].at("heading") == "7i, 12 swings");
  CHECK(out->at("words")[1].at("kind") == "why");
  CHECK(out->at("words")[0].at("paragraphs")[0].get<std::string>().starts_with("Low point"));
  CHECK(out->at("pictures").size() == out->at("patterns").size());
}

TEST_CASE("clouds are small enough for a phone and lie where the reading says") {
  const auto out = reading_document({.csv = demo()});
  REQUIRE(out);
  const Document& strip = out->at("pictures")[0].at("strip");
  CHECK(strip.at("cloud").size() == 120);
  double mean = 0.0;
  for (const Document& point : strip.at("cloud")) mean += point[0].get<double>() / 120.0;
  const double scatter = out->at("patterns")[0].at("scatter").at("low_point_mm").at("mean");
  const double sd = out->at("patterns")[0].at("mean").at("low_point_mm").at("sd");
  CHECK(std::abs(mean - strip.at("low_point_mm").at("mean").get<double>()) <
        3.0 * std::hypot(scatter, sd) / 3.0);
  CHECK(out->dump().size() < 120'000);
}

TEST_CASE("the arc of a picture is lowest at the low point, and as deep as it says") {
  const Document out = read(three("right"));
  const Document& side = out.at("pictures")[0].at("side");
  double lowest = 1e9, at = 0.0;
  for (const Document& point : side.at("arc"))
    if (point[1].get<double>() < lowest) lowest = point[1], at = point[0];
  const double step = std::abs(side.at("arc")[1][0].get<double>() - side.at("arc")[0][0].get<double>());
  CHECK(std::abs(at - side.at("low_point_mm").at("mean").get<double>()) < step);
  CHECK(std::abs(lowest - side.at("low_point_depth_mm").at("mean").get<double>()) < 3.0);
}

TEST_CASE("divots and marks are shown as they were seen, with the swing they belong to") {
  const Document out = read(three("right"));
  const Document& first = out.at("pictures")[0].at("strip").at("divots")[0];
  CHECK(first.at("id") == "a");
  CHECK(first.at("start_mm") == -40.0);
  CHECK(first.at("end_mm") == 90.0);
  CHECK(first.at("direction_deg") == -6.0);
  CHECK(first.at("depth_mm").is_null());
  const Document& other = out.at("pictures")[1];
  CHECK(other.at("condition") == "lead_leg");
  CHECK(other.at("face").at("marks")[0].at("id") == "c");
  CHECK(other.at("face").at("marks")[0].at("number") == 4);
  CHECK(out.at("swings")[2].at("id") == "c");
}

TEST_CASE("a left-hander's mirrored lesson has the right-hander's pictures") {
  Document right = read(three("right")), left = read(three("left"));
  for (Document* out : {&right, &left})
    for (Document& picture : out->at("pictures")) picture.erase("hand");
  CHECK(right.at("pictures") == left.at("pictures"));
}

TEST_CASE("units change the words and nothing else") {
  Document metric = read(three("right")), yards = read(three("right"), "yards");
  CHECK(metric.at("pictures") == yards.at("pictures"));
  CHECK(metric.at("patterns") == yards.at("patterns"));
  CHECK(metric.at("words")[0].dump().find(" cm") != std::string::npos);
  CHECK(yards.at("words")[0].dump().find(" in ") != std::string::npos);
}

TEST_CASE("in which order the columns stand means nothing, to the last bit") {
  const Document one = read("club,divot_start_mm,contact,start_deg\n7i,-40,fat,2\n7i,-10,clean,-1\n");
  const Document other = read("start_deg,contact,divot_start_mm,club\n2,fat,-40,7i\n-1,clean,-10,7i\n");
  CHECK(one == other);
}

TEST_CASE("a lesson without swings has no figures and one sentence") {
  for (const char* csv : {"", "club,condition\n", "club\n# nothing yet\n\n"}) {
    CAPTURE(csv);
    const auto out = reading_document({.csv = csv});
    REQUIRE(out);
    CHECK(out->at("n") == 0);
    CHECK(out->at("patterns").empty());
    CHECK(out->at("words").size() == 1);
  }
}

TEST_CASE("everything wrong with a lesson is said, with its place") {
  const auto out = reading_document({.csv = "club,carry_m\n7i,far\n99i,100\n7i,10000\n", .name = "lesson"});
  REQUIRE(!out);
  REQUIRE(out.error().size() == 2);
  CHECK(out.error()[0].place == "lesson:2:2, carry_m");
  CHECK(out.error()[1].place == "lesson:4:2, carry_m");
  CHECK(reading_document({.csv = "club\n7i\n", .skill = "great"}).error().front().place == "skill");
  CHECK(reading_document({.csv = "club\n7i\n", .from = "here"}).error().front().place == "from");
  CHECK(reading_document({.csv = "club\n7i\n", .units = "feet"}).error().front().place == "units");
  CHECK(reading_document({.csv = "club\n7i\n", .bag = "{"}).error().front().place.starts_with("bag"));
}

TEST_CASE("a timeline's summary has each pattern's low point and scatter") {
  const Document out = read(three("right"));
  const Document summary = reading_summary(out);
  REQUIRE(summary.at("patterns").size() == 2);
  CHECK(summary.at("patterns")[1].at("condition") == "lead_leg");
  CHECK(summary.at("patterns")[0].at("low_point_mm") == out.at("patterns")[0].at("mean").at("low_point_mm"));
}

TEST_CASE("a next look says what a page has to set for it") {
  const Document out = read(three("right"));
  REQUIRE(!out.at("next_look").empty());
  for (const Document& look : out.at("next_look"))
    CHECK((look.contains("condition") != look.contains("column")));
}
