#include "swing_json.hpp"

#include <fmt/format.h>

#include <cmath>

#include "bag/generic.hpp"
#include "delivery/delivery_of.hpp"
#include "quantity/angle.hpp"
#include "show_shot.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

Lever<double> lever_from(JsonDoor& door) {
  Lever<double> lever;
  lever.mass = door.number("mass_kg");
  lever.com = door.number("com_m");
  lever.length = door.number("length_m");
  lever.inertia_com = door.number("inertia_com_kgm2");
  return lever;
}

std::optional<double> number_or_null(JsonDoor& door, const std::string& key) {
  if (!door.has(key) || door.is_null(key)) return std::nullopt;
  return door.number(key);
}

Shoulder<double> shoulder_from(JsonDoor door) {
  Shoulder<double> s;
  s.torque = door.number("torque_nm");
  s.activation = door.number_or("activation_s", 0.0);
  s.speed_limit = number_or_null(door, "speed_limit_radps");
  s.hill = door.number_or("hill", s.hill);
  door.done();
  return s;
}

Release<double> release_from(JsonDoor& wrist) {
  using Kind = Release<double>::Kind;
  if (!wrist.has("release")) return {};
  if (wrist.is_text("release")) {
    const std::string word = wrist.text("release");
    if (word != "natural")
      wrist.wrong("release", "'" + word + "'", R"("natural", {"time_s": ...} or {"arm_deg": ...})");
    return {};
  }
  JsonDoor door = wrist.object("release");
  Release<double> release;
  if (door.has("time_s")) {
    release = {Kind::at_time, door.number("time_s")};
  } else {
    release = {Kind::at_arm, door.number("arm_deg") * kDegree};
  }
  door.done();
  return release;
}

Wrist<double> wrist_from(JsonDoor door) {
  Wrist<double> w;
  w.drive = door.number_or("drive_nm", 0.0);
  if (const auto arm = number_or_null(door, "drive_after_arm_deg")) w.drive_after_arm = *arm * kDegree;
  w.release = release_from(door);
  w.speed_limit = number_or_null(door, "speed_limit_radps");
  w.hill = door.number_or("hill", w.hill);
  if (door.has("stop")) w.stop = door.truth("stop");
  door.done();
  return w;
}

Hub<double> hub_from(JsonDoor& door) {
  Hub<double> hub;
  if (door.has("acceleration")) {
    for (const auto& row : door.rows("acceleration", 4))
      hub.pushes.push_back({row[0], row[1], row[2], row[3]});
  }
  const double start = door.number_or("start_s", 0.0);
  const double duration = door.number_or("duration_s", 1.0);
  hub.shift = {door.number_or("shift_m", 0.0), start, duration};
  hub.rise = {door.number_or("rise_m", 0.0), door.number_or("rise_start_s", start),
              door.number_or("rise_duration_s", duration)};
  return hub;
}

/// A number of the stance, which no room checks; `needed` ones have no standard value.
double bounded(JsonDoor& door, const std::string& key, double low, double high, bool needed = false) {
  const double value = needed ? door.number(key) : door.number_or(key, 0.0);
  if (value >= low && value <= high) return value;
  door.wrong(key, fmt::format("{:g}", value), fmt::format("a number from {:g} to {:g}", low, high));
  return 0.0;
}

FaceTurn<double> face_from(JsonDoor door) {
  FaceTurn<double> face;
  face.contact = bounded(door, "turn_deg", -60.0, 60.0) * kDegree;
  face.top = bounded(door, "turn_at_top_deg", -180.0, 180.0) * kDegree;
  face.closing_rate = bounded(door, "closing_rate_degps", -6000.0, 6000.0) * kDegree;
  door.done();
  return face;
}

/// What only a swing to contact needs.
void take_contact(JsonDoor& door, JsonDoor& hub, SwingAsked& asked) {
  Stance<double>& stance = asked.swing.stance;
  stance.hub_along = bounded(hub, "along_m", -1.0, 1.0, true);
  stance.hub_up = bounded(hub, "up_slope_m", 0.2, 4.0, true);
  stance.plane_direction = bounded(door, "plane_direction_deg", -60.0, 60.0) * kDegree;
  stance.lie_offset = bounded(door, "lie_offset_deg", -20.0, 20.0) * kDegree;
  stance.strike_toe = bounded(door, "strike_toe_mm", -80.0, 80.0) * 1e-3;
  asked.ball_lift = bounded(door, "ball_lift_mm", 0.0, 100.0) * 1e-3;
  if (door.has("face")) stance.face = face_from(door.object("face"));
}

