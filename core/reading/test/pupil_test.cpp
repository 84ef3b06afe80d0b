// What a condition is taken for, against the flail.

#include "reading/pupil.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "delivery/cause_slopes.hpp"
#include "delivery/default_swing.hpp"
#include "delivery/from_swing.hpp"
#include "reading/prior.hpp"

using namespace strikewright;

namespace {

/// The band's swing with its hub standing so far ahead of where it usually is at the ball: what that is worth
/// to the low point as weight [m], and how much lean it has beyond what goes with such a weight [rad].
struct Standing {
  double weight, lean;
};

Standing standing(SwingBand band, double ahead) {
  const Club club = *club_named(generic_bag(), "7i");
  const double lift = usual_ball_lift(club);
  Swing<double> swing = *default_swing(club, band);
  const Passing<double> usual = *passing_of(swing, club, Ball{}, lift);
  const CauseSlopes slopes = *cause_slopes(swing, club, Ball{}, lift);
  swing.flail.hub.shift.size = 0.0;
  swing.stance.hub_along += usual.run.contact.hub.p[0] + ahead;
  const Passing<double> stands = *passing_of(swing, club, Ball{}, lift);
  constexpr int kLowPoint = 3, kLean = 5, kWeight = static_cast<int>(Cause::weight);
  const double weight = (stands.pass.low_point - usual.pass.low_point) / slopes(kLowPoint, kWeight);
  return {weight, stands.pass.shaft_lean - usual.pass.shaft_lean - weight * slopes(kLean, kWeight)};
}

}  // namespace

TEST_CASE("a hub that stands ahead of the ball brings the low point less far than one that travels there") {
  const Prior prior = prior_for(*club_named(generic_bag(), "7i"), Skill::county);
  const auto taken = [&](Condition condition, Unknown unknown) {
    return effects_of(condition, prior)[static_cast<std::size_t>(unknown)].shift *
           prior.unit_sd[static_cast<int>(unknown)];
  };
  // One figure stands for all bands, whose hubs travel 50 to 100 mm: allowed is about as much as they differ.
  for (const SwingBand band : {SwingBand::club, SwingBand::county, SwingBand::tour}) {
    const Standing lead = standing(band, 0.055), trail = standing(band, -0.085);
    MESSAGE(1e3 * lead.weight << " mm and " << lead.lean / kDegree << " deg ahead, " << 1e3 * trail.weight
                              << " mm behind");
    CHECK(std::abs(lead.weight - taken(Condition::lead_leg, Unknown::weight)) < 0.003);
    CHECK(std::abs(lead.lean - taken(Condition::lead_leg, Unknown::lean_habit)) < 0.15 * kDegree);
    CHECK(std::abs(trail.weight - taken(Condition::trail_leg, Unknown::weight)) < 0.005);
  }
}
