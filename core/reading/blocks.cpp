#include "reading/blocks.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace strikewright {
namespace detail {
namespace {

/// Shares that sum to one, by the number of swings.
std::vector<double> shares_of(const std::vector<std::size_t>& swings) {
  double all = 0.0;
  for (const std::size_t n : swings) all += static_cast<double>(n);
  std::vector<double> out;
  out.reserve(swings.size());
  for (const std::size_t n : swings) out.push_back(static_cast<double>(n) / all);
  return out;
}

/// The blocks' means put together, each with its share of the swings, and how much narrower than a block's
/// the spread about it may be, block by block and coordinate by coordinate: a block's variance is what all
/// share (the eye's bias, what was not seen) and its own part, inverse to its swings, which shows in how the
/// blocks' means differ and averages out.
struct Agreed {
  Coordinates mean = Coordinates::Zero();
  std::vector<Coordinates> factor;
};

Agreed agreed(const std::vector<Coordinates>& means, const std::vector<Coordinates>& variances,
              const std::vector<double>& shares) {
  Agreed out{Coordinates::Zero(), std::vector<Coordinates>(means.size(), Coordinates::Ones())};
  for (std::size_t b = 0; b < means.size(); ++b) out.mean += shares[b] * means[b];
  if (means.size() < 2) return out;
  // Of all swings together; of a block with share s it is 1 / s as much.
  Coordinates own = Coordinates::Zero(), whole = Coordinates::Zero();
  for (std::size_t b = 0; b < means.size(); ++b) {
    own += shares[b] * (means[b] - out.mean).cwiseAbs2() / (static_cast<double>(means.size()) - 1.0);
    whole += shares[b] * variances[b];
  }
  constexpr double kLeast = 0.25;  // of the variance: so many blocks' means are no sure measure of it
  for (std::size_t b = 0; b < means.size(); ++b)
    for (int j = 0; j < kUnknowns; ++j)
      out.factor[b][j] =
          std::sqrt(std::max(kLeast, 1.0 - own[j] * (1.0 / shares[b] - 1.0) / std::max(whole[j], 1e-12)));
  return out;
}

/// Which block the draw k of n is taken from: each has its share of them, spread over all.
std::vector<std::size_t> turns_of(const std::vector<double>& shares, std::size_t n) {
  std::vector<std::size_t> out(n, 0);
  std::vector<double> owed = shares;
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t b = 1; b < owed.size(); ++b)
      if (owed[b] > owed[out[k]]) out[k] = b;
    owed[out[k]] -= 1.0;
    for (std::size_t b = 0; b < owed.size(); ++b) owed[b] += shares[b];
  }
  return out;
}

Coordinates variance_of(const std::vector<Coordinates>& draws, const Coordinates& mean) {
  Coordinates out = Coordinates::Zero();
  for (const Coordinates& z : draws) out += (z - mean).cwiseAbs2() / static_cast<double>(draws.size());
  return out;
}

/// One pattern out of the blocks that have swings of it.
/// @param swings  of it in each block
FitPattern agreed_pattern(const std::vector<const FitPattern*>& blocks,
                          const std::vector<std::size_t>& swings) {
  std::vector<Coordinates> means, variances;
  for (const FitPattern* b : blocks) {
    means.push_back(mean_of(b->centre));
    variances.push_back(variance_of(b->centre, means.back()));
  }
  const std::vector<double> shares = shares_of(swings);
  const Agreed all = agreed(means, variances, shares);
  FitPattern out;
  // As many draws as one block has.
  const std::vector<std::size_t> turns = turns_of(shares, blocks.front()->centre.size());
  for (std::size_t k = 0; k < turns.size(); ++k) {
    const std::size_t b = turns[k];
    out.centre.emplace_back(all.mean + all.factor[b].cwiseProduct(blocks[b]->centre[k] - means[b]));
  }
  for (std::size_t k = 0; k < blocks.front()->scatter.size(); ++k)
    out.scatter.push_back(blocks[turns[k]]->scatter[k]);
  return out;
}

FitPattern pattern_from(const Blocks& blocks, const Members& members, std::span<const FitSwing> swings,
                        std::size_t p) {
  std::vector<const FitPattern*> with;
  std::vector<std::size_t> counts;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const auto n = std::count_if(members[b].begin(), members[b].end(),
                                 [&](std::size_t i) { return swings[i].pattern == p; });
    if (n == 0) continue;
    with.push_back(&blocks[b]->fit.patterns[p]);
    counts.push_back(static_cast<std::size_t>(n));
  }
  return agreed_pattern(with, counts);
}

}  // namespace

Fit joined(const Blocks& blocks, const Members& members, std::span<const FitSwing> swings,
           std::size_t conditions) {
  Fit out;
  for (std::size_t p = 0; p < conditions; ++p)
    out.patterns.push_back(pattern_from(blocks, members, swings, p));
  std::vector<const FitPattern*> usual;
  std::vector<Coordinates> means, variances;
  std::vector<std::size_t> counts;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    usual.push_back(&blocks[b]->fit.usual);
    means.push_back(blocks[b]->mean);
    variances.emplace_back(blocks[b]->covariance.diagonal());
    counts.push_back(members[b].size());
  }
  out.usual = agreed_pattern(usual, counts);
  const std::vector<double> shares = shares_of(counts);
  const Agreed pupil = agreed(means, variances, shares);
  CoordinatesMatrix covariance = CoordinatesMatrix::Zero();
  for (std::size_t b = 0; b < blocks.size(); ++b)
    covariance +=
        shares[b] * (pupil.factor[b].asDiagonal() * blocks[b]->covariance * pupil.factor[b].asDiagonal());
  out.message = message_of(pupil.mean, covariance);
  out.swings.resize(swings.size());
  for (std::size_t b = 0; b < blocks.size(); ++b)
    for (std::size_t k = 0; k < members[b].size(); ++k) out.swings[members[b][k]] = blocks[b]->fit.swings[k];
  return out;
}

constexpr std::size_t kMostInBlock = 20;

Members members_of(std::size_t swings, bool in_turn) {
  const std::size_t blocks = (swings + kMostInBlock - 1) / kMostInBlock;
  Members out(blocks);
  for (std::size_t i = 0; i < swings; ++i) out[in_turn ? i % blocks : i / kMostInBlock].push_back(i);
  return out;
}

FitMessage message_of(const Coordinates& mean, const CoordinatesMatrix& covariance) {
  FitMessage m;
  const CoordinatesMatrix precision = covariance.inverse();
  m.precision = precision;
  m.precision.diagonal() -= between_sd().cwiseAbs2().cwiseInverse();
  m.pull = precision * mean;
  return m;
}

}  // namespace detail

std::shared_ptr<const FitBlock> FitMemory::find(const std::string& key) {
  const std::lock_guard lock{mutex_};
  const auto at = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& k) { return k.key == key; });
  if (at == kept_.end()) return nullptr;
  std::rotate(kept_.begin(), at, at + 1);
  return kept_.front().block;
}

void FitMemory::keep(const std::string& key, std::shared_ptr<const FitBlock> block) {
  const std::lock_guard lock{mutex_};
  kept_.push_front({key, std::move(block)});
  if (kept_.size() > most_) kept_.pop_back();
}

}  // namespace strikewright
