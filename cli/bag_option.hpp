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
#include "verbs/pass_given.hpp"

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

/// --club-speed --plane-direction --plane-tilt --low-point --low-point-depth --shaft-lean --face-turn
/// --strike-toe --lie-offset, under the heading "The club at the ball".
void add_pass_options(std::vector<Option>& options, const std::shared_ptr<PassGiven>& given);
std::vector<std::string> surface_names();
std::vector<std::string> condition_names();

}  // namespace strikewright
