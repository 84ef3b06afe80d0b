#pragma once
// A club and a ball as the other rooms need them: SI units, radians.

#include <string>
#include <vector>

#include "quantity/frame.hpp"

namespace strikewright {

enum class Family { driver, wood, hybrid, iron, wedge };

/// A club soled at its design lie and loft, face square. The face is described by two coordinates with their
/// origin on the leading edge under the middle of the grooves: `toe` along the groove lines toward the toe,
/// `up` along the face away from the leading edge (at right angles to the grooves).
struct Club {
  std::string name;  ///< "7i"; what the sightings file calls it
  Family family = Family::iron;
  double loft = 0.0;        ///< rad
  double lie = 0.0;         ///< rad, shaft to the ground
  double length = 0.0;      ///< m, butt to sole
  double head_mass = 0.0;   ///< kg
  double shaft_mass = 0.0;  ///< kg
  double grip_mass = 0.0;   ///< kg
  Vec3<double> inertia{
      0.0, 0.0, 0.0};      ///< kg m2 about the head's centre of mass: target, heel-toe, vertical axis, soled
  double com_depth = 0.0;  ///< m, centre of mass behind the face plane, along the normal
  double com_up = 0.0;     ///< m, foot of that normal up the face from the leading edge
  double com_toe = 0.0;    ///< m, foot of that normal toward the toe from the middle of the grooves
  double bulge = 0.0;      ///< m, horizontal radius of the face, 0 = flat
  double roll = 0.0;       ///< m, vertical radius of the face, 0 = flat
  double face_up_middle = 0.0;  ///< m up the face where loft is measured (matters only for a curved face)
  double face_height = 0.0;     ///< m, leading edge to top line along the face
  double heel_reach = 0.0;      ///< m from the middle of the grooves to where the hosel begins
  double toe_reach = 0.0;       ///< m from the middle of the grooves to the end of the toe
  double bounce = 0.0;          ///< rad, trailing edge lower than leading edge, club in its design position
  double sole_width = 0.0;      ///< m, leading to trailing edge
  double blade_length = 0.0;    ///< m, how much of the sole can cut turf, heel to toe
  double groove_pitch = 0.0;    ///< m between grooves along the face, 0 = no grooves to count
  double first_groove = 0.0;    ///< m up the face of the lowest groove
  double arc_radius =
      0.0;  ///< m, radius of the leading edge's arc near impact (from the flail's default swings)
  double turn_radius = 0.0;           ///< m, head speed over the club's in-plane angular speed at impact
  double restitution0 = 0.86;         ///< normal restitution at zero speed
  double restitution_slope = 0.0029;  ///< s/m, e = restitution0 - restitution_slope * normal speed
  double tangential_restitution = 0.0;
  double friction = 0.4;  ///< ball on a clean dry face
  std::string
      like;  ///< generic club whose figures fill what is not known of this one; "" = it is generic itself
};

/// One figure of the generic set with where it comes from.
struct ClubSource {
  std::string field;   ///< member of Club
  std::string source;  ///< author, title, year; or "trade knowledge, from memory"; or "assumption: ..."
};

struct Ball {
  double mass = 0.04593;           ///< kg, Rules of Golf, Equipment Rules Part 4 (not more than 1.620 oz)
  double radius = 0.021335;        ///< m, same (diameter not less than 1.680 in)
  double inertia_factor = 0.4;     ///< I / (m r^2), uniform sphere
  double restitution_scale = 1.0;  ///< times the club's restitution: a range ball is slower (assumption)
  double drag_scale = 1.0;         ///< times the drag law (range ball: assumption)
  double lift_scale = 1.0;         ///< times the lift law
};

}  // namespace strikewright
