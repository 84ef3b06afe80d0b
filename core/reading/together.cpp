#include "reading/together.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "numeric/parallel.hpp"
#include "numeric/pareto.hpp"
#include "reading/blocks.hpp"
#include "reading/chain.hpp"
#include "reading/climb.hpp"

namespace strikewright {
Coordinates mean_of(const std::vector<Coordinates>& draws) {
  Coordinates mean = Coordinates::Zero();
  for (const Coordinates& z : draws) mean += z / static_cast<double>(draws.size());
  return mean;
}

namespace {

using namespace detail;

Shape shape_of(std::span<const FitSwing> swings, std::span<const Condition> conditions,
               std::array<int, kKinds>& bias_of_kind) {
  Shape shape;
  shape.conditions.assign(conditions.begin(), conditions.end());
  shape.size = kUnknowns;
  for (const Condition c : conditions) {
    shape.effects.push_back(effects_of(c, *swings.front().prior));
    shape.keeps.emplace_back();
    for (int j = 0; j < kUnknowns; ++j)
      shape.keeps.back()[j] = shape.effects.back()[static_cast<std::size_t>(j)].keeps;
    shape.shift_at.push_back(c == Condition::normal ? -1 : shape.size);
    if (c != Condition::normal) shape.size += kUnknowns;
  }
  bias_of_kind.fill(-1);
  for (const FitSwing& s : swings)
    for (const Sighting& k : s.sightings) {
      int& column = bias_of_kind[static_cast<std::size_t>(k.kind)];
      if (!can_be_biased(k.kind) || column >= 0) continue;
      column = shape.biases++;
      shape.bias_sd.push_back(facts_of(k.kind).bias);
    }
  shape.size += shape.biases;
  return shape;
}

/// The columns of the biases of a swing's sites, in the sites' order.
std::vector<int> bias_columns(const FitSwing& s, const std::array<int, kKinds>& bias_of_kind) {
  std::vector<int> out;
  for (const Sighting& k : s.sightings) {
    const std::size_t sites = is_word(k.kind) ? decisions_of(k, *s.setting).size() : 1;
    out.insert(out.end(), sites, bias_of_kind[static_cast<std::size_t>(k.kind)]);
  }
  return out;
}

/// What the log weights of a swing's draws lean to: least squares along the coordinates, held back by a
/// ridge.
Coordinates tilt_of(const Pairs& pairs) {
  constexpr double kFar = 4.0;  // a draw where the straight chain fails wholly must not rule the rest
  const auto n = static_cast<double>(pairs.half.size());
  CoordinatesMatrix a = CoordinatesMatrix::Zero();
  Coordinates h = Coordinates::Zero();
  for (std::size_t k = 0; k < pairs.half.size(); ++k) {
    a += pairs.half[k] * pairs.half[k].transpose();
    h += pairs.half[k] * std::clamp(pairs.log_half[k], -kFar, kFar);
  }
  constexpr double kRidge = 0.02;  // of the draws' own spread
  a.diagonal() *= 1.0 + kRidge;
  a.diagonal().array() += 1e-6 * n;
  const Coordinates tilt = a.llt().solve(h);
  // To first order only: a lean that would move the swing by more than its own spread is cut to that.
  const double moved = std::sqrt(tilt.dot(a * tilt) / n);
  if (!std::isfinite(moved)) return Coordinates::Zero();
  return moved > 1.0 ? Coordinates(tilt / moved) : tilt;
}

constexpr std::size_t kChains = 2;

struct Start {
  std::vector<Coordinates> at;
  std::vector<std::vector<int>> biases;
};

/// Each swing's most probable place by itself.
Start start_of(std::span<const FitSwing> swings, const std::array<int, kKinds>& bias_of_kind,
               unsigned threads) {
  Start start{std::vector<Coordinates>(swings.size()), std::vector<std::vector<int>>(swings.size())};
  in_parallel(
      swings.size(), 1,
      [&](std::size_t i, std::size_t) {
        const Target target(swings[i].sightings, *swings[i].setting, *swings[i].prior);
        start.at[i] = climb(target, Coordinates::Zero(), {}, {8, 2e-2, 2.0}).at;
        // On a kink of the chain there is no slope to climb by.
        if (!start.at[i].allFinite()) start.at[i].setZero();
        start.biases[i] = bias_columns(swings[i], bias_of_kind);
      },
      threads);
  return start;
}

template <class T>
void append(std::vector<T>& to, const std::vector<T>& from) {
  to.insert(to.end(), from.begin(), from.end());
}

/// What the chains drew while asking what the straightened chain leaves out.
struct Asked {
  std::vector<Pairs> swings;
  std::vector<Coordinates> pupil;
};

Asked ask(std::vector<Chain>& chains, std::size_t swings, std::size_t sweeps, unsigned threads) {
  std::vector<Asked> parts(kChains, Asked{std::vector<Pairs>(swings), {}});
  in_parallel(
      kChains, 1,
      [&](std::size_t c, std::size_t) {
        chains[c].try_out(sweeps / kChains, parts[c].swings, parts[c].pupil);
      },
      threads);
  Asked all = std::move(parts[0]);
  for (std::size_t c = 1; c < kChains; ++c) {
    append(all.pupil, parts[c].pupil);
    for (std::size_t i = 0; i < swings; ++i) {
      append(all.swings[i].at, parts[c].swings[i].at);
      append(all.swings[i].half, parts[c].swings[i].half);
      append(all.swings[i].log_half, parts[c].swings[i].log_half);
    }
  }
  return all;
}

/// How far corrections would move the pupil to first order: the covariance of its draws with all of them
/// together, in standard deviations of each coordinate.
Coordinates move_of(const Asked& asked, const std::vector<Coordinates>& tilts) {
  const std::size_t n = asked.pupil.size();
  std::vector<double> lean(n, 0.0);
  for (std::size_t i = 0; i < tilts.size(); ++i)
    for (std::size_t k = 0; k < n; ++k)
      lean[k] += tilts[i].dot(asked.swings[i].at[k]) / static_cast<double>(n);
  const Coordinates middle = mean_of(asked.pupil);
  Coordinates variance = Coordinates::Constant(1e-12), moved = Coordinates::Zero();
  for (std::size_t k = 0; k < n; ++k) {
    const Coordinates d = asked.pupil[k] - middle;
    variance += d.cwiseAbs2() / static_cast<double>(n);
    moved += d * lean[k];
  }
  return moved.cwiseQuotient(variance.cwiseSqrt());
}

/// Straightens the real chain over the places of the first `of` chains and hands it to each: its slopes cost
/// as much as all sweeps of the warming up.
void straighten(std::vector<Chain>& chains, std::size_t of, std::span<const FitSwing> swings,
                unsigned threads) {
  std::vector<std::vector<Site>> sites(swings.size());
  in_parallel(
      swings.size(), 1,
      [&](std::size_t i, std::size_t) {
        std::vector<Coordinates> places;
        for (std::size_t c = 0; c < of; ++c) append(places, chains[c].places(i));
        sites[i] = sites_over(swings[i].sightings, *swings[i].setting, *swings[i].prior, places);
      },
      threads);
  for (Chain& chain : chains)
    for (std::size_t i = 0; i < swings.size(); ++i) chain.straighten(i, sites[i]);
}

/// Warms all chains up, the real chain straightened twice on the way where they were by then.
void warm_up(std::vector<Chain>& chains, std::span<const FitSwing> swings, unsigned threads) {
  straighten(chains, 1, swings, threads);  // all begin at one place
  constexpr int kStep = 4;
  for (const int sweeps : {10, 40}) {
    in_parallel(
        kChains, 1, [&](std::size_t c, std::size_t) { chains[c].warm_up(sweeps, kStep); }, threads);
    straighten(chains, kChains, swings, threads);
  }
  in_parallel(
      kChains, 1, [&](std::size_t c, std::size_t) { chains[c].settle(); }, threads);
}

/// Straightens the chain anew where its draws are: the line of least squares through the numbers that the
/// real chain gives there (statistical linearisation: A. Gelb, ed., Applied Optimal Estimation, 1974, 6.2;
/// from memory). It takes in more places than the mean slopes with which the draws began.
void straighten_by_draws(std::vector<Chain>& chains, std::size_t swings, std::size_t sweeps,
                         unsigned threads) {
  std::vector<std::vector<OffLine>> parts(kChains);
  in_parallel(
      kChains, 1, [&](std::size_t c, std::size_t) { chains[c].look_off(sweeps / kChains, parts[c]); },
      threads);
  for (std::size_t i = 0; i < swings; ++i) {
    OffLine all = std::move(parts[0][i]);
    for (std::size_t c = 1; c < kChains; ++c) all.add(parts[c][i]);
    constexpr double kRidge = 0.1;  // of the draws' own spread
    all.square.diagonal() *= 1.0 + kRidge;
    all.square.diagonal().array() += 1e-6 * all.pairs;
    const ByNumber slopes = all.square.llt().solve(all.lean);
    const Long height = (all.off - slopes.transpose() * all.middle) / all.pairs;
    if (!slopes.allFinite() || !height.allFinite()) continue;
    for (Chain& chain : chains) chain.bend(i, height, slopes);
  }
  in_parallel(
      kChains, 1, [&](std::size_t c, std::size_t) { chains[c].settle(); }, threads);
}

/// Adds to the correction of each swing: in turns, because the corrections of many swings add up on the
/// pattern and mean something else once it has moved. No turn moves the pupil by more than its own spread.
/// Each counts for less than the one before, so that the last is about the mean of all, and one that goes too
/// far and comes back settles between (H. Robbins & S. Monro, Ann. Math. Stat. 22, 1951, 400-407).
void correct(std::vector<Chain>& chains, std::vector<Coordinates>& tilts, int turns,
             const FitOptions& options) {
  for (int turn = 1; turn <= turns; ++turn) {
    const Asked asked = ask(chains, tilts.size(), options.first, options.threads);
    std::vector<Coordinates> more(tilts.size());
    for (std::size_t i = 0; i < tilts.size(); ++i) more[i] = tilt_of(asked.swings[i]);
    const double far = std::max(1.0, move_of(asked, more).cwiseAbs().maxCoeff());
    for (std::size_t i = 0; i < tilts.size(); ++i) tilts[i] += more[i] / (far * turn);
    for (Chain& chain : chains) chain.lean_by(tilts);
  }
}

/// Finds line and correction of each swing, twice: a correction moves the draws, and where they are then the
/// real chain has another line. The first of the two only has to come near.
void prepare(std::vector<Chain>& chains, std::size_t swings, const FitOptions& options) {
  std::vector<Coordinates> tilts(swings, Coordinates::Zero());
  straighten_by_draws(chains, swings, options.first, options.threads);
  correct(chains, tilts, 2, options);
  straighten_by_draws(chains, swings, 2 * options.first, options.threads);
  correct(chains, tilts, 3, options);
}

/// Puts the draws of one chain behind those of another.
void join(Fit& to, const Fit& from) {
  for (std::size_t p = 0; p < to.patterns.size(); ++p) {
    append(to.patterns[p].centre, from.patterns[p].centre);
    append(to.patterns[p].scatter, from.patterns[p].scatter);
  }
  append(to.usual.centre, from.usual.centre);
  for (std::size_t i = 0; i < to.swings.size(); ++i) {
    append(to.swings[i].at, from.swings[i].at);
    append(to.swings[i].pass, from.swings[i].pass);
    append(to.swings[i].reported, from.swings[i].reported);
    append(to.swings[i].weight, from.swings[i].weight);
    to.swings[i].belongs += from.swings[i].belongs;
  }
}

/// So few swings that their corrections can be worked out (fit_together).
FitBlock fit_few(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                 const FitOptions& options) {
  std::array<int, kKinds> bias_of_kind{};
  const Shape shape = shape_of(swings, conditions, bias_of_kind);
  const Start start = start_of(swings, bias_of_kind, options.threads);
  std::vector<Chain> chains;
  for (std::size_t c = 0; c < kChains; ++c) {
    chains.emplace_back(swings, shape, start.at, start.biases, options.seed, c);
    chains.back().bias_of_kind = bias_of_kind;
  }
  warm_up(chains, swings, options.threads);
  prepare(chains, swings.size(), options);
  const std::size_t each = options.sweeps / kChains;
  std::vector<Fit> parts(kChains);
  in_parallel(
      kChains, 1,
      [&](std::size_t c, std::size_t) {
        parts[c].patterns.resize(conditions.size());
        parts[c].swings.resize(swings.size());
        chains[c].keep(each, parts[c]);
      },
      options.threads);
  Fit fit = std::move(parts[0]);
  Coordinates mean = chains[0].mean_;
  CoordinatesMatrix square = chains[0].square_ + chains[0].spread_;
  for (std::size_t c = 1; c < kChains; ++c) {
    join(fit, parts[c]);
    mean += chains[c].mean_;
    square += chains[c].square_ + chains[c].spread_;
  }
  for (FitPattern& pattern : fit.patterns)
    for (Coordinates& at : pattern.centre) at = within_reach(at);
  for (FitSwingDraws& s : fit.swings) {
    s.belongs /= static_cast<double>(kChains);
    SmoothedWeights smooth = smooth_weights(s.weight);
    s.weight = std::move(smooth.weight);
    s.tail_index = smooth.tail_index;
    s.effective_draws = smooth.effective_draws;
  }
  const double n = static_cast<double>(kChains * each);
  mean /= n;
  const CoordinatesMatrix covariance = square / n - mean * mean.transpose();
  return {std::move(fit), mean, covariance};
}

/// Everything that decides a block's fit.
std::string key_of(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                   const FitOptions& options) {
  std::string key = std::to_string(options.seed) + ' ' + std::to_string(options.first) + ' ' +
                    std::to_string(options.sweeps);
  for (const Condition c : conditions) key += ' ' + std::to_string(static_cast<int>(c));
  for (const FitSwing& s : swings) {
    key += '\n' + std::to_string(s.pattern) + ' ';
    key += s.key;
  }
  return key;
}

/// One block to be fitted, or known already.
struct Task {
  std::vector<FitSwing> swings;
  FitOptions options;
  std::string key;
  std::shared_ptr<const FitBlock> block;
};

Task task_of(std::vector<FitSwing> swings, std::span<const Condition> conditions, const FitOptions& options) {
  Task task{std::move(swings), options, "", nullptr};
  if (options.memory == nullptr) return task;
  task.key = key_of(task.swings, conditions, options);
  task.block = options.memory->find(task.key);
  return task;
}

void fit(Task& task, std::span<const Condition> conditions, unsigned threads) {
  task.options.threads = threads;
  task.block = std::make_shared<const FitBlock>(fit_few(task.swings, conditions, task.options));
  if (task.options.memory != nullptr) task.options.memory->keep(task.key, task.block);
}

/// Fits what is not known: as many side by side as there are threads, and those that are left over one after
/// the other with all threads, so that none stands idle.
void fit_all(std::vector<Task>& tasks, std::span<const Condition> conditions, unsigned threads) {
  std::vector<Task*> open;
  for (Task& task : tasks)
    if (task.block == nullptr) open.push_back(&task);
  const std::size_t hands = threads == 0 ? cores() : threads;
  const std::size_t abreast = open.size() - open.size() % hands;
  in_parallel(
      abreast, 1, [&](std::size_t k, std::size_t) { fit(*open[k], conditions, 1); }, threads);
  for (std::size_t k = abreast; k < open.size(); ++k) fit(*open[k], conditions, threads);
}

}  // namespace

Fit fit_together(std::span<const FitSwing> swings, std::span<const Condition> conditions,
                 const FitOptions& options) {
  const Members members = members_of(swings.size(), options.in_turn);
  std::vector<Task> tasks;
  for (std::size_t b = 0; b < members.size(); ++b) {
    std::vector<FitSwing> some;
    for (const std::size_t i : members[b]) some.push_back(swings[i]);
    FitOptions own = options;
    own.seed = options.seed + b;
    tasks.push_back(task_of(std::move(some), conditions, own));
  }
  fit_all(tasks, conditions, options.threads);
  if (tasks.size() == 1) {
    const FitBlock& all = *tasks.front().block;
    Fit fit = all.fit;
    fit.message = message_of(all.mean, all.covariance);
    return fit;
  }
  Blocks blocks;
  for (const Task& task : tasks) blocks.push_back(task.block);
  return joined(blocks, members, swings, conditions.size());
}

}  // namespace strikewright
