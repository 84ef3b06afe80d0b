#pragma once
// How golfers of four bands usually swing: what is not solved for, and what a default swing must come out at.

#include <array>

#include "bag/club.hpp"
#include "swing/flail.hpp"

namespace strikewright {

enum class SwingBand { beginner, club, county, tour };
inline constexpr std::array<SwingBand, 4> kSwingBands{SwingBand::beginner, SwingBand::club, SwingBand::county,
                                                      SwingBand::tour};

/// What the body does that the solver of default_swing takes as given (SI, radians), and where it looks first
/// for what it solves: release and drive are drawn to their usual values and go as far from them as the aim
/// asks.
struct SwingManner {
  double start_arm, start_cock;        ///< rad
  double activation;                   ///< s
  double shoulder_limit, wrist_limit;  ///< rad/s at which the torques have gone
  double hill;
  HubMove<double> shift, rise;
  double release_arm, release_spread;  ///< rad, arm angle of the release
  double drive, drive_spread;          ///< N m
};
SwingManner usual_manner(SwingBand band);

/// What a default swing comes out at (SI, radians). Values: defaults.cpp's table, the same as the centres of
/// a reading's prior.
struct SwingAim {
  double club_speed;       ///< m/s
  double plane_tilt;       ///< rad
  double lie_offset;       ///< rad: the sole lies flat, the shaft stands at the design lie
  double low_point;        ///< m
  double low_point_depth;  ///< m
  double shaft_lean;       ///< rad, face-on
  double closing_rate;     ///< rad/s
};
SwingAim usual_aim(const Club& club, SwingBand band);

/// Where one figure of an aim or a manner comes from.
struct SwingSource {
  const char* figure;
  const char* source;
};
inline constexpr std::array kSwingSources{
    SwingSource{
        "club speed",
        "skilled men's driver 44-50 m/s: trade knowledge, from memory; other bands, and the share of it "
        "by club length: assumption"},
    SwingSource{"plane tilt",
                "about 48 / 58 / 63 deg for driver, 5-iron, wedge, from memory; that it depends on the club: "
                "Kwon et al., Sports Biomechanics 11, 127-148, 2012"},
    SwingSource{"lie offset", "assumption: the sole lies flat"},
    SwingSource{"low point", "skilled irons 30-100 mm ahead: trade knowledge, from memory; rest: assumption"},
    SwingSource{"low-point depth", "assumption"},
    SwingSource{"shaft lean",
                "mid iron, skilled 6-10 deg forward, unskilled -2 to 4: trade knowledge, from memory; rest: "
                "assumption"},
    SwingSource{"closing rate", "2000-3000 deg/s with the plane's share taken off: from memory"},
    SwingSource{"hub shift",
                "pelvis 50-120 mm to the target, top to impact: from memory; by band: assumption"},
    SwingSource{"hub rise", "assumption"},
    SwingSource{"start, cock",
                "arms 20 to 45 deg past level at the top, cock near a right angle: assumption"},
    SwingSource{"activation", "0.04 s: Sprigings & Mackenzie, Sports Eng. 5, 23-32, 2002, from memory"},
    SwingSource{"torque limits",
                "trunk 27, shoulder 30, wrist 60 rad/s: Sprigings & Mackenzie 2002, from memory; trunk and "
                "shoulder turn one on the other, so that their speeds add up"},
    SwingSource{"torque-velocity curvature", "3, range 2-6: from memory"},
    SwingSource{"release, drive (where the solver looks first)", "assumption"},
};

}  // namespace strikewright
