// The tool's reading judged by swings of another world: other levers, turf, impact, flight and eye than the
// tool believes in. No benchmark of speed; prints tables.
//
//     other_world [pupils=60] [seed=1] [threads=0] [each]     how right the reading is; each pupil, too
//     other_world levers                                      what one unit of each cause does here
//     other_world check                                       energy, mirror, step, and what is usual; ends
//     with 1 where one is off

#include <fmt/core.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "judging.hpp"
#include "other_world_eye.hpp"

namespace {

using namespace other_world;
using strikewright::Condition;
using strikewright::SeenSwing;

constexpr std::size_t kSwings = 10, kOnLeadLeg = 5;

std::vector<Base> all_bases() {
  std::vector<Base> out;
  for (const char* name : {"7i", "pw"})
    out.push_back(base_of(judging::club_of(name), judging::usual_of(name)));
  return out;
}

struct Row {
  const char* name;
  Looking looking;
  bool lead_leg;
};
constexpr std::array<Row, 4> kRows{{{"clean eye", Looking::clean, false},
                                    {"biased eye", Looking::biased, false},
                                    {"5 % slips", Looking::slips, false},
                                    {"clean + 5 lead leg", Looking::clean, true}}};

std::vector<SeenSwing> lesson_of(const Pupil& p, const Row& row, Draws& draws) {
  const Eye eye = eye_of(row.looking, draws);
  std::vector<SeenSwing> out;
  const auto add = [&](const std::vector<Seeable>& shots, Condition condition) {
    for (const Seeable& shot : shots) {
      SeenSwing s = judging::unseen(out.size() + 1, p.base->club.name, p.side, condition);
      s.sightings = looked_at(shot, *p.base, p.side, eye, draws);
      out.push_back(std::move(s));
    }
  };
  add(p.normal, Condition::normal);
  if (row.lead_leg) add(p.lead_leg, Condition::lead_leg);
  return out;
}

judging::Case played(const std::vector<Base>& bases, std::uint64_t seed, std::size_t i) {
  Draws draws(seed, i);
  const Pupil p = pupil_of(bases, kSwings, kOnLeadLeg, draws);
  return judging::case_of(
      p, fmt::format("{:.1f} {:.1f} {:.1f}", p.felt_height, p.felt_face, p.habit.face_follows), kRows, seed,
      i, lesson_of);
}

void levers() {
  for (const Base& base : all_bases()) {
    const auto at = [&](const Causes& c, const Habit& h) {
      const Swing s = swing_of(base, c, h);
      return delivered(s.motion, s.pose, base.club);
    };
    judging::print_lever_heading(base.club.name);
    const Delivered usual = at({}, {});
    judging::print_levers(usual, [&](const Causes& c) { return at(c, {}); });
    Habit slower;
    slower.pace = 0.81;
    judging::print_lever("10 % slower", at({}, slower), usual);
    Habit lead = slower;
    lead.on_lead_leg = true;
    lead.lead_place = 0.055;
    judging::print_lever("lead leg", at({}, lead), usual);
  }
}

/// Largest difference of what can be seen and what is true between a right-hander and his mirror.
double mirror_gap(const Base& base) {
  Habit h;
  h.toe = 0.006;
  h.toe_up = 0.01;
  const Causes c{0.5, -0.7, -0.8, 1.2, -0.9};
  const Swing right = swing_of(base, c, h, 1.0), left = swing_of(base, c, h, -1.0);
  const Seeable a = shot(right.motion, right.pose, base.club), b = shot(left.motion, left.pose, base.club);
  double gap = 0.0;
  for (const auto& [x, y] : {std::pair{a.start, -b.start},
                             {a.club.path, -b.club.path},
                             {a.club.face, -b.club.face},
                             {a.flight.curve, -b.flight.curve},
                             {a.flight.carry, b.flight.carry},
                             {a.launch, b.launch},
                             {a.spin, b.spin},
                             {a.mark.start, b.mark.start},
                             {a.mark.direction, -b.mark.direction},
                             {a.club.low_point, b.club.low_point},
                             {a.strike_up, b.strike_up},
                             {a.club.lean, b.club.lean}})
    gap = std::max(gap, std::abs(x - y));
  return gap;
}

/// Is this world sound? Energy is kept where nothing drives, half the step changes nothing that is judged, a
/// left-hander is a right-hander in the mirror, and the usual swing is the usual one.
bool check() {
  constexpr double kEnergy = 1e-9, kUsual = 1e-3, kStep = 1e-4, kMirror = 1e-9;  // share; m/s, deg; m; SI
  bool sound = true;
  for (const Base& base : all_bases()) {
    Effort loose = base.effort;
    loose.driven = false;
    loose.time_step = 1e-4;
    const Downswing fall(base.chain, loose);
    const double first = fall.energy_of(fall.states().front());
    double kinetic = 0.0, worst = 0.0;
    const double lowest = fall.energy_of({0.0, Four::Zero(), Four::Zero()});
    for (const State& s : fall.states()) {
      worst = std::max(worst, std::abs(fall.energy_of(s) - first));
      kinetic = std::max(kinetic, first - fall.energy_of({0.0, s.angle, Four::Zero()}));
    }
    const Swing coarse = swing_of(base, {}, {}), fine = swing_of(base, {}, {}, 1.0, 1e-4);
    const Delivered a = delivered(coarse.motion, coarse.pose, base.club),
                    b = delivered(fine.motion, fine.pose, base.club);
    const Seeable s = shot(coarse.motion, coarse.pose, base.club);
    const double gap = mirror_gap(base);
    sound = sound && worst < kEnergy * kinetic && base.worst < kUsual &&
            std::abs(b.low_point - a.low_point) < kStep && gap < kMirror;
    fmt::print("{}\n  left off the usual by at most {:.1e} (m/s, deg)\n", base.club.name, base.worst);
    fmt::print("  torques x {:.3f}, release at {:.1f} ms, face turned {:.2f} deg, hub at {:.0f}, {:.0f} mm\n",
               base.effort.torque, 1e3 * base.effort.release, base.pose.face_turn / kDegree,
               1e3 * base.effort.hub_x, 1e3 * base.effort.hub_y);
    fmt::print(
        "  energy without torques: worst change {:.1e} J of {:.1f} J, fastest {:.1f} J of motion in {:.2f} "
        "s\n",
        worst, first - lowest, kinetic, fall.states().back().time);
    fmt::print("  half the step: low point moves {:.5f} mm, lean {:.1e} deg, speed {:.1e} m/s\n",
               1e3 * (b.low_point - a.low_point), (b.lean - a.lean) / kDegree, b.speed - a.speed);
    fmt::print("  mirror: worst difference {:.1e} (SI)\n", gap);
    fmt::print(
        "  club {:.1f} m/s, attack {:.1f}, lean {:.1f}, path {:.1f}, face {:.1f}, loft {:.1f} deg, low point "
        "{:.0f} mm, {:.1f} mm\n",
        a.speed, a.attack / kDegree, a.lean / kDegree, a.path / kDegree, a.face / kDegree, a.loft / kDegree,
        1e3 * a.low_point, 1e3 * a.low_depth);
    fmt::print(
        "  ball {:.1f} m/s, launch {:.1f} deg, spin {:.0f} rpm, carry {:.0f} m, apex {:.0f} m, curve {:.1f} "
        "m\n",
        s.ball_speed, s.launch / kDegree, s.spin * 30.0 / std::numbers::pi, s.flight.carry, s.flight.apex,
        s.flight.curve);
    fmt::print("  mark {} from {:.0f} to {:.0f} mm, {:.1f} mm deep; strike {:.1f} mm up the face\n",
               s.mark.cut ? "cut" : "none", 1e3 * s.mark.start, 1e3 * s.mark.end, 1e3 * s.mark.depth,
               1e3 * s.strike_up);
    Pose open = coarse.pose;
    open.face_turn -= 4.0 * kDegree;
    const Seeable o = shot(coarse.motion, open, base.club);
    fmt::print("  face share of the start direction {:.2f}\n",
               (o.start - s.start) / (o.club.face - s.club.face));
  }
  return sound;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<Base> bases = all_bases();
  std::vector<const char*> rows;
  for (const Row& row : kRows) rows.push_back(row.name);
  const auto play = [&](std::uint64_t seed, std::size_t i) { return played(bases, seed, i); };
  return judging::run({"other_world", "7i and pw", rows, play, levers, check}, argc, argv);
}
