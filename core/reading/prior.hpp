#pragma once
// What is known about a swing before anything is seen.

#include <Eigen/Core>
#include <array>
#include <string>
#include <string_view>

#include "bag/club.hpp"
#include "delivery/delivery.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Skill { beginner, club, county, tour };
inline constexpr std::array<Skill, 4> kSkills{Skill::beginner, Skill::club, Skill::county, Skill::tour};

inline constexpr std::size_t kNumbers = 10;  ///< members of Pass
using Numbers = Eigen::Matrix<double, static_cast<int>(kNumbers), 1>;
using NumbersMatrix = Eigen::Matrix<double, static_cast<int>(kNumbers), static_cast<int>(kNumbers)>;

/// The members of a pass in order, with names and units for tables.
struct PassNumber {
  const char* key;
  const char* unit;
  double scale;  ///< shown value = SI value / scale
  const char* says;
  double Pass<double>::*at;
};
extern const std::array<PassNumber, kNumbers> kPassNumbers;

/// A multivariate normal over the numbers of the pass (club speed on its natural logarithm, the others SI):
/// numbers = mean + factor * z with z standard normal.
struct Prior {
  Numbers mean = Numbers::Zero();
  NumbersMatrix factor = NumbersMatrix::Identity();  ///< lower triangular
  std::array<std::string, kNumbers> source;          ///< where each row comes from
  [[nodiscard]] double sd(std::size_t i) const { return factor.row(static_cast<int>(i)).norm(); }
};

/// Prior for a club and a skill band: wide, and the same for both hands. Centres and widths are in prior.cpp,
/// each with its source or marked as an assumption; couplings say that a player squares most of what lean and
/// plane direction do to the face, and that a low point further forward goes with more lean.
Prior prior_for(const Club& club, Skill skill);

/// The pass at standard-normal coordinates `z`; templated so that slopes with respect to z exist.
template <class T>
Pass<T> pass_at(const Prior& prior, const Eigen::Matrix<T, static_cast<int>(kNumbers), 1>& z) {
  using std::exp;
  const Eigen::Matrix<T, static_cast<int>(kNumbers), 1> x =
      prior.mean.template cast<T>() + prior.factor.template cast<T>() * z;
  Pass<T> p;
  p.club_speed = exp(x[0]);
  p.plane_direction = x[1];
  p.plane_tilt = x[2];
  p.low_point = x[3];
  p.low_point_depth = x[4];
  p.shaft_lean = x[5];
  p.face_turn = x[6];
  p.strike_toe = x[7];
  p.lie_offset = x[8];
  p.closing_rate = x[9];
  return p;
}

/// The inverse of pass_at.
Numbers coordinates_of(const Prior& prior, const Pass<double>& pass);

/// "beginner", "club", "county", "tour", or a handicap such as "18" or "+2" (scratch or better: tour; to 9:
/// county; to 24: club; above: beginner).
Result<Skill> skill_named(std::string_view text, std::string place);
const char* name_of(Skill skill);

}  // namespace strikewright
