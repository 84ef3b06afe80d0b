#include "other_world_swing.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace other_world {
namespace {

constexpr double kGravity = 9.81;

// The player: assumption throughout, a grown man's order of magnitude.
constexpr double kShoulder = 0.20;     // m, hub to lead shoulder
constexpr double kArm = 0.62;          // m, lead shoulder to the middle of the grip
constexpr double kTorsoInertia = 1.1;  // kg m2, trunk and trail shoulder about the hub
constexpr double kArmsMass = 6.8, kArmsCom = 0.34, kArmsInertia = 0.24;  // kg, m, kg m2, both arms
constexpr double kGripped = 0.09;    // m of the butt above the middle of the grip
constexpr double kFlexAt = 0.45;     // share of the free club where the shaft flexes
constexpr double kFlexHertz = 4.8;   // an iron clamped at the grip, from memory: 5
constexpr double kFlexRatio = 0.05;  // of critical damping

// At the top of the backswing and what follows: assumption.
constexpr double kTorsoTop = 0.0, kArmTop = -145.0 * kDegree, kLag = 92.0 * kDegree;
constexpr double kHubTorque = 120.0, kArmTorque = 120.0, kWristTorque = 30.0;  // N m
constexpr double kArmOnset = 0.05;                                             // s
constexpr double kRise = 0.045;                                                // s, of a muscle's pull
constexpr double kHubLimit = 20.0, kArmLimit = 30.0, kWristLimit = 80.0;       // rad/s, nothing left to pull
constexpr double kStopStiffness = 500.0, kStopDamping = 8.0;                   // arm against chest
constexpr double kHoldStiffness = 450.0, kHoldDamping = 5.0;                   // wrists before the release
constexpr double kLetGo = 0.003;        // s, how gradual the release is
constexpr double kWristDamping = 0.08;  // N m s/rad, loose wrists
constexpr double kShiftTime = 0.26;     // s, of the hub's shift
constexpr double kLongest = 0.60;       // s, no downswing is longer

/// A muscle's pull: rises after its onset, falls as the joint gets fast. A slower swing is the same movement
/// with all its times longer by one factor: rates are lower by it, torques by its square.
double pull(double most, double since, double rate, double limit, double torque) {
  if (since <= 0.0) return 0.0;
  const double pace = std::sqrt(torque);
  return torque * most * (1.0 - std::exp(-since * pace / kRise)) *
         std::clamp(1.0 - rate / (limit * pace), 0.0, 1.2);
}

}  // namespace

Chain chain_of(const strikewright::Club& club) {
  Chain c;
  const double free = club.length - kGripped, stiff = kFlexAt * free, loose = free - stiff;
  const double per_metre = club.shaft_mass / club.length;
  const double stiff_mass = club.grip_mass + per_metre * (stiff + kGripped);
  const double stiff_com = per_metre * (stiff + kGripped) * 0.5 * (stiff - kGripped) / stiff_mass;
  const double shaft = per_metre * loose, loose_mass = shaft + club.head_mass;
  const double loose_com = (0.5 * shaft * loose + club.head_mass * loose) / loose_mass;
  const double about_flex = shaft * loose * loose / 3.0 + club.head_mass * loose * loose + club.inertia.y();
  c.length = {kShoulder, kArm, stiff, loose};
  c.com = {0.0, kArmsCom, stiff_com, loose_com};
  c.mass = {30.0, kArmsMass, stiff_mass, loose_mass};
  c.inertia = {kTorsoInertia, kArmsInertia, stiff_mass * std::pow(stiff + kGripped, 2) / 12.0,
               about_flex - loose_mass * loose_com * loose_com};
  const double pitch = 2.0 * std::numbers::pi * kFlexHertz;
  c.flex_stiffness = pitch * pitch * about_flex;
  c.flex_damping = 2.0 * kFlexRatio * pitch * about_flex;
  c.tilt = club.lie - 2.5 * kDegree;  // the hands hang a little under the shaft's plane at rest: assumption
  return c;
}

Downswing::Downswing(const Chain& chain, const Effort& effort) : chain_{chain}, effort_{effort} {
  Eigen::Matrix4d arm = Eigen::Matrix4d::Zero();  // how far link i carries the com of link k
  for (int k = 0; k < 4; ++k)
    for (int i = 0; i <= k; ++i) arm(k, i) = i < k ? chain_.length[i] : chain_.com[i];
  coupling_ = arm.transpose() * chain_.mass.asDiagonal() * arm;
  moment_ = arm.transpose() * chain_.mass;
  State s;
  s.angle = {kTorsoTop, kArmTop, kArmTop - kLag, kArmTop - kLag};
  s.rate.setZero();
  states_.push_back(s);
  constexpr double kPast = 0.6;  // rad, of the club past straight down
  while (s.time < kLongest && s.angle[3] < kPast) {
    s = step(s, effort_.time_step);
    states_.push_back(s);
  }
  find_low_point();
}

Downswing::Hub Downswing::hub_at(double time) const {
  if (!effort_.driven) return {effort_.hub_x, 0.0, 0.0};
  const double length = kShiftTime / std::sqrt(effort_.torque), t = std::clamp(time / length, 0.0, 1.0);
  constexpr double kTurn = std::numbers::pi;
  const bool moving = time < length;
  return {effort_.hub_x + effort_.shift * 0.5 * (1.0 - std::cos(kTurn * t)),
          moving ? effort_.shift * 0.5 * kTurn / length * std::sin(kTurn * t) : 0.0,
          moving ? effort_.shift * 0.5 * std::pow(kTurn / length, 2) * std::cos(kTurn * t) : 0.0};
}

