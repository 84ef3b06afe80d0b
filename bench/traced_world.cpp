// The tool's reading judged by swings of a traced world: prescribed motion instead of torques, and levers,
// turf, impact, flight and eye of its own. No benchmark of speed; prints tables.
//
//     traced_world [pupils=60] [seed=1] [threads=0] [each]     how right the reading is; each pupil, too
//     traced_world levers                                      what units of each cause do here
//     traced_world check                                       mirror, steps, and what is usual; ends with 1
//                                                              where one is off

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "judging.hpp"
#include "traced_world_eye.hpp"

namespace {

using namespace traced_world;
using strikewright::Condition;
using strikewright::SeenSwing;

constexpr std::size_t kSwings = 10, kFew = 5;

std::vector<Base> all_bases() {
  std::vector<Base> out;
  for (const char* name : {"7i", "9i", "pw"})
    out.push_back(base_of(judging::club_of(name), judging::usual_of(name)));
  return out;
}

struct Row {
  const char* name;
  Looking looking;
  bool full;
  Way also;  ///< few swings of this way on top; normal = none
};
constexpr std::array<Row, 7> kRows{{{"by eye", Looking::clean, false, Way::normal},
                                    {"by eye, biased", Looking::biased, false, Way::normal},
                                    {"by eye, 5 % slips", Looking::slips, false, Way::normal},
                                    {"full sightings", Looking::clean, true, Way::normal},
                                    {"by eye + 5 lead leg", Looking::clean, false, Way::lead_leg},
                                    {"by eye + 5 feet together", Looking::clean, false, Way::feet_together},
                                    {"by eye + 5 trail hand", Looking::clean, false, Way::trail_hand}}};
constexpr std::array<Condition, kWays> kConditions{Condition::normal, Condition::lead_leg,
                                                   Condition::feet_together, Condition::trail_hand};

std::vector<SeenSwing> lesson_of(const Pupil& p, const Row& row, Draws& draws) {
  const Eye eye = eye_of(row.looking, draws);
  std::vector<SeenSwing> out;
  const auto add = [&](Way way) {
    const auto w = static_cast<std::size_t>(way);
    for (const Seeable& shot : p.shots[w]) {
      SeenSwing s = judging::unseen(out.size() + 1, p.base->club.name, p.side, kConditions[w]);
      const std::vector<strikewright::Sighting> none;
      s.sightings =
          looked_at(shot, *p.base, p.side, eye, row.full, out.empty() ? none : out.back().sightings, draws);
      out.push_back(std::move(s));
    }
  };
  add(Way::normal);
  if (row.also != Way::normal) add(row.also);
  return out;
}

judging::Case played(const std::vector<Base>& bases, std::uint64_t seed, std::size_t i) {
  Draws draws(seed, i);
  const Pupil p = pupil_of(bases, kSwings, kFew, draws);
  return judging::case_of(p, fmt::format("{:+.1f} {:+.1f}", p.felt_height, p.felt_face), kRows, seed, i,
                          lesson_of);
}

void levers() {
  for (const Base& base : all_bases()) {
    judging::print_lever_heading(base.club.name);
    const Delivered usual = Trace(base.club, {}, base.setup).delivered();
    judging::print_levers(
        usual, [&](const Causes& c) { return Trace(base.club, {}, shifted(base.setup, {}, c)).delivered(); });
    Setup slower = base.setup;
    slower.pace *= 0.9;
    judging::print_lever("10 % slower", Trace(base.club, {}, slower).delivered(), usual);
  }
}

/// Largest difference (SI) of what can be seen and what is true between two shots, one in the mirror if
/// `side` is -1.
double difference(const Seeable& a, const Seeable& b, double side) {
  double gap = 0.0;
  for (const auto& [x, y] : {std::pair{a.start, side * b.start},
                             {a.club.path, b.club.path},
                             {a.club.face, b.club.face},
                             {a.flight.curve, side * b.flight.curve},
                             {a.flight.carry, b.flight.carry},
                             {a.spin_axis, side * b.spin_axis},
                             {a.launch, b.launch},
                             {a.mark.start, b.mark.start},
                             {a.mark.direction, side * b.mark.direction},
                             {a.mark.toe_depth, b.mark.toe_depth},
                             {a.club.low_point, b.club.low_point},
                             {a.up, b.up},
                             {a.toe, b.toe},
                             {a.club.lean, b.club.lean}})
    gap = std::max(gap, std::abs(x - y));
  return gap;
}

/// Does a coach without error write the same of a shot and of its mirror image?
bool written_alike(const Seeable& right, const Seeable& left, const Base& base) {
  Eye eye;
  eye.care = 0.0;
  Draws one(1), other(1);
  const auto a = looked_at(right, base, 1.0, eye, true, {}, one),
             b = looked_at(left, base, -1.0, eye, true, {}, other);
  bool alike = a.size() == b.size();
  for (std::size_t k = 0; alike && k < a.size(); ++k)
    alike = a[k].kind == b[k].kind && a[k].word == b[k].word && std::abs(a[k].value - b[k].value) < 1e-9;
  return alike;
}

void describe(const Seeable& s) {
  const Delivered& d = s.club;
  fmt::print(
      "  club {:.1f} m/s, attack {:.1f}, path {:.1f}, face {:.1f}, lean {:.1f}, loft {:.1f}, lie {:.1f} "
      "deg, low point {:.0f} mm, {:.1f} mm, edge {:.1f} mm\n",
      d.speed, d.attack / kDegree, d.path / kDegree, d.face / kDegree, d.lean / kDegree, d.loft / kDegree,
      d.lie / kDegree, 1e3 * d.low_point, 1e3 * d.low_depth, 1e3 * d.edge_height);
  fmt::print(
      "  ball {:.1f} m/s, launch {:.1f} deg, spin {:.0f} rpm, carry {:.0f} m, apex {:.0f} m, curve "
      "{:.1f} m\n",
      s.ball_speed, s.launch / kDegree, s.spin / strikewright::kRpm, s.flight.carry, s.flight.apex,
      s.flight.curve);
  fmt::print("  mark from {:.0f} to {:.0f} mm, {:.1f} mm deep; strike {:.1f} mm up the face\n",
             1e3 * s.mark.start, 1e3 * s.mark.end, 1e3 * s.mark.depth, 1e3 * s.up);
}

/// Is this world sound? The usual swing is the usual one, half the steps change next to nothing, a
/// left-hander is a right-hander in the mirror.
bool check() {
  constexpr double kUsual = 1e-6, kMirror = 1e-9;  // SI
  constexpr double kStep = 1e-5, kCarry = 0.2;     // m, rad; m of flight
  bool sound = true;
  for (const Base& base : all_bases()) {
    const Causes c{0.5, -0.7, -0.8, 1.2, -0.9};
    const Setup moved = shifted(base.setup, {}, c);
    const Seeable right = shot(Trace(base.club, {}, moved), {}),
                  left = shot(Trace(base.club, {}, moved, -1.0), {});
    const double mirror = difference(right, left, -1.0);
    const Delivered a = Trace(base.club, {}, moved).delivered(),
                    b = Trace(base.club, {}, moved, 1.0, 1e-5).delivered();
    const double step = std::max({std::abs(a.low_point - b.low_point), std::abs(a.path - b.path),
                                  std::abs(a.attack - b.attack), std::abs(a.direction - b.direction)});
    const Seeable fine = shot(Trace(base.club, {}, moved), {}, 5e-4);
    const double cell = std::max(std::abs(fine.flight.carry - right.flight.carry),
                                 std::abs(fine.flight.curve - right.flight.curve));
    const double mark =
        std::max(std::abs(fine.mark.start - right.mark.start), std::abs(fine.mark.depth - right.mark.depth));
    constexpr double kMark = 2e-3;  // m: ends fall on cells
    sound = sound && base.off < kUsual && mirror < kMirror && step < kStep && cell < kCarry && mark < kMark &&
            written_alike(right, left, base);
    fmt::print(
        "{}\n  off the usual by at most {:.1e}; mirror {:.1e}; half the step: club {:.1e}, flight {:.1e} m, "
        "mark {:.1e} m\n",
        base.club.name, base.off, mirror, step, cell, mark);
    describe(shot(Trace(base.club, {}, base.setup), {}));
  }
  return sound;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<Base> bases = all_bases();
  std::vector<const char*> rows;
  for (const Row& row : kRows) rows.push_back(row.name);
  const auto play = [&](std::uint64_t seed, std::size_t i) { return played(bases, seed, i); };
  return judging::run({"traced_world", "7i, 9i and pw", rows, play, levers, check}, argc, argv);
}
