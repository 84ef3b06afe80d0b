#pragma once
// The posterior of one swing as a function of its standard-normal coordinates: cost, slope, curvature.

#include <span>

#include "reading/prior.hpp"
#include "reading/reading.hpp"
#include "shot/shot.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// -log posterior near one point. `curvature` is positive definite: the prior's identity plus, for each
/// sighting, (slopes of its prediction) x (non-negative curvature of its misfit) x (slopes)'.
struct Local {
  double cost = 0.0;
  Coordinates gradient = Coordinates::Zero();
  CoordinatesMatrix curvature = CoordinatesMatrix::Identity();
};

class Target {
 public:
  Target(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior);

  /// -log posterior up to a constant; +infinity where the chain gives no finite number.
  [[nodiscard]] double cost(const Coordinates& z) const;
  /// The same, and the shot it came from.
  [[nodiscard]] double cost(const Coordinates& z, Shot<double>& shot) const;
  [[nodiscard]] Local local(const Coordinates& z) const;
  /// A sighting speaks of a poor strike: contact not clean, little or no divot, or a mark low on the face.
  /// Only then can two different swings explain a swing about equally well.
  [[nodiscard]] bool may_have_two_humps() const;
  [[nodiscard]] const Prior& prior() const { return *prior_; }
  [[nodiscard]] const Setting& setting() const { return *setting_; }

 private:
  std::span<const Sighting> sightings_;
  const Setting* setting_;
  const Prior* prior_;
  bool with_flight_ = false;
};

/// The reported quantities of a shot, in the order of kReportedFields, with slopes when T has them.
template <class T>
std::array<T, kReported> reported_values(const Shot<T>& s) {
  const Delivery<T>& d = s.delivery;
  return {s.pass.low_point,
          s.pass.low_point_depth,
          s.pass.shaft_lean,
          d.attack,
          d.path,
          d.face,
          T(d.face - d.path),
          d.loft,
          s.pass.plane_direction,
          s.pass.strike_toe,
          s.strike.strike_up,
          s.pass.club_speed,
          s.strike.divot.start,
          s.pass.face_turn,
          d.exposed_bounce,
          d.handle_lead};
}

}  // namespace strikewright
