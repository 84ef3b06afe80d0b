#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "sighting/row.hpp"
#include "sighting/table.hpp"

using namespace strikewright;
using namespace std::string_view_literals;

namespace {

struct Case {
  std::string_view text, place, found, expected;  ///< found and expected: a part of what is said
};

void refuse(const Case& c) {
  const auto got = read_table(c.text, {.file = "day.csv"});
  INFO(c.text);
  REQUIRE(!got.has_value());
  const Fault& fault = got.error();
  CHECK(fault.place == c.place);
  CHECK_MESSAGE(fault.found.find(c.found) != std::string::npos, fault.found);
  CHECK_MESSAGE(fault.expected.find(c.expected) != std::string::npos, fault.expected);
}

}  // namespace

TEST_CASE("a header that is wrong is refused where it is wrong") {
  for (const Case& c : std::vector<Case>{
           {"club,cary_m\n7i,1\n", "day.csv:1:2, cary_m", "'cary_m'", "did you mean 'carry_m'?"},
           {"club,divot_start\n7i,1\n", "day.csv:1:2, divot_start", "'divot_start'",
            "did you mean 'divot_start_mm'?"},
           {"club,weather\n7i,1\n", "day.csv:1:2, weather", "'weather'", "a column of the sightings file"},
           {"club,carry_m,carry_m\n7i,1,1\n", "day.csv:1:3, carry_m", "a second time (first in cell 2)",
            "once"},
           {"club,carry_m,carry_yd\n7i,1,1\n", "day.csv:1:3, carry_yd",
            "'carry_yd' beside 'carry_m' (cell 2)", "one unit"},
           {"carry_m\n100\n", "day.csv:1, club", "no column 'club'", "a column 'club'"},
           {"club,,carry_m\n7i,,1\n", "day.csv:1:2", "without a name", "a column name"},
           {"club,sure_carry_m\n7i,1\n", "day.csv:1:2, sure_carry_m", "'sure_carry_m'", "a column 'carry_m'"},
           {"club,carry_m,sure_cary_m\n7i,1,1\n", "day.csv:1:3, sure_cary_m", "'sure_cary_m'",
            "did you mean 'sure_carry_m'?"},
           {"club,contact,sure_contact\n7i,fat,1\n", "day.csv:1:3, sure_contact", "'sure_contact'",
            "measured column"},
           {"club,carry_m,sure_carry_m,sure_carry_yd\n7i,1,1,1\n", "day.csv:1:4, sure_carry_yd",
            "beside 'sure_carry_m'", "one spread"},
           {"7i,-20,left\n7i,-30,left\n", "day.csv:1:1", "looks like a swing, '7i'", "a header"},
           {"-20,30\n-30,20\n", "day.csv:1:1", "looks like a swing", "a header"},
           {"club;carry_m\n7i;100\n", "day.csv:1:1", "semicolons", "commas"},
           {"club\tcarry_m\n7i\t100\n", "day.csv:1:1", "tabs", "commas"},
       }) {
    refuse(c);
  }
}

TEST_CASE("a cell that is no number is refused with a hint") {
  for (const Case& c : std::vector<Case>{
           {"club,carry_m\n7i,far\n", "day.csv:2:2, carry_m", "'far'", "a number in m"},
           {"club,carry_m\n\n# x\n7i,100\n7i,far\n", "day.csv:5:2, carry_m", "'far'", "a number in m"},
           {"club,carry_m\n7i,\"103,5\"\n", "day.csv:2:2, carry_m", "'103,5'", "write 103.5"},
           {"club,carry_m\n7i,103,5\n", "day.csv:2:3", "3 cells",
            "2 cells, as in the header (a decimal comma"},
           {"club,carry_m\n7i,100m\n", "day.csv:2:2, carry_m", "'100m'", "write 100"},
           {"club,carry_m\n7i,nan\n", "day.csv:2:2, carry_m", "'nan'", "a number"},
           {"club,carry_m\n7i,1e400\n", "day.csv:2:2, carry_m", "'1e400'", "a number"},
           {"club,carry_m,path_deg\n7i,100\n", "day.csv:2:3", "2 cells", "3 cells, as in the header"},
           {"club,swing\n7i,first\n", "day.csv:2:2, swing", "'first'", "a number"},
           {"club,time\n7i,yesterday\n", "day.csv:2:2, time", "'yesterday'", "2026-11-25T10:30:00"},
       }) {
    refuse(c);
  }
}

TEST_CASE("an absurd value is refused with what it may be, in the column's unit") {
  for (const Case& c : std::vector<Case>{
           {"club,ball_speed_mps\n7i,250\n", "day.csv:2:2, ball_speed_mps", "'250'",
            "a number from 0 to 100 mps"},
           {"club,ball_speed_mph\n7i,250\n", "day.csv:2:2, ball_speed_mph", "'250'",
            "a number from 0 to 223.7 mph"},
           {"club,carry_m\n7i,-5\n", "day.csv:2:2, carry_m", "'-5'", "from 0 to 400 m"},
           {"club,divot_start_mm\n7i,20000\n", "day.csv:2:2, divot_start_mm", "'20000'",
            "from -1000 to 500 mm"},
           {"club,path_deg\n7i,170\n", "day.csv:2:2, path_deg", "'170'", "from -45 to 45 deg"},
           {"club,strike_groove\n7i,99\n", "day.csv:2:2, strike_groove", "'99'", "from -5 to 30"},
           {"club,path_deg,sure_path_deg\n7i,1,0\n", "day.csv:2:3, sure_path_deg", "'0'", "over 0"},
           {"club,path_deg,sure_path_deg\n7i,1,-2\n", "day.csv:2:3, sure_path_deg", "'-2'", "over 0"},
       }) {
    refuse(c);
  }
}

