#pragma once
// What is known about a swing before anything is seen.

#include <Eigen/Core>
#include <array>
#include <string>
#include <string_view>

#include "bag/club.hpp"
#include "bag/surface.hpp"
#include "delivery/cause_slopes.hpp"
#include "delivery/pass_vector.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

enum class Skill { beginner, club, county, tour };
inline constexpr std::array<Skill, 4> kSkills{Skill::beginner, Skill::club, Skill::county, Skill::tour};

inline constexpr std::size_t kNumbers = kPassSize;  ///< members of Pass
using Numbers = PassVector<double>;
using NumbersMatrix = Eigen::Matrix<double, kPassSize, kPassSize>;

/// What is drawn about a swing, in standard normal terms: one coordinate for each cause of the flail and one
/// for each habit or circumstance that is no cause.
enum class Unknown {
  speed,
  handle,
  plane_tilt,
  weight,
  height,
  release,
  face_turn,
  strike_toe,
  lie,
  closing,
  ball_sits,
  turf,
  turf_lift,
  shaft_time,
  arc,
  lean_habit
};
inline constexpr int kUnknowns = 16;
using Coordinates = Eigen::Matrix<double, kUnknowns, 1>;
using CoordinatesMatrix = Eigen::Matrix<double, kUnknowns, kUnknowns>;

/// What each number of the prior is, for tables. As the members of Pass, but for two: club speed is on
/// its natural logarithm inside (`scale` is for the plain speed), and in place of the low point's depth
/// stands the height of the leading edge's free arc at the ball, which is what a player hits or misses.
struct PriorRow {
  const char* key;
  const char* unit;
  double scale;  ///< shown value = SI value / scale
  const char* says;
};
extern const std::array<PriorRow, kNumbers> kPriorRows;

using Factor = Eigen::Matrix<double, kPassSize, kUnknowns>;

/// A place along the coordinates: at + along . z.
struct Along {
  Coordinates along = Coordinates::Zero();
  double at = 0.0;
  [[nodiscard]] double operator()(const Coordinates& z) const { return at + along.dot(z); }
};

/// What two coordinates (or one with itself) do together: size * first(z) * second(z).
struct Bend {
  Along first, second;
  Numbers size = Numbers::Zero();
};

/// What is known about the numbers of kPriorRows: mean + factor * z + bends, z standard normal and in the
/// order of Unknown.
struct Prior {
  Numbers mean = Numbers::Zero();
  Factor factor = Factor::Zero();
  std::array<Bend, 3> bends;  ///< of release, of weight, and of the two together
  Coordinates unit_sd =
      Coordinates::Ones();    ///< SI size of one unit of each coordinate (speed: of its logarithm)
  Skill skill = Skill::club;  ///< whom it is for, and on what
  Surface surface = Surface::fairway;
  double arc_radius = 1.5;  ///< m, of the club
  /// What a golfer does about one cause (column) by another (row), beyond what is usual: standard deviation,
  /// in units of the row for one unit of the column. A release and a weight are met by height, a handle and
  /// what leans the shaft by the face. It is seen as the row's and is no cause of its own.
  Eigen::Matrix<double, kCauses, kCauses> felt = Eigen::Matrix<double, kCauses, kCauses>::Zero();
  [[nodiscard]] double& felt_by(Cause by, Cause about) {
    return felt(static_cast<int>(by), static_cast<int>(about));
  }
  std::array<std::string, kNumbers> source;  ///< where each row comes from
  /// The numbers at coordinates `z`, and their slopes there.
  [[nodiscard]] Numbers numbers_at(const Coordinates& z) const;
  [[nodiscard]] Factor factor_at(const Coordinates& z) const;
  /// The same said by other coordinates u, with z = middle + root u.
  [[nodiscard]] Prior by(const Coordinates& middle, const CoordinatesMatrix& root) const;
  /// Standard deviation of a number, to first order.
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
/// prior.cpp, each with its source or marked as an assumption. Couplings are the flail's: what weight,
/// release and height each do to low point, edge, lean, speed and arc (cause_slopes, and for weight and
/// release cause_bends), but for what a player does about it by feel (Prior::felt): some of what release does
/// to the edge, and lean and direction to the face.
Prior prior_for(const Club& club, Skill skill, Surface surface = Surface::fairway);

/// Its mean alone: needs no run of the flail.
Numbers prior_centre(const Club& club, Skill skill, Surface surface);

/// Where a cause stands among the coordinates.
[[nodiscard]] constexpr int place_of(Cause cause) {
  constexpr std::array<Unknown, kCauses> places{Unknown::weight, Unknown::release,   Unknown::height,
                                                Unknown::handle, Unknown::face_turn, Unknown::plane_tilt,
                                                Unknown::speed};
  return static_cast<int>(places[static_cast<std::size_t>(cause)]);
}

/// The pass that the numbers of kPriorRows mean; templated so that slopes with respect to them exist.
template <class T>
Pass<T> pass_from(const Prior& prior, PassVector<T> numbers) {
  using std::exp;
  numbers[0] = exp(numbers[0]);
  numbers[4] -= detail::rise_at_ball(prior.arc_radius, numbers[2], numbers[3]);
  return pass_of(numbers);
}

/// The pass at standard-normal coordinates `z`.
inline Pass<double> pass_at(const Prior& prior, const Coordinates& z) {
  return pass_from<double>(prior, prior.numbers_at(z));
}

/// The likeliest coordinates that give this pass: pass_at of them is the pass.
Coordinates coordinates_of(const Prior& prior, const Pass<double>& pass);

/// "beginner", "club", "county", "tour", or a handicap such as "18" or "+2" (scratch or better: tour; to 9:
/// county; to 24: club; above: beginner).
Result<Skill> skill_named(std::string_view text, std::string place);
const char* name_of(Skill skill);

}  // namespace strikewright
