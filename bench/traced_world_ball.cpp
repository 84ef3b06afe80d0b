#include "traced_world_ball.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "quantity/angle.hpp"

namespace traced_world {
namespace {

using strikewright::azimuth_of;
using strikewright::direction;
using strikewright::elevation_of;

constexpr double kBallMass = 0.04593;  // kg (Rules: not more than 1.620 oz)
constexpr double kAirDensity = 1.2;    // kg/m3
/// 1/m per m of depth, of the head's speed: the momentum of the turf that a blade lifts, lambda rho w N_a / M
/// with lambda 0.5, 1600 kg/m3, 5 cm, N_a 1.15, 0.27 kg; all five assumption.
constexpr double kTurfDrag = 170.0;
/// rad/m per m of depth and rad of the sole's incidence: so much that marks come nearer to the published mean
/// length of 10 cm (Patton, Turf & Rec, May 2018); assumption.
constexpr double kTurfLift = 5000.0;
constexpr double kLeastIncidence = 0.03;  // rad; a sole is cambered
constexpr double kHandsHold = 0.04;       // kg of shaft and hands that go along in the blow; assumption

/// Effect of the turf on the head until the ball is reached.
struct Before {
  double raised = 0.0;  ///< m
  double climb = 0.0;   ///< rad, added to the way's slope
  double kept = 1.0;    ///< share of speed
  double cut = 0.0;     ///< m of turf
};

void cut_to(Mark& mark, double at, double deep) {
  mark.at.push_back(at);
  mark.deep.push_back(deep);
}

/// How squarely the sole meets its way [rad]: bounce less lean, and the way's steepness.
double incidence(const Club& club, const Delivered& d, double slope) {
  return std::max(kLeastIncidence, club.bounce + d.loft - club.loft - slope);
}

Before before_ball(const Trace& trace, const Delivered& d, const Ground& ground, double cell, Mark& mark) {
  constexpr double kFrom = 0.30;  // m behind the ball
  Before b;
  const double step = cell / d.speed;
  const int steps = static_cast<int>(kFrom / cell);
  for (int k = steps; k > 0; --k) {
    const double t = trace.contact_time() - k * step;
    const Vec edge = trace.at(t).edge, v = trace.velocity(t, 0.0, 0.0, 0.0);
    const double deep = -(edge.z() + b.raised);
    b.raised += b.climb * cell;
    if (deep <= 0.0) {
      if (!mark.at.empty()) cut_to(mark, edge.x(), 0.0);
      continue;
    }
    cut_to(mark, edge.x(), deep);
    b.climb += ground.heavy * kTurfLift * deep * incidence(trace.club(), d, elevation_of(v) + b.climb) * cell;
    b.kept *= std::exp(-ground.heavy * kTurfDrag * deep * cell);
    b.cut += cell;
  }
  return b;
}

/// From the ball on: arc, turf's lift, and the push of the ball, until the edge is out of the ground.
void after_ball(const Trace& trace, const Delivered& d, const Ground& ground, double cell, const Before& b,
                double slope, Mark& mark) {
  constexpr double kLongest = 0.35, kNear = 0.002;  // m, s
  const double low = trace.low_time();
  const double rise = trace.velocity(low + kNear, 0, 0, 0).z() - trace.velocity(low - kNear, 0, 0, 0).z();
  const double bend = rise / (2.0 * kNear) / trace.velocity(low, 0, 0, 0).squaredNorm();  // 1/m
  double x = trace.at(trace.contact_time()).edge.x(), z = d.edge_height + b.raised;
  for (double gone = 0.0; gone < kLongest; gone += cell) {
    if (z < 0.0) cut_to(mark, x, -z);
    if (z >= 0.0 && slope >= 0.0) break;
    const double lift = z < 0.0 ? -ground.heavy * kTurfLift * z * incidence(trace.club(), d, slope) : 0.0;
    slope += (bend + lift) * cell;
    z += slope * cell;
    x += cell;
  }
}

void finish(const Trace& trace, const Delivered& d, Mark& mark) {
  constexpr double kLeast = 0.0005, kBelow = 0.8;  // m; share of the blade that stands in the ground
  for (std::size_t k = 0; k < mark.at.size(); ++k) mark.depth = std::max(mark.depth, mark.deep[k]);
  mark.cut = mark.depth > kLeast;
  if (!mark.cut) return;
  mark.start = mark.at.front();
  mark.end = mark.at.back();
  mark.toe_depth = -kBelow * trace.club().blade_length * std::sin(d.lie);
  const double middle = 0.5 * (mark.start + mark.end), edge = trace.at(trace.contact_time()).edge.x();
  const double t = trace.contact_time() + (middle - edge) / d.speed;
  mark.direction = azimuth_of(trace.velocity(t, 0.0, 0.0, 0.0));
}

/// The ball's start: speed and spin in space.
struct Struck {
  Vec velocity = Vec::Zero(), spin = Vec::Zero();
  double normal_speed = 0.0;
};

/// Blow in the plane of velocity and normal (A. R. Penner, Am. J. Phys. 69(5), 563, 2001), off centre by
/// effective mass and gear effect.
Struck struck(const Club& club, const Vec& u, const Pose& pose, const Seeable& at, double side,
              double friction) {
  constexpr double kGrip = 0.15;  // tangential restitution, 0 to 0.25 by the sources; assumption
  constexpr double kCushion =
      0.06;  // m of turf before the ball that takes half of what turf can take; assumption
  const double turf = at.turf_before / (at.turf_before + kCushion);
  const double mass = club.head_mass + kHandsHold;
  const double off_toe = at.toe - club.com_toe, off_up = at.up - club.com_up;
  const double soft = mass * (off_toe * off_toe / club.inertia.z() + off_up * off_up / club.inertia.y());
  const Vec n = pose.normal;
  const double closing = u.dot(n);
  // Solid face, near Penner 2001's at 30 m/s; turf in between takes up to a quarter.
  const double restitution = (0.83 - 0.0024 * closing) * (1.0 - 0.25 * turf);
  const double along = (1.0 + restitution) * closing / (1.0 + kBallMass / mass * (1.0 + soft));
  const Vec slip = u - closing * n;
  const double stuck = (1.0 + kGrip) * slip.norm() / (3.5 + kBallMass / mass);
  const double across = std::min(stuck, friction * (1.0 - turf) * along);
  Struck s;
  s.normal_speed = along;
  s.velocity = along * n + across * slip.normalized();
  s.spin = 2.5 * across / kBallRadius * u.cross(n).normalized();
  const auto gear = [&](double off, double inertia) {
    return 2.5 * along * club.com_depth * off /
           (kBallRadius * inertia *
            (3.5 / kBallMass + 1.0 / mass + club.com_depth * club.com_depth / inertia));
  };
  s.spin += side * gear(off_toe, club.inertia.z()) * pose.up;
  s.spin += side * gear(off_up, club.inertia.y()) * pose.toe * -1.0;
  const double opened = kBallMass * along * off_toe / club.inertia.z() * 2.5e-4;  // rad, over half a contact
  s.velocity = strikewright::turn_about(Vec(Vec::UnitZ()), -side * opened) * s.velocity;
  return s;
}

/// A blow low on the face: the edge's radius takes over; under the middle the ball is beaten into the ground.
void thin(Struck& s, double up) {
  constexpr double kClean = 0.006, kEdge = 0.0;  // m up the face
  if (up >= kClean) return;
  const double missing = std::min(1.0, (kClean - up) / (kClean - kEdge));
  const double launch = elevation_of(s.velocity), lower = launch * (1.0 - 0.45 * missing);
  const double speed = s.velocity.norm() * (1.0 - 0.10 * missing);
  s.velocity = speed * direction(azimuth_of(s.velocity), lower);
  s.spin *= 1.0 - 0.35 * missing;
}

/// Drag and lift by Ferguson, McNally & McPhee, Engineering of Sport 14, 2022 (doi 10.5703/1288284317493),
/// level beyond their data.
struct Air {
  Vec wind;
  [[nodiscard]] Vec acceleration(const Vec& v, const Vec& spin) const {
    const Vec air = v - wind;
    const double speed = air.norm(), rate = spin.norm();
    const double s = std::min(0.5, rate * kBallRadius / speed);
    const double drag = 0.1304 + 0.9287 * s - 0.8259 * s * s, lift = 0.0504 + 1.2031 * s - 1.1490 * s * s;
    const double push = 0.5 * kAirDensity * std::numbers::pi * kBallRadius * kBallRadius / kBallMass;
    Vec a = -push * drag * speed * air - strikewright::kGravity * Vec::UnitZ();
    const Vec sideways = spin.cross(air);
    if (rate > 1.0) a += push * lift * speed * speed * sideways / std::max(1e-9, sideways.norm());
    return a;
  }
};

Flight flown(const Struck& s, const Ground& ground, double step) {
  constexpr double kDecay = 2.0e-5;  // Smits & Smith, Science and Golf II, 1994, 340-347
  const Air air{{-ground.head_wind, -ground.cross_wind, 0.0}};
  Vec x = Vec::Zero(), v = s.velocity, spin = s.spin, last = x;
  Flight f;
  do {
    last = x;
    const Vec a1 = air.acceleration(v, spin), v2 = v + 0.5 * step * a1;
    const Vec a2 = air.acceleration(v2, spin), v3 = v + 0.5 * step * a2;
    const Vec a3 = air.acceleration(v3, spin), v4 = v + step * a3;
    const Vec a4 = air.acceleration(v4, spin);
    x += step / 6.0 * (v + 2.0 * v2 + 2.0 * v3 + v4);
    v += step / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
    spin *= 1.0 - kDecay * v.norm() / kBallRadius * step;
    f.apex = std::max(f.apex, x.z());
  } while (x.z() > 0.0);
  const Vec land = last + last.z() / (last.z() - x.z()) * (x - last);
  const double start = azimuth_of(s.velocity);
  f.carry = std::hypot(land.x(), land.y());
  f.curve = -land.y() * std::cos(start) - land.x() * std::sin(start);
  return f;
}

void look_at_spin(const Struck& s, Seeable& out) {
  const double azimuth = azimuth_of(s.velocity);
  const Vec right{-std::sin(azimuth), -std::cos(azimuth), 0.0};
  const Vec over = right.cross(s.velocity.normalized());
  out.ball_speed = s.velocity.norm();
  out.launch = elevation_of(s.velocity);
  out.start = azimuth;
  out.spin = s.spin.norm();
  out.spin_axis = std::atan2(-s.spin.dot(over), s.spin.dot(right));
}

}  // namespace

Seeable shot(const Trace& trace, const Ground& ground, double cell) {
  constexpr double kTopped = -0.004;    // m up the face: under the edge
  constexpr double kHoselSpeed = 0.65;  // share of speed off the hosel
  const Club& club = trace.club();
  const Pose pose = trace.at(trace.contact_time());
  Seeable out;
  const Delivered d = out.club = trace.delivered();
  const Before b = before_ball(trace, d, ground, cell, out.mark);
  out.turf_before = b.cut;
  out.slowed = b.kept;
  out.toe = d.toe;
  out.up = d.up - b.raised / std::cos(d.loft);
  out.shank = d.toe < -club.heel_reach;
  out.topped = out.up < kTopped;
  const Vec u =
      b.kept * (trace.velocity(trace.contact_time(), d.toe, d.up, 0.0) + Vec{0.0, 0.0, b.climb * d.speed});
  Struck s = struck(club, u, pose, out, trace.side(), ground.friction);
  thin(s, out.up);
  if (out.topped) s.velocity = 0.45 * s.velocity.norm() * direction(azimuth_of(s.velocity), 0.03);
  if (out.shank)
    s.velocity = kHoselSpeed * s.velocity.norm() *
                 direction(azimuth_of(s.velocity) + trace.side() * 0.6, elevation_of(s.velocity));
  look_at_spin(s, out);
  out.flight = flown(s, ground, cell * 10.0);
  const double mass = club.head_mass + kHandsHold;
  const Vec on = b.kept * d.speed * direction(0.0, d.attack + b.climb) - kBallMass / mass * s.velocity;
  after_ball(trace, d, ground, cell, b, std::atan2(on.z(), on.x()), out.mark);
  finish(trace, d, out.mark);
  return out;
}

}  // namespace traced_world
