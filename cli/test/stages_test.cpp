// `flight`, `strike`, `swing` and `shot` at their doors.

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "typed.hpp"

using namespace strikewright;
using doctest::Approx;

namespace {

const std::string kDrive = "flight --json --ball-speed 60mps --launch-angle 12deg --spin 2500rpm ";

std::string iron_with(const std::string& key, const std::string& value) {
  nlohmann::json head{{"mass_kg", 0.27},
                      {"inertia_kgm2", {2.3e-4, 6e-5, 2.5e-4}},
                      {"velocity_mps", {37.9, 0, -2.65}},
                      {"angular_velocity_radps", {0, 0, 0}},
                      {"face_normal", {0.8829, 0, 0.4695}},
                      {"contact_from_com_m", {0.0053, 0, 0.0028}},
                      {"restitution", 0.78},
                      {"tangential_restitution", 0},
                      {"friction", 0.4}};
  if (value.empty()) {
    head.erase(key);
  } else {
    head[key] = nlohmann::json::parse(value);
  }
  return nlohmann::json{{"head", head}}.dump();
}

/// Arms, club and plane of the reference runs: reference/swing_runs.csv names their source.
nlohmann::json reference_swing() {
  return {{"arm", {{"mass_kg", 7.0}, {"com_m", 0.31}, {"length_m", 0.62}, {"inertia_com_kgm2", 0.4773}}},
          {"club", {{"mass_kg", 0.394}, {"com_m", 0.753}, {"length_m", 1.10}, {"inertia_com_kgm2", 0.0756}}},
          {"gravity_mps2", 9.81},
          {"plane_tilt_deg", 50},
          {"start", {{"arm_deg", -160}, {"cock_deg", 90}}},
          {"shoulder", {{"torque_nm", 80}, {"activation_s", 0}, {"speed_limit_radps", nullptr}}},
          {"wrist", {{"drive_nm", 0}, {"drive_after_arm_deg", nullptr}, {"release", "natural"}}},
          {"hub", {{"acceleration", nlohmann::json::array()}}},
          {"end", "club_vertical"}};
}

}  // namespace

TEST_CASE("flight answers with the keys of its contract") {
  const nlohmann::json flight = typed(kDrive).json();
  for (const char* key : {"carry_m", "side_m", "apex_m", "time_s", "landing_angle_deg", "landing_speed_mps",
                          "landing_spin_rpm", "total_m"}) {
    CAPTURE(key);
    CHECK(flight[key].is_number());
  }
}

TEST_CASE("the same ball in other units flies the same") {
  const nlohmann::json metric = typed(kDrive + "--altitude 304.8m --temperature 20C").json();
  const nlohmann::json other =
      typed(
          "flight --json --ball-speed 216kmh --launch-angle 12 --spin 2500 --altitude 1000ft "
          "--temperature 68F")
          .json();
  // 1e-9 relative: unit conversion in double precision.
  CHECK(other["carry_m"].get<double>() == Approx(metric["carry_m"].get<double>()).epsilon(1e-9));
}

TEST_CASE("a spin axis tilted to the fade side curves the ball right, as far as the draw side left") {
  const double fade = typed(kDrive + "--axis-tilt 10deg").json()["side_m"];
  const double draw = typed(kDrive + "--axis-tilt -10deg").json()["side_m"];
  CHECK(fade > 5.0);
  CHECK(draw == -fade);
}

TEST_CASE("wind with the shot carries farther, wind to the right moves it right, thin air carries farther") {
  const double still = typed(kDrive).json()["carry_m"];
  CHECK(typed(kDrive + "--wind-along 5mps").json()["carry_m"] > still);
  CHECK(typed(kDrive + "--wind-along -5mps").json()["carry_m"] < still);
  CHECK(typed(kDrive + "--wind-across 5mps").json()["side_m"] > 1.0);
  CHECK(typed(kDrive + "--altitude 1500m").json()["carry_m"] > still);
  // The same wind at every height is stronger near the ground than the log profile's.
  CHECK(typed(kDrive + "--wind-along 5mps --wind-profile uniform").json()["carry_m"] !=
        typed(kDrive + "--wind-along 5mps").json()["carry_m"]);
}

TEST_CASE("a range ball flies shorter and a raised green is reached sooner") {
  const double still = typed(kDrive).json()["carry_m"];
  CHECK(typed(kDrive + "--ball range").json()["carry_m"] < still);
  CHECK(typed(kDrive + "--target-height 10m").json()["carry_m"] < still);
  CHECK(typed(kDrive + "--target-height -10m").json()["carry_m"] > still);
}

