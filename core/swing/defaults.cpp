#include "swing/defaults.hpp"

#include <algorithm>

namespace strikewright {
namespace {

/// Beginner, club, county, tour.
using Bands = std::array<double, 4>;

/// Millimetres and degrees, as said aloud.
struct AimRow {
  Bands low_point_mm, depth_mm, lean_deg;
};
// The low point and the height of the edge at the ball are those that the reading takes for usual of the same
// band; the depth follows from both on the club's own arc (7-iron, 90 mm ahead: the edge is 4 mm over its
// lowest place at the ball).
constexpr AimRow kIron{{5, 35, 65, 90}, {-0.1, -0.8, -2.7, -4.8}, {0, 3, 6, 8}};
constexpr AimRow kWedge{{5, 30, 60, 80}, {-1.6, -3.2, -5, -6.3}, {1, 4, 6, 7}};
constexpr AimRow kHybrid{{0, 20, 45, 60}, {-1, -1.8, -3, -4.1}, {0, 1.5, 3, 4}};
constexpr AimRow kWood{{0, 5, 20, 30}, {0, -0.6, -1.3, -2}, {-1, 0, 1, 2}};
constexpr AimRow kDriver{{-20, -40, -50, -55}, {18, 17.8, 17.7, 17.6}, {-1, 0, 0, 1}};

const AimRow& row_of(Family family) {
  switch (family) {
    case Family::driver:
      return kDriver;
    case Family::wood:
      return kWood;
    case Family::hybrid:
      return kHybrid;
    case Family::wedge:
      return kWedge;
    case Family::iron:
      break;
  }
  return kIron;
}

constexpr Bands kDriverSpeed{37.0, 42.0, 46.5, 50.0};

}  // namespace

SwingManner usual_manner(SwingBand band) {
  struct Row {
    double arm_deg, cock_deg, shift_mm, rise_mm, release_deg, drive;
  };
  constexpr std::array<Row, 4> rows{Row{-135, 85, 20, 10, -80, 20}, Row{-145, 90, 50, 20, -85, 20},
                                    Row{-150, 95, 80, 30, -85, 20}, Row{-155, 100, 100, 40, -82, 20}};
  const Row& r = rows[static_cast<std::size_t>(band)];
  return {.start_arm = r.arm_deg * kDegree,
          .start_cock = r.cock_deg * kDegree,
          .activation = 0.04,
          .shoulder_limit = 57.0,
          .wrist_limit = 60.0,
          .hill = 3.0,
          .shift = {.size = r.shift_mm * 1e-3, .start = 0.0, .duration = 0.30},
          .rise = {.size = r.rise_mm * 1e-3, .start = 0.12, .duration = 0.22},
          .release_arm = r.release_deg * kDegree,
          .release_spread = 4.0 * kDegree,
          .drive = r.drive,
          .drive_spread = 10.0};
}

SwingAim usual_aim(const Club& club, SwingBand band) {
  const auto b = static_cast<std::size_t>(band);
  const AimRow& row = row_of(club.family);
  const double lie = club.lie / kDegree;
  const double tilt = (58.0 + (lie - 61.0) * (lie > 61.0 ? 5.0 / 3.0 : 4.0)) * kDegree;
  // Long irons are leant less: 60 % at 20 deg of loft, all of it from 34 deg.
  const double lean_share = club.family == Family::iron
                                ? 0.6 + 0.4 * std::clamp((club.loft / kDegree - 20.0) / 14.0, 0.0, 1.0)
                                : 1.0;
  return {.club_speed = kDriverSpeed[b] * (0.81 + 0.19 * (club.length - 0.94) / (1.149 - 0.94)),
          .plane_tilt = tilt,
          .lie_offset = club.lie - tilt,
          .low_point = row.low_point_mm[b] * 1e-3,
          .low_point_depth = row.depth_mm[b] * 1e-3,
          .shaft_lean = row.lean_deg[b] * lean_share * kDegree,
          .closing_rate = 1500.0 * kDegree};
}

}  // namespace strikewright
