#include "other_world_ball.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace other_world {
namespace {

using strikewright::Club;

constexpr double kBallMass = 0.0459, kBallRadius = 0.02135;  // kg, m, the Rules' limits, from memory
constexpr double kBallInertia = 0.4 * kBallMass * kBallRadius * kBallRadius;

/// Club and plane in the world at one moment.
struct Moment {
  double time = 0.0;
  Three edge, edge_velocity;  ///< leading edge under the middle of the face
  Three normal, up, toe;      ///< of the face
  Three head_velocity;        ///< of the head's centre of mass
  double lean = 0.0;          ///< rad, of the shaft, seen across the plane's base line, forward +
};

/// Builds everything for a right-hander and mirrors it at the end.
Moment moment_at(const Downswing& swing, const Pose& pose, const Club& club, double time) {
  const State s = swing.state_at(time);
  const Edge e = swing.edge_of(s);
  const Eigen::AngleAxisd aimed(-pose.direction, Three::UnitZ());
  const auto laid = [&](double x, double y, double tilt) -> Three {
    return aimed * Three(x, y * std::cos(tilt), y * std::sin(tilt));
  };
  Moment m;
  m.time = time;
  m.edge = laid(e.place.x(), e.place.y(), pose.tilt);
  m.edge_velocity = laid(e.velocity.x(), e.velocity.y(), pose.tilt);
  const double lean = s.angle[3], shaft_tilt = pose.tilt + pose.toe_up;
  const Three shaft = laid(-std::sin(lean), std::cos(lean), shaft_tilt);
  m.lean = std::atan2(-std::sin(lean), std::cos(lean) * std::sin(shaft_tilt));
  const Three forward = laid(std::cos(lean), std::sin(lean), shaft_tilt), across = forward.cross(shaft);
  // The club soled at its design lie tells how the face sits on the shaft.
  const double loft = club.loft, lie = club.lie;
  const Eigen::AngleAxisd turned(pose.face_turn, shaft);
  const auto on_club = [&](double f, double vertical, double toward_player) -> Three {
    const double along = vertical * std::sin(lie) + toward_player * std::cos(lie);
    const double off = vertical * std::cos(lie) - toward_player * std::sin(lie);
    return turned * Three(f * forward + along * shaft + off * across);
  };
  m.normal = on_club(std::cos(loft), std::sin(loft), 0.0);
  m.up = on_club(-std::sin(loft), std::cos(loft), 0.0);
  m.toe = on_club(0.0, 0.0, -1.0);
  const Three arm = club.com_up * m.up - club.com_depth * m.normal + club.com_toe * m.toe;
  const Three plane_normal = laid(1.0, 0.0, pose.tilt).cross(laid(0.0, 1.0, pose.tilt));
  const Three turning = s.rate[3] * plane_normal + pose.closing * shaft;
  m.head_velocity = m.edge_velocity + turning.cross(arm);
  for (Three* v : {&m.edge, &m.edge_velocity, &m.normal, &m.up, &m.toe, &m.head_velocity})
    v->y() *= pose.side;
  return m;
}

double azimuth(const Three& v) { return std::atan2(-v.y(), v.x()); }
double elevation(const Three& v) { return std::atan2(v.z(), std::hypot(v.x(), v.y())); }

/// How far the face, or over the ball's side the edge, is past the ball's near side; and the contact's
/// normal.
struct Touch {
  double past = 0.0;
  Three normal;
  double up = 0.0;  ///< m up the face
};
Touch touch_of(const Moment& m, double lifted) {
  const Three edge = m.edge + Three(0.0, 0.0, lifted);
  const Three way = Three(0.0, 0.0, kBallRadius) - edge;
  const double up = way.dot(m.up);
  if (up >= 0.0) return {kBallRadius - way.dot(m.normal), m.normal, up};
  const Three in_face = way - way.dot(m.toe) * m.toe;  // the edge is long: only what is across it counts
  return {kBallRadius - (way.dot(m.normal) > 0.0 ? in_face.norm() : -in_face.norm()), in_face.normalized(),
          up};
}

/// Time of contact with an edge that the turf has lifted by so much.
double contact_time(const Downswing& swing, const Pose& pose, const Club& club, double lifted) {
  double low = swing.low_time() - 0.02, high = swing.low_time() + 0.02;
  const double last = swing.states().back().time;
  high = std::min(high, last);
  // Not later than where the edge passes the ball's centre: a missed ball is topped there.
  for (int k = 0; k < 45; ++k) {
    const double middle = 0.5 * (low + high);
    const Moment m = moment_at(swing, pose, club, middle);
    const bool past = m.edge.x() > -0.2 * kBallRadius || touch_of(m, lifted).past > 0.0;
    (past ? high : low) = middle;
  }
  return high;
}

// Turf: assumption throughout. Shear of the cut section that grows with depth, and a lift that is a share of
// it; the head hangs on arms that give way slowly.
constexpr double kShear = 350e3, kShearGrowth = 18e6;  // Pa, Pa/m
constexpr double kLiftShare = 0.45;
constexpr double kHangMass = 1.2, kHangTime = 0.012;  // kg, s: head, shaft and some of the arms, vertically
constexpr double kSlowedMass = 0.45;                  // kg, head and some of the shaft, along the path
constexpr double kMarkBegins = 0.003, kMarkEnds = 0.001;  // m, of depth: roots tear there
constexpr double kTurfStep = 5e-5;                        // s

/// The head's way through the turf: lifted over its free path by so much, and so much of its speed left.
struct Way {
  double lift = 0.0, rate = 0.0, speed_left = 1.0;
};

double depth_at(const Moment& m, const Way& w) { return -(m.edge.z() + w.lift); }

void go_through(const Moment& m, Way& w, double blade) {
  const double depth = std::max(0.0, depth_at(m, w));
  const double force = blade * depth * (kShear + kShearGrowth * depth);
  const double pull = 1.0 / kHangTime;
  w.rate += kTurfStep * (kLiftShare * force / kHangMass - pull * pull * w.lift - 2.0 * pull * w.rate);
  w.lift += kTurfStep * w.rate;
  w.speed_left = std::max(0.3, w.speed_left - kTurfStep * force / (kSlowedMass * m.edge_velocity.norm()));
}

struct Blow {
  Three ball_velocity = Three::Zero(), ball_spin = Three::Zero(), on_head = Three::Zero();
};

/// Impulses along and across the face, the one across as far as it grips. `grass` 0..1 between face and ball.
Blow blow_of(const Moment& m, const Touch& touch, const Club& club, double toe, double speed_left,
             double grass) {
  constexpr double kContact = 4.5e-4;                  // s, of ball and face; from memory
  constexpr double kGrip = 0.35, kGripInGrass = 0.12;  // slip limit: assumption
  constexpr double kSpringBack = 0.10;                 // of the slip returned, assumption
  const double off_toe = toe - club.com_toe, off_up = touch.up - club.com_up;
  const Three incoming = speed_left * m.head_velocity;
  const double about_up = club.inertia.z(), about_toe = club.inertia.y();
  const double heavy =
      1.0 / (1.0 / club.head_mass + off_toe * off_toe / about_up + off_up * off_up / about_toe);
  const double closing = std::max(0.0, incoming.dot(touch.normal));
  const double bounce = std::max(0.4, (club.restitution0 - 0.003 * closing) * (1.0 - 0.12 * grass));
  const double along = (1.0 + bounce) * closing / (1.0 / kBallMass + 1.0 / heavy);
  const Three offset = off_toe * m.toe + off_up * m.up;
  // The head turns back under the blow: the ball leaves by the face of the middle of the contact, when a
  // quarter of the turn is done (its rate grows evenly).
  const Three kick = -along * touch.normal, arm = offset + club.com_depth * touch.normal;
  const Three moment = arm.cross(kick);
  const Three twist = moment.dot(m.up) / about_up * m.up + moment.dot(m.toe) / about_toe * m.toe;
  const Three normal = (touch.normal + 0.5 * kContact * 0.5 * twist.cross(touch.normal)).normalized();
  const Three at_face = incoming + 0.5 * twist.cross(club.com_depth * touch.normal);
  const Three slip = at_face - at_face.dot(normal) * normal;
  const double give = 1.0 / kBallMass + kBallRadius * kBallRadius / kBallInertia + 1.0 / club.head_mass;
  const double most = (kGrip + (kGripInGrass - kGrip) * grass) * along;
  const Three grip = slip.norm() > 0.0
                         ? Three(slip.normalized() * std::min(most, (1.0 + kSpringBack) * slip.norm() / give))
                         : Three::Zero();
  Blow b;
  b.ball_velocity = (along * normal + grip) / kBallMass;
  b.ball_spin = (-kBallRadius * normal).cross(grip) / kBallInertia;
  b.on_head = -(along * normal + grip);
  return b;
}

/// Drag straight in the spin ratio, lift that saturates; spin fades. The shapes are usual ones, the figures
/// assumption.
Flown flight_of(Three velocity, Three spin) {
  constexpr double kAir = 1.2, kArea = std::numbers::pi * kBallRadius * kBallRadius, kStep = 0.01,
                   kFade = 22.0;
  Flown f;
  if (elevation(velocity) < 0.03) return f;
  const Three aim(std::cos(azimuth(velocity)), -std::sin(azimuth(velocity)), 0.0);
  const auto push = [&](const Three& v, double fade) -> Three {
    const double speed = v.norm(), ratio = kBallRadius * fade * spin.norm() / speed;
    const double drag = 0.215 + 0.20 * ratio, lift = 0.31 * (1.0 - std::exp(-ratio / 0.14));
    Three side = spin.cross(v);
    side = side.norm() > 0.0 ? Three(side.normalized()) : Three::Zero();
    return 0.5 * kAir * kArea * speed / kBallMass * (speed * lift * side - drag * v) - Three(0.0, 0.0, 9.81);
  };
  Three place = Three::Zero();
  for (double t = 0.0; t < 12.0; t += kStep) {
    const double fade = std::exp(-t / kFade);
    const Three a1 = push(velocity, fade), v2 = velocity + 0.5 * kStep * a1;
    const Three a2 = push(v2, fade), v3 = velocity + 0.5 * kStep * a2;
    const Three a3 = push(v3, fade), v4 = velocity + kStep * a3;
    const Three a4 = push(v4, fade);
    const Three next = place + kStep / 6.0 * (velocity + 2.0 * v2 + 2.0 * v3 + v4);
    velocity += kStep / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
    f.apex = std::max(f.apex, next.z());
    if (next.z() < 0.0) {
      const Three landed = place + place.z() / (place.z() - next.z()) * (next - place);
      f.carry = std::hypot(landed.x(), landed.y());
      f.curve = aim.x() * -landed.y() + aim.y() * landed.x();  // right of the start line +
      f.flew = f.carry > 10.0;
      return f;
    }
    place = next;
  }
  return f;
}

}  // namespace

