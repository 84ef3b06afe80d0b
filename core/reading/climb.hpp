#pragma once
// Damped Gauss-Newton: from a start to the nearest maximum of the posterior.

#include <vector>

#include "reading/target.hpp"

namespace strikewright {

struct ClimbOptions {
  int max_steps = 30;
  /// In prior standard deviations: a fiftieth of the narrowest posterior seen; the draws around the hump
  /// forgive more.
  double small_step = 2e-3;
  double longest_step = 2.0;  ///< prior standard deviations; keeps a poor start inside the model's range
};

/// One maximum of the posterior.
struct Hump {
  Coordinates at = Coordinates::Zero();
  double cost = 0.0;
  CoordinatesMatrix curvature = CoordinatesMatrix::Identity();
  int steps = 0;
  bool converged = false;
  /// Nearer to it than half a posterior standard deviation: on the same hump.
  [[nodiscard]] bool holds(const Coordinates& z) const;
  /// Laplace's log mass of the hump, up to a common constant.
  [[nodiscard]] double log_mass() const;
};

/// Levenberg-Marquardt damping of the positive definite curvature (K. Levenberg, Quarterly of Applied
/// Mathematics 2, 1944, 164-168; D. Marquardt, SIAM Journal 11, 1963, 431-441). The cost never rises.
/// A climb that comes onto one of the `known` humps ends there, not converged.
Hump climb(const Target& target, const Coordinates& start, const std::vector<Hump>& known = {},
           const ClimbOptions& options = {});

/// The humps that the starts lead to, best first, each once. One start, the prior's centre, for a swing whose
/// sightings speak of a sound strike; where one of them speaks of a poor one (Target::may_have_two_humps)
/// also from a low point far back, from an edge high over the turf (the two ways to a thin strike) and from a
/// low point far forward and deep.
std::vector<Hump> humps_of(const Target& target);

}  // namespace strikewright
