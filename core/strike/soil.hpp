#pragma once
// What the ball lies on, in figures. All of it is wide: change it where you know better.

#include "bag/club.hpp"
#include "bag/surface.hpp"
#include "quantity/angle.hpp"

namespace strikewright {

/// A surface's own figures. Sources and assumptions: docs/models/strike.md, surface table.
struct Soil {
  double cohesion = 0.0;        ///< Pa, shear strength with roots; 0 = the surface cannot be cut
  double adhesion = 0.0;        ///< Pa, soil to steel
  double inner_friction = 0.0;  ///< rad, soil on soil
  double steel_friction = 0.0;  ///< rad, soil on steel
  double density = 0.0;         ///< kg/m3
  double inertia_share = 0.5;   ///< share of the full momentum flux that fast cutting really costs, 0.3..0.7
  double bearing = 0.0;         ///< Pa/m, pressure under the sole per depth pressed in
  double unevenness = 0.002;    ///< m, the surface is no plane: contact begins gradually over this height
  bool cuts = true;             ///< false: mat
  double grass = 0.0;           ///< 0..1, between face and ball in a clean strike
  double cushion = 0.0;         ///< share of the restitution lost when the face is fully covered
  double covered_friction = 0.15;  ///< ball on a fully covered face
  double lift = 0.0;               ///< m, ball's lowest point over the surface (tee: see ball_lift_on)
};

/// The figures of a surface.
///
/// Strength: sandy clay loam 21.7-39.3 kPa (Mwonga et al., Open J. Optimization 8(3), 2019); density
/// 1300-1700 kg/m3 (from memory). Bearing: k = m a^2 / (v^2 A) of a 2.25 kg hammer, 50 mm across, dropped
/// from 0.45 m (Clegg hammer, ASTM F1702, from memory) with peaks of 40, 80, 120 g on soft, normal, firm turf
/// (assumption). Friction on a covered face 0.1-0.2 (from memory). The rest is assumption.
Soil soil_of(Surface surface);

/// Height [m] of the ball's lowest point over the surface. On a tee by club family (assumption: driver 30 mm,
/// wood 8, hybrid and iron 5, wedge 3); in the rough it sits up 6 mm (assumption); else 0.
double ball_lift_on(Surface surface, Family family);

}  // namespace strikewright
