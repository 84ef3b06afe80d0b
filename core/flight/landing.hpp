#pragma once
// Bounce and roll after the landing.

#include "bag/club.hpp"
#include "flight/flight.hpp"

namespace strikewright {

/// Turf as a bounce feels it. It gives way, so that the ball behaves as if the ground were raised toward it
/// by `beta`.
struct Turf {
  bool penner = true;  ///< beta and restitution by Penner's laws of the impact, times the scales below
  double beta_scale = 1.0;
  double restitution_scale = 1.0;
  double beta = 0.0;         ///< rad, used when `penner` is false
  double restitution = 0.0;  ///< used when `penner` is false
  double friction = 0.40;
  double rolling = 0.30;  ///< rolling resistance: a rolling ball slows by 5/7 rolling g

  /// Penner, "The run of a golf ball", Can. J. Phys. 80:931-940, 2002: typical green; friction 0.40 (from
  /// memory).
  [[nodiscard]] static Turf penner_green();
  /// Biber, Jones, Champneys, Green & Szalai, Sports Eng. 26, 2023, Table 3: well-kept natural teeing turf.
  [[nodiscard]] static Turf biber_natural();
  /// The same table: artificial turf on a rigid board.
  [[nodiscard]] static Turf biber_artificial();
  /// The coach's firmness, 0 soft to 1 firm, 0.5 = Penner's turf. Assumptions, no published fit: the crater
  /// angle runs from 1.5 to 0.5 times Penner's, the restitution from 0.6 to 1.4 times, the rolling resistance
  /// from 0.45 through 0.30 to 0.20 (just slower than the slowest green that Penner, Can. J. Phys. 80:83-96,
  /// 2002, lists: 0.196).
  [[nodiscard]] static Turf of_firmness(double firmness);
};

/// Restitution of turf at a speed [m/s] into the tilted surface: 0.510 - 0.0375 v + 0.000903 v^2 up to 20
/// m/s, 0.120 above (Penner 2002, eqs 5a-b).
[[nodiscard]] double turf_restitution(double speed);

/// Deceleration [m/s2] of a rolling ball on a level surface: 5/7 rolling g (Penner, "The physics of putting",
/// 2002).
[[nodiscard]] double rolling_deceleration(double rolling);
/// Rolling resistance of a green on which a ball let go at 1.8288 m/s (6.00 ft/s) rolls `reading_feet`.
[[nodiscard]] double rolling_of_green(double reading_feet);

/// A ball's motion, world axes.
struct BallMotionW {
  Vec3<double> v;     ///< m/s
  Vec3<double> w;     ///< rad/s
  bool slid = false;  ///< it was still slipping on the turf when it left it
};

/// One bounce on level turf (Daish 1972; Penner 2002; Biber et al. 2023 eq 5), here in three dimensions: the
/// contact point's slip is stopped if friction can, else friction acts against it to the end. In the plane of
/// flight, u along and w into the raised surface, s = backspin times radius:
///
///     w' = e w;  grips: u' = (5u - 2s)/7, s' = -u';  slides: u' = u - mu(1+e)w, s' = s - 2.5 mu(1+e)w
///
/// The raised surface never faces the ball by more than a right angle: beta <= 90 degrees - landing angle.
/// @param in  v.z() < 0
[[nodiscard]] BallMotionW bounce(const BallMotionW& in, const Ball& ball, const Turf& turf);

/// From the landing to rest on level ground. Total run is of low confidence: no published fit for a fairway
/// was found, the first hop is good to about +-30 % on firm turf (Biber et al. stress that no rigid model
/// fits all regimes).
struct Run {
  double total = 0.0;  ///< m, straight from the start to where the ball rests
  double along = 0.0;  ///< m, resting place along the target line
  double side = 0.0;   ///< m, resting place right of the target line +
  double run =
      0.0;  ///< m, from landing to rest along the ball's own direction at landing; negative = spun back
  double roll = 0.0;  ///< m, the last part of it, rolling
  int bounces = 0;
};

/// Bounces (each hop flies through the day's air) until a hop is lower than 5 mm, then rolls. Uses
/// day.firmness.
[[nodiscard]] Run run_of(const Flight<double>& flight, const Ball& ball, const Day& day);

/// The same on a turf of one's own.
[[nodiscard]] Run run_on(const Turf& turf, const Flight<double>& flight, const Ball& ball, const Day& day);

}  // namespace strikewright
