#include "strike/soil.hpp"

namespace strikewright {
namespace {

constexpr double kPa = 1e3;
constexpr double kMPaPerMetre = 1e6;

Soil turf(double cohesion_kpa, double adhesion_kpa, double density, double bearing) {
  Soil s;
  s.cohesion = cohesion_kpa * kPa;
  s.adhesion = adhesion_kpa * kPa;
  s.inner_friction = 32.0 * kDegree;
  s.steel_friction = 22.0 * kDegree;
  s.density = density;
  s.bearing = bearing * kMPaPerMetre;
  s.cushion = 0.15;
  return s;
}

Soil rough() {
  Soil s = turf(30.0, 4.0, 1600.0, 80.0);
  s.unevenness = 0.004;
  s.grass = 0.7;
  s.lift = 0.006;
  return s;
}

Soil sand() {
  Soil s = turf(1.0, 0.0, 1500.0, 3.0);
  s.inner_friction = 34.0 * kDegree;
  s.steel_friction = 20.0 * kDegree;
  s.unevenness = 0.003;
  s.grass = 0.1;
  s.cushion = 0.5;
  return s;
}

Soil mat() {
  Soil s = turf(0.0, 0.0, 0.0, 150.0);
  s.steel_friction = 14.0 * kDegree;
  s.unevenness = 0.002;
  s.cuts = false;
  return s;
}

}  // namespace

Soil soil_of(Surface surface) {
  switch (surface) {
    case Surface::fairway_soft:
      return turf(20.0, 3.0, 1500.0, 20.0);
    case Surface::fairway_firm:
      return turf(40.0, 5.0, 1700.0, 180.0);
    case Surface::rough:
      return rough();
    case Surface::sand:
      return sand();
    case Surface::mat:
      return mat();
    case Surface::fairway:
    case Surface::tee:
      break;
  }
  return turf(30.0, 4.0, 1600.0, 80.0);
}

double ball_lift_on(Surface surface, Family family) {
  if (surface != Surface::tee) return soil_of(surface).lift;
  switch (family) {
    case Family::driver:
      return 0.030;
    case Family::wood:
      return 0.008;
    case Family::hybrid:
    case Family::iron:
      return 0.005;
    case Family::wedge:
      break;
  }
  return 0.003;
}

}  // namespace strikewright
