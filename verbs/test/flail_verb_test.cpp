#include "verbs/flail_verb.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "verbs/reading_verb.hpp"

using namespace strikewright;

namespace {

Document picture(const Document& asked) {
  const auto out = flail_picture(asked);
  REQUIRE_MESSAGE(out.has_value(), out.error().front().sentence());
  return *out;
}

Document moved(const char* slider, double by) { return picture({{"moved", {{slider, by}}}}); }

double contact(const Document& out, const char* key) { return out.at("contact").at(key); }

double distance(const Document& a, const Document& b) {
  return std::hypot(a[0].get<double>() - b[0].get<double>(), a[1].get<double>() - b[1].get<double>());
}

}  // namespace

TEST_CASE("releasing the wrists earlier moves the low point back and takes lean off the shaft") {
  CHECK(contact(moved("release_ms", -20), "low_point_mm") < contact(moved("release_ms", 0), "low_point_mm"));
  CHECK(contact(moved("release_ms", -20), "shaft_lean_deg") <
        contact(moved("release_ms", 0), "shaft_lean_deg"));
}

TEST_CASE("weight further toward the target takes the low point along") {
  CHECK(contact(moved("weight_mm", 30), "low_point_mm") >
        contact(moved("weight_mm", 0), "low_point_mm") + 10);
}

TEST_CASE("a higher hub lifts the arc out of the turf, and far enough over the ball") {
  CHECK(contact(moved("height_mm", 5), "low_point_depth_mm") >
        contact(moved("height_mm", 0), "low_point_depth_mm"));
  const Document high = picture({{"club", "7i"}, {"moved", {{"height_mm", 20}, {"weight_mm", -80}}}});
  CHECK((high.at("ball").is_null() || contact(high, "strike_up_mm") < 0.0));
  CHECK(high.at("ball").is_null() == !high.at("missed").is_null());
}

TEST_CASE("the handle to the left makes a right-hander's ball fade, a left-hander's the mirrored one") {
  const Document right = picture({{"moved", {{"handle_deg", -5}}}});
  const Document left = picture({{"hand", "left"}, {"moved", {{"handle_deg", -5}}}});
  CHECK(contact(right, "path_deg") < -2.0);
  CHECK(right.at("contact") == left.at("contact"));
  CHECK(right.at("ball").at("curve_m").get<double>() == -left.at("ball").at("curve_m").get<double>());
  CHECK(right.at("ball").at("carry_m") == left.at("ball").at("carry_m"));
}

TEST_CASE("both levers keep their length in the plane, and the clubhead is at the ball at contact") {
  const Document out = picture(Document::object());
  const Document* at_ball = nullptr;
  for (const Document& frame : out.at("frames"))
    if (at_ball == nullptr ||
        std::abs(frame.at("t_ms").get<double>()) < std::abs(at_ball->at("t_ms").get<double>()))
      at_ball = &frame;
  REQUIRE(at_ball != nullptr);
  // Within 2.5 ms of the ball at 34 m/s.
  CHECK(std::abs(at_ball->at("head")[0].get<double>()) < 0.1);
  CHECK(std::abs(at_ball->at("head")[1].get<double>()) < 0.02);
  // Seen face-on a lever looks shorter than it is, never longer; usual_arms() are 0.62 m.
  for (const Document& frame : out.at("frames"))
    CHECK(distance(frame.at("hub"), frame.at("hands")) < 0.62 + 0.002);
  CHECK(out.at("frames").front().at("t_ms").get<double>() < -200.0);
  CHECK(out.at("frames").back().at("t_ms").get<double>() > 80.0);
}

TEST_CASE("the flail of a reading passes the ball as the reading says") {
  const auto reading = reading_document(
      {.csv = "club,divot_start_mm,divot_end_mm,start,shaft_lean_deg\n7i,20,130,left,4\n7i,15,120,left,5\n"});
  REQUIRE(reading);
  const Document& shown = reading->at("pictures")[0];
  const Document out = picture({{"pass", shown.at("pass")}});
  CHECK(std::abs(contact(out, "low_point_mm") - shown.at("pass").at("low_point_mm").get<double>()) < 0.5);
  CHECK(std::abs(contact(out, "shaft_lean_deg") - shown.at("pass").at("shaft_lean_deg").get<double>()) < 0.1);
  CHECK(std::abs(contact(out, "club_speed_mps") - shown.at("pass").at("club_speed_mps").get<double>()) < 0.1);
}

TEST_CASE("the same timing noise scatters the low point more when the wrists drive") {
  const auto out = flail_scatter({{"club", "7i"}, {"skill", "county"}});
  REQUIRE(out);
  const Document& ways = out->at("ways");
  REQUIRE(ways.size() == 2);
  const Document& wrists = ways[0].at("way") == "wrist_driven" ? ways[0] : ways[1];
  const Document& handle = ways[0].at("way") == "wrist_driven" ? ways[1] : ways[0];
  CHECK(handle.at("way") == "handle_led");
  CHECK(wrists.at("sd").at("low_point_mm").get<double>() > handle.at("sd").at("low_point_mm").get<double>());
  CHECK(wrists.at("strip").size() <= 200);
  CHECK(wrists.at("strip").size() > 150);
}

TEST_CASE("the dots of a scatter have the spread that is said of them") {
  const auto out = flail_scatter(Document::object());
  REQUIRE(out);
  for (const Document& way : out->at("ways")) {
    const Document& dots = way.at("strip");
    double mean = 0.0, square = 0.0;
    for (const Document& dot : dots) mean += dot[0].get<double>() / static_cast<double>(dots.size());
    for (const Document& dot : dots) square += std::pow(dot[0].get<double>() - mean, 2);
    const double sd = std::sqrt(square / static_cast<double>(dots.size()));
    CHECK(sd == doctest::Approx(way.at("sd").at("low_point_mm").get<double>()).epsilon(0.001));
  }
}

TEST_CASE("twice the noise is about twice the scatter") {
  const auto once = flail_scatter({{"noise", 0.5}}), twice = flail_scatter({{"noise", 1.0}});
  REQUIRE(once);
  REQUIRE(twice);
  const auto sd = [](const Document& d) { return d.at("ways")[1].at("sd").at("low_point_mm").get<double>(); };
  CHECK(sd(*twice) / sd(*once) == doctest::Approx(2.0).epsilon(0.15));
}

TEST_CASE("what a flail cannot do, or nobody can mean, is a fault with its place") {
  const auto place = [](const Document& asked) {
    const auto out = flail_picture(asked);
    REQUIRE(!out);
    return out.error().front().place;
  };
  CHECK(place({{"club", "9q"}}) == "club");
  CHECK(place({{"hand", "both"}}) == "hand");
  CHECK(place({{"skill", "great"}}) == "skill");
  CHECK(place({{"moved", {{"weight_mm", 1000}}}}) == "moved.weight_mm");
  CHECK(place({{"moved", {{"weigth_mm", 1}}}}) == "moved.weigth_mm");
  CHECK(place({{"moved", {{"weight_mm", "far"}}}}) == "moved.weight_mm");
  CHECK(place({{"moved", 3}}) == "moved");
  CHECK(place({{"noise", -1}}) == "noise");
  CHECK(place({{"pass", {{"low_point_mm", 3}}}}).starts_with("pass."));
  CHECK(place(Document::array()) == "body");
}
