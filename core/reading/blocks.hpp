#pragma once
// Many swings are fitted in blocks; what the blocks agree on.

#include <memory>
#include <span>
#include <vector>

#include "reading/together.hpp"

namespace strikewright::detail {

using Blocks = std::vector<std::shared_ptr<const FitBlock>>;
using Members = std::vector<std::vector<std::size_t>>;  ///< of each block: which swings

/// At most twenty a block, dealt out in turn or cut off in order.
Members members_of(std::size_t swings, bool in_turn);

/// One fit out of several, each with the weight of its swings. @pre conditions > every swing's pattern
Fit joined(const Blocks& blocks, const Members& members, std::span<const FitSwing> swings,
           std::size_t conditions);

/// What is left of a posterior when the pupil's prior is taken out.
FitMessage message_of(const Coordinates& mean, const CoordinatesMatrix& covariance);

}  // namespace strikewright::detail
