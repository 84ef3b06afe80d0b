#include "strike_json.hpp"

#include "quantity/angle.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {

Result<RigidStrike> strike_from_json(std::string_view text, const std::string& name) {
  const Result<nlohmann::ordered_json> document = parse_json(text, name);
  if (!document) return unexpected(document.error());
  std::optional<Fault> fault;
  JsonDoor door(*document, "", fault);
  RigidStrike strike;
  JsonDoor head = door.object("head");
  strike.mass = head.number("mass_kg");
  strike.inertia = head.three("inertia_kgm2");
  strike.velocity = head.three("velocity_mps");
  strike.turning = head.three("angular_velocity_radps");
  strike.face_normal = head.three("face_normal");
  strike.contact = head.three("contact_from_com_m");
  strike.restitution = head.number("restitution");
  strike.tangential_restitution = head.number("tangential_restitution");
  strike.friction = head.number("friction");
  head.done();
  if (door.has("ball")) {
    JsonDoor ball = door.object("ball");
    strike.ball.mass = ball.number_or("mass_kg", strike.ball.mass);
    strike.ball.radius = ball.number_or("radius_m", strike.ball.radius);
    strike.ball.inertia_factor = ball.number_or("inertia_factor", strike.ball.inertia_factor);
    ball.done();
  }
  door.done();
  if (fault) return unexpected(*fault);
  return strike;
}

std::string json_text(const RigidStrikeResult& result) {
  const auto list = [](const Vec3<double>& v) { return nlohmann::ordered_json{v.x(), v.y(), v.z()}; };
  const Launch<double>& launch = result.launch;
  nlohmann::ordered_json out;
  out["ball_velocity_mps"] = list(launch.v_WB_W);
  out["ball_angular_velocity_radps"] = list(launch.w_WB_W);
  out["ball_speed_mps"] = launch.speed;
  out["launch_angle_deg"] = launch.elevation / kDegree;
  out["start_direction_deg"] = launch.azimuth / kDegree;
  out["spin_rpm"] = launch.spin / kRpm;
  out["spin_axis_tilt_deg"] = launch.axis_tilt / kDegree;
  out["head_velocity_mps"] = list(result.impact.v_WH_W);
  out["head_angular_velocity_radps"] = list(result.impact.w_WH_W);
  out["impulse_ns"] = list(result.impact.impulse_W);
  out["regime"] = result.impact.regime == Regime::slide ? "slide" : "stick";
  return out.dump(2);
}

}  // namespace strikewright
