// How long readings and scatter clouds take. Each bench looks at what it computed: a reading that lost its
// truth is no fast reading.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <string>
#include <vector>

#include "bag/generic.hpp"
#include "cause/causes.hpp"
#include "reading/lesson.hpp"
#include "reading/recovery.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

namespace {

using namespace strikewright;

struct Lesson {
  Setting setting;
  Prior prior;
  PriorReach reach;
  std::vector<std::vector<Sighting>> seen_of;
  std::vector<double> low_point;
};

/// What a coach saw of one swing: by eye, of its divot and of its strike mark.
std::vector<Sighting> seen_by_coach(const Shot<double>& truth, const Setting& setting, Draws& draws) {
  std::vector<Sighting> out;
  for (const Kind kind : looks()[2].kinds) out.push_back(seen(kind, truth, setting, draws));
  return out;
}

Lesson without_swings() {
  Lesson l;
  l.setting.club = *club_named(generic_bag(), "7i");
  l.prior = prior_for(l.setting.club, Skill::club);
  l.reach = prior_reach(l.setting, l.prior);
  return l;
}

/// Invented swings that have nothing to do with each other, and what a coach saw of each.
const Lesson& lesson() {
  static const Lesson all = [] {
    Lesson l = without_swings();
    for (std::size_t i = 0; i < 60; ++i) {
      Draws draws(5, i);
      const Shot<double> truth = shot_of(draw_pass(l.prior, draws), l.setting);
      l.seen_of.push_back(seen_by_coach(truth, l.setting, draws));
      l.low_point.push_back(truth.pass.low_point);
    }
    return l;
  }();
  return all;
}

void reading_of_swings(benchmark::State& state) {
  const auto n = static_cast<std::size_t>(state.range(0));
  const Lesson& l = lesson();
  double worst = 0.0;
  for (auto _ : state) {
    const PriorReach reach = prior_reach(l.setting, l.prior);
    worst = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      const Estimate e = read_swing(l.seen_of[i], l.setting, l.prior, reach, {}).of(&Reported::low_point);
      worst = std::max(worst, std::abs(e.mean - l.low_point[i]) / e.sd);
    }
  }
  if (worst > 5.0) state.SkipWithError("a reading lost its truth");
  state.counters["swings/s"] = benchmark::Counter(
      static_cast<double>(n) * static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}
BENCHMARK(reading_of_swings)->Arg(1)->Arg(10)->Arg(60)->Unit(benchmark::kMillisecond);

/// One invented pupil's rows of a sightings file, and where his low point sits.
struct Rows {
  std::vector<SeenSwing> seen;
  double low_point = 0.0;
};

/// A pupil half as far from the middle as the prior says, swings scattering as pupil.hpp says (as normals).
Rows rows_of(std::size_t n, std::uint64_t pupil = 11) {
  const Lesson l = without_swings();
  Draws draws(pupil);
  Coordinates centre;
  for (int j = 0; j < kUnknowns; ++j) centre[j] = 0.5 * between_sd()[j] * draws.normal();
  Rows rows;
  rows.low_point = pass_at(l.prior, centre).low_point;
  for (std::size_t i = 0; i < n; ++i) {
    Coordinates z = centre;
    for (int j = 0; j < kUnknowns; ++j) z[j] += within_sd()[j] * draws.normal();
    SeenSwing s;
    s.row = i + 1;
    s.line = i + 2;
    s.club = l.setting.club.name;
    s.sightings = seen_by_coach(shot_of(pass_at(l.prior, z), l.setting), l.setting, draws);
    rows.seen.push_back(std::move(s));
  }
  return rows;
}

LessonOptions options_for_lesson() {
  LessonOptions options;
  options.bag = generic_bag();
  options.threads = 1;  // so that real and processor time can be compared
  return options;
}

bool all_numbers(const LessonReading& lesson) {
  const auto number = [](const Estimate& e) { return std::isfinite(e.mean) && std::isfinite(e.sd); };
  return std::all_of(lesson.swings.begin(), lesson.swings.end(), [&](const SwingReading& s) {
    return std::all_of(s.reading.at.begin(), s.reading.at.end(), number);
  });
}

/// Processor time of this program [s].
double processor_time() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// What the command `read` does with a file of one pupil and one club.
void reading_of_a_lesson(benchmark::State& state) {
  const auto n = static_cast<std::size_t>(state.range(0));
  const Rows rows = rows_of(n);
  LessonOptions options = options_for_lesson();
  options.threads = static_cast<unsigned>(state.range(1));  // 0 = all cores
  LessonReading read;
  const double begin = processor_time();
  for (auto _ : state) read = *read_lesson(rows.seen, options, "invented");
  const double took = processor_time() - begin;
  const Estimate& e = read.patterns.front().mean[0];  // low point
  const double off = std::abs(e.mean - rows.low_point) / e.sd;
  if (!all_numbers(read) || !std::isfinite(off)) state.SkipWithError("a reading is no number");
  if (off > 4.0) state.SkipWithError("the pattern lost its low point");
  const double swings = static_cast<double>(n);
  state.counters["off_sd"] = off;
  state.counters["cpu_ns/swing"] = 1e9 * took / swings / static_cast<double>(state.iterations());
  state.counters["ns/swing"] = benchmark::Counter(
      1e-9 * swings, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(reading_of_a_lesson)
    ->ArgNames({"swings", "threads"})
    ->Args({10, 1})
    ->Args({60, 1})
    ->Args({1000, 1})
    ->Args({10, 0})
    ->Args({60, 0})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// Causes, confounded pairs and next looks of a lesson that has been read.
void causes_of_a_lesson(benchmark::State& state) {
  const Rows rows = rows_of(static_cast<std::size_t>(state.range(0)));
  const LessonReading read = *read_lesson(rows.seen, options_for_lesson(), "invented");
  double leading = 0.0;
  for (auto _ : state) {
    const CauseReading causes = causes_of(read.groups.front(), rows.seen);
    leading = 0.0;
    for (const CauseShift& c : causes.causes) leading += c.probability_leading;
  }
  // One of the causes leads: their probabilities of leading are all there is.
  if (std::abs(leading - 1.0) > 1e-9) state.SkipWithError("the leading cause is lost");
}
BENCHMARK(causes_of_a_lesson)->Arg(10)->Arg(60)->Unit(benchmark::kMillisecond)->UseRealTime();

/// An ensemble of walkers on a posterior: the general sampler that read_swing is held against. Stretch move
/// with a = 2, one walker after the other (J. Goodman & J. Weare, Ensemble samplers with affine invariance,
/// Comm. App. Math. Comp. Sci. 5, 2010, 65-80, eq. 7, 9 and 10; from memory). Started from the prior.
class Ensemble {
 public:
  Ensemble(const Target& target, std::size_t walkers, std::uint64_t seed)
      : target_{target}, draws_{seed}, at_(walkers), cost_(walkers) {
    for (std::size_t k = 0; k < walkers; ++k) {
      for (int j = 0; j < kUnknowns; ++j) at_[k][j] = draws_.normal();
      cost_[k] = target_.cost(at_[k]);
    }
  }
  /// Offers every walker one move; returns the walkers' mean low point [m].
  double sweep() {
    double sum = 0.0;
    for (std::size_t k = 0; k < at_.size(); ++k) {
      move(k);
      sum += pass_at(target_.prior(), at_[k]).low_point;
    }
    return sum / static_cast<double>(at_.size());
  }

 private:
  void move(std::size_t k) {
    const auto others = static_cast<double>(at_.size() - 1);
    const std::size_t drawn = static_cast<std::size_t>(draws_.uniform() * others);
    const Coordinates& other = at_[drawn < k ? drawn : drawn + 1];
    const double root = 1.0 + draws_.uniform();
    const double stretch = 0.5 * root * root;  // density 1 / sqrt(stretch) on [1/2, 2]
    const Coordinates offered = other + stretch * (at_[k] - other);
    const double cost = target_.cost(offered);
    const double log_chance = (kUnknowns - 1) * std::log(stretch) + cost_[k] - cost;
    if (std::log(draws_.uniform()) >= log_chance) return;
    at_[k] = offered;
    cost_[k] = cost;
  }

  const Target& target_;
  Draws draws_;
  std::vector<Coordinates> at_;
  std::vector<double> cost_;
};

/// A mean and its Monte Carlo error.
struct Found {
  double mean = 0.0, error = 0.0;
};

Found mean_and_sd(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  Found out;
  for (const double v : values) out.mean += v / n;
  for (const double v : values) out.error += (v - out.mean) * (v - out.mean) / (n - 1.0);
  out.error = std::sqrt(out.error);
  return out;
}

/// Batch means.
Found batch_means(const std::vector<double>& chain) {
  constexpr std::size_t kBatches = 24;
  const std::size_t length = chain.size() / kBatches;
  std::vector<double> batch(kBatches, 0.0);
  for (std::size_t b = 0; b < kBatches; ++b)
    for (std::size_t i = 0; i < length; ++i) batch[b] += chain[b * length + i] / static_cast<double>(length);
  Found out = mean_and_sd(batch);
  out.error /= std::sqrt(static_cast<double>(kBatches));
  return out;
}

/// How read_swing's low point moves with the seed alone, and what it costs [s].
struct ReadSpread {
  Found found;
  double sd = 0.0, seconds = 0.0;  ///< sd: what the reading says
};

ReadSpread spread_over_seeds(const std::vector<Sighting>& seen) {
  constexpr std::uint64_t kSeeds = 32;
  const Lesson& l = lesson();
  ReadSpread out;
  std::vector<double> means;
  const double begin = processor_time();
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const ReadingOptions options{.seed = seed};
    const Estimate e = read_swing(seen, l.setting, l.prior, l.reach, options).of(&Reported::low_point);
    means.push_back(e.mean);
    out.sd += e.sd / static_cast<double>(kSeeds);
  }
  out.seconds = (processor_time() - begin) / static_cast<double>(kSeeds);
  out.found = mean_and_sd(means);
  return out;
}

struct GeneralRun {
  Found found;
  double warm_up = 0.0, seconds = 0.0;  ///< processor time
};

/// 300 sweeps to forget the prior (about ten autocorrelation times), then until the error is small enough;
/// never fewer than 2000 sweeps: batches of a few autocorrelation times would say too small an error.
GeneralRun general_run(const Target& target, double error) {
  GeneralRun out;
  double begin = processor_time();
  Ensemble ensemble(target, 4 * static_cast<std::size_t>(kUnknowns), 3);
  for (int k = 0; k < 300; ++k) ensemble.sweep();
  out.warm_up = processor_time() - begin;
  begin = processor_time();
  std::vector<double> chain;
  for (std::size_t until = 2000; until <= 64000; until *= 2) {
    while (chain.size() < until) chain.push_back(ensemble.sweep());
    out.found = batch_means(chain);
    if (out.found.error <= error) break;
  }
  out.seconds = processor_time() - begin;
  return out;
}

/// Processor time of the general sampler over that of read_swing at equal Monte Carlo error of the low
/// point's mean; the run is longer than that needs, so its time is scaled (error^2 x time stays). Once
/// without the warming up: the least that can be said; once with it; and once more with it, for an error that
/// has the distance of the two means in it.
void general_sampler_at_equal_error(benchmark::State& state) {
  const Lesson& l = lesson();
  const std::vector<Sighting>& seen = l.seen_of[static_cast<std::size_t>(state.range(0))];
  const ReadSpread read = spread_over_seeds(seen);
  const Target target(seen, l.setting, l.prior);
  GeneralRun general;
  for (auto _ : state) general = general_run(target, read.found.error);
  const double apart = general.found.mean - read.found.mean;
  const double square = std::pow(general.found.error, 2), asked = std::pow(read.found.error, 2);
  const double sampling = general.seconds * square / asked;
  const double with_bias = general.seconds * square / (asked + apart * apart);
  if (!(std::abs(apart) <= 0.2 * read.sd)) state.SkipWithError("the two means do not agree");
  state.counters["ratio_sampling"] = sampling / read.seconds;
  state.counters["ratio"] = (general.warm_up + sampling) / read.seconds;
  state.counters["ratio_biased"] = (general.warm_up + with_bias) / read.seconds;
  state.counters["apart_sd"] = std::abs(apart) / read.sd;
  state.counters["error_sd"] = read.found.error / read.sd;
  state.counters["general_error_sd"] = general.found.error / read.sd;
}
BENCHMARK(general_sampler_at_equal_error)
    ->Arg(0)
    ->Arg(1)
    ->Arg(2)
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond);

void scatter_of_10000_shots(benchmark::State& state) {
  const Lesson& l = lesson();
  Scatter scatter;
  scatter.centre = pass_at(l.prior, Coordinates::Zero());
  scatter.root.diagonal() << 0.5, 0.02, 0.005, 0.012, 0.002, 0.02, 0.02, 0.006, 0.0, 0.0, 0.001, 0.0, 0.0,
      0.0;
  double spread = 0.0;
  for (auto _ : state) {
    const Shots shots = shots_of(scatter, l.setting, 10000, 3);
    double mean = 0.0, square = 0.0;
    for (const double x : shots.low_point) {
      mean += x / 1e4;
      square += x * x / 1e4;
    }
    spread = std::sqrt(square - mean * mean);
  }
  if (std::abs(spread / 0.012 - 1.0) > 0.05) state.SkipWithError("the scatter is not the one asked for");
}
BENCHMARK(scatter_of_10000_shots)->Unit(benchmark::kMillisecond)->UseRealTime();

/// One shot: to the launch only, and with its flight.
void one_shot(benchmark::State& state) {
  const Lesson& l = lesson();
  const bool with_flight = state.range(0) != 0;
  Pass<double> p = pass_at(l.prior, Coordinates::Zero());
  double sum = 0.0;
  for (auto _ : state) {
    p.low_point += 1e-9;
    const Shot<double> s = shot_of(p, l.setting, with_flight, FlightOptions::fast());
    sum += with_flight ? s.flight.carry : s.strike.launch.speed;
  }
  // 34 m/s with a 7-iron: a ball of 40 m/s that carries 100 m, give or take a fifth.
  const double mean = sum / static_cast<double>(state.iterations());
  if (std::abs(mean / (with_flight ? 105.0 : 41.0) - 1.0) > 0.2) state.SkipWithError("not that swing's ball");
}
BENCHMARK(one_shot)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

}  // namespace