TEST_CASE("strike gives the reference impact of a square iron") {
  // Row B1 of reference/impact_vectors.csv (derived there; D 6 mm, loft 28, 38 m/s, 4 degrees down), to the
  // digits that demo/strike.json gives its numbers with.
  const nlohmann::json out = typed("strike --json demo/strike.json").json();
  CHECK(out["ball_speed_mps"].get<double>() == Approx(49.3242).epsilon(2e-5));
  CHECK(out["launch_angle_deg"].get<double>() == Approx(21.6611).epsilon(2e-5));
  CHECK(out["spin_rpm"].get<double>() == Approx(6093.74).epsilon(1e-4));
  CHECK(out["start_direction_deg"].get<double>() == Approx(0.0));
  CHECK(out["regime"] == "stick");
}

TEST_CASE("strike names the path of what is wrong in its document") {
  const auto complaint = [](const std::string& key, const std::string& value) {
    const Typed wrong = typed("strike", iron_with(key, value));
    CHECK(wrong.code == 2);
    CHECK(wrong.out == "");
    return wrong.err;
  };
  CHECK(complaint("mass_kg", "").find("head.mass_kg: found nothing") == 0);
  CHECK(complaint("mass_kg", "-1").find("head.mass_kg: found -1") == 0);
  CHECK(complaint("mass_kg", "\"heavy\"").find("head.mass_kg: found the text 'heavy', expected a number") ==
        0);
  CHECK(complaint("inertia_kgm2", "[1e-4, 0, 1e-4]").find("head.inertia_kgm2[1]") == 0);
  CHECK(complaint("inertia_kgm2", "[1e-4, 1e-4]").find("head.inertia_kgm2: found a list of 2") == 0);
  CHECK(complaint("face_normal", "[0, 0, 0]").find("head.face_normal: found no direction") == 0);
  CHECK(complaint("velocity_mps", "[-38, 0, 0]").find("head.velocity_mps: found the face does not move") ==
        0);
  CHECK(complaint("velocty_mps", "[38, 0, 0]").find("did you mean 'velocity_mps'?") != std::string::npos);
  CHECK(complaint("friction", "null").find("head.friction: found null") == 0);
}

TEST_CASE("strike refuses what is no JSON document") {
  CHECK(typed("strike", "").complains("standard input: found nothing"));
  CHECK(typed("strike", "{\n  \"head\": }").complains("standard input:2:11"));
  CHECK(typed("strike", "[1]").complains("found a list of 1, expected an object"));
  CHECK(typed("strike", R"({"head": 1e999})").complains("1e308"));
  CHECK(typed("strike", R"({"head": {}, "head": {}})").complains("'head' twice"));
  CHECK(typed("strike", std::string(100, '[')).code == 2);
  CHECK(typed("strike", std::string(100000, '[') + std::string(100000, ']')).code == 2);
  CHECK(typed("strike no/such/file.json").complains("no such file"));
  CHECK(typed("strike demo").complains("a folder"));
}

TEST_CASE("swing gives the reference runs") {
  // reference/swing: R2 and R4, computed there by 8th-order integration; 1e-4 relative is what it asks for.
  const nlohmann::json fixed = typed("swing --json", reference_swing().dump()).json();
  CHECK(fixed["release"]["time_s"].get<double>() == Approx(0.18198).epsilon(1e-4));
  CHECK(fixed["release"]["arm_deg"].get<double>() == Approx(-108.6967).epsilon(1e-4));
  CHECK(fixed["release"]["arm_rate_degps"].get<double>() == Approx(578.281).epsilon(1e-4));
  CHECK(fixed["end"]["time_s"].get<double>() == Approx(0.36267).epsilon(1e-4));
  CHECK(fixed["end"]["arm_deg"].get<double>() == Approx(27.8830).epsilon(1e-4));
  CHECK(fixed["end"]["arm_rate_radps"].get<double>() == Approx(13.08622).epsilon(1e-4));
  CHECK(fixed["end"]["club_rate_radps"].get<double>() == Approx(28.95766).epsilon(1e-4));
  CHECK(fixed["end"]["head_speed_mps"].get<double>() == Approx(39.20898).epsilon(1e-4));
  CHECK(fixed["end"]["head_velocity_along_mps"].get<double>() == Approx(39.02495).epsilon(1e-4));
  CHECK(fixed["end"]["in_plane_direction_deg"].get<double>() == Approx(5.5534).epsilon(1e-4));
  CHECK(fixed["end"]["hand_speed_mps"].get<double>() == Approx(8.11346).epsilon(1e-4));
  nlohmann::json driven = reference_swing();
  driven["wrist"]["drive_nm"] = 8;
  driven["wrist"]["drive_after_arm_deg"] = -60;
  CHECK(typed("swing --json", driven.dump()).json()["end"]["head_speed_mps"].get<double>() ==
        Approx(40.75446).epsilon(1e-4));
}

