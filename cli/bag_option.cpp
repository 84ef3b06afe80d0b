#include "bag_option.hpp"

#include <sstream>

#include "bag/generic.hpp"
#include "bag/json.hpp"
#include "quantity/angle.hpp"
#include "sighting/sighting.hpp"
#include "take.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

struct PassOption {
  const char* name;
  Dimension dimension;
  Range within;
  const char* says;
};

constexpr double kMost = 45 * kDegree;

/// The first members of Pass, in their order. The others have no name in the trade and stay the prior's.
constexpr std::array<PassOption, 9> kPassOptions{{
    {"--club-speed", Dimension::speed, {5.0, 70.0}, "of the clubhead at the ball"},
    {"--plane-direction",
     Dimension::angle,
     {-kMost, kMost},
     "of the swing plane, right of the target + (left-hander: left)"},
    {"--plane-tilt", Dimension::angle, {30 * kDegree, 80 * kDegree}, "of the swing plane to the ground"},
    {"--low-point", Dimension::small_length, {-0.5, 0.5}, "of the arc, ahead of the ball +"},
    {"--low-point-depth",
     Dimension::small_length,
     {-0.06, 0.06},
     "of the arc's low point, over the turf +, under -"},
    {"--shaft-lean", Dimension::angle, {-kMost, kMost}, "forward +, seen face-on"},
    {"--face-turn", Dimension::angle, {-kMost, kMost}, "of the club about its shaft, closing +"},
    {"--strike-toe",
     Dimension::small_length,
     {-0.06, 0.06},
     "strike point from the middle, toward the toe +"},
    {"--lie-offset", Dimension::angle, {-15 * kDegree, 15 * kDegree}, "shaft steeper than the plane +"},
}};

}  // namespace

void add_bag_options(std::vector<Option>& options, const std::shared_ptr<BagGiven>& given) {
  options.push_back(text("--club", "CLUB", member(given, given->club), "7i, pw, driver ...", "7i"));
  options.push_back(text("--bag", "FILE", member(given, given->file), "own clubs (JSON)", "a generic bag"));
  options.push_back(text("--skill", "SKILL", member(given, given->skill),
                         "beginner, club, county, tour, or a handicap such as 18", "club"));
}

Result<std::vector<Club>> bag_of(const BagGiven& given) {
  if (given.file.empty()) return generic_bag();
  std::istringstream none;
  const Result<std::string> document = document_of(given.file, none);
  if (!document) return unexpected(document.error());
  return bag_from_json(*document, given.file);
}

Result<Club> club_of(const BagGiven& given) {
  const Result<std::vector<Club>> bag = bag_of(given);
  if (!bag) return unexpected(bag.error());
  return club_named(*bag, given.club, "--club");
}

Result<Skill> skill_of(const BagGiven& given) { return skill_named(given.skill, "--skill"); }

void add_pass_options(std::vector<Option>& options, const std::shared_ptr<PassGiven>& given) {
  for (std::size_t k = 0; k < kPassOptions.size(); ++k) {
    const PassOption& o = kPassOptions[k];
    options.push_back(under("The club at the ball",
                            quantity(o.name, o.dimension, into(given, given->at[k]), o.within, o.says)));
  }
}

std::vector<std::string> surface_names() {
  std::vector<std::string> names;
  for (int k = 0; k <= static_cast<int>(Surface::tee); ++k)
    names.emplace_back(name_of(static_cast<Surface>(k)));
  return names;
}

std::vector<std::string> condition_names() {
  std::vector<std::string> names;
  for (int k = 0; k <= static_cast<int>(Condition::step); ++k)
    names.emplace_back(name_of(static_cast<Condition>(k)));
  return names;
}

}  // namespace strikewright
