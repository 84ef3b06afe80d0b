#include "sighting/table.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "quantity/angle.hpp"

using namespace strikewright;

namespace {

TableOptions options() { return {.file = "day.csv"}; }

std::vector<SeenSwing> swings(std::string_view text) {
  const auto got = read_table(text, options());
  REQUIRE_MESSAGE(got.has_value(), got.error().sentence());
  return *got;
}

const Sighting* find(const SeenSwing& swing, Kind kind) {
  for (const Sighting& s : swing.sightings) {
    if (s.kind == kind) return &s;
  }
  return nullptr;
}

double value(const SeenSwing& swing, Kind kind) {
  const Sighting* s = find(swing, kind);
  REQUIRE(s != nullptr);
  return s->value;
}

std::string word(const SeenSwing& swing, Kind kind) {
  const Sighting* s = find(swing, kind);
  REQUIRE(s != nullptr);
  return words_of(kind).at(static_cast<std::size_t>(s->word));
}

}  // namespace

TEST_CASE("a row of a lesson becomes a swing, blanks are not seen") {
  const auto all = swings(
      "club,ball,divot_start_mm,start,carry_m,contact\n"
      "7i,yes,-20,left,,fat\n"
      "7-iron,,,,131.5,\n");
  REQUIRE(all.size() == 2);
  CHECK(all[0].row == 1);
  CHECK(all[0].line == 2);
  CHECK(all[0].club == "7i");
  CHECK(value(all[0], Kind::divot_start) == doctest::Approx(-0.020));
  CHECK(word(all[0], Kind::start_word) == "left");
  CHECK(word(all[0], Kind::contact_word) == "fat");
  CHECK(find(all[0], Kind::carry) == nullptr);
  CHECK(all[0].cells == std::vector<std::string>{"7i", "yes", "-20", "left", "", "fat"});
  CHECK(all[1].sightings.size() == 1);
  CHECK(value(all[1], Kind::carry) == 131.5);
}

TEST_CASE("what is not said is a right-hander's normal swing at a ball on the fairway") {
  const SeenSwing s = swings("club\n7i\n").front();
  CHECK(s.hand == Hand::right);
  CHECK(s.condition == Condition::normal);
  CHECK(s.ball);
  CHECK(s.surface == Surface::fairway);
  CHECK(!s.time);
  CHECK(!s.order);
}

TEST_CASE("hand, condition, ball, surface, time and order are read") {
  const SeenSwing s = swings(
                          "swing,time,club,hand,condition,ball,surface\n"
                          "3,2026-11-25T10:30:00+01:00,PW,Left,lead leg,No,Fairway-Firm\n")
                          .front();
  CHECK(s.order == 3.0);
  CHECK(s.time == "2026-11-25T10:30:00+01:00");
  CHECK(s.hand == Hand::left);
  CHECK(s.condition == Condition::lead_leg);
  CHECK(!s.ball);
  CHECK(s.surface == Surface::fairway_firm);
}

TEST_CASE("yards, inches and miles an hour say the same as metres") {
  const SeenSwing a = swings(
                          "club,carry_m,divot_start_mm,club_speed_mps,apex_m,curve_m,handle_lead_mm\n"
                          "7i,137.16,50.8,35.7632,24.384,9.144,25.4\n")
                          .front();
  const SeenSwing b = swings(
                          "club,carry_yd,divot_start_in,club_speed_mph,apex_ft,curve_yd,handle_lead_in\n"
                          "7i,150,2,80,80,10,1\n")
                          .front();
  for (const Kind k :
       {Kind::carry, Kind::divot_start, Kind::club_speed, Kind::apex, Kind::curve, Kind::handle_lead}) {
    CHECK(value(a, k) == doctest::Approx(value(b, k)).epsilon(1e-12));
  }
}

TEST_CASE("angles and spin come in degrees and turns a minute") {
  const SeenSwing s = swings("club,path_deg,spin_rpm,strike_groove\n7i,-3,6000,3.5\n").front();
  CHECK(value(s, Kind::path) == doctest::Approx(-3 * kDegree));
  CHECK(value(s, Kind::spin) == doctest::Approx(6000 * kRpm));
  CHECK(value(s, Kind::strike_groove) == 3.5);
}

TEST_CASE("the coach's own sureness overrides the default, in either unit") {
  const SeenSwing s = swings(
                          "club,divot_start_mm,sure_divot_start_mm,carry_m,sure_carry_yd,start_deg,sure_"
                          "start,path_deg\n7i,-20,10,130,5,2,1,3\n")
                          .front();
  CHECK(find(s, Kind::divot_start)->sd == doctest::Approx(0.010));
  CHECK(find(s, Kind::carry)->sd == doctest::Approx(5 * kYard));
  CHECK(find(s, Kind::carry)->share == 0.0);
  CHECK(find(s, Kind::start)->sd == doctest::Approx(1 * kDegree));
  CHECK(find(s, Kind::path)->sd == doctest::Approx(1.5 * kDegree));
}

