#pragma once
// The flail inverted, first half: what each cause of a swing does to the club at the ball.

#include <array>

#include "delivery/default_swing.hpp"
#include "delivery/pass_vector.hpp"

namespace strikewright {

/// What a player does that moves the club at the ball. The order of all tables of causes.
enum class Cause { weight, release, height, handle, face_turn, plane_tilt, speed };
inline constexpr int kCauses = 7;

/// One cause for tables and for comparing sizes.
struct CauseFacts {
  const char* name;  ///< JSON
  const char* unit;  ///< JSON, of a shift
  double scale;      ///< shown value = SI value / scale
  double step;       ///< SI: a shift of it that a coach calls clear; sizes of causes are compared in steps
  const char *plus, *minus;  ///< what a shift of either sign is called
};

/// Steps: assumption; those of weight, release, height, handle and face turn are what one asks a pupil to
/// change at once.
inline constexpr std::array<CauseFacts, kCauses> kCauseFacts{{
    {"weight", "mm", 1e-3, 20e-3, "further toward the target", "further back"},
    {"release", "ms", 1e-3, 10e-3, "later", "earlier"},
    {"height", "mm", 1e-3, 5e-3, "higher", "lower"},
    {"handle", "deg", kDegree, 2.0 * kDegree, "further right", "further left"},
    {"face_turn", "deg", kDegree, 2.0 * kDegree, "more closed", "more open"},
    {"plane_tilt", "deg", kDegree, 2.0 * kDegree, "steeper", "flatter"},
    {"speed", "%", 1e-2, 10e-2, "faster", "slower"},
}};
/// "further right" and "further left" are a right-hander's; a left-hander's handle goes the other way.
[[nodiscard]] const char* name_of(Cause cause);

using CauseVector = Eigen::Matrix<double, kCauses, 1>;

/// d(pass) / d(cause) at a swing, SI: rows as vector_of(Pass), columns as Cause. Weight [m]: the hub's shift
/// at impact, by a longer shift of the same timing. Release [s]: the moment the wrists let go, through the
/// arm's rate there. Height [m]: the hub up the slope of the plane. Handle, face turn, plane tilt [rad].
/// Speed [1]: relative club speed alone, the player timing everything else as before.
using CauseSlopes = Eigen::Matrix<double, kPassSize, kCauses>;

/// Slopes at one swing, exact (dual numbers through the motion to the contact).
Result<CauseSlopes> cause_slopes(const Swing<double>& swing, const Club& club, const Ball& ball,
                                 double ball_lift);

/// What weight w [m] and release r [s] do beyond the straight line, SI: pass = slopes . (w, r) + weight w^2 +
/// release r^2 + both w r. The farther the wrists are from straight at the ball, the shorter the flail, and
/// the more so the farther: that is no straight line.
struct CauseBends {
  PassVector<double> weight = PassVector<double>::Zero();
  PassVector<double> release = PassVector<double>::Zero();
  PassVector<double> both = PassVector<double>::Zero();
};

/// Bends by secants: the same swing with 40 mm more weight, with a release 15 ms later, and with both. Later
/// and not earlier: a beginner's wrists let go too soon after the start to do it 15 ms sooner.
Result<CauseBends> cause_bends(const Swing<double>& swing, const CauseSlopes& slopes, const Club& club,
                               const Ball& ball, double ball_lift);

struct CauseEffects {
  CauseSlopes slopes;
  CauseBends bends;
};

/// Both at the default swing of a band. A club that no default swing fits takes the nearest generic club's.
CauseEffects usual_cause_effects(const Club& club, SwingBand band);

}  // namespace strikewright