Four Downswing::torques(const State& s) const {
  const double bend = s.angle[3] - s.angle[2], bend_rate = s.rate[3] - s.rate[2];
  double flex = -chain_.flex_stiffness * bend, hub = 0.0, arm = 0.0, wrist = 0.0;
  if (effort_.driven) {
    flex -= chain_.flex_damping * bend_rate;
    const double torque = effort_.torque, pace = std::sqrt(torque);
    hub = pull(kHubTorque, s.time, s.rate[0], kHubLimit, torque);
    const double opened = s.angle[1] - s.angle[0] - (kArmTop - kTorsoTop), arm_rate = s.rate[1] - s.rate[0];
    arm = pull(kArmTorque, s.time - kArmOnset / pace, arm_rate, kArmLimit, torque);
    if (opened < 0.0)
      arm += std::max(0.0, -torque * kStopStiffness * opened - pace * kStopDamping * arm_rate);
    const double uncocked = s.angle[2] - s.angle[1] + kLag, wrist_rate = s.rate[2] - s.rate[1];
    const double held = 1.0 / (1.0 + std::exp((s.time - effort_.release) / kLetGo));
    wrist = held * (-torque * kHoldStiffness * uncocked - pace * kHoldDamping * wrist_rate) -
            pace * kWristDamping * wrist_rate +
            (1.0 - held) * pull(kWristTorque, s.time - effort_.release, wrist_rate, kWristLimit, torque);
  }
  return {hub - arm, arm - wrist, wrist - flex, flex};
}

Four Downswing::acceleration(const State& s) const {
  const Four sine = s.angle.array().sin(), cosine = s.angle.array().cos();
  Eigen::Matrix4d mass = coupling_.cwiseProduct(cosine * cosine.transpose() + sine * sine.transpose());
  mass.diagonal() += chain_.inertia;
  const Eigen::Matrix4d turning =
      coupling_.cwiseProduct(sine * cosine.transpose() - cosine * sine.transpose());
  const double weight = kGravity * std::sin(chain_.tilt);
  const Four load = moment_.cwiseProduct(hub_at(s.time).push * cosine + weight * sine);
  return mass.llt().solve(torques(s) - turning * s.rate.cwiseAbs2() - load);
}

/// The classical method of fourth order.
State Downswing::step(const State& s, double by) const {
  const auto moved = [&](const Four& rate, const Four& gain, double h) {
    return State{s.time + h, s.angle + h * rate, s.rate + h * gain};
  };
  const Four a1 = acceleration(s);
  const State s2 = moved(s.rate, a1, 0.5 * by);
  const Four a2 = acceleration(s2);
  const State s3 = moved(s2.rate, a2, 0.5 * by);
  const Four a3 = acceleration(s3);
  const State s4 = moved(s3.rate, a3, by);
  const Four a4 = acceleration(s4);
  return moved((s.rate + 2.0 * s2.rate + 2.0 * s3.rate + s4.rate) / 6.0,
               (a1 + 2.0 * a2 + 2.0 * a3 + a4) / 6.0, by);
}

State Downswing::state_at(double time) const {
  const double steps = std::clamp(time / effort_.time_step, 0.0, static_cast<double>(states_.size() - 1));
  const State& before = states_[static_cast<std::size_t>(steps)];
  return step(before, time - before.time);
}

Edge Downswing::edge_of(const State& s) const {
  const Hub hub = hub_at(s.time);
  Edge e{{hub.x, effort_.hub_y}, {hub.rate, 0.0}};
  for (int i = 0; i < 4; ++i) {
    const double c = std::cos(s.angle[i]), n = std::sin(s.angle[i]);
    e.place += chain_.length[i] * Two{n, -c};
    e.velocity += chain_.length[i] * s.rate[i] * Two{c, n};
  }
  return e;
}

double Downswing::energy_of(const State& s) const {
  const Four sine = s.angle.array().sin(), cosine = s.angle.array().cos();
  Eigen::Matrix4d mass = coupling_.cwiseProduct(cosine * cosine.transpose() + sine * sine.transpose());
  mass.diagonal() += chain_.inertia;
  const double bend = s.angle[3] - s.angle[2];
  return 0.5 * s.rate.dot(mass * s.rate) - kGravity * std::sin(chain_.tilt) * moment_.dot(cosine) +
         0.5 * chain_.flex_stiffness * bend * bend;
}

/// Where the edge, past its fast way down, begins to rise.
void Downswing::find_low_point() {
  constexpr double kNearBottom = -0.9;  // rad, of the club
  for (std::size_t i = 1; i < states_.size(); ++i) {
    if (states_[i].angle[3] < kNearBottom) continue;
    if (edge_of(states_[i - 1]).velocity.y() >= 0.0 || edge_of(states_[i]).velocity.y() < 0.0) continue;
    double low = states_[i - 1].time, high = states_[i].time;
    for (int k = 0; k < 40; ++k) {
      const double middle = 0.5 * (low + high);
      (edge_at(middle).velocity.y() < 0.0 ? low : high) = middle;
    }
    low_time_ = 0.5 * (low + high);
    return;
  }
}

}  // namespace other_world
