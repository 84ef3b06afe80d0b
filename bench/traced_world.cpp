// The tool's reading judged by swings of a traced world: prescribed motion instead of torques, and levers,
// turf, impact, flight and eye of its own. No benchmark of speed; prints tables.
//
//     traced_world [pupils=60] [seed=1] [threads=0] [each]     how right the reading is; each pupil, too
//     traced_world levers                                      what units of each cause do here
//     traced_world check                                       mirror, steps, and what is usual; ends with 1
//                                                              where one is off

#include <fmt/core.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "bag/generic.hpp"
#include "cause/causes.hpp"
#include "numeric/parallel.hpp"
#include "reading/lesson.hpp"
#include "traced_world_eye.hpp"

namespace {

using namespace traced_world;
using strikewright::Condition;
using strikewright::Estimate;
using strikewright::LessonOptions;
using strikewright::LessonReading;
using strikewright::Reported;
using strikewright::SeenSwing;

constexpr std::size_t kSwings = 10, kFew = 5;
constexpr auto kSkill = strikewright::Skill::county;

template <class T>
T must(strikewright::Result<T> result, const char* what) {
  if (result.has_value()) return std::move(*result);
  fmt::print(stderr, "traced_world: {}\n", what);
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
  for (const char* name : {"7i", "9i", "pw"})
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

/// One lesson's verdict.
struct Verdict {
  std::array<double, kJudged.size()> error{}, error_of_ten{}, said{};
  std::array<bool, kJudged.size()> inside{};
  std::size_t first = 0;
  double chance = 0.0;  ///< what the tool gives the right cause
};

std::vector<SeenSwing> lesson_of(const Pupil& p, const Row& row, Draws& draws) {
  const Eye eye = eye_of(row.looking, draws);
  std::vector<SeenSwing> out;
  const auto add = [&](Way way) {
    const auto w = static_cast<std::size_t>(way);
    for (const Seeable& shot : p.shots[w]) {
      SeenSwing s;
      s.row = out.size() + 1;
      s.line = s.row + 1;
      s.club = p.base->club.name;
      s.hand = p.side < 0.0 ? strikewright::Hand::left : strikewright::Hand::right;
      s.condition = kConditions[w];
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
    v.error_of_ten[k] = (e.mean - p.of_ten.*kJudged[k].truth) / kJudged[k].scale;
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

/// Standard error of a share, per cent.
double percent_error(double share, double n) { return 100.0 * std::sqrt(share * (1.0 - share) / n); }

void print_readings(const std::vector<Verdicts>& verdicts) {
  const auto n = static_cast<double>(verdicts.size());
  fmt::print(
      "Where the pattern of ten swings sits: rms and mean error against the swing that was meant, rms "
      "against the\nmean of the ten, what is said (sd), share in the 80 % limits with its standard error\n");
  fmt::print("  {:<14}{:>8}{:>8}{:>8}{:>8}{:>9}\n", "", "rms", "mean", "of ten", "said", "inside");
  for (std::size_t r = 0; r < kRows.size(); ++r) {
    fmt::print("{}\n", kRows[r].name);
    for (std::size_t k = 0; k < kJudged.size(); ++k) {
      double square = 0.0, of_ten = 0.0, sum = 0.0, said = 0.0, inside = 0.0;
      for (const Verdicts& v : verdicts) {
        square += v[r].error[k] * v[r].error[k];
        of_ten += v[r].error_of_ten[k] * v[r].error_of_ten[k];
        sum += v[r].error[k];
        said += v[r].said[k] * v[r].said[k];
        inside += v[r].inside[k] ? 1.0 : 0.0;
      }
      fmt::print("  {:<14}{:8.2f}{:8.2f}{:8.2f}{:8.2f}{:7.0f} % +- {:.0f}\n", kJudged[k].name,
                 std::sqrt(square / n), sum / n, std::sqrt(of_ten / n), std::sqrt(said / n),
                 100.0 * inside / n, percent_error(inside / n, n));
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
    fmt::print("\n{}: first cause right {:.1f} % +- {:.1f}; the right one was given {:.2f} on average\n",
               kRows[r].name, 100.0 * right / n, percent_error(right / n, n), chance / n);
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

void print_each(const std::vector<Pupil>& pupils, const std::vector<Verdicts>& verdicts) {
  fmt::print(
      "\nEach pupil: what leads, in units, what was named by row (0 weight, 1 release, 2 height, ...), "
      "own causes, what was felt, truths and errors by eye\n");
  for (std::size_t i = 0; i < pupils.size(); ++i) {
    const Pupil& p = pupils[i];
    fmt::print("{:3} {} {:<8}{:+.2f} named", i, p.base->club.name, kAskedNames[p.leader], p.size);
    for (const Verdict& v : verdicts[i]) fmt::print(" {}", v.first);
    fmt::print("  own");
    for (const double c : p.own) fmt::print(" {:+.1f}", c);
    fmt::print("  felt {:+.1f} {:+.1f}", p.felt_height, p.felt_face);
    for (std::size_t k = 0; k < kJudged.size(); ++k)
      fmt::print("  {} {:.1f} off {:+.1f}", kJudged[k].name, p.truth.*kJudged[k].truth / kJudged[k].scale,
                 verdicts[i][0].error[k]);
    fmt::print("\n");
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
        pupils[i] = pupil_of(bases, kSwings, kFew, draws);
        for (std::size_t r = 0; r < kRows.size(); ++r) {
          Draws eye(seed + 1000 + static_cast<std::uint64_t>(kRows[r].looking), i);
          verdicts[i][r] = verdict_of(pupils[i], kRows[r], eye);
        }
      },
      threads);
  fmt::print("{} pupils of the traced world, seed {}, ten swings each, 7i, 9i and pw\n\n", count, seed);
  print_readings(verdicts);
  print_causes(pupils, verdicts);
  if (each) print_each(pupils, verdicts);
}

void levers() {
  for (const Base& base : all_bases()) {
    const auto line = [](const std::string& name, const Delivered& d, const Delivered& from) {
      fmt::print("  {:<12}{:9.1f}{:9.1f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}{:9.2f}\n", name,
                 1e3 * (d.low_point - from.low_point), 1e3 * (d.edge_height - from.edge_height),
                 (d.attack - from.attack) / kDegree, (d.path - from.path) / kDegree,
                 (d.face - from.face) / kDegree, (d.lean - from.lean) / kDegree, d.speed - from.speed);
    };
    fmt::print("{:<14}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}\n", base.club.name, "low mm", "edge mm", "attack",
               "path", "face", "lean", "m/s");
    const Delivered usual = Trace(base.club, {}, base.setup).delivered();
    line("usual", usual, {});
    for (std::size_t k = 0; k < kAsked; ++k)
      for (const double units : {1.0, -1.0, 2.0, -2.0}) {
        Causes c{};
        c[k] = units;
        line(fmt::format("{} {:+.0f}", kAskedNames[k], units),
             Trace(base.club, {}, shifted(base.setup, {}, c)).delivered(), usual);
      }
    Setup slower = base.setup;
    slower.pace *= 0.9;
    line("10 % slower", Trace(base.club, {}, slower).delivered(), usual);
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
  if (!sound) fmt::print(stderr, "traced_world: usual swing, step or mirror is off by too much\n");
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
    fmt::print(stderr, "traced_world [pupils, at least 1] [seed] [threads] [each], or levers, or check\n");
    return 2;
  }
  judge(pupils, number(1, 1), static_cast<unsigned>(number(2, 0)), said.size() == 4);
  return 0;
}
