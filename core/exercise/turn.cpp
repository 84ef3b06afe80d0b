#include "exercise/turn.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "cause/looks.hpp"
#include "numeric/draws.hpp"
#include "numeric/quasi.hpp"

namespace strikewright {
namespace {

/// FNV-1a, so that an exercise's draws do not hang on what stands beside it.
std::uint64_t number_of(const std::string& name) {
  std::uint64_t h = 14695981039346656037ull;
  for (const char c : name) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ull;
  return h;
}

/// Standard normal draws, evenly spread and in random order.
std::vector<double> even_normals(std::size_t n, Draws& draws) {
  std::vector<double> out;
  for (std::size_t k = 0; k < n; ++k)
    out.push_back(normal_quantile((static_cast<double>(k) + 0.5) / static_cast<double>(n)));
  for (std::size_t k = n - 1; k > 0; --k) {
    const auto other = static_cast<std::size_t>(draws.uniform() * static_cast<double>(k + 1));
    std::swap(out[k], out[std::min(other, k)]);
  }
  return out;
}

double mean_score(const std::vector<Come>& all) {  // up to a constant: the pupil as he is
  double sum = 0.0;
  for (const Come& c : all) sum -= c.distance + kMetresPerBadStrike * c.bad_share;
  return sum / static_cast<double>(all.size());
}

double mean_share(const Candidate& c) {
  const std::vector<double>& share = c.change.front().share;
  return std::accumulate(share.begin(), share.end(), 0.0) / static_cast<double>(share.size());
}

/// The candidate with its first move's mean share at `share`, the others along with it.
Change with_share(const Candidate& c, double share) {
  const double sd = c.exercise->moves.front().shift_sd;
  const double x = (share - mean_share(c)) / sd;
  Change out = c.change;
  for (std::size_t j = 0; j < out.size(); ++j)
    for (double& s : out[j].share) s += x * c.exercise->moves[j].shift_sd;
  return out;
}

/// Root of f between from (f > 0) and to, by halving; nothing when f stays positive at `to`.
std::optional<double> turned(const std::function<double(double)>& f, double from, double to) {
  if (f(to) > 0.0) return std::nullopt;
  constexpr int kHalvings = 6;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (from + to);
    (f(middle) > 0.0 ? from : to) = middle;
  }
  return 0.5 * (from + to);
}

/// The root nearest to `from` on the way to `to`: a move that goes too far overshoots, and what is gained
/// half-way may be lost again at the end.
std::optional<double> first_turned(const std::function<double(double)>& f, double from, double to) {
  constexpr int kSteps = 6;
  const double step = (to - from) / kSteps;
  for (int k = 1; k <= kSteps; ++k)
    if (f(from + step * k) <= 0.0) return turned(f, from + step * (k - 1), from + step * k);
  return std::nullopt;
}

/// Outward by `step`, so many times on both sides, then halving: the nearest turn.
std::optional<double> nearest_turn(const std::function<double(double)>& f, double step, int times) {
  for (int k = 1; k <= times; ++k)
    for (const double side : {step, -step})
      if (f(side * k) <= 0.0) return turned(f, side * (k - 1), side * k);
  return std::nullopt;
}

}  // namespace

Candidate candidate_of(const Exercise& exercise, const LearnedEffect* learned, const Thinkable& who,
                       std::uint64_t seed) {
  Candidate out;
  out.exercise = &exercise;
  out.learned = learned != nullptr && learned->times > 0;
  Draws draws(seed, number_of(exercise.name));
  const std::vector<double> x = even_normals(who.pupils(), draws);
  const double mean = out.learned ? learned->standard_mean : 0.0;
  const double sd = out.learned ? learned->standard_next_sd : 1.0;
  for (const Move& move : exercise.moves) {
    ChangedPart part;
    part.place = place_of(move.cause);
    const double unit = who.prior.unit_sd[part.place];
    const std::vector<double> home = even_normals(who.pupils(), draws),
                              ratio = even_normals(who.pupils(), draws);
    for (std::size_t m = 0; m < who.pupils(); ++m) {
      part.share.push_back(move.shift + (mean + sd * x[m]) * move.shift_sd);
      part.home.push_back((move.home + move.home_sd * home[m]) / unit);
      part.ratio.push_back(move.scatter * std::exp(move.scatter_sd / move.scatter * ratio[m]));
    }
    out.change.push_back(std::move(part));
  }
  return out;
}

std::vector<Turn> turns_of(const Thinkable& who, Cause leading, const Candidate& first,
                           const Candidate& second, double ahead, const PlayOptions& options) {
  constexpr int kHalfSteps = 6;
  constexpr double kLeast = -0.5, kMost = 1.5;
  const auto came = play(who, {first.change, second.change}, options);
  const double one = mean_score(came[0]), two = mean_score(came[1]);
  const double correction = ahead - (one - two);
  const auto score_of = [&](const Thinkable& pupils, const Change& change) {
    return mean_score(play(pupils, {change}, options).front());
  };
  std::vector<Turn> out;

  const int place = place_of(leading);
  const double step = 1.0 / steps_in(leading, who.prior), unit = who.prior.unit_sd[place];
  Turn cause{Turn::What::cause, leading, 0.0, {}};
  for (const Coordinates& c : who.centre) cause.now += unit * c[place] / static_cast<double>(who.pupils());
  Thinkable moved = who;
  const auto ahead_there = [&](double shift) {
    for (std::size_t m = 0; m < who.pupils(); ++m) moved.centre[m][place] = who.centre[m][place] + shift;
    const auto there = play(moved, {first.change, second.change}, options);
    return mean_score(there[0]) - mean_score(there[1]) + correction;
  };
  if (const auto shift = nearest_turn(ahead_there, 0.5 * step, kHalfSteps))
    cause.needed = cause.now + unit * *shift;
  out.push_back(cause);

  const auto effect = [&](Turn::What what, const Candidate& c, double farthest, double sign, double other) {
    Turn turn{what, c.exercise->moves.front().cause, mean_share(c), {}};
    if (c.exercise->moves.front().shift_sd > 0.0)
      turn.needed = first_turned(
          [&](double share) { return sign * (score_of(who, with_share(c, share)) - other) + correction; },
          turn.now, farthest);
    out.push_back(turn);
  };
  effect(Turn::What::first_effect, first, kLeast, 1.0, two);
  effect(Turn::What::second_effect, second, kMost, -1.0, one);
  return out;
}

}  // namespace strikewright