void take_club(JsonDoor door, const std::vector<Club>& bag, SwingAsked& asked, std::optional<Fault>& fault) {
  const bool contact = asked.end == End::contact;
  if (contact || door.has("name")) {
    const Result<Club> club = club_named(bag, door.text("name"), "club.name");
    if (!club && !fault) fault = club.error();
    if (club) asked.club = *club;
  }
  if (contact && !door.has("mass_kg")) {
    asked.swing.flail.club = club_lever(asked.club);
    for (const char* key : {"com_m", "length_m", "inertia_com_kgm2"}) {
      if (door.has(key)) door.number("mass_kg");  // some of the lever's figures without the others
    }
  } else {
    asked.swing.flail.club = lever_from(door);
  }
  door.done();
}

End end_from(JsonDoor& door) {
  const std::string end = door.text_or("end", "club_vertical");
  if (end == "contact") return End::contact;
  if (end != "club_vertical") door.wrong("end", "'" + end + "'", R"("club_vertical" or "contact")");
  return End::club_vertical;
}

Json lever_json(const Lever<double>& lever) {
  return {{"mass_kg", lever.mass},
          {"com_m", lever.com},
          {"length_m", lever.length},
          {"inertia_com_kgm2", lever.inertia_com}};
}

Json or_null(const std::optional<double>& value, double scale = 1.0) {
  return value ? Json(*value / scale) : Json(nullptr);
}

Json release_json(const Release<double>& release) {
  using Kind = Release<double>::Kind;
  if (release.kind == Kind::natural) return "natural";
  if (release.kind == Kind::at_time) return {{"time_s", release.value}};
  return {{"arm_deg", release.value / kDegree}};
}

Json hub_json(const SwingAsked& asked) {
  const Hub<double>& hub = asked.swing.flail.hub;
  Json out;
  if (!hub.pushes.empty()) {
    out["acceleration"] = Json::array();
    for (const auto& p : hub.pushes) out["acceleration"].push_back({p.from, p.to, p.along, p.up});
  }
  out["shift_m"] = hub.shift.size;
  out["start_s"] = hub.shift.start;
  out["duration_s"] = hub.shift.duration;
  out["rise_m"] = hub.rise.size;
  out["rise_start_s"] = hub.rise.start;
  out["rise_duration_s"] = hub.rise.duration;
  if (asked.end != End::contact) return out;
  out["along_m"] = asked.swing.stance.hub_along;
  out["up_slope_m"] = asked.swing.stance.hub_up;
  return out;
}

void add_contact(const SwingAsked& asked, Json& out) {
  const Stance<double>& stance = asked.swing.stance;
  out["club"]["name"] = asked.club.name;
  out["face"] = {{"turn_at_top_deg", stance.face.top / kDegree},
                 {"turn_deg", stance.face.contact / kDegree},
                 {"closing_rate_degps", stance.face.closing_rate / kDegree}};
  out["plane_direction_deg"] = stance.plane_direction / kDegree;
  out["lie_offset_deg"] = stance.lie_offset / kDegree;
  out["strike_toe_mm"] = stance.strike_toe / 1e-3;
  out["ball_lift_mm"] = asked.ball_lift / 1e-3;
}

}  // namespace

Result<SwingAsked> swing_from_json(std::string_view text, const std::string& name,
                                   const std::vector<Club>& bag) {
  const Result<Json> document = parse_json(text, name);
  if (!document) return unexpected(document.error());
  std::optional<Fault> fault;
  JsonDoor door(*document, "", fault);
  SwingAsked asked;
  Flail<double>& flail = asked.swing.flail;
  asked.end = end_from(door);
  JsonDoor arm = door.object("arm");
  flail.arm = lever_from(arm);
  arm.done();
  take_club(door.object("club"), bag, asked, fault);
  flail.gravity = door.number_or("gravity_mps2", kGravity);
  flail.plane_tilt = door.number("plane_tilt_deg") * kDegree;
  JsonDoor start = door.object("start");
  flail.start_arm = start.number("arm_deg") * kDegree;
  flail.start_cock = start.number("cock_deg") * kDegree;
  start.done();
  flail.shoulder = shoulder_from(door.object("shoulder"));
  if (door.has("wrist")) flail.wrist = wrist_from(door.object("wrist"));
  if (door.has("hub") || asked.end == End::contact) {
    JsonDoor hub = door.object("hub");
    flail.hub = hub_from(hub);
    if (asked.end == End::contact) take_contact(door, hub, asked);
    hub.done();
  }
  door.done();
  if (fault) return unexpected(*fault);
  return asked;
}

