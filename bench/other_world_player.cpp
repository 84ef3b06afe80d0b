#include "other_world_player.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace other_world {
namespace {

constexpr double kUsualShift = 0.08;  // m

/// The swing of such an effort, its lowest point put where it is usual.
Downswing placed(const Base& base, const Usual& usual, Effort effort) {
  Downswing swing(base.chain, effort);
  for (int k = 0; k < 2; ++k) {
    const Edge low = swing.edge_at(swing.low_time());
    const double off_y = usual.low_depth / std::sin(base.pose.tilt) - low.place.y();
    const double x = low.place.x() * std::cos(base.pose.direction) +
                     low.place.y() * std::cos(base.pose.tilt) * std::sin(base.pose.direction);
    swing.move_by({(usual.low_point - x) / std::cos(base.pose.direction), off_y});
  }
  return swing;
}

/// Speed [m/s], lean and face [deg] past the usual, for a share of the torques, a release [s] and a face turn
/// [deg].
Three miss(Base& base, const Usual& usual, const Three& free) {
  base.effort.torque = free[0];
  base.effort.release = free[1];
  base.pose.face_turn = free[2] * kDegree;
  base.effort.hub_x = base.effort.hub_y = 0.0;
  const Downswing swing = placed(base, usual, base.effort);
  base.effort = swing.effort();
  const Delivered d = delivered(swing, base.pose, base.club);
  return {d.speed - usual.speed, (d.lean - usual.lean) / kDegree, (d.face - usual.face) / kDegree};
}

double between(double low, double high, Draws& draws) { return low + (high - low) * draws.uniform(); }
double either_side(Draws& draws) { return draws.uniform() < 0.5 ? -1.0 : 1.0; }

Delivered club_of(const Swing& s, const strikewright::Club& club) {
  return delivered(s.motion, s.pose, club);
}

}  // namespace

Base base_of(const strikewright::Club& club, const Usual& usual) {
  Base base;
  base.club = club;
  base.chain = chain_of(club);
  base.effort.shift = kUsualShift;
  base.pose.tilt = base.chain.tilt;
  base.pose.direction = usual.direction;
  base.pose.closing = Habit{}.closing;
  Three at(1.0, 0.185, 0.0);
  for (int k = 0; k < 12; ++k) {
    const Three off = miss(base, usual, at);
    Eigen::Matrix3d slope;
    const Three nudge(0.01, 0.001, 0.1);
    for (int j = 0; j < 3; ++j)
      slope.col(j) = (miss(base, usual, at + nudge[j] * Three::Unit(j)) - off) / nudge[j];
    Three way = -slope.partialPivLu().solve(off);
    const Three longest(0.1, 0.008, 4.0);
    way *= 1.0 / std::max(1.0, way.cwiseAbs().cwiseQuotient(longest).maxCoeff());
    at += way;
  }
  base.worst = miss(base, usual, at).cwiseAbs().maxCoeff();
  base.chain.tilt = base.pose.tilt;
  const Swing s = swing_of(base, {}, {});
  base.usual_launch = shot(s.motion, s.pose, club).launch;
  return base;
}

Swing swing_of(const Base& base, const Causes& causes, const Habit& habit, double side, double time_step) {
  Causes si;
  for (std::size_t k = 0; k < kAsked; ++k) si[k] = causes[k] * kUnits[k];
  Effort e = base.effort;
  e.time_step = time_step;
  e.torque *= habit.pace;
  // The same movement slower: let go the later.
  e.release = base.effort.release / std::sqrt(habit.pace) + si[1];
  if (habit.on_lead_leg) {
    // Already over the lead foot, and no foot to push from: the hub stays where it is, whatever its habit.
    e.shift = 0.0;
    e.hub_x += base.effort.shift + habit.lead_place;
  } else {
    e.shift += si[0];
  }
  e.hub_y += si[2];
  Chain chain = base.chain;
  chain.tilt += habit.tilt;
  Pose pose = base.pose;
  pose.tilt += habit.tilt;
  pose.toe_up = habit.toe_up;
  pose.closing = habit.closing;
  pose.toe = habit.toe;
  pose.direction += si[3];
  // The club turns with the plane; the hands turn the face back as far as it does not go along.
  pose.face_turn += si[4] + (1.0 - habit.face_follows) * si[3];
  pose.side = side;
  return {Downswing(chain, e), pose};
}