TEST_CASE("sureness of a sighting that was not made says nothing") {
  const SeenSwing s = swings("club,divot_start_mm,sure_divot_start_mm\n7i,,10\n").front();
  CHECK(s.sightings.empty());
}

TEST_CASE("a left-hander's ball to the right is a right-hander's to the left; path and toe stay") {
  const char* header =
      "club,hand,start_deg,curve_m,divot_direction_deg,spin_axis_deg,path_deg,face_deg,strike_toe_mm,start,"
      "curve,toe_heel\n";
  const SeenSwing l =
      swings(std::string(header) + "7i,left,2,10,-3,5,4,1,8,far right,big_left,toe\n").front();
  const SeenSwing r =
      swings(std::string(header) + "7i,right,-2,-10,3,-5,4,1,8,far left,big_right,toe\n").front();
  CHECK(l.sightings == r.sightings);
}

TEST_CASE("quotes, line ends, comments, blank lines and a byte-order mark are the file's business") {
  const auto plain = swings("club,divot_start_mm\n7i,-20\n8i,30\n");
  const std::vector<std::string> same{
      "\xef\xbb\xbf"
      "club,divot_start_mm\n7i,-20\n8i,30\n",
      "club,divot_start_mm\r\n7i,-20\r\n8i,30\r\n",
      "club,divot_start_mm\r7i,-20\r8i,30",
      "# invented\n\nclub,divot_start_mm\n#one\n7i,-20\n\n , \n8i,30\n\n",
      "\"club\",\"divot_start_mm\"\n\"7i\",\"-20\"\n\"8i\" , 30 \n",
      "Club,Divot_Start_mm\n7i,-20\n8i,+30\n",
  };
  for (const std::string& text : same) {
    const auto other = swings(text);
    REQUIRE(other.size() == 2);
    for (std::size_t k = 0; k < 2; ++k) {
      CHECK(other[k].club == plain[k].club);
      CHECK(other[k].sightings == plain[k].sightings);
    }
  }
}

TEST_CASE("a file read in any pieces is the same file") {
  const std::string text =
      "\xef\xbb\xbf# r\xc3\xa4ngen\r\nclub,divot_start_mm,contact\r\n\"7i\",-20,\"fat\"\r\n8i,30,clean\r\n";
  const auto whole = swings(text);
  for (std::size_t piece = 1; piece <= text.size(); ++piece) {
    std::vector<SeenSwing> got;
    TableReader reader{options(), [&](SeenSwing&& s) { got.push_back(std::move(s)); }};
    for (std::size_t at = 0; at < text.size(); at += piece) {
      REQUIRE(reader.feed(std::string_view(text).substr(at, piece)).has_value());
    }
    REQUIRE(reader.finish().value() == 2);
    REQUIRE(got.size() == whole.size());
    for (std::size_t k = 0; k < got.size(); ++k) CHECK(got[k].sightings == whole[k].sightings);
    CHECK(reader.header().size() == 3);
  }
}

TEST_CASE("a club for the whole file stands in for a club in the row") {
  const auto got = read_table("divot_start_mm\n-20\n", {.file = "day.csv", .club = "7i", .hand = Hand::left});
  REQUIRE(got.has_value());
  CHECK(got->front().club == "7i");
  CHECK(got->front().hand == Hand::left);
}

TEST_CASE("too many swings are counted, not kept") {
  std::string text = "club,divot_start_mm\n";
  for (int k = 0; k < 50; ++k) text += "7i,-20\n";
  std::size_t handed = 0;
  TableReader reader{{.file = "day.csv", .most_rows = 10}, [&](SeenSwing&&) { ++handed; }};
  CHECK(reader.feed(text).has_value());
  const auto end = reader.finish();
  REQUIRE(!end.has_value());
  CHECK(end.error() == Fault{"day.csv", "50 swings", "at most 10 swings in one file"});
  CHECK(handed == 10);
}

TEST_CASE("after the first fault nothing more is handed over, but further faults are listed") {
  std::size_t handed = 0;
  TableReader reader{options(), [&](SeenSwing&&) { ++handed; }};
  CHECK(!reader.feed("club,carry_m\n7i,100\n7i,far\n7i,100\n7i,further\n").has_value());
  CHECK(!reader.finish().has_value());
  CHECK(handed == 1);
  REQUIRE(reader.faults().size() == 2);
  CHECK(reader.faults()[1].place == "day.csv:5:2, carry_m");
}