TEST_CASE("a default swing run from its own document comes out the same") {
  const Typed document = typed("swing --default 7i --skill county --document");
  REQUIRE(document.code == 0);
  const nlohmann::json direct = typed("swing --default 7i --skill county --json").json();
  const nlohmann::json again = typed("swing --json", document.out).json();
  // The document prints every number with all its digits: only degrees are turned to radians and back.
  CHECK(again["delivery"]["low_point_mm"].get<double>() ==
        Approx(direct["delivery"]["low_point_mm"].get<double>()).epsilon(1e-9));
  CHECK(again["end"]["head_speed_mps"].get<double>() ==
        Approx(direct["end"]["head_speed_mps"].get<double>()).epsilon(1e-9));
}

TEST_CASE("a stance that no golfer has is refused, not computed") {
  nlohmann::json swing = typed("swing --default 7i --document").json();
  swing["face"]["closing_rate_degps"] = 1e303;
  CHECK(typed("swing", swing.dump()).err.find("face.closing_rate_degps: found 1e+303") == 0);
  swing["face"]["closing_rate_degps"] = 1500;
  swing["hub"]["up_slope_m"] = -1;
  CHECK(typed("swing", swing.dump()).err.find("hub.up_slope_m: found -1") == 0);
}

TEST_CASE("swing names the path of what is wrong in its document") {
  const auto complaint = [](auto&& change) {
    nlohmann::json swing = reference_swing();
    change(swing);
    return typed("swing", swing.dump()).err;
  };
  using Json = nlohmann::json;
  CHECK(complaint([](Json& s) { s["arm"].erase("mass_kg"); }).find("arm.mass_kg: found nothing") == 0);
  CHECK(complaint([](Json& s) { s["wrist"]["release"] = "late"; }).find("wrist.release: found 'late'") == 0);
  CHECK(complaint([](Json& s) {
          s["wrist"]["release"] = {{"arm_degrees", 1}};
        }).find("wrist.release.arm_deg") != std::string::npos);
  CHECK(complaint([](Json& s) { s["hub"]["acceleration"] = {{0, 1, 2}}; }).find("hub.acceleration[0]") == 0);
  CHECK(complaint([](Json& s) { s["end"] = "ball"; }).find("end: found 'ball'") == 0);
  CHECK(complaint([](Json& s) { s["plane"] = 50; }).find("plane: found this key") == 0);
  CHECK(complaint([](Json& s) { s["end"] = "contact"; }).find("club.name") == 0);
}

TEST_CASE("a low point behind the ball is told in words, in metric and in yards") {
  CHECK(typed("shot --low-point -40mm").says("40 mm behind the ball"));
  CHECK(typed("shot --low-point -1in --units yards").says("1.0 in behind the ball"));
  CHECK(typed("shot --units yards").says(" yd"));
  CHECK(!typed("shot").says(" yd"));
}

TEST_CASE("a left-hander's shot is the right-hander's in a mirror") {
  const std::string swing = "shot --json --plane-direction 4deg --strike-toe 8mm --wind-across ";
  const nlohmann::json right = typed(swing + "3mps").json();
  const nlohmann::json left = typed(swing + "-3mps --hand left").json();
  CHECK(left["delivery"] == right["delivery"]);
  CHECK(left["flight"]["carry_m"] == right["flight"]["carry_m"]);
  CHECK(left["flight"]["side_m"].get<double>() == -right["flight"]["side_m"].get<double>());
  CHECK(left["launch"]["start_direction_deg"].get<double>() ==
        -right["launch"]["start_direction_deg"].get<double>());
}

TEST_CASE("a swing without ball has turf but no launch") {
  const Typed swing = typed("shot --no-ball --low-point-depth -10mm --json");
  CHECK(swing.json()["launch"].is_null());
  CHECK(swing.json()["flight"].is_null());
  CHECK(swing.json()["strike"]["divot"] == true);
  CHECK(!typed("shot --no-ball").says("Flight"));
}
