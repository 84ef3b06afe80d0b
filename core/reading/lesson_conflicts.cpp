#include "reading/lesson_conflicts.hpp"

#include <Eigen/Cholesky>
#include <algorithm>

#include "numeric/parallel.hpp"

namespace strikewright {
namespace {

/// The group's setting with the ground and the ball of one swing.
Setting setting_for(const Group& group, const SeenSwing& swing) {
  Setting setting = group.setting;
  setting.ground.surface = swing.surface;
  setting.with_ball = swing.ball;
  return setting;
}

}  // namespace

Prior prior_within(const Group& group, std::size_t pattern) {
  const FitPattern& fit = group.fit.patterns[pattern];
  ensure(!fit.centre.empty(), "a pattern without draws");
  const Coordinates middle = mean_of(fit.centre);
  CoordinatesMatrix spread = CoordinatesMatrix::Zero();
  for (const Coordinates& z : fit.centre)
    spread += (z - middle) * (z - middle).transpose() / static_cast<double>(fit.centre.size());
  constexpr double kLeast = 1e-6;  // prior variances: keeps the root real where nothing scatters
  const Coordinates scatter = fit.scatter.empty() ? Coordinates::Zero() : mean_of(fit.scatter);
  spread.diagonal() += scatter.cwiseAbs2() + Coordinates::Constant(kLeast);
  const CoordinatesMatrix root = spread.llt().matrixL();
  return group.prior.by(middle, root);
}

std::vector<Conflict> conflicts_of(const Group& group, const LessonReading& lesson,
                                   const std::vector<SeenSwing>& seen, std::span<const Club> bag,
                                   unsigned threads) {
  std::vector<Prior> priors;
  for (std::size_t p = 0; p < group.patterns.size(); ++p) {
    const bool alone = lesson.patterns[group.patterns[p]].n < 2;
    priors.push_back(alone ? group.prior : prior_within(group, p));
  }
  std::vector<std::vector<Conflict>> found(group.swings.size());
  const auto judge = [&](std::size_t begin, std::size_t end) {
    for (std::size_t k = begin; k < end; ++k) {
      const SeenSwing& swing = seen[group.swings[k]];
      const auto at = std::find(group.conditions.begin(), group.conditions.end(), swing.condition);
      const Prior& prior = priors[static_cast<std::size_t>(at - group.conditions.begin())];
      found[k] = conflicts_in(group.swings[k], swing.sightings, setting_for(group, swing), prior, bag);
    }
  };
  in_parallel(group.swings.size(), 1, judge, threads);
  std::vector<Conflict> out;
  for (std::vector<Conflict>& some : found)
    out.insert(out.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
  return out;
}

}  // namespace strikewright
