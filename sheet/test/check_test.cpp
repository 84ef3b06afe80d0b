#include <doctest/doctest.h>

#include <cmath>

#include "sheet/check.hpp"
#include "sheet/sheet.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;

namespace {

// The place that is named when `change` has spoilt a good content; "fine" if nothing is.
template <class Change>
std::string named(Change change, SheetContent content = some::pupil("en")) {
  change(content);
  const Result<void> sound = sheet_sound(content);
  return sound ? "fine" : sound.error().place;
}

}  // namespace

TEST_CASE("a sheet that is enough and not absurd is sound") {
  for (const std::string language : {"en", "de"}) {
    CHECK(sheet_sound(some::pupil(language)).has_value());
    CHECK(sheet_sound(some::summary(language)).has_value());
  }
  SheetContent bare = some::summary("en");
  bare.exercise.reset();
  bare.cautions.clear();
  bare.picture.reset();
  CHECK(sheet_sound(bare).has_value());
}

TEST_CASE("what is missing or absurd is named") {
  using C = SheetContent;
  CHECK(named([](C& c) { c.pupil = " \n "; }) == "sheet.pupil");
  CHECK(named([](C& c) { c.day = "4 May"; }) == "sheet.day");
  CHECK(named([](C& c) { c.next_lesson = "soon"; }) == "sheet.next_lesson");
  CHECK(named([](C& c) { c.made_at = "now"; }) == "sheet.made_at");
  CHECK(named([](C& c) { c.language = "dee"; }) == "sheet.language");
  CHECK(named([](C& c) { c.hand = "both"; }) == "sheet.hand");
  CHECK(named([](C& c) { c.why.clear(); }) == "sheet.why");
  CHECK(named([](C& c) { c.why.clear(); }, some::summary("en")) == "fine");
  CHECK(named([](C& c) { c.exercise.reset(); }) == "sheet.exercise");
  CHECK(named([](C& c) { c.exercise->title = ""; }) == "sheet.exercise.title");
  CHECK(named([](C& c) { c.exercise->steps = {" "}; }) == "sheet.exercise.steps");
  CHECK(named([](C& c) { c.sessions[2].day = "2026-02-30"; }) == "sheet.sessions[2].day");
  CHECK(named([](C& c) { c.sessions[2].minutes = 601; }) == "sheet.sessions[2].minutes");
  CHECK(named([](C& c) { c.sessions.resize(25, c.sessions[0]); }) == "sheet.sessions");
  CHECK(named([](C& c) { std::swap(c.sessions[0], c.sessions[3]); }) == "sheet.sessions[1].day");
  CHECK(named([](C& c) { c.note = "\xc3\x28"; }) == "sheet.note");
  CHECK(named([](C& c) { c.note = std::string(9000, 'x'); }) == "sheet.note");
  CHECK(named([](C& c) { c.exercise->drawing = std::string(300001, ' '); }) == "sheet.exercise.drawing");
  CHECK(named([](C& c) { c.causes[0].leading = 1.5; }, some::summary("en")) == "sheet.causes[0].leading");
  CHECK(named([](C& c) { c.causes[0].leading = std::nan(""); }, some::summary("en")) ==
        "sheet.causes[0].leading");
}

TEST_CASE("a picture that no swing could give is named, whatever is wrong with it") {
  using P = SheetPicture;
  const auto picture = [](auto change) {
    return named([&](SheetContent& content) { change(*content.picture); });
  };
  const double nan = std::nan("");
  CHECK(picture([&](P& p) { p.low_point_mm.mean = nan; }) == "sheet.picture.low_point_mm");
  CHECK(picture([](P& p) { std::swap(p.low_point_mm.p10, p.low_point_mm.p90); }) ==
        "sheet.picture.low_point_mm.p10");
  CHECK(picture([](P& p) { p.arc.resize(1); }) == "sheet.picture.arc");
  CHECK(picture([&](P& p) { p.arc[5][1] = nan; }) == "sheet.picture.arc");
  CHECK(picture([&](P& p) { p.cloud[3][1] = nan; }) == "sheet.picture.cloud");
  CHECK(picture([](P& p) { p.cloud.resize(401); }) == "sheet.picture");
  CHECK(picture([&](P& p) { p.divots[0].start_mm = nan; }) == "sheet.picture.divots");
  CHECK(picture([](P& p) { p.divots[0].direction_deg = 91.0; }) == "sheet.picture.divots");
  CHECK(picture([&](P& p) { p.depth_mm = INFINITY; }) == "sheet.picture.depth_mm");
  CHECK(picture([](P& p) { p.handle_lead_mm = 700.0; }) == "sheet.picture.handle_lead_mm");
  CHECK(picture([](P& p) { p.handle_height_mm = 0.0; }) == "sheet.picture.handle_height_mm");
  CHECK(picture([&](P& p) {
          p.shaft_lean_deg = SheetSpan{nan, 0.0, 0.0};
        }) == "sheet.picture.shaft_lean_deg");
  CHECK(picture([&](P& p) { p.aim_mm = {{nan, 0.0}}; }) == "sheet.picture.aim_mm");
}

TEST_CASE("texts are cleaned of what would turn, hide or break the others") {
  SheetContent content = some::pupil("en");
  content.note = "\u202eabc\u2069\r\nd\x07 e\u0085 ";
  content.why = {"", "one", " "};
  content.targets.push_back({"", "1", "2"});
  const SheetContent clean = cleaned(content);
  CHECK(clean.note == "abc\nd  e");
  CHECK(clean.why == std::vector<std::string>{"one"});
  CHECK(clean.targets.size() == 1);
}

TEST_CASE("the longest text is found by its letters, not its bytes") {
  SheetContent content = some::pupil("en");
  content.note = std::string(200, 'x');
  content.place.clear();
  for (int k = 0; k < 150; ++k) content.place += "ü";
  CHECK(longest_text(content).place == "sheet.note");
  CHECK(longest_text(content).letters == 200);
}