Delivered delivered(const Downswing& swing, const Pose& pose, const Club& club) {
  Delivered d;
  const Moment low = moment_at(swing, pose, club, swing.low_time());
  const Moment hit = moment_at(swing, pose, club, contact_time(swing, pose, club, 0.0));
  d.low_point = low.edge.x();
  d.low_depth = low.edge.z();
  d.lean = hit.lean;
  d.attack = elevation(hit.head_velocity);
  d.path = azimuth(hit.head_velocity);
  d.face = azimuth(hit.normal);
  d.loft = elevation(hit.normal);
  d.speed = hit.head_velocity.norm();
  const double to_centre = -hit.edge.x() / hit.edge_velocity.x();
  d.edge_height = moment_at(swing, pose, club, hit.time + to_centre).edge.z();
  return d;
}

Seeable shot(const Downswing& swing, const Pose& pose, const Club& club) {
  Seeable out;
  out.club = delivered(swing, pose, club);
  Mark& mark = out.mark;
  mark.depth = -1.0;
  Way way;
  Moment hit;
  bool struck = false, in_mark = false;
  double mark_first_y = 0.0, mark_last_y = 0.0;
  double contact = contact_time(swing, pose, club, 0.0);
  const double last = std::min(swing.states().back().time, swing.low_time() + 0.015);
  for (double t = contact - 0.008; t < last; t += kTurfStep) {
    const Moment m = moment_at(swing, pose, club, t);
    const double depth = depth_at(m, way);
    if (!struck && t >= contact) {
      contact = contact_time(swing, pose, club, way.lift);
      hit = moment_at(swing, pose, club, contact);
      struck = true;
      const Touch touch = touch_of(hit, way.lift);
      const double grass = 1.0 - std::exp(-mark.before_ball / 1.5e-4);
      const Blow b = blow_of(hit, touch, club, pose.toe, way.speed_left, grass);
      out.start = azimuth(b.ball_velocity);
      out.launch = elevation(b.ball_velocity);
      out.ball_speed = b.ball_velocity.norm();
      out.spin = b.ball_spin.norm();
      out.flight = flight_of(b.ball_velocity, b.ball_spin);
      out.strike_toe = pose.toe;
      out.strike_up = touch.up;
      out.edge_at_contact = hit.edge.z() + way.lift;
      way.rate += b.on_head.z() / kHangMass;
    }
    mark.depth = std::max(mark.depth, depth);
    if (depth > 0.0 && !struck) mark.before_ball += depth * kTurfStep * m.edge_velocity.head<2>().norm();
    if (depth > kMarkBegins && !mark.cut) {
      mark.cut = in_mark = true;
      mark.start = m.edge.x();
      mark_first_y = m.edge.y();
    }
    if (in_mark) {
      mark.end = m.edge.x();
      mark_last_y = m.edge.y();
      if (depth < kMarkEnds) in_mark = false;
    }
    go_through(m, way, club.blade_length);
  }
  if (mark.cut && mark.end - mark.start < 0.02) mark.cut = false;  // a nick is measured by nobody
  if (mark.cut) mark.direction = std::atan2(-(mark_last_y - mark_first_y), mark.end - mark.start);
  return out;
}

}  // namespace other_world
