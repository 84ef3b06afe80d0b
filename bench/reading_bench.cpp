// How long readings and scatter clouds take. Each bench looks at what it computed: a reading that lost its
// truth is no fast reading.

#include <benchmark/benchmark.h>

#include <cmath>
#include <vector>

#include "bag/generic.hpp"
#include "reading/recovery.hpp"
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

/// Invented swings with what a coach saw of each.
const Lesson& lesson() {
  static const Lesson all = [] {
    Lesson l;
    l.setting.club = *club_named(generic_bag(), "7i");
    l.prior = prior_for(l.setting.club, Skill::club);
    l.reach = prior_reach(l.setting, l.prior);
    const std::vector<Kind>& kinds = looks()[2].kinds;  // eye, divot and strike mark
    for (std::size_t i = 0; i < 60; ++i) {
      Draws draws(5, i);
      const Shot<double> truth = shot_of(draw_pass(l.prior, draws), l.setting);
      std::vector<Sighting> s;
      for (const Kind kind : kinds) s.push_back(seen(kind, truth, l.setting, draws));
      l.seen_of.push_back(s);
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

void scatter_of_10000_shots(benchmark::State& state) {
  const Lesson& l = lesson();
  Scatter scatter;
  scatter.centre = pass_at(l.prior, Coordinates::Zero());
  scatter.root.diagonal() << 0.5, 0.02, 0.005, 0.012, 0.002, 0.02, 0.02, 0.006, 0.0, 0.0, 0.001, 0.0, 0.0;
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
