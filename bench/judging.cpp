#include "judging.hpp"

#include <cmath>
#include <string_view>

#include "bag/generic.hpp"
#include "cause/causes.hpp"
#include "numeric/parallel.hpp"

namespace judging {
namespace {

using strikewright::Estimate;
using strikewright::LessonOptions;
using strikewright::LessonReading;
using strikewright::Reported;
using strikewright::SeenSwing;

/// The usual swings of these worlds are a good player's (5 to 12 cm ahead, 3 to 8 deg of lean).
constexpr auto kSkill = strikewright::Skill::county;

LessonOptions options() {
  LessonOptions o;
  o.bag = strikewright::generic_bag();
  o.skill = kSkill;
  o.threads = 1;
  return o;
}

LessonReading reading_of(const std::vector<SeenSwing>& seen) {
  return must(strikewright::read_lesson(seen, options(), "invented"), "no reading");
}

const Estimate& estimate_of_field(const std::array<Estimate, strikewright::kReported>& all,
                                  double Reported::*member) {
  for (std::size_t k = 0; k < strikewright::kReported; ++k)
    if (strikewright::kReportedFields[k].at == member) return all[k];
  std::abort();
}

/// A truth in the player's terms against what is read.
struct Judged {
  const char* name;
  double scale;
  double Truth::*truth;
  double Reported::*read;
};
constexpr std::array<Judged, kJudged> kAgainst{{
    {"low point mm", 1e-3, &Truth::low_point, &Reported::low_point},
    {"path deg", kDegree, &Truth::path, &Reported::path},
    {"face deg", kDegree, &Truth::face, &Reported::face},
    {"attack deg", kDegree, &Truth::attack, &Reported::attack},
    {"lean deg", kDegree, &Truth::lean, &Reported::shaft_lean},
}};

/// Standard error of a share, per cent.
double percent_error(double share, double n) { return 100.0 * std::sqrt(share * (1.0 - share) / n); }

void print_readings(const World& world, const std::vector<Case>& cases) {
  const auto n = static_cast<double>(cases.size());
  fmt::print(
      "Where the pattern of ten swings sits; of the share in the 80 % limits the standard error, too\n");
  fmt::print("  {:<14}{:>8}{:>8}{:>8}{:>9}\n", "", "rms", "mean", "said", "inside");
  for (std::size_t r = 0; r < world.rows.size(); ++r) {
    fmt::print("{}\n", world.rows[r]);
    for (std::size_t k = 0; k < kJudged; ++k) {
      double square = 0.0, sum = 0.0, said = 0.0, inside = 0.0;
      for (const Case& one : cases) {
        const Verdict& v = one.verdicts[r];
        square += v.error[k] * v.error[k];
        sum += v.error[k];
        said += v.said[k] * v.said[k];
        inside += v.inside[k] ? 1.0 : 0.0;
      }
      fmt::print("  {:<14}{:8.2f}{:8.2f}{:8.2f}{:7.0f} % +- {:.0f}\n", kAgainst[k].name,
                 std::sqrt(square / n), sum / n, std::sqrt(said / n), 100.0 * inside / n,
                 percent_error(inside / n, n));
    }
  }
}

void print_causes(const World& world, const std::vector<Case>& cases) {
  constexpr std::array<const char*, 7> kNames{"weight", "release", "height", "handle",
                                              "face",   "tilt",    "speed"};
  for (std::size_t r = 0; r < world.rows.size(); ++r) {
    std::array<std::array<int, kNames.size()>, kAsked> named{};
    double right = 0.0, chance = 0.0;
    for (const Case& one : cases) {
      const Verdict& v = one.verdicts[r];
      ++named[one.leader][v.first];
      right += v.first == one.leader ? 1.0 : 0.0;
      chance += v.chance;
    }
    const auto n = static_cast<double>(cases.size());
    fmt::print("\n{}: first cause right {:.1f} % +- {:.1f}; the right one was given {:.2f} on average\n",
               world.rows[r], 100.0 * right / n, percent_error(right / n, n), chance / n);
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

void print_each(const std::vector<Case>& cases) {
  fmt::print(
      "\nEach pupil: what leads, in units, what was named by row (0 weight, 1 release, 2 height, ...), own "
      "causes, what he does about them, truths and errors of the first row\n");
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Case& one = cases[i];
    fmt::print("{:3} {} {:<9} {:+.2f} named", i, one.club, kAskedNames[one.leader], one.size);
    for (const Verdict& v : one.verdicts) fmt::print(" {}", v.first);
    fmt::print("  own");
    for (const double c : one.own) fmt::print(" {:+.1f}", c);
    fmt::print("  felt {}", one.felt);
    for (std::size_t k = 0; k < kJudged; ++k)
      fmt::print("  {} {:.1f} off {:+.1f}", kAgainst[k].name,
                 one.truth.*kAgainst[k].truth / kAgainst[k].scale, one.verdicts.front().error[k]);
    fmt::print("\n");
  }
}

void judge(const World& world, std::size_t count, std::uint64_t seed, unsigned threads, bool each) {
  std::vector<Case> cases(count);
  strikewright::in_parallel(
      count, 1, [&](std::size_t i, std::size_t) { cases[i] = world.played(seed, i); }, threads);
  fmt::print("{}: {} pupils, seed {}, ten swings each, {}\n\n", world.name, count, seed, world.clubs);
  print_readings(world, cases);
  print_causes(world, cases);
  if (each) print_each(cases);
}

}  // namespace

strikewright::Club club_of(const char* name) {
  return must(strikewright::club_named(strikewright::generic_bag(), name), "no club");
}

SeenSwing unseen(std::size_t row, const std::string& club, double side, strikewright::Condition condition) {
  SeenSwing s;
  s.row = row;
  s.line = row + 1;
  s.club = club;
  s.hand = side < 0.0 ? strikewright::Hand::left : strikewright::Hand::right;
  s.condition = condition;
  return s;
}

/// What the tool holds for usual: of a swing of which only its contact was called clean.
Usual usual_of(const std::string& club) {
  SeenSwing s = unseen(1, club, 1.0, strikewright::Condition::normal);
  s.sightings = {strikewright::judged(strikewright::Kind::contact_word, 0)};
  const LessonReading read = reading_of({s});
  const auto& mean = read.patterns.front().mean;
  const auto before = [&](double Reported::*member) { return estimate_of_field(mean, member).prior_mean; };
  return {before(&Reported::club_speed),      before(&Reported::low_point),
          before(&Reported::low_point_depth), before(&Reported::shaft_lean),
          before(&Reported::plane_direction), before(&Reported::face)};
}

Verdict verdict_of(const std::vector<SeenSwing>& seen, const Truth& truth, std::size_t leader) {
  const LessonReading read = reading_of(seen);
  const strikewright::Group& group = read.groups.front();
  const auto& mean = read.patterns[group.patterns[strikewright::pattern_spoken_of(group)]].mean;
  Verdict v;
  for (std::size_t k = 0; k < kJudged; ++k) {
    const Estimate& e = estimate_of_field(mean, kAgainst[k].read);
    const double true_value = truth.*kAgainst[k].truth;
    v.error[k] = (e.mean - true_value) / kAgainst[k].scale;
    v.said[k] = e.sd / kAgainst[k].scale;
    v.inside[k] = true_value >= e.p10 && true_value <= e.p90;
  }
  const strikewright::CauseReading causes = strikewright::causes_of(group, seen);
  v.first = static_cast<std::size_t>(causes.causes.front().cause);
  for (const auto& c : causes.causes)
    if (static_cast<std::size_t>(c.cause) == leader) v.chance = c.probability_leading;
  return v;
}

void print_lever_heading(const std::string& club) {
  fmt::print("{:<18}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}\n", club, "low mm", "edge mm", "attack", "path",
             "face", "lean", "m/s");
}

int run(const World& world, int argc, char** argv) {
  const std::vector<std::string_view> said(argv + 1, argv + argc);
  if (!said.empty() && said[0] == "levers") {
    world.levers();
    return 0;
  }
  if (!said.empty() && said[0] == "check") {
    if (world.check()) return 0;
    fmt::print(stderr, "{}: what it prints above is off by too much\n", world.name);
    return 1;
  }
  const auto number = [&](std::size_t k, unsigned long otherwise) {
    return said.size() > k ? std::strtoul(said[k].data(), nullptr, 10) : otherwise;
  };
  const unsigned long pupils = number(0, 60);
  if (pupils == 0 || said.size() > 4 || (said.size() == 4 && said[3] != "each")) {
    fmt::print(stderr, "{} [pupils, at least 1] [seed] [threads] [each], or levers, or check\n", world.name);
    return 2;
  }
  judge(world, pupils, number(1, 1), static_cast<unsigned>(number(2, 0)), said.size() == 4);
  return 0;
}

}  // namespace judging