std::string json_text(const SwingAsked& asked) {
  const Flail<double>& f = asked.swing.flail;
  Json out;
  out["arm"] = lever_json(f.arm);
  out["club"] = lever_json(f.club);
  out["gravity_mps2"] = f.gravity;
  out["plane_tilt_deg"] = f.plane_tilt / kDegree;
  out["start"] = {{"arm_deg", f.start_arm / kDegree}, {"cock_deg", f.start_cock / kDegree}};
  out["shoulder"] = {{"torque_nm", f.shoulder.torque},
                     {"activation_s", f.shoulder.activation},
                     {"speed_limit_radps", or_null(f.shoulder.speed_limit)},
                     {"hill", f.shoulder.hill}};
  out["wrist"] = {{"drive_nm", f.wrist.drive},
                  {"drive_after_arm_deg", or_null(f.wrist.drive_after_arm, kDegree)},
                  {"release", release_json(f.wrist.release)},
                  {"speed_limit_radps", or_null(f.wrist.speed_limit)},
                  {"hill", f.wrist.hill},
                  {"stop", f.wrist.stop}};
  out["hub"] = hub_json(asked);
  out["end"] = asked.end == End::contact ? "contact" : "club_vertical";
  if (asked.end == End::contact) add_contact(asked, out);
  return out.dump(2);
}

Result<SwingAnswer> swing_of(const SwingAsked& asked) {
  SwingAnswer answer;
  if (asked.end == End::contact) {
    Result<Passing<double>> passing = passing_of(asked.swing, asked.club, asked.ball, asked.ball_lift);
    if (!passing) return unexpected(passing.error());
    answer.run = passing->run;
    answer.passing = std::move(*passing);
  } else {
    Result<FlailRun<double>> run = run_flail(asked.swing.flail, RunOptions{.pace = {}, .end = asked.end});
    if (!run) return unexpected(run.error());
    answer.run = std::move(*run);
  }
  answer.head = point_at(asked.swing.flail, answer.run.end, asked.swing.flail.club.length);
  answer.hands = point_at(asked.swing.flail, answer.run.end, 0.0);
  return answer;
}

Shot<double> delivered(const SwingAsked& asked, const SwingAnswer& answer) {
  const Passing<double>& passing = *answer.passing;
  Club club = asked.club;
  club.arc_radius = passing.arc_radius;
  club.turn_radius = passing.turn_radius;
  Shot<double> shot;
  shot.pass = passing.pass;
  shot.delivery = delivery_of(passing.pass, club, asked.ball, asked.ball_lift);
  shot.delivery.attack = passing.attack;
  shot.delivery.path = passing.path;
  return shot;
}

std::string json_text(const SwingAsked& asked, const SwingAnswer& answer) {
  const Moment<double>& release = answer.run.release;
  const Moment<double>& end = answer.run.end;
  Json out;
  out["release"] = nullptr;
  if (release.time >= 0.0) {
    out["release"] = {{"time_s", release.time},
                      {"arm_deg", release.arm / kDegree},
                      {"arm_rate_degps", release.arm_rate / kDegree}};
  }
  out["end"] = {{"time_s", end.time},
                {"arm_deg", end.arm / kDegree},
                {"club_deg", end.club / kDegree},
                {"arm_rate_radps", end.arm_rate},
                {"club_rate_radps", end.club_rate},
                {"head_speed_mps", answer.head.v.norm()},
                {"head_velocity_along_mps", answer.head.v[0]},
                {"in_plane_direction_deg", std::atan2(answer.head.v[1], answer.head.v[0]) / kDegree},
                {"hand_speed_mps", answer.hands.v.norm()}};
  if (!answer.passing) return out.dump(2);
  out["delivery"] = json_of(delivery_figures(delivered(asked, answer)));
  out["delivery"]["arc_radius_m"] = answer.passing->arc_radius;
  out["delivery"]["turn_radius_m"] = answer.passing->turn_radius;
  return out.dump(2);
}

}  // namespace strikewright
