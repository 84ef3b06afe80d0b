#include "strike/impulse.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace strikewright {
namespace {

std::optional<Fault> outside(const char* place, double x, double low, double high, const char* expected) {
  if (std::isfinite(x) && x >= low && x <= high) return std::nullopt;
  return Fault{place, fmt::format("{}", x), expected};
}

std::optional<Fault> outside(const char* place, const Vec3<double>& v, double low, double high,
                             const char* expected) {
  for (int k = 0; k < 3; ++k)
    if (auto fault = outside(place, v[k], low, high, expected)) {
      fault->place += fmt::format("[{}]", k);
      return fault;
    }
  return std::nullopt;
}

std::optional<Fault> first_fault(const RigidStrike& s) {
  const double tiny = 1e-9;
  if (auto f = outside("head.mass_kg", s.mass, 1e-3, 1e3, "a mass, 0.001 to 1000 kg")) return f;
  if (auto f = outside("head.inertia_kgm2", s.inertia, tiny, 1e3, "three moments of inertia over 0"))
    return f;
  if (auto f = outside("head.velocity_mps", s.velocity, -500.0, 500.0, "a velocity, -500 to 500 m/s"))
    return f;
  if (auto f = outside("head.angular_velocity_radps", s.turning, -1e4, 1e4, "a rate, -10000 to 10000 rad/s"))
    return f;
  if (auto f = outside("head.face_normal", s.face_normal, -1e6, 1e6, "a direction")) return f;
  if (auto f = outside("head.contact_from_com_m", s.contact, -1.0, 1.0, "a place on the head, -1 to 1 m"))
    return f;
  if (auto f = outside("head.restitution", s.restitution, 0.0, 1.0, "a number, 0 to 1")) return f;
  if (auto f =
          outside("head.tangential_restitution", s.tangential_restitution, -1.0, 1.0, "a number, -1 to 1"))
    return f;
  if (auto f = outside("head.friction", s.friction, 0.0, 2.0, "a number, 0 to 2")) return f;
  if (auto f = outside("ball.mass_kg", s.ball.mass, 1e-3, 1.0, "a mass, 0.001 to 1 kg")) return f;
  if (auto f = outside("ball.radius_m", s.ball.radius, 1e-3, 0.2, "a radius, 0.001 to 0.2 m")) return f;
  return outside("ball.inertia_factor", s.ball.inertia_factor, 0.1, 0.7,
                 "a number, 0.1 to 0.7 (a shell has 2/3)");
}

}  // namespace

Result<RigidStrikeResult> rigid_strike_of(const RigidStrike& s) {
  if (auto fault = first_fault(s)) return unexpected(*fault);
  const double length = s.face_normal.norm();
  if (length < 1e-6)
    return unexpected(Fault{"head.face_normal", "no direction", "a vector that is not zero"});
  HeadInRigidMotion<double> head;
  head.mass = s.mass;
  head.inertia_W = s.inertia.asDiagonal();
  head.v_WH_W = s.velocity;
  head.w_WH_W = s.turning;
  head.normal_W = s.face_normal / length;
  head.p_HC_W = s.contact;
  head.restitution = s.restitution;
  head.tangential_restitution = s.tangential_restitution;
  head.friction = s.friction;
  const Impact<double> impact = impact_of(head, s.ball);
  if (impact.regime == Regime::none)
    return unexpected(Fault{"head.velocity_mps", "the face does not move toward the ball",
                            "a velocity with a part along face_normal at the contact point"});
  if (!impact.impulse_W.allFinite() || impact.impulse_W.dot(head.normal_W) <= 0.0)
    return unexpected(Fault{"head.friction", "a contact that jams",
                            "less friction, or a contact nearer the centre of mass"});
  return RigidStrikeResult{impact, launch_of(impact.ball)};
}

}  // namespace strikewright
