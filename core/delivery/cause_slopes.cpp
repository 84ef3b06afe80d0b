#include "delivery/cause_slopes.hpp"

#include "bag/generic.hpp"

namespace strikewright {
namespace {

enum Seed : int { kShift, kLetGo, kUp, kDirection, kFace, kTilt, kSeeds };
using D = Dual<kSeeds>;

/// The swing with one seed for each cause.
Swing<D> seeded(const Swing<double>& s) {
  Swing<D> d = swing_as<D>(s);
  d.flail.hub.shift.size = D(s.flail.hub.shift.size, kShift);
  d.flail.wrist.release.value = D(s.flail.wrist.release.value, kLetGo);
  d.stance.hub_up = D(s.stance.hub_up, kUp);
  d.stance.plane_direction = D(s.stance.plane_direction, kDirection);
  d.stance.face.contact = D(s.stance.face.contact, kFace);
  d.flail.plane_tilt = D(s.flail.plane_tilt, kTilt);
  return d;
}

}  // namespace

const char* name_of(Cause cause) { return kCauseFacts[static_cast<std::size_t>(cause)].name; }

Result<CauseSlopes> cause_slopes(const Swing<double>& swing, const Club& club, const Ball& ball,
                                 double ball_lift) {
  RunOptions options;
  options.pace.relative = 1e-6;
  options.pace.absolute = 1e-7;
  const auto at = passing_of(seeded(swing), club, ball, ball_lift, options);
  if (!at) return unexpected(at.error());
  const Flail<double>& f = swing.flail;
  // The shift at contact is a share of the whole one; an early or late release is an arm angle at the arm's
  // rate.
  const double shift_share =
      f.hub.shift.size == 0.0 ? 1.0 : value_of(at->run.contact.hub.p[0]) / f.hub.shift.size;
  const double arm_rate =
      f.wrist.release.kind == Release<double>::Kind::at_arm ? value_of(at->run.release.arm_rate) : 1.0;
  std::array<double, kSeeds> per;
  per.fill(1.0);
  per[kShift] = 1.0 / shift_share;
  per[kLetGo] = arm_rate;
  PassVector<D> pass = vector_of(at->pass);
  pass[kPassSize - 1] = log(at->arc_radius);
  CauseSlopes out = CauseSlopes::Zero();
  for (int k = 0; k < kSeeds; ++k)
    for (int j = 0; j < kPassSize; ++j) out(j, k) = per[static_cast<std::size_t>(k)] * pass[j].v[k];
  out(0, static_cast<int>(Cause::speed)) = pass[0].a;
  return out;
}

CauseSlopes usual_cause_slopes(const Club& club, SwingBand band) {
  const auto at = [&](const Club& c) -> Result<CauseSlopes> {
    const Result<Swing<double>> swing = default_swing(c, band);
    if (!swing) return unexpected(swing.error());
    return cause_slopes(*swing, c, Ball{}, usual_ball_lift(c));
  };
  Result<CauseSlopes> slopes = at(club);
  if (!slopes && !club.like.empty())
    if (const auto like = club_named(generic_bag(), club.like)) slopes = at(*like);
  if (!slopes) slopes = at(*club_named(generic_bag(), "7i"));
  ensure(slopes.has_value(), "the generic 7-iron has a default swing");
  return *slopes;
}

}  // namespace strikewright
