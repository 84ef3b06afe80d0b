#include "flight/landing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "quantity/angle.hpp"

namespace strikewright {
namespace {

constexpr double kStill = 1e-9;  // m/s, no direction below it

Vec3<double> level_direction(const Vec3<double>& v) {
  const double level = std::hypot(v.x(), v.y());
  if (level < kStill) return {1.0, 0.0, 0.0};
  return {v.x() / level, v.y() / level, 0.0};
}

/// Crater angle [rad] at a speed [m/s] and landing angle [rad].
double crater(const Turf& turf, double speed, double angle) {
  // Penner 2002: 15.4 degrees at 18.6 m/s and 44.4 degrees, in proportion to both.
  const double penner = 15.4 * kDegree * (speed / 18.6) * (angle / (44.4 * kDegree));
  const double beta = turf.penner ? turf.beta_scale * penner : turf.beta;
  return std::clamp(beta, 0.0, std::max(0.0, 0.5 * std::numbers::pi - angle));
}

/// Rolling ball's velocity once the skid has ended: the slip is stopped, as by a gripping bounce.
Vec3<double> rolling_velocity(const BallMotionW& m, const Ball& ball) {
  const Vec3<double> up{0.0, 0.0, 1.0};
  const Vec3<double> slip = m.v + ball.radius * up.cross(m.w);
  Vec3<double> v = m.v - slip / (1.0 + 1.0 / ball.inertia_factor);
  v.z() = 0.0;
  return v;
}

}  // namespace

Turf Turf::penner_green() { return {}; }
Turf Turf::biber_natural() {
  return {.penner = false, .beta = 18.4 * kDegree, .restitution = 0.147, .friction = 0.998};
}
Turf Turf::biber_artificial() {
  return {.penner = false, .beta = 12.9 * kDegree, .restitution = 0.420, .friction = 0.852};
}
Turf Turf::of_firmness(double firmness) {
  const double f = std::clamp(firmness, 0.0, 1.0);
  Turf turf;
  turf.beta_scale = 1.5 - f;
  turf.restitution_scale = 0.6 + 0.8 * f;
  turf.rolling = 0.45 * std::pow(0.20 / 0.45, f);
  return turf;
}

double turf_restitution(double speed) {
  return speed <= 20.0 ? 0.510 + speed * (-0.0375 + 0.000903 * speed) : 0.120;
}
double rolling_deceleration(double rolling) { return (5.0 / 7.0) * rolling * kGravity; }
double rolling_of_green(double reading_feet) {
  const double start = 6.0 * kFoot;
  return 1.4 * start * start / (2.0 * kFoot * reading_feet * kGravity);
}

BallMotionW bounce(const BallMotionW& in, const Ball& ball, const Turf& turf) {
  const Vec3<double> ahead = level_direction(in.v);
  const double angle = std::atan2(-in.v.z(), std::hypot(in.v.x(), in.v.y()));
  const double beta = crater(turf, in.v.norm(), angle);
  const Vec3<double> normal = Vec3<double>{0.0, 0.0, std::cos(beta)} - std::sin(beta) * ahead;
  const double into = -in.v.dot(normal);
  const double e =
      turf.penner ? std::min(1.0, turf.restitution_scale * turf_restitution(into)) : turf.restitution;
  const Vec3<double> slip = in.v + into * normal + ball.radius * normal.cross(in.w);
  const double most = turf.friction * (1.0 + e) * into;
  const double needed = slip.norm() / (1.0 + 1.0 / ball.inertia_factor);
  BallMotionW out;
  out.slid = needed > most;
  const Vec3<double> kick = needed < kStill ? Vec3<double>{0.0, 0.0, 0.0}
                                            : Vec3<double>{-std::min(needed, most) * slip.normalized()};
  out.v = in.v + (1.0 + e) * into * normal + kick;
  out.w = in.w - normal.cross(kick) / (ball.inertia_factor * ball.radius);
  return out;
}

Run run_on(const Turf& turf, const Flight<double>& flight, const Ball& ball, const Day& day) {
  constexpr double lowest_hop = 0.005;  // m
  constexpr int most_bounces = 50;      // hops shrink by half or more each: 50 is out of reach
  Run run;
  Vec3<double> place{flight.along, -flight.side, 0.0};
  const Vec3<double> ahead = level_direction(flight.v_landing_W);
  BallMotionW ball_now{flight.v_landing_W, flight.w_landing_W, false};
  Day ground = day;
  ground.target_height = 0.0;
  while (run.bounces < most_bounces && ball_now.v.z() < -std::sqrt(2.0 * kGravity * lowest_hop)) {
    ball_now = bounce(ball_now, ball, turf);
    ++run.bounces;
    if (ball_now.v.z() * ball_now.v.z() < 2.0 * kGravity * lowest_hop || ball_now.v.z() < 0.0) break;
    Launch<double> hop;
    hop.v_WB_W = ball_now.v;
    hop.w_WB_W = ball_now.w;
    const Flight<double> next = flight_of(hop, ball, ground, FlightOptions::fast());
    place += Vec3<double>{next.along, -next.side, 0.0};
    ball_now = {next.v_landing_W, next.w_landing_W, ball_now.slid};
  }
  const Vec3<double> v = rolling_velocity(ball_now, ball);
  run.roll = v.squaredNorm() / (2.0 * rolling_deceleration(turf.rolling));
  if (v.norm() > kStill) place += run.roll * v.normalized();
  run.along = place.x();
  run.side = -place.y();
  run.total = std::hypot(place.x(), place.y());
  run.run = (place - Vec3<double>{flight.along, -flight.side, 0.0}).dot(ahead);
  return run;
}

Run run_of(const Flight<double>& flight, const Ball& ball, const Day& day) {
  return run_on(Turf::of_firmness(day.firmness), flight, ball, day);
}

}  // namespace strikewright
