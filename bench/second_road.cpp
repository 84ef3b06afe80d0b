// Readings held against another road to the same posterior (second_road.hpp):
//   second_road reference   the posterior of seven invented patterns (core/cause/test/second_road.csv)
//   second_road names N     is the cause that is named first of N invented pupils the right one: by the fit,
//                           the second road, and what linear information allows (docs/models/cause.md)

#include "second_road.hpp"

#include <fmt/core.h>

#include <Eigen/LU>
#include <cstdlib>
#include <string>

#include "bag/generic.hpp"
#include "numeric/parallel.hpp"

using namespace strikewright;
using second_road::Sampler;

namespace {

constexpr std::uint64_t kPupilsSeed = 7;
constexpr std::size_t kSwings = 10;

/// A pupil of check --calibration, seen with some kinds of sightings only.
struct Problem {
  std::size_t index = 0;
  std::vector<Kind> kinds;
  InventedPupil pupil;
};

Problem problem_of(std::size_t index, std::vector<Kind> kinds) {
  Problem out{index, std::move(kinds), invented_pupil(index, kPupilsSeed, kSwings)};
  for (SeenSwing& s : out.pupil.seen)
    std::erase_if(s.sightings,
                  [&](const Sighting& k) { return std::ranges::find(out.kinds, k.kind) == out.kinds.end(); });
  return out;
}

/// Means over batches of one chain, one row each.
struct Batches {
  std::vector<std::array<double, kReported>> mean, square;
};

Batches sampled(const Problem& problem, std::uint64_t stream) {
  constexpr int kWarm = 16'000, kBatches = 20, kSweeps = 5'000, kEvery = 10;
  Sampler sampler(problem.pupil, stream);
  for (int k = 0; k < kWarm; ++k) sampler.sweep(true);
  Batches out;
  for (int b = 0; b < kBatches; ++b) {
    std::array<double, kReported> sum{}, square{};
    constexpr double n = kSweeps / kEvery;
    for (int k = 0; k < kSweeps; ++k) {
      sampler.sweep(false);
      if (k % kEvery != 0) continue;
      const auto row = sampler.reported();
      for (std::size_t q = 0; q < kReported; ++q) sum[q] += row[q] / n, square[q] += row[q] * row[q] / n;
    }
    out.mean.push_back(sum);
    out.square.push_back(square);
  }
  return out;
}

/// Mean and standard deviation of one quantity, and how well its mean is known from the batches.
struct Known {
  double mean = 0.0, sd = 0.0, error = 0.0;
};
Known known_of(const std::vector<Batches>& chains, std::size_t q) {
  std::vector<double> means;
  double square = 0.0;
  for (const Batches& c : chains)
    for (std::size_t b = 0; b < c.mean.size(); ++b) {
      means.push_back(c.mean[b][q]);
      square += c.square[b][q];
    }
  const auto n = static_cast<double>(means.size());
  Known out;
  for (const double m : means) out.mean += m / n;
  double between = 0.0;
  for (const double m : means) between += (m - out.mean) * (m - out.mean) / (n - 1.0);
  out.sd = std::sqrt(std::max(0.0, square / n - out.mean * out.mean));
  out.error = std::sqrt(between / n);
  return out;
}

std::string text_of(const std::vector<Kind>& kinds) {
  std::string out;
  for (const Kind k : kinds) out += (out.empty() ? "" : "+") + column_of(k);
  return out;
}

void print_reference() {
  using enum Kind;
  const std::vector<Kind> flight{start, curve, height_word, contact_word},
      marks{start, curve, contact_word, divot_word, divot_start, divot_end},
      all{start,       curve,     carry,           height_word, contact_word, divot_word,
          divot_start, divot_end, divot_direction, strike_toe,  strike_groove};
  const std::vector<Problem> problems{problem_of(0, flight), problem_of(1, marks),  problem_of(2, all),
                                      problem_of(3, flight), problem_of(4, flight), problem_of(5, marks),
                                      problem_of(6, all)};
  constexpr std::size_t kChains = 2;
  std::vector<std::vector<Batches>> drawn(problems.size(), std::vector<Batches>(kChains));
  in_parallel(problems.size() * kChains, 1, [&](std::size_t k, std::size_t) {
    drawn[k / kChains][k % kChains] = sampled(problems[k / kChains], k);
  });
  fmt::print(
      "# Posterior of a pattern's mean by Metropolis steps within Gibbs on the real chain, SI.\n"
      "# Made by: build/dev/bench/second_road reference. Depends on prior and chain, not on the fit.\n"
      "# error: how well the mean is known.\n"
      "pupil,seed,swings,columns,quantity,mean,sd,error\n");
  for (std::size_t p = 0; p < problems.size(); ++p)
    for (std::size_t q = 0; q < kReported; ++q) {
      const Known k = known_of(drawn[p], q);
      fmt::print("{},{},{},{},{},{:.6g},{:.6g},{:.2g}\n", problems[p].index, kPupilsSeed, kSwings,
                 text_of(problems[p].kinds), kReportedFields[q].key, k.mean, k.sd, k.error);
    }
}

/// What the second road says about the pupil's usual pattern, as the fit says it.
FitMessage message_of(const InventedPupil& pupil, std::uint64_t stream) {
  constexpr int kWarm = 5'000, kSweeps = 20'000, kEvery = 5;
  Sampler sampler(pupil, stream);
  for (int k = 0; k < kWarm; ++k) sampler.sweep(true);
  Coordinates mean = Coordinates::Zero();
  CoordinatesMatrix square = CoordinatesMatrix::Zero();
  constexpr double n = kSweeps / kEvery;
  for (int k = 0; k < kSweeps; ++k) {
    sampler.sweep(false);
    if (k % kEvery != 0) continue;
    mean += sampler.centre() / n;
    square += sampler.centre() * sampler.centre().transpose() / n;
  }
  const CoordinatesMatrix precision = (square - mean * mean.transpose()).inverse();
  FitMessage out{precision, precision * mean};
  out.precision.diagonal() -= between_sd().cwiseAbs2().cwiseInverse();
  return out;
}

/// Is the leader named first, and with what probability?
struct Verdict {
  double right = 0.0, leads = 0.0;
  void add(const CauseReading& read, Cause leader, double share) {
    right += read.causes.front().cause == leader ? share : 0.0;
    for (const CauseShift& c : read.causes) leads += c.cause == leader ? share * c.probability_leading : 0.0;
  }
};

void print_names(std::size_t pupils) {
  fmt::print("swings,pupils,by,first_right_percent,mean_probability_of_leader\n");
  for (const std::size_t swings : {10u, 20u}) {
    struct Row {
      Verdict fit, road, bound;
    };
    std::vector<Row> rows(pupils);
    in_parallel(pupils, 1, [&](std::size_t i, std::size_t) {
      const InventedPupil pupil = invented_pupil(i, kPupilsSeed, swings);
      LessonOptions options;
      options.bag = generic_bag();
      options.skill = pupil.skill;
      options.threads = 1;
      auto lesson = read_lesson(pupil.seen, options, "invented");
      ensure(lesson.has_value(), "an invented lesson can be read");
      Group& group = lesson->groups.front();
      rows[i].fit.add(causes_of(group, pupil.seen), pupil.leader, 1.0);
      group.fit.message = message_of(pupil, i);
      rows[i].road.add(causes_of(group, pupil.seen), pupil.leader, 1.0);
      for (const FitMessage& m : pupil.linear) {
        group.fit.message = m;
        rows[i].bound.add(causes_of(group, pupil.seen), pupil.leader,
                          1.0 / static_cast<double>(pupil.linear.size()));
      }
    });
    Verdict fit, road, bound;
    const auto sum = [&](Verdict& to, const Verdict& v) {
      to.right += 100.0 * v.right / static_cast<double>(pupils);
      to.leads += v.leads / static_cast<double>(pupils);
    };
    for (const Row& r : rows) sum(fit, r.fit), sum(road, r.road), sum(bound, r.bound);
    for (const auto& [by, v] :
         {std::pair{"fit", fit}, std::pair{"second road", road}, std::pair{"bound", bound}})
      fmt::print("{},{},{},{:.1f},{:.3f}\n", swings, pupils, by, v.right, v.leads);
  }
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 1 ? words[1] : "";
  if (what == "reference" && count == 2) {
    print_reference();
    return 0;
  }
  if (what == "names" && count == 3) {
    const int pupils = std::atoi(words[2]);
    if (pupils > 0) {
      print_names(static_cast<std::size_t>(pupils));
      return 0;
    }
  }
  fmt::print(stderr, "second_road reference, or second_road names N with N pupils, at least 1\n");
  return 2;
}
