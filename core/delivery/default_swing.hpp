#pragma once
// A swing that does what is asked of it at the ball: found by a solver, not set by hand.

#include "delivery/from_swing.hpp"
#include "swing/defaults.hpp"

namespace strikewright {

/// The swing of a given manner whose pass comes out at `aim`.
///
/// Damped least squares on five numbers: shoulder torque, hub along, hub up, release, wrist drive; residuals:
/// club speed, low point, its depth and shaft lean against the aim (to 0.01 m/s, 0.1 mm, 0.01 deg), and,
/// softly, release and drive against the manner's own. Plane, face turn, strike point and closing rate are
/// taken over as they are. Slopes by dual numbers through the whole motion.
///
/// @returns a Fault naming the number that cannot be reached, with what came out: a flail cannot do
/// everything
Result<Swing<double>> swing_for(const Pass<double>& aim, const SwingManner& manner, const Club& club,
                                const Ball& ball, double ball_lift);

/// The pass of a golfer of that band with that club, face square: usual_aim.
Pass<double> usual_pass(const Club& club, SwingBand band);

/// swing_for the usual pass in the usual manner, the driver from a 30 mm tee, everything else from the turf.
Result<Swing<double>> default_swing(const Club& club, SwingBand band);

/// Ball's lowest point over the turf [m] that default_swing takes.
double usual_ball_lift(const Club& club);

}  // namespace strikewright
