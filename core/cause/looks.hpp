#pragma once
// What another look would tell about the causes, by the linearised formula.

#include "cause/causes.hpp"

namespace strikewright {

/// How many steps one prior unit of a cause is.
[[nodiscard]] double steps_in(Cause cause, const Prior& prior);

/// What is asked of the next look: a direction among the pupil's coordinates, and the variance that stays
/// however well those are known.
struct Contrast {
  Coordinates along = Coordinates::Zero();
  double left = 0.0;
};

/// Looks that could be made next at one group's swings, with what each would add.
class Looks {
 public:
  /// @param middle of the pattern, prior units
  Looks(const Group& group, const std::vector<SeenSwing>& seen, const Coordinates& middle);

  /// Most gain per second first. Gain: half the logarithm of how much the variance of `contrast` shrinks when
  /// a look's information joins `precision` (inverse covariance of the pupil's coordinates). Of one thing in
  /// words and in numbers the more telling.
  [[nodiscard]] std::vector<NextLook> ranked(const CoordinatesMatrix& precision,
                                             const Contrast& contrast) const;

 private:
  struct Look {
    NextLook what;
    CoordinatesMatrix information = CoordinatesMatrix::Zero();
  };
  std::vector<Look> looks_;
};

}  // namespace strikewright
