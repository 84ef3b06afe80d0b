#pragma once
// What is known about a swing before anything is seen.

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "bag/club.hpp"
#include "delivery/delivery.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Skill { beginner, club, county, tour };

inline constexpr std::size_t kNumbers = 10;  ///< members of Pass

/// The members of a pass in order, with names and units for tables.
struct PassNumber {
  const char* key;
  const char* unit;
  double scale;
  const char* says;
  double Pass<double>::*at;
};
extern const std::array<PassNumber, kNumbers> kPassNumbers;

/// Independent normals on the natural scales (club speed on its logarithm).
struct Prior {
  std::array<double, kNumbers> mean{};  ///< SI; club speed: natural logarithm of m/s
  std::array<double, kNumbers> sd{};
  std::array<std::string, kNumbers> source;  ///< where each row comes from, or "assumption"
};

/// Prior for a club and a skill band.
Prior prior_for(const Club& club, Skill skill);

/// "beginner", "club", "county", "tour", or a handicap such as "18" or "+2" (scratch or better: tour; to 9: county;
/// to 24: club; above: beginner).
Result<Skill> skill_named(std::string_view text, std::string place);
const char* name_of(Skill skill);

}  // namespace strikewright