TEST_CASE("a word that is not in the list is refused with the list") {
  for (const Case& c : std::vector<Case>{
           {"club,contact\n7i,thick\n", "day.csv:2:2, contact", "'thick'",
            "clean, fat, thin, topped or shank"},
           {"club,contact\n7i,claen\n", "day.csv:2:2, contact", "'claen'", "did you mean 'clean'?"},
           {"club,start\n7i,strait\n", "day.csv:2:2, start", "'strait'", "did you mean 'straight'?"},
           {"club,hand\n7i,lefty\n", "day.csv:2:2, hand", "'lefty'", "right or left, did you mean 'left'?"},
           {"club,ball\n7i,maybe\n", "day.csv:2:2, ball", "'maybe'", "yes or no"},
           {"club,condition\n7i,leadleg\n", "day.csv:2:2, condition", "'leadleg'",
            "did you mean 'lead_leg'?"},
           {"club,surface\n7i,grass\n", "day.csv:2:2, surface", "'grass'",
            "fairway_soft, fairway, fairway_firm, rough, sand, mat or tee"},
           {"club,contact\n,fat\n", "day.csv:2:1, club", "nothing", "the club's name"},
       }) {
    refuse(c);
  }
}

TEST_CASE("cells that cannot both be true are refused, naming both") {
  for (const Case& c : std::vector<Case>{
           {"club,ball,carry_m\n7i,no,100\n", "day.csv:2:3, carry_m", "'100' with ball = no", "nothing"},
           {"club,contact,ball\n7i,clean,no\n", "day.csv:2:2, contact", "'clean' with ball = no", "nothing"},
           {"club,divot,divot_start_mm\n7i,none,-20\n", "day.csv:2:3, divot_start_mm",
            "'-20' with divot = none", "nothing"},
           {"club,divot_begins,divot\n7i,before,none\n", "day.csv:2:2, divot_begins",
            "'before' with divot = none", "nothing"},
           {"club,divot,divot_depth_mm\n7i,none,8\n", "day.csv:2:3, divot_depth_mm", "'8' with divot = none",
            "nothing"},
           {"club,divot,surface\n7i,deep,mat\n", "day.csv:2:2, divot", "'deep' with surface = mat",
            "a mat takes no divot"},
       }) {
    refuse(c);
  }
  CHECK(read_table("club,divot,divot_depth_mm\n7i,none,0\n", {}).has_value());
  CHECK(read_table("club,divot,surface\n7i,none,mat\n", {}).has_value());
  CHECK(read_table("club,ball,divot_start_mm,divot\n7i,no,-20,deep\n", {}).has_value());
}

TEST_CASE("what is no text file of swings is refused") {
  for (const Case& c : std::vector<Case>{
           {"", "day.csv", "an empty file", "a header row"},
           {"\n\n# nothing\n", "day.csv", "an empty file", "a header row"},
           {"club,carry_m\n", "day.csv", "a header and no swings", "one row for each swing"},
           {"club,carry_m\n7i,1\0\n"sv, "day.csv:2:2", "the byte 0x00", "binary"},
           {"\x89PNG\r\n\x1a\n"sv, "day.csv:1:1", "not UTF-8", "UTF-8"},
           {"\xff\xfe"
            "c\0l\0"sv,
            "day.csv:1:1", "UTF-16", "UTF-8"},
           {"club,contact\n7i,f\xe4t\n", "day.csv:2:2", "not UTF-8", "UTF-8"},
           {"club,carry_m\n\"7i,100\n8i,90\n", "day.csv:2:1", "never closed", "a second \""},
           {"club,carry_m\n7i,10\"0\n", "day.csv:2:2", "a quote inside", "quotes in it doubled"},
           {"club,carry_m\n\"7i\"x,100\n", "day.csv:2:1", "after the closing quote", "a comma"},
       }) {
    refuse(c);
  }
}

TEST_CASE("a cell or a row without end does not fill the memory") {
  refuse({"club,carry_m\n7i," + std::string(10000, '1') + "\n", "day.csv:2:2", "more than 4096 bytes",
          "a number"});
  refuse({"club" + std::string(1000, ',') + "\n", "day.csv:1:257", "more than 256 cells", "a row"});
}

TEST_CASE("times are dates with or without a time of day") {
  for (const char* good : {"2026-11-25", "2026-11-25T10:30", "2026-11-25T10:30:15",
                           "2026-11-25 10:30:15.250Z", "2026-11-25T10:30:00+01:00", "2024-02-29"}) {
    CHECK_MESSAGE(is_iso_time(good), good);
  }
  for (const char* bad : {"", "25.11.2026", "2026-13-01", "2026-11-31", "2026-11-25T", "2026-11-25T24:00",
                          "2026-11-25T10:30:00+1", "2026-11-25T10:30:00Zx", "10:30"}) {
    CHECK_MESSAGE(!is_iso_time(bad), bad);
  }
}
