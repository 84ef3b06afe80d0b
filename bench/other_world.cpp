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
#include <cstdlib>
#include <numbers>
#include <string>
#include <string_view>
#include <vector>

#include "bag/generic.hpp"
#include "cause/causes.hpp"
#include "numeric/parallel.hpp"
#include "other_world_eye.hpp"
#include "reading/lesson.hpp"

namespace {

using namespace other_world;
using strikewright::Condition;
using strikewright::Estimate;
using strikewright::LessonOptions;
using strikewright::LessonReading;
using strikewright::Reported;
using strikewright::SeenSwing;

constexpr std::size_t kSwings = 10, kOnLeadLeg = 5;
/// The usual swings of this world are a good player's (5 to 12 cm ahead, 3 to 8 deg of lean).
constexpr auto kSkill = strikewright::Skill::county;

template <class T>
T must(strikewright::Result<T> result, const char* what) {
  if (result.has_value()) return std::move(*result);
  fmt::print(stderr, "other_world: {}\n", what);
  std::exit(1);
}

LessonOptions options() {
  LessonOptions o;
  o.bag = strikewright::generic_bag();
  o.skill = kSkill;
  o.threads = 1;
  return o;
}

const Estimate& estimate_of_field(const std::array<Estimate, strikewright::kReported>& all,
                                  double Reported::*member) {
  for (std::size_t k = 0; k < strikewright::kReported; ++k)
    if (strikewright::kReportedFields[k].at == member) return all[k];
  std::abort();
}

/// What the tool holds for usual: a swing of which only its contact was called clean.
Usual usual_of(const std::string& club) {
  SeenSwing s;
  s.row = 1;
  s.line = 2;
  s.club = club;
  s.sightings = {strikewright::judged(strikewright::Kind::contact_word, 0)};
  const LessonReading read = must(strikewright::read_lesson({s}, options(), "invented"), "no reading");
  const auto& mean = read.patterns.front().mean;
  const auto before = [&](double Reported::*member) { return estimate_of_field(mean, member).prior_mean; };
  return {before(&Reported::club_speed),      before(&Reported::low_point),
          before(&Reported::low_point_depth), before(&Reported::shaft_lean),
          before(&Reported::plane_direction), before(&Reported::face)};
}

std::vector<Base> all_bases() {
  std::vector<Base> out;
  for (const char* name : {"7i", "pw"})
    out.push_back(base_of(must(strikewright::club_named(strikewright::generic_bag(), name), "no club"),
                          usual_of(name)));
  return out;
}

/// A truth in the player's terms against what is read.
struct Judged {
  const char* name;
  double scale;
  double Delivered::*truth;
  double Reported::*read;
};
constexpr std::array<Judged, 5> kJudged{{
    {"low point mm", 1e-3, &Delivered::low_point, &Reported::low_point},
    {"path deg", kDegree, &Delivered::path, &Reported::path},
    {"face deg", kDegree, &Delivered::face, &Reported::face},
    {"attack deg", kDegree, &Delivered::attack, &Reported::attack},
    {"lean deg", kDegree, &Delivered::lean, &Reported::shaft_lean},
}};

struct Row {
  const char* name;
  Looking looking;
  bool lead_leg;
};
constexpr std::array<Row, 4> kRows{{{"clean eye", Looking::clean, false},
                                    {"biased eye", Looking::biased, false},
                                    {"5 % slips", Looking::slips, false},
                                    {"clean + 5 lead leg", Looking::clean, true}}};

/// One lesson's verdict.
struct Verdict {
  std::array<double, kJudged.size()> error{}, said{};
  std::array<bool, kJudged.size()> inside{};
  std::size_t first = 0;
  double chance = 0.0;  ///< what the tool gives the right cause
};

std::vector<SeenSwing> lesson_of(const Pupil& p, const Row& row, Draws& draws) {
  const Eye eye = eye_of(row.looking, draws);
  std::vector<SeenSwing> out;
  const auto add = [&](const std::vector<Seeable>& shots, Condition condition) {
    for (const Seeable& shot : shots) {
      SeenSwing s;
      s.row = out.size() + 1;
      s.line = s.row + 1;
      s.club = p.base->club.name;
      s.hand = p.side < 0.0 ? strikewright::Hand::left : strikewright::Hand::right;
      s.condition = condition;
      s.sightings = looked_at(shot, *p.base, p.side, eye, draws);
      out.push_back(std::move(s));
    }
  };
  add(p.normal, Condition::normal);
  if (row.lead_leg) add(p.lead_leg, Condition::lead_leg);
  return out;
}

Verdict verdict_of(const Pupil& p, const Row& row, Draws& draws) {
  const std::vector<SeenSwing> seen = lesson_of(p, row, draws);
  const LessonReading read = must(strikewright::read_lesson(seen, options(), "invented"), "no reading");
  const strikewright::Group& group = read.groups.front();
  const auto& mean = read.patterns[group.patterns[strikewright::pattern_spoken_of(group)]].mean;
  Verdict v;
  for (std::size_t k = 0; k < kJudged.size(); ++k) {
    const Estimate& e = estimate_of_field(mean, kJudged[k].read);
    const double truth = p.truth.*kJudged[k].truth;
    v.error[k] = (e.mean - truth) / kJudged[k].scale;
    v.said[k] = e.sd / kJudged[k].scale;
    v.inside[k] = truth >= e.p10 && truth <= e.p90;
  }
  const strikewright::CauseReading causes = strikewright::causes_of(group, seen);
  v.first = static_cast<std::size_t>(causes.causes.front().cause);
  for (const auto& c : causes.causes)
    if (static_cast<std::size_t>(c.cause) == p.leader) v.chance = c.probability_leading;
  return v;
}

using Verdicts = std::array<Verdict, kRows.size()>;

void print_readings(const std::vector<Verdicts>& verdicts) {
  const auto n = static_cast<double>(verdicts.size());
  fmt::print(
      "Where the pattern of ten swings sits: rms error, mean error, what is said, share in the 80 % "
      "limits\n");
  for (std::size_t r = 0; r < kRows.size(); ++r) {
    fmt::print("{}\n", kRows[r].name);
    for (std::size_t k = 0; k < kJudged.size(); ++k) {
      double square = 0.0, sum = 0.0, said = 0.0, inside = 0.0;
      for (const Verdicts& v : verdicts) {
        square += v[r].error[k] * v[r].error[k];
        sum += v[r].error[k];
        said += v[r].said[k] * v[r].said[k];
        inside += v[r].inside[k] ? 1.0 : 0.0;
      }
      fmt::print("  {:<14}{:8.2f}{:8.2f}{:8.2f}{:7.0f} %\n", kJudged[k].name, std::sqrt(square / n), sum / n,
                 std::sqrt(said / n), 100.0 * inside / n);
    }
  }
}

void print_causes(const std::vector<Pupil>& pupils, const std::vector<Verdicts>& verdicts) {
  constexpr std::array<const char*, 7> kNames{"weight", "release", "height", "handle",
                                              "face",   "tilt",    "speed"};
  for (std::size_t r = 0; r < kRows.size(); ++r) {
    std::array<std::array<int, kNames.size()>, kAsked> named{};
    double right = 0.0, chance = 0.0;
    for (std::size_t i = 0; i < pupils.size(); ++i) {
      ++named[pupils[i].leader][verdicts[i][r].first];
      right += verdicts[i][r].first == pupils[i].leader ? 1.0 : 0.0;
      chance += verdicts[i][r].chance;
    }
    const auto n = static_cast<double>(pupils.size());
    fmt::print("\n{}: first cause right {:.1f} %; the right one was given {:.2f} on average\n", kRows[r].name,
               100.0 * right / n, chance / n);
    fmt::print("  {:<12}{:>8}   named instead\n", "leading", "right");
    for (std::size_t k = 0; k < kAsked; ++k) {
      int all = 0;
      std::string instead;
      for (std::size_t j = 0; j < kNames.size(); ++j) {
        all += named[k][j];
        if (j != k && named[k][j] > 0) instead += fmt::format(" {} {}", kNames[j], named[k][j]);
      }
      fmt::print("  {:<12}{:>8}  {}\n", kAskedNames[k], fmt::format("{} of {}", named[k][k], all), instead);
    }
  }
}

void judge(std::size_t count, std::uint64_t seed, unsigned threads, bool each) {
  const std::vector<Base> bases = all_bases();
  std::vector<Pupil> pupils(count);
  std::vector<Verdicts> verdicts(count);
  strikewright::in_parallel(
      count, 1,
      [&](std::size_t i, std::size_t) {
        Draws draws(seed, i);
        pupils[i] = pupil_of(bases, kSwings, kOnLeadLeg, draws);
        for (std::size_t r = 0; r < kRows.size(); ++r) {
          Draws eye(seed + 1000 + static_cast<std::uint64_t>(kRows[r].looking), i);
          verdicts[i][r] = verdict_of(pupils[i], kRows[r], eye);
        }
      },
      threads);
  fmt::print("{} pupils of the other world, seed {}, ten swings each, 7i and pw\n\n", count, seed);
  print_readings(verdicts);
  print_causes(pupils, verdicts);
  if (!each) return;
  fmt::print(
      "\nEach pupil: what leads, in units, what was named by row (0 weight, 1 release, 2 height, ...), "
      "truths\n");
  for (std::size_t i = 0; i < count; ++i) {
    const Pupil& p = pupils[i];
    fmt::print("{:3} {} {:<9} {:+.2f} named", i, p.base->club.name, kAskedNames[p.leader], p.size);
    for (const Verdict& v : verdicts[i]) fmt::print(" {}", v.first);
    fmt::print("  own");
    for (const double c : p.own) fmt::print(" {:+.1f}", c);
    fmt::print("  felt {:.1f} {:.1f} {:.1f}", p.felt_height, p.felt_face, p.habit.face_follows);
    for (std::size_t k = 0; k < kJudged.size(); ++k)
      fmt::print("  {} {:.1f} off {:+.1f}", kJudged[k].name, p.truth.*kJudged[k].truth / kJudged[k].scale,
                 verdicts[i][0].error[k]);
    fmt::print("\n");
  }
}

void levers() {
  for (const Base& base : all_bases()) {
    const auto at = [&](const Causes& c, const Habit& h) {
      const Swing s = swing_of(base, c, h);
      return delivered(s.motion, s.pose, base.club);
    };
    const auto line = [](const char* name, const Delivered& d, const Delivered& from) {
      fmt::print("  {:<16}{:9.1f}{:9.1f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}\n", name,
                 1e3 * (d.low_point - from.low_point), 1e3 * (d.edge_height - from.edge_height),
                 (d.attack - from.attack) / kDegree, (d.path - from.path) / kDegree,
                 (d.face - from.face) / kDegree, (d.lean - from.lean) / kDegree, d.speed - from.speed);
    };
    fmt::print("{:<18}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}\n", base.club.name, "low mm", "edge mm", "attack",
               "path", "face", "lean", "m/s");
    const Delivered usual = at({}, {});
    line("usual", usual, {});
    for (std::size_t k = 0; k < kAsked; ++k)
      for (const double units : {1.0, -1.0, 2.0, -2.0}) {
        Causes c{};
        c[k] = units;
        line(fmt::format("{} {:+.0f}", kAskedNames[k], units).c_str(), at(c, {}), usual);
      }
    Habit slower;
    slower.pace = 0.81;
    line("10 % slower", at({}, slower), usual);
    Habit lead = slower;
    lead.on_lead_leg = true;
    lead.lead_place = 0.055;
    line("lead leg", at({}, lead), usual);
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
  if (!sound) fmt::print(stderr, "other_world: energy, usual swing, step or mirror is off by too much\n");
  return sound;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string_view> said(argv + 1, argv + argc);
  if (!said.empty() && said[0] == "levers") {
    levers();
    return 0;
  }
  if (!said.empty() && said[0] == "check") return check() ? 0 : 1;
  const auto number = [&](std::size_t k, unsigned long otherwise) {
    return said.size() > k ? std::strtoul(said[k].data(), nullptr, 10) : otherwise;
  };
  const unsigned long pupils = number(0, 60);
  if (pupils == 0 || said.size() > 4 || (said.size() == 4 && said[3] != "each")) {
    fmt::print(stderr, "other_world [pupils, at least 1] [seed] [threads] [each], or levers, or check\n");
    return 2;
  }
  judge(pupils, number(1, 1), static_cast<unsigned>(number(2, 0)), said.size() == 4);
  return 0;
}
