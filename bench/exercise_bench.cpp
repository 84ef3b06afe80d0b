// Is the ranking worth it? What the exercise ranked first truly gains invented pupils, against one that
// everybody gets, against any of them, and against the best in hindsight. And how long a ranking takes.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "bag/generic.hpp"
#include "cause/calibration.hpp"
#include "exercise/play.hpp"
#include "exercise/ranking.hpp"
#include "exercise/test/simulated_book.hpp"
#include "exercise/turn.hpp"

namespace {

using namespace strikewright;

constexpr const char* kPopular = "towel_behind_ball";  // what many give first; common practice, no source
constexpr std::uint64_t kSeed = 20261125, kTruthSeed = 77;

struct Lesson {
  InventedPupil pupil;
  Group group;
  CauseReading causes;
};

Lesson lesson_of(std::size_t index) {
  Lesson out{invented_pupil(index, kSeed, 10), {}, {}};
  LessonOptions options;
  options.bag = generic_bag();
  options.skill = out.pupil.skill;
  Result<LessonReading> read = read_lesson(out.pupil.seen, options, "invented");
  ensure(read.has_value() && read->groups.size() == 1, "an invented lesson can be read");
  out.group = std::move(read->groups.front());
  out.causes = causes_of(out.group, out.pupil.seen);
  return out;
}

/// True expected score of each exercise for the pupil as he is: 64 draws of what a dose does, 24 swings each.
std::vector<double> true_scores(const InventedPupil& p, const std::vector<Exercise>& exercises) {
  constexpr std::size_t kEffects = 64, kSwings = 24;
  const Thinkable who(p.setting, p.prior, {p.centre}, {p.scatter}, kEffects, kSwings, kTruthSeed);
  std::vector<Change> changes{{}};
  for (const Exercise& e : exercises) changes.push_back(candidate_of(e, nullptr, who, kTruthSeed).change);
  const auto came = play(who, changes, {});
  std::vector<double> out(exercises.size());
  for (std::size_t e = 0; e < exercises.size(); ++e)
    for (std::size_t m = 0; m < kEffects; ++m)
      out[e] += (came[0][m].distance - came[e + 1][m].distance +
                 kMetresPerBadStrike * (came[0][m].bad_share - came[e + 1][m].bad_share)) /
                static_cast<double>(kEffects);
  return out;
}

std::size_t place_of_name(const std::string& name, const std::vector<Exercise>& exercises) {
  const auto at =
      std::find_if(exercises.begin(), exercises.end(), [&](const Exercise& e) { return e.name == name; });
  ensure(at != exercises.end(), "the exercise is in the catalogue");
  return static_cast<std::size_t>(at - exercises.begin());
}

double mean_of(const std::vector<double>& v) {
  double sum = 0.0;
  for (const double x : v) sum += x / static_cast<double>(v.size());
  return sum;
}

/// Metres of true score a pupil, over pupils.
void gain_of_the_first(benchmark::State& state) {
  const auto pupils = static_cast<std::size_t>(state.range(0));
  const std::vector<Exercise>& all = catalogue();
  double first = 0.0, said = 0.0, popular = 0.0, any = 0.0, best = 0.0, worse = 0.0;
  std::vector<double> fixed(all.size());
  for (auto _ : state) {
    for (std::size_t i = 0; i < pupils; ++i) {
      const Lesson lesson = lesson_of(i);
      const Ranking ranking = ranking_of(lesson.group, lesson.causes, all);
      const std::vector<double> truth = true_scores(lesson.pupil, all);
      const double got = truth[place_of_name(ranking.ranked.front().name, all)];
      const double n = static_cast<double>(pupils);
      first += got / n;
      said += ranking.ranked.front().score.mean / n;
      popular += truth[place_of_name(kPopular, all)] / n;
      any += mean_of(truth) / n;
      best += *std::max_element(truth.begin(), truth.end()) / n;
      worse += got < 0.0 ? 1.0 / n : 0.0;
      for (std::size_t e = 0; e < all.size(); ++e) fixed[e] += truth[e] / n;
    }
  }
  const double best_fixed = *std::max_element(fixed.begin(), fixed.end());
  if (first <= best_fixed) state.SkipWithError("one exercise for everybody does as well as the ranking");
  state.counters["pupils"] = static_cast<double>(pupils);
  state.counters["first_m"] = first;
  state.counters["said_m"] = said;
  state.counters["popular_m"] = popular;
  state.counters["random_m"] = any;
  state.counters["best_fixed_m"] = best_fixed;  // the best single one for these pupils, in hindsight
  state.counters["hindsight_m"] = best;         // the best one of each pupil
  state.counters["first_over_popular"] = first / popular;
  state.counters["first_over_random"] = first / any;
  state.counters["first_over_hindsight"] = first / best;
  state.counters["made_worse"] = worse;
}
BENCHMARK(gain_of_the_first)->Arg(60)->Iterations(1)->Unit(benchmark::kSecond);

/// The 80 % limits of effects learned from simulated books.
void limits_of_learned_effects(benchmark::State& state) {
  const auto wanted = static_cast<std::size_t>(state.range(0));
  const std::vector<Exercise> all = book_exercises();
  std::size_t n = 0, inside = 0;
  for (auto _ : state)
    for (std::uint64_t seed = 1; n < wanted; ++seed) {
      const SimulatedBook book = simulated_book(all, seed);
      const BookEffects learned = learned_effects(all, book.trials);
      for (std::size_t e = 0; e < all.size(); ++e) {
        const LearnedEffect& l = learned.effects[e];
        if (l.times == 0) continue;
        ++n;
        inside += book.effect[e] > l.p10 && book.effect[e] < l.p90 ? 1u : 0u;
      }
    }
  const double share = static_cast<double>(inside) / static_cast<double>(n);
  if (share < 0.78 || share > 0.82) state.SkipWithError("the 80 % limits of effects do not hold 80 %");
  state.counters["effects"] = static_cast<double>(n);
  state.counters["inside"] = share;
}
BENCHMARK(limits_of_learned_effects)->Arg(20000)->Iterations(1)->Unit(benchmark::kSecond);

/// All of the catalogue, ten swings, all cores.
void ranking(benchmark::State& state) {
  const Lesson lesson = lesson_of(0);
  const std::vector<Exercise>& all = catalogue();
  for (auto _ : state)
    benchmark::DoNotOptimize(ranking_of(lesson.group, lesson.causes, all).ranked.front().score.mean);
  state.counters["exercises"] = static_cast<double>(all.size());
}
BENCHMARK(ranking)->Unit(benchmark::kMillisecond)->UseRealTime();

/// A book of 12 exercises and a few hundred trials.
void learning(benchmark::State& state) {
  std::vector<Trial> trials;
  const std::vector<Exercise> all = book_exercises();
  for (std::uint64_t seed = 1; trials.size() < 300; ++seed)
    for (Trial t : simulated_book(all, seed).trials) {
      t.pupil += " of book " + std::to_string(seed);
      trials.push_back(std::move(t));
    }
  for (auto _ : state) benchmark::DoNotOptimize(learned_effects(all, trials).between_pupils);
  state.counters["trials"] = static_cast<double>(trials.size());
}
BENCHMARK(learning)->Unit(benchmark::kMillisecond);

}  // namespace
