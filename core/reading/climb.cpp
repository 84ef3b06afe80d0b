#include "reading/climb.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

namespace strikewright {

double Hump::log_mass() const {
  const Eigen::LLT<CoordinatesMatrix> root(curvature);
  return -cost - root.matrixLLT().diagonal().array().log().sum();
}

bool Hump::holds(const Coordinates& z) const {
  const Coordinates apart = at - z;
  return apart.dot(curvature * apart) < 0.25;
}

Hump climb(const Target& target, const Coordinates& start, const std::vector<Hump>& known,
           const ClimbOptions& options) {
  const auto known_here = [&](const Coordinates& z) {
    return std::any_of(known.begin(), known.end(), [&](const Hump& h) { return h.holds(z); });
  };
  Hump hump;
  hump.at = start;
  Local here = target.local(start);
  double damping = 1e-3;
  for (hump.steps = 0; hump.steps < options.max_steps; ++hump.steps) {
    CoordinatesMatrix damped = here.curvature;
    damped.diagonal() *= 1.0 + damping;
    Coordinates step = -damped.llt().solve(here.gradient);
    const double length = step.norm();
    if (length < options.small_step) {
      hump.converged = true;
      break;
    }
    if (length > options.longest_step) step *= options.longest_step / length;
    const Coordinates next = hump.at + step;
    if (target.cost(next) < here.cost) {
      hump.at = next;
      if (known_here(next)) break;
      here = target.local(next);
      damping = std::max(damping / 6.0, 1e-9);
    } else {
      damping *= 5.0;
      constexpr double kStuck = 1e7;  // no downhill step left above rounding: this is the place
      if (damping > kStuck) {
        hump.converged = true;
        break;
      }
    }
  }
  hump.cost = here.cost;
  hump.curvature = here.curvature;
  return hump;
}

std::vector<Hump> humps_of(const Target& target) {
  std::vector<Coordinates> starts(1, Coordinates::Zero());
  if (target.may_have_two_humps()) {
    const int low = static_cast<int>(Unknown::weight), edge = static_cast<int>(Unknown::height);
    starts.resize(4, Coordinates::Zero());
    starts[1][low] = -2.0;
    starts[2][edge] = 1.5;
    starts[3][low] = 1.5;
    starts[3][edge] = -1.0;
  }
  std::vector<Hump> humps;
  for (const Coordinates& start : starts) {
    const Hump found = climb(target, start, humps);
    const bool known =
        std::any_of(humps.begin(), humps.end(), [&](const Hump& h) { return h.holds(found.at); });
    if (std::isfinite(found.cost) && !known) humps.push_back(found);
  }
  std::sort(humps.begin(), humps.end(),
            [](const Hump& a, const Hump& b) { return a.log_mass() > b.log_mass(); });
  // A hump e^-7 lighter than the best one carries less than a thousandth of the mass.
  std::erase_if(humps, [&](const Hump& h) { return h.log_mass() < humps.front().log_mass() - 7.0; });
  return humps;
}

}  // namespace strikewright
