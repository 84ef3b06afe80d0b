#pragma once
// What is known about a swing before anything is seen.

#include <Eigen/Core>
#include <array>
#include <string>
#include <string_view>

#include "bag/club.hpp"
#include "delivery/pass_vector.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Skill { beginner, club, county, tour };
inline constexpr std::array<Skill, 4> kSkills{Skill::beginner, Skill::club, Skill::county, Skill::tour};

inline constexpr std::size_t kNumbers = kPassSize;  ///< members of Pass
using Numbers = PassVector<double>;
using NumbersMatrix = Eigen::Matrix<double, kPassSize, kPassSize>;

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
Pass<T> pass_at(const Prior& prior, const PassVector<T>& z) {
  using std::exp;
  PassVector<T> x = prior.mean.template cast<T>() + prior.factor.template cast<T>() * z;
  x[0] = exp(x[0]);
  return pass_of(x);
}

/// The inverse of pass_at.
Numbers coordinates_of(const Prior& prior, const Pass<double>& pass);

/// "beginner", "club", "county", "tour", or a handicap such as "18" or "+2" (scratch or better: tour; to 9:
/// county; to 24: club; above: beginner).
Result<Skill> skill_named(std::string_view text, std::string place);
const char* name_of(Skill skill);

}  // namespace strikewright
