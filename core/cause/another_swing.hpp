#pragma once
// Another way of swinging: what the same noise does to the ball when the wrists drive and when the handle
// leads.

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "delivery/default_swing.hpp"
#include "shot/shot.hpp"

namespace strikewright {

/// How a player's swings differ from one to the next: standard deviations, each cause by itself, SI, >= 0.
/// What each does is the cause of the same name (cause_slopes.hpp). Release: 5 to 15 ms is the natural scale
/// of timing, from memory; all others are assumptions.
struct Noise {
  double release = 8e-3;              ///< s
  double weight = 8e-3;               ///< m
  double height = 2e-3;               ///< m
  double handle = 0.5 * kDegree;      ///< rad
  double face_turn = 1.0 * kDegree;   ///< rad
  double plane_tilt = 0.5 * kDegree;  ///< rad
  double speed = 0.01;                ///< relative
};

struct MeanAndSd {
  double mean = 0.0, sd = 0.0;
};

/// One swing with noise, for a picture, SI, right-hander's frame.
struct NoisySwing {
  bool arrived = false;  ///< passed ball and low point; else the rest is 0
  bool flew = false;     ///< hit the ball; else what the ball did is 0
  double low_point = 0.0, plane_direction = 0.0, strike_toe = 0.0, strike_up = 0.0;
  double start = 0.0, curve = 0.0, carry = 0.0, side = 0.0;
};

/// One way of swinging and what the noise did to it, SI.
struct WaySwung {
  const char* name = "";         ///< "wrist-driven", "handle-led"
  Swing<double> swing;           ///< without noise
  Pass<double> pass;             ///< what that does at the ball
  double lean_given_up = 0.0;    ///< rad, its lean minus the aim's; exactly 0 where the aim was reached
  std::string said;              ///< what was given up, and what hardly differs, in words; else empty
  std::size_t swings = 0;        ///< with noise
  std::size_t arrived = 0;       ///< of these passed ball and low point; the rest of the figures are theirs
  std::size_t flew = 0;          ///< of these hit the ball; start, curve and carry are of those
  MeanAndSd low_point;           ///< m
  MeanAndSd edge_height;         ///< m, leading edge over the turf at the ball
  MeanAndSd strike_up;           ///< m up the face
  MeanAndSd start;               ///< rad
  MeanAndSd curve, carry;        ///< m
  double fat = 0.0;              ///< share: turf before the ball as kind::Contact draws the line
  std::vector<NoisySwing> each;  ///< all of them, in the order of the draws
  double thin = 0.0;  ///< share: not fat and lower on the face than its line of thin; topped and missed too
};
using WaysSwung = std::array<WaySwung, 2>;  ///< wrist-driven, handle-led

/// The same noise in two swings of one player through the same ball.
///
/// Both are found by swing_for at the same pass. Handle-led: the band's usual manner, a hub that travels and
/// wrists that help as much as the aim asks. Wrist-driven: the hub stands still, the wrists drive with 60 N m
/// (assumption: about the most that two hands can), and release and shoulder torque are what the aim makes
/// them: the arms carry less, the wrists let go later and nearer the ball. Where a way does not reach the
/// aim, speed, low point, depth and face angle stay and the lean gives way, by 1, 2, 4 degrees to either side
/// or 8 toward the club's usual lean of that band, and `said` says so. Where the aim asks the handle's way
/// for nearly as much drive (long clubs of strong players), `said` says that too.
///
/// Then `n` swings with noise, the same draws for both ways, each run by the flail to its own contact
/// (passing_of), its pass through shot_of:
///
///     release     at the arm angle that the noiseless arm has that much earlier or later (second order in
///                 time: 0.2 mm of low point at 24 ms): a player lets go where the arms are, as in Cause
///     weight      a longer shift of the hub (at contact it is all but done)  height  the hub up the slope
///     handle, face turn, plane tilt  the angles themselves                 speed   of the pass alone
///
/// The arc is the aim's, longer or shorter by as much as noise makes the flail's. The face has its turn at
/// contact whenever that is: what a late release leaves open is not in it, in neither way.
/// About 65 microseconds a swing: 400 of each way take 60 ms on one idle core (measured), most of it the
/// flail's. The same bits for any number of threads.
///
/// @param aim      the pass that both ways are to come out at; ball_sits and turf are taken over
/// @param setting  its club swings; right-hander's frame
/// @param n        > 0   @param threads  0 = all cores
/// @returns a Fault of swing_for, its place led by the way, when a way reaches the aim at no lean
Result<WaysSwung> ways_of(const Pass<double>& aim, SwingBand band, const Setting& setting, const Noise& noise,
                          std::size_t n, std::uint64_t seed, unsigned threads = 0);

}  // namespace strikewright
