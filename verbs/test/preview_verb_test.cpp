#include "verbs/preview_verb.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "verbs/words_verb.hpp"

using namespace strikewright;

namespace {

Document preview(const PreviewAsked& asked) {
  const auto out = preview_of(asked);
  REQUIRE_MESSAGE(out.has_value(), out.error().front().sentence());
  return *out;
}

std::string ours_of(const Document& out, const std::string& theirs) {
  for (const Document& column : out.at("columns"))
    if (column.at("theirs") == theirs) return column.at("ours");
  return "?";
}

}  // namespace

TEST_CASE("columns with our names, or nearly, are recognised; strangers are left out") {
  const Document out = preview({.text = "Carry m,club speed mps,Operator,divot_start_cm\n120,34,AB,-3\n"});
  CHECK(ours_of(out, "Carry m") == "carry_m");
  CHECK(ours_of(out, "club speed mps") == "club_speed_mps");
  CHECK(ours_of(out, "Operator").empty());
  REQUIRE(out.at("faults").empty());
  REQUIRE(out.at("swings").size() == 1);
  CHECK(out.at("swings")[0].at("club") == "7i");
  CHECK(out.at("swings")[0].at("seen").size() == 3);
  CHECK(out.at("swings")[0].at("seen")[0] == Document{{"column", "carry_m"}, {"text", "120"}});
}

TEST_CASE("what the coach says about a column is taken, not guessed") {
  const Document out = preview(
      {.text = "Distance,Ball\n131,66\n", .columns = {{"Distance", "carry_yd"}, {"Ball", "ball_speed_mps"}}});
  CHECK(ours_of(out, "Distance") == "carry_yd");
  CHECK(out.at("columns")[0].at("guessed") == false);
  CHECK(out.at("swings")[0].at("seen")[1].at("column") == "ball_speed_mps");
}

TEST_CASE("semicolons, tabs and decimal commas are read") {
  for (const char* text : {"carry_m;attack_deg\n120,5;-3,1\n", "carry_m\tattack_deg\n120,5\t-3,1\n",
                           "carry_m,attack_deg\n120.5,-3.1\n"}) {
    CAPTURE(text);
    const Document out = preview({.text = text});
    REQUIRE(out.at("faults").empty());
    CHECK(out.at("swings")[0].at("seen")[0].at("text") == "120.5");
    CHECK(out.at("swings")[0].at("seen")[1].at("text") == "-3.1");
  }
}

TEST_CASE("a wrong cell is named by the line of the coach's own file, and nothing is offered to be kept") {
  const Document out = preview({.text = "carry_m\n# remark\n120\n\nfar\n"});
  REQUIRE(out.at("faults").size() == 1);
  CHECK(out.at("faults")[0].at("place").get<std::string>().starts_with("file:5:"));
  CHECK(out.at("swings").empty());
  CHECK(out.at("rows").size() == 2);
}

TEST_CASE("a column twice, an unknown column, the other hand and an empty file are said") {
  CHECK(
      preview({.text = "a,b\n1,2\n", .columns = {{"a", "carry_m"}, {"b", "carry_m"}}}).at("faults").size() ==
      1);
  const Document unknown = preview({.text = "a\n1\n", .columns = {{"a", "carri_m"}}});
  REQUIRE(unknown.at("faults").size() == 1);
  CHECK(unknown.at("faults")[0].at("expected").get<std::string>().find("carry_m") != std::string::npos);
  const Document hand = preview({.text = "carry_m,hand\n100,left\n"});
  REQUIRE(hand.at("faults").size() == 1);
  CHECK(hand.at("faults")[0].at("place") == "file:2, hand");
  CHECK(!preview_of({.text = ""}));
  CHECK(!preview_of({.text = "\"a\n"}));
}

TEST_CASE("a club, condition or time of the row's own is taken over") {
  const Document out = preview({.text = "club,condition,time,carry_m\npw,lead_leg,2026-11-20T10:00,90\n"});
  REQUIRE(out.at("faults").empty());
  CHECK(out.at("swings")[0].at("club") == "pw");
  CHECK(out.at("swings")[0].at("condition") == "lead_leg");
  CHECK(out.at("swings")[0].at("at") == "2026-11-20T10:00");
}

TEST_CASE("the words that a page may offer are those that a sightings file takes") {
  const auto words = entry_words("");
  REQUIRE(words);
  CHECK(words->at("clubs").size() == 15);
  CHECK(words->at("conditions")[0].at("name") == "normal");
  CHECK(words->at("surfaces").size() == 7);
  for (const Document& column : words->at("columns")) {
    const std::string cell =
        column.contains("words") ? column.at("words")[0].get<std::string>() : column.at("high").dump();
    const Document out = preview({.text = column.at("name").get<std::string>() + "\n" + cell + "\n"});
    CAPTURE(column.dump());
    CHECK(out.at("faults").empty());
  }
}
