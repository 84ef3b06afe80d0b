#pragma once
// Which club, which bag, which player, and how the club passes the ball: options shared by several commands.

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bag/club.hpp"
#include "command.hpp"
#include "reading/prior.hpp"

namespace strikewright {

struct BagGiven {
  std::string club = "7i";
  std::string file;  ///< --bag, "" = the generic bag
  std::string skill = "club";
};

/// --club --bag --skill.
void add_bag_options(std::vector<Option>& options, const std::shared_ptr<BagGiven>& given);
Result<std::vector<Club>> bag_of(const BagGiven& given);
Result<Club> club_of(const BagGiven& given);
Result<Skill> skill_of(const BagGiven& given);

/// What was said about the pass; the rest is the prior's centre.
struct PassGiven {
  std::array<std::optional<double>, kNumbers> at;  ///< SI, order of Pass
};

/// --club-speed --plane-direction --plane-tilt --low-point --low-point-depth --shaft-lean --face-turn
/// --strike-toe --lie-offset, under the heading "The club at the ball".
void add_pass_options(std::vector<Option>& options, const std::shared_ptr<PassGiven>& given);
Pass<double> pass_given(const PassGiven& given, const Prior& prior);

/// The place of the low point's depth in Pass. The prior has the edge's height at the ball there, so that a
/// low point that is moved takes its depth along and the club still comes down to the ball; a depth that is
/// given is set last.
inline constexpr std::size_t kDepth = 4;
/// Numbers of the prior with what was said put in, the depth aside.
Numbers wanted(const PassGiven& given, const Numbers& numbers);
/// The pass of some numbers of the prior (mean + factor z).
Pass<double> pass_with(const Prior& prior, const Numbers& numbers);

std::vector<std::string> surface_names();
std::vector<std::string> condition_names();

}  // namespace strikewright
