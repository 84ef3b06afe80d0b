#pragma once
// What is known about a swing before anything is seen.

#include <Eigen/Core>
#include <array>
#include <string>
#include <string_view>

#include "bag/club.hpp"
#include "bag/surface.hpp"
#include "delivery/pass_vector.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Skill { beginner, club, county, tour };
inline constexpr std::array<Skill, 4> kSkills{Skill::beginner, Skill::club, Skill::county, Skill::tour};

inline constexpr std::size_t kNumbers = kPassSize;  ///< members of Pass
using Numbers = PassVector<double>;
using NumbersMatrix = Eigen::Matrix<double, kPassSize, kPassSize>;

/// What each coordinate of the prior is, for tables. As the members of Pass, but for two: club speed is on
/// its natural logarithm inside (`scale` is for the plain speed), and in place of the low point's depth
/// stands the height of the leading edge's free arc at the ball, which is what a player hits or misses.
struct PriorRow {
  const char* key;
  const char* unit;
  double scale;  ///< shown value = SI value / scale
  const char* says;
};
extern const std::array<PriorRow, kNumbers> kPriorRows;

/// A multivariate normal over the numbers of kPriorRows: mean + factor * z with z standard normal.
struct Prior {
  Numbers mean = Numbers::Zero();
  NumbersMatrix factor = NumbersMatrix::Identity();  ///< lower triangular
  double arc_radius = 1.5;                           ///< m, of the club
  std::array<std::string, kNumbers> source;          ///< where each row comes from
  [[nodiscard]] double sd(std::size_t i) const { return factor.row(static_cast<int>(i)).norm(); }
};

namespace detail {

/// x of the leading edge when a sound strike meets the ball: about 14 mm behind the ball's centre (irons, 25
/// to 35 deg).
inline constexpr double kEdgeAtContact = -0.014;

/// How far [m] the free arc stands over its low point at the ball: r (1 - cos b) sin(tilt) to second order,
/// which is within 1 % for low points up to 0.25 m away. Only a convention of the prior's coordinates; the
/// chain uses the circle.
template <class T>
T rise_at_ball(double radius, const T& tilt, const T& low_point) {
  using std::sin;
  const T away = low_point - kEdgeAtContact;
  return away * away * sin(tilt) / (2.0 * radius);
}

}  // namespace detail

/// Prior for a club, a skill band and a surface: wide, and the same for both hands. Centres and widths are in
/// prior.cpp, each with its source or marked as an assumption; couplings say that a player squares most of
/// what lean and plane direction do to the face, and that a low point further forward goes with more lean.
Prior prior_for(const Club& club, Skill skill, Surface surface = Surface::fairway);

/// The pass at standard-normal coordinates `z`; templated so that slopes with respect to z exist.
template <class T>
Pass<T> pass_at(const Prior& prior, const PassVector<T>& z) {
  using std::exp;
  PassVector<T> x = prior.mean.template cast<T>() + prior.factor.template cast<T>() * z;
  x[0] = exp(x[0]);
  x[4] -= detail::rise_at_ball(prior.arc_radius, x[2], x[3]);
  return pass_of(x);
}

/// The inverse of pass_at.
Numbers coordinates_of(const Prior& prior, const Pass<double>& pass);

/// "beginner", "club", "county", "tour", or a handicap such as "18" or "+2" (scratch or better: tour; to 9:
/// county; to 24: club; above: beginner).
Result<Skill> skill_named(std::string_view text, std::string place);
const char* name_of(Skill skill);

}  // namespace strikewright
