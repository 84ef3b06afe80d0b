#include "bag/generic.hpp"

#include <array>

#include "bag/figure.hpp"
#include "quantity/angle.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

constexpr double kGram = 1e-3;
constexpr double kKgm2PerGcm2 = 1e-7;  // kg m2 in one g cm2

/// Common trade values, from memory; bounce and sole of woods and hybrid are assumptions.
struct TradeRow {
  const char* name;
  Family family;
  double loft_deg, lie_deg, length_in, head_g, bounce_deg, sole_mm;
};

constexpr std::array kTrade{
    TradeRow{"driver", Family::driver, 10.5, 58.5, 45.25, 200, 0, 90},
    TradeRow{"3w", Family::wood, 15, 57.5, 43, 212, 2, 65},
    TradeRow{"5w", Family::wood, 18, 58, 42.5, 220, 2, 60},
    TradeRow{"4h", Family::hybrid, 22, 59.5, 40, 235, 3, 34},
    TradeRow{"3i", Family::iron, 21, 60, 39, 243, 2, 17},
    TradeRow{"4i", Family::iron, 24, 60.5, 38.5, 249, 3, 17.5},
    TradeRow{"5i", Family::iron, 27, 61, 38, 255, 3.5, 18},
    TradeRow{"6i", Family::iron, 30.5, 61.5, 37.5, 262, 4, 18.5},
    TradeRow{"7i", Family::iron, 34, 62, 37, 269, 5, 19},
    TradeRow{"8i", Family::iron, 38, 62.75, 36.5, 276, 5.5, 19.5},
    TradeRow{"9i", Family::iron, 42, 63.5, 36, 284, 6, 20},
    TradeRow{"pw", Family::wedge, 46.5, 64, 35.75, 290, 7, 20.5},
    TradeRow{"gw", Family::wedge, 51, 64, 35.5, 297, 9, 21.5},
    TradeRow{"sw", Family::wedge, 56, 64, 35.25, 304, 12, 24},
    TradeRow{"lw", Family::wedge, 60, 64, 35, 304, 7, 23},
};

/// What a family has in common. Inertia is that of a head of `reference_g` and scales with the head's mass.
struct FamilyRow {
  double reference_g, target_gcm2, heel_toe_gcm2, vertical_gcm2;
  double shaft_g, com_depth_mm, com_up_mm, bulge_mm, roll_mm;
  double face_mm, heel_mm, toe_mm, blade_mm, pitch_mm, first_mm;
  double restitution0, restitution_slope;
  double arc_beyond_m, turn_beyond_m;  ///< radii of arc and turn beyond the club's length
};

constexpr FamilyRow kDriver{200, 2700, 3200, 4900, 60, 36,   31,  305,  305, 56,
                            50,  60,   80,   0,    0,  0.82, 0.0, 0.32, 0.15};
constexpr FamilyRow kWood{212, 1500, 1600, 2700, 65, 24,   19.5,   254,  254,  37,
                          42,  50,   60,   0,    0,  0.84, 0.0012, 0.30, 0.135};
constexpr FamilyRow kHybrid{235, 1400, 900, 2100, 75, 15,   18,     380,   380,  36,
                            36,  44,   55,  3.6,  5,  0.85, 0.0020, 0.305, 0.135};
constexpr FamilyRow kIron{269, 2300, 600, 2400, 95, 6,    19.5,   0,    0,   47,
                          33,  44,   50,  3.6,  5,  0.86, 0.0029, 0.30, 0.13};
constexpr FamilyRow kWedge{300, 2600, 750, 2700, 95, 6,    20.5,   0,     0,    54,
                           33,  46,   50,  3.6,  5,  0.86, 0.0029, 0.295, 0.125};

const FamilyRow& common_of(Family family) {
  switch (family) {
    case Family::driver:
      return kDriver;
    case Family::wood:
      return kWood;
    case Family::hybrid:
      return kHybrid;
    case Family::iron:
      return kIron;
    case Family::wedge:
      break;
  }
  return kWedge;
}

void put_trade(Club& club, const TradeRow& row) {
  club.name = row.name;
  club.family = row.family;
  club.loft = row.loft_deg * kDegree;
  club.lie = row.lie_deg * kDegree;
  club.length = row.length_in * kInch;
  club.head_mass = row.head_g * kGram;
  club.bounce = row.bounce_deg * kDegree;
  club.sole_width = row.sole_mm * kMillimetre;
}

void put_family(Club& club, const FamilyRow& row) {
  club.shaft_mass = row.shaft_g * kGram;
  club.grip_mass = 50.0 * kGram;
  const double scale = club.head_mass / (row.reference_g * kGram);
  club.inertia = scale * kKgm2PerGcm2 * Vec3<double>{row.target_gcm2, row.heel_toe_gcm2, row.vertical_gcm2};
  club.com_depth = row.com_depth_mm * kMillimetre;
  club.com_up = row.com_up_mm * kMillimetre;
  club.bulge = row.bulge_mm * kMillimetre;
  club.roll = row.roll_mm * kMillimetre;
  club.face_height = row.face_mm * kMillimetre;
  club.face_up_middle = 0.5 * club.face_height;
  club.heel_reach = row.heel_mm * kMillimetre;
  club.toe_reach = row.toe_mm * kMillimetre;
  club.blade_length = row.blade_mm * kMillimetre;
  club.groove_pitch = row.pitch_mm * kMillimetre;
  club.first_groove = row.first_mm * kMillimetre;
  club.restitution0 = row.restitution0;
  club.restitution_slope = row.restitution_slope;
  club.tangential_restitution = 0.125;
  club.friction = 0.4;
  club.arc_radius = club.length + row.arc_beyond_m;
  club.turn_radius = club.length + row.turn_beyond_m;
}

std::vector<Club> built() {
  std::vector<Club> bag;
  for (const TradeRow& row : kTrade) {
    Club club;
    put_trade(club, row);
    put_family(club, common_of(row.family));
    bag.push_back(club);
  }
  return bag;
}

}  // namespace

const std::vector<Club>& generic_bag() {
  static const std::vector<Club> bag = built();
  return bag;
}

}  // namespace strikewright
