#include "bag/figure.hpp"

#include <array>

#include "bag/generic.hpp"
#include "quantity/angle.hpp"

namespace strikewright {
namespace {

constexpr double kGcm2 = 1e-7;

#define STRIKEWRIGHT_AT(member) ([](Club& c) -> double& { return c.member; })

constexpr std::array kFigures{
    ClubFigure{"loft", "loft_deg", nullptr, kDegree, 0, 0, 80 * kDegree, STRIKEWRIGHT_AT(loft)},
    ClubFigure{"lie", "lie_deg", nullptr, kDegree, 0, 45 * kDegree, 80 * kDegree, STRIKEWRIGHT_AT(lie)},
    ClubFigure{"length", "length_m", "length_in", 1, kInch, 18 * kInch, 48 * kInch, STRIKEWRIGHT_AT(length)},
    ClubFigure{"head_mass", "head_g", nullptr, 1e-3, 0, 0.1, 0.5, STRIKEWRIGHT_AT(head_mass)},
    ClubFigure{"shaft_mass", "shaft_g", nullptr, 1e-3, 0, 0.03, 0.2, STRIKEWRIGHT_AT(shaft_mass)},
    ClubFigure{"grip_mass", "grip_g", nullptr, 1e-3, 0, 0.01, 0.2, STRIKEWRIGHT_AT(grip_mass)},
    ClubFigure{"inertia.x", "inertia_target_gcm2", nullptr, kGcm2, 0, 100 * kGcm2, 10000 * kGcm2,
               STRIKEWRIGHT_AT(inertia.x())},
    ClubFigure{"inertia.y", "inertia_heel_toe_gcm2", nullptr, kGcm2, 0, 100 * kGcm2, 10000 * kGcm2,
               STRIKEWRIGHT_AT(inertia.y())},
    ClubFigure{"inertia.z", "inertia_vertical_gcm2", nullptr, kGcm2, 0, 100 * kGcm2, 6000 * kGcm2,
               STRIKEWRIGHT_AT(inertia.z())},
    ClubFigure{"com_depth", "com_depth_mm", nullptr, kMillimetre, 0, 0, 0.06, STRIKEWRIGHT_AT(com_depth)},
    ClubFigure{"com_up", "com_up_mm", nullptr, kMillimetre, 0, 0, 0.05, STRIKEWRIGHT_AT(com_up)},
    ClubFigure{"com_toe", "com_toe_mm", nullptr, kMillimetre, 0, -0.03, 0.03, STRIKEWRIGHT_AT(com_toe)},
    ClubFigure{"bulge", "bulge_mm", nullptr, kMillimetre, 0, 0, 2, STRIKEWRIGHT_AT(bulge)},
    ClubFigure{"roll", "roll_mm", nullptr, kMillimetre, 0, 0, 2, STRIKEWRIGHT_AT(roll)},
    ClubFigure{"face_up_middle", "face_up_middle_mm", nullptr, kMillimetre, 0, 0, 0.06,
               STRIKEWRIGHT_AT(face_up_middle)},
    ClubFigure{"face_height", "face_height_mm", nullptr, kMillimetre, 0, 0.015, 0.0712,
               STRIKEWRIGHT_AT(face_height)},
    ClubFigure{"heel_reach", "heel_reach_mm", nullptr, kMillimetre, 0, 0.01, 0.08,
               STRIKEWRIGHT_AT(heel_reach)},
    ClubFigure{"toe_reach", "toe_reach_mm", nullptr, kMillimetre, 0, 0.01, 0.08, STRIKEWRIGHT_AT(toe_reach)},
    ClubFigure{"bounce", "bounce_deg", nullptr, kDegree, 0, -10 * kDegree, 30 * kDegree,
               STRIKEWRIGHT_AT(bounce)},
    ClubFigure{"sole_width", "sole_mm", nullptr, kMillimetre, 0, 0.005, 0.127, STRIKEWRIGHT_AT(sole_width)},
    ClubFigure{"blade_length", "blade_length_mm", nullptr, kMillimetre, 0, 0.01, 0.127,
               STRIKEWRIGHT_AT(blade_length)},
    ClubFigure{"groove_pitch", "groove_pitch_mm", nullptr, kMillimetre, 0, 0, 0.01,
               STRIKEWRIGHT_AT(groove_pitch)},
    ClubFigure{"first_groove", "first_groove_mm", nullptr, kMillimetre, 0, 0, 0.02,
               STRIKEWRIGHT_AT(first_groove)},
    ClubFigure{"arc_radius", "arc_radius_m", nullptr, 1, 0, 0.5, 3, STRIKEWRIGHT_AT(arc_radius)},
    ClubFigure{"turn_radius", "turn_radius_m", nullptr, 1, 0, 0.3, 3, STRIKEWRIGHT_AT(turn_radius)},
    ClubFigure{"restitution0", "restitution", nullptr, 1, 0, 0.3, 0.95, STRIKEWRIGHT_AT(restitution0)},
    ClubFigure{"restitution_slope", "restitution_slope_spm", nullptr, 1, 0, 0, 0.01,
               STRIKEWRIGHT_AT(restitution_slope)},
    ClubFigure{"tangential_restitution", "tangential_restitution", nullptr, 1, 0, -0.5, 1,
               STRIKEWRIGHT_AT(tangential_restitution)},
    ClubFigure{"friction", "friction", nullptr, 1, 0, 0.01, 1.5, STRIKEWRIGHT_AT(friction)},
};

#undef STRIKEWRIGHT_AT

bool any_of(std::string_view field, std::initializer_list<std::string_view> fields) {
  for (const auto f : fields) {
    if (f == field) return true;
  }
  return false;
}

std::string inertia_source(Family family) {
  switch (family) {
    case Family::driver:
      return "trade knowledge, from memory (large drivers; limit 5900 g cm2, USGA notice 2006)";
    case Family::iron:
      return "trade knowledge, from memory (cavity-back iron), scaled with head mass; "
             "about the target axis: assumption";
    default:
      return "assumption: between driver and iron for woods, above irons for wedges, scaled with head mass";
  }
}

std::string face_source(std::string_view field, Family family) {
  const bool solid = family == Family::iron || family == Family::wedge;
  if (field == "com_depth" || field == "com_up") {
    return solid || family == Family::driver
               ? "trade knowledge, from memory (range); the point in the range is an assumption"
               : "assumption: between driver and iron";
  }
  if (field == "com_toe") return "assumption: centre of mass behind the middle of the grooves";
  if (field == "face_up_middle") return "assumption: half the face height";
  if (field == "face_height" || field == "heel_reach" || field == "toe_reach")
    return "assumption: usual head sizes";
  if (solid) return "assumption: flat face";
  if (family == Family::driver) return "trade knowledge, from memory (11 to 13 in)";
  if (family == Family::wood)
    return "golf page of sizes.com: 7 to 20 in, typical 9.5 to 10 in for a wood; roll alike: assumption";
  return "assumption: flatter than a wood";
}

std::string contact_source(std::string_view field, Family family) {
  if (field == "tangential_restitution") {
    return "assumption: middle of 0 to 0.25 (gripping contact, Cross, Am. J. Phys. 70, 1093, 2002)";
  }
  if (field == "friction")
    return "assumption: upper end of 0.3 to 0.4, dry clean face (Penner, Rep. Prog. Phys. 2003, from memory)";
  if (family == Family::driver)
    return "0.82, calibration driver head of the governing bodies' ball test; constant with speed: "
           "assumption";
  if (family == Family::iron || family == Family::wedge) {
    return "0.86 - 0.0029 v, Penner, The physics of golf: the optimum loft of a driver, Am. J. Phys. 69, "
           "563, 2001, from memory";
  }
  return "assumption: between a solid face and a driver";
}

std::string sole_source(std::string_view field, Family family) {
  const bool solid = family == Family::iron || family == Family::wedge;
  if (field == "blade_length") {
    return "assumption: irons 50 mm, the mean divot is 10 x 5 cm (Patton, Turf & Rec, May 2018); woods wider";
  }
  if (!solid) return "assumption: usual head sizes";
  return "trade knowledge, from memory";
}

std::string groove_source(std::string_view field, Family family) {
  if (family == Family::driver || family == Family::wood) return "assumption: no grooves to count";
  if (field == "first_groove") return "assumption: 4 to 6 mm above the leading edge";
  return "assumption: common irons lie close to the smallest legal pitch, 3.556 mm (Equipment Rules Part 2, "
         "5c)";
}

}  // namespace

std::span<const ClubFigure> club_figures() { return kFigures; }

std::string generic_source(const ClubFigure& figure, Family family) {
  const std::string_view f = figure.field;
  if (any_of(f, {"loft", "lie", "length", "head_mass"})) return "trade knowledge, from memory";
  if (any_of(f, {"shaft_mass", "grip_mass"}))
    return "trade knowledge, from memory (steel iron 95 to 130 g, graphite wood 50 to 70 g, grip 45 to 52 g)";
  if (any_of(f, {"inertia.x", "inertia.y", "inertia.z"})) return inertia_source(family);
  if (any_of(f, {"bounce", "sole_width", "blade_length"})) return sole_source(f, family);
  if (any_of(f, {"groove_pitch", "first_groove"})) return groove_source(f, family);
  if (f == "arc_radius")
    return "assumption: club length and 0.295 m (wedges) to 0.32 m (driver), as the default swings of the "
           "flail come out";
  if (f == "turn_radius")
    return "assumption: club length and 0.125 m (wedges) to 0.15 m (driver), as the default swings of the "
           "flail come out";
  if (any_of(f, {"restitution0", "restitution_slope", "tangential_restitution", "friction"}))
    return contact_source(f, family);
  return face_source(f, family);
}

std::vector<ClubSource> sources_of(const Club& club) {
  const std::string base = club.like.empty() ? club.name : club.like;
  const Club* generic = nullptr;
  for (const Club& candidate : generic_bag()) {
    if (candidate.name == base) generic = &candidate;
  }
  std::vector<ClubSource> out;
  for (const ClubFigure& figure : club_figures()) {
    const bool same = generic != nullptr && value_in(figure, *generic) == value_in(figure, club);
    out.push_back({figure.field, same ? generic_source(figure, generic->family) : "given by the coach"});
  }
  return out;
}

}  // namespace strikewright
