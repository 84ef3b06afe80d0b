#pragma once
// Invented books with known effects.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "exercise/learned.hpp"
#include "exercise/test/some_exercise.hpp"
#include "numeric/draws.hpp"

namespace strikewright {

struct SimulatedBook {
  std::vector<Trial> trials;
  std::vector<double> effect;  ///< true share of the way on the first move, one an exercise
};

/// One figure as a reading would state it: seen with normal noise, leaning on a prior.
inline void state(double truth, double noise, double prior_sd, Draws& draws, double& mean, double& sd) {
  const double seen = truth + noise * draws.normal();
  const double precision = 1.0 / (noise * noise) + 1.0 / (prior_sd * prior_sd);
  mean = seen / (noise * noise) / precision;
  sd = 1.0 / std::sqrt(precision);
}

/// Trials of one exercise with one pupil: causes 1 step off (sd), drift 0.3 steps, seen to 0.3 to 1 steps.
inline Trial simulated_trial(const Exercise& e, const std::string& pupil, int day, double x, Draws& draws) {
  Trial t;
  t.exercise = e.name;
  t.pupil = pupil;
  t.day = day;
  for (const Move& m : e.moves) {
    const double step = kCauseFacts[static_cast<std::size_t>(m.cause)].step;
    const double c = step * draws.normal(), home = m.home + m.home_sd * draws.normal();
    const double share = m.shift + x * m.shift_sd;
    const double after = c + share * (home - c) + 0.3 * step * draws.normal();
    BeforeAfter pair;
    pair.prior_sd = 1.5 * step;
    state(c, step * (0.3 + 0.7 * draws.uniform()), pair.prior_sd, draws, pair.before, pair.before_sd);
    state(after, step * (0.3 + 0.7 * draws.uniform()), pair.prior_sd, draws, pair.after, pair.after_sd);
    t.causes[m.cause] = pair;
  }
  return t;
}

/// A book drawn from what the model believes: widths, effects, pupils, figures.
inline SimulatedBook simulated_book(const std::vector<Exercise>& exercises, std::uint64_t seed) {
  Draws draws(seed, 11);
  const auto one_of = [&](const std::array<double, 5>& of) {
    return of[std::min<std::size_t>(4, static_cast<std::size_t>(5.0 * draws.uniform()))];
  };
  const double kappa = one_of({0.25, 0.5, 0.75, 1.0, 1.5}), omega = one_of({0.15, 0.3, 0.5, 0.75, 1.0});
  SimulatedBook out;
  for (const Exercise& e : exercises) {
    const double x = kappa * draws.normal();
    out.effect.push_back(e.moves.front().shift + x * e.moves.front().shift_sd);
    const auto pupils = static_cast<int>(9.0 * draws.uniform());  // 0 to 8
    for (int p = 0; p < pupils; ++p) {
      const double own = x + omega * draws.normal();
      const auto times = 1 + static_cast<int>(3.0 * draws.uniform());
      for (int k = 0; k < times; ++k)
        out.trials.push_back(simulated_trial(e, "pupil " + std::to_string(p), k, own, draws));
    }
  }
  return out;
}

/// A catalogue for such books: every cause, some that move two.
inline std::vector<Exercise> book_exercises() {
  std::vector<Exercise> out;
  const std::array<std::string, 6> causes{"weight", "release", "height", "handle", "face_turn", "speed"};
  for (std::size_t k = 0; k < 12; ++k) {
    const std::string letter(1, static_cast<char>('a' + k));
    nlohmann::json d = some_document("invented_" + letter);
    d["moves"][0]["cause"] = causes[k % 6];
    d["moves"][0]["shift"] = 0.2 + 0.03 * static_cast<double>(k);
    if (k % 3 == 0) {
      d["moves"].push_back(d["moves"][0]);
      d["moves"][1]["cause"] = causes[(k + 1) % 6];
      d["moves"][1]["shift"] = 0.15;
      d["moves"][1]["shift_sd"] = 0.1;
    }
    out.push_back(some_exercise(d));
  }
  return out;
}

}  // namespace strikewright