namespace {

void draw_causes(Pupil& p, Draws& draws) {
  p.leader = std::min(kAsked - 1, static_cast<std::size_t>(draws.uniform() * static_cast<double>(kAsked)));
  for (double& c : p.own) c = between(-0.4, 0.4, draws);
  p.size = either_side(draws) * between(1.0, 2.5, draws);
  p.own[p.leader] = p.size;
  p.felt_height = between(0.0, 0.8, draws);
  p.felt_face = between(0.3, 1.0, draws);
  p.habit.pace = std::exp(0.06 * draws.normal());
  p.habit.tilt = 1.0 * kDegree * draws.normal();
  p.habit.toe_up = 1.0 * kDegree * draws.normal();
  p.habit.closing *= between(0.8, 1.2, draws);
  p.habit.toe = 0.004 * draws.normal();
  p.habit.face_follows = between(0.0, 0.6, draws);
  // About 6 to 14 mm, 2 to 5 ms, 1.5 to 4 mm, 0.6 to 1.6 deg, 0.8 to 2 deg.
  constexpr Causes kLeast{0.3, 0.2, 0.3, 0.3, 0.4}, kMost{0.7, 0.5, 0.8, 0.8, 1.0};
  for (std::size_t k = 0; k < kAsked; ++k) p.scatter[k] = between(kLeast[k], kMost[k], draws);
  p.toe_scatter = between(0.003, 0.007, draws);
  p.lie_scatter = between(0.4, 1.0, draws) * kDegree;
  p.pace_scatter = between(0.01, 0.04, draws);
}

/// The ground is felt for: some of what the release does to the edge is met by height; the face is looked
/// after: some of what a leaning shaft does to it is turned back.
void feel(Pupil& p) {
  Causes without = p.own;
  without[1] = 0.0;
  const Delivered with = club_of(swing_of(*p.base, p.own, p.habit), p.base->club);
  const Delivered free = club_of(swing_of(*p.base, without, p.habit), p.base->club);
  p.done = p.own;
  p.done[2] -=
      p.felt_height * (with.edge_height - free.edge_height) / std::sin(p.base->pose.tilt) / kUnits[2];
  Causes neither = without;
  neither[0] = 0.0;
  const Delivered straight = club_of(swing_of(*p.base, neither, p.habit), p.base->club);
  p.done[4] += p.felt_face * (with.face - straight.face) / kUnits[4];
}

Seeable one_swing(const Pupil& p, const Causes& middle, const Habit& usual, Draws& draws) {
  Causes causes = middle;
  for (std::size_t k = 0; k < kAsked; ++k) causes[k] += p.scatter[k] * draws.normal();
  Habit habit = usual;
  habit.toe += p.toe_scatter * draws.normal();
  habit.toe_up += p.lie_scatter * draws.normal();
  habit.pace *= std::exp(2.0 * p.pace_scatter * draws.normal());
  const Swing s = swing_of(*p.base, causes, habit, p.side);
  return shot(s.motion, s.pose, p.base->club);
}

}  // namespace

Pupil pupil_of(const std::vector<Base>& bases, std::size_t swings, std::size_t on_lead_leg, Draws& draws) {
  Pupil p;
  p.base = &bases[std::min(bases.size() - 1,
                           static_cast<std::size_t>(draws.uniform() * static_cast<double>(bases.size())))];
  p.side = either_side(draws);
  draw_causes(p, draws);
  feel(p);
  p.truth = club_of(swing_of(*p.base, p.done, p.habit), p.base->club);
  for (std::size_t i = 0; i < swings; ++i) p.normal.push_back(one_swing(p, p.done, p.habit, draws));
  Habit lead = p.habit;
  lead.on_lead_leg = true;
  lead.lead_place = 0.055 + 0.015 * draws.normal();       // the tool's page on causes: 55 +- 15 mm
  lead.pace *= std::pow(0.9 + 0.05 * draws.normal(), 2);  // 10 +- 5 % slower
  for (std::size_t i = 0; i < on_lead_leg; ++i) p.lead_leg.push_back(one_swing(p, p.done, lead, draws));
  return p;
}

}  // namespace other_world
