#pragma once
// How the club passes the ball, as far as somebody said so; the rest is what such players usually do.

#include <array>
#include <optional>

#include "reading/prior.hpp"

namespace strikewright {

/// What was said about the pass; the rest is the prior's centre.
struct PassGiven {
  std::array<std::optional<double>, kNumbers> at;  ///< SI, order of Pass
};

/// The place of the low point's depth in Pass. The prior has the edge's height at the ball there, so that a
/// low point that is moved takes its depth along and the club still comes down to the ball; a depth that is
/// given is set last.
inline constexpr std::size_t kGivenDepth = 4;
/// Numbers of the prior with what was said put in, the depth aside.
Numbers wanted(const PassGiven& given, const Numbers& numbers);
/// The pass of some numbers of the prior (mean + factor z).
Pass<double> pass_with(const Prior& prior, const Numbers& numbers);

/// The prior's middle with what was said put in.
Pass<double> pass_given(const PassGiven& given, const Prior& prior);

}  // namespace strikewright
