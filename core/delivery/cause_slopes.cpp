#include "delivery/cause_slopes.hpp"

#include "bag/generic.hpp"

namespace strikewright {
namespace {

enum Seed : int { kShift, kLetGo, kUp, kDirection, kFace, kTilt, kSeeds };
using D = Dual<kSeeds>;

/// The swing with one seed for each cause.
Swing<D> seeded(const Swing<double>& s) {
  const auto lever = [](const Lever<double>& l) {
    return Lever<D>{D(l.mass), D(l.com), D(l.length), D(l.inertia_com)};
  };
  const Flail<double>& f = s.flail;
  Swing<D> d;
  d.flail.arm = lever(f.arm);
  d.flail.club = lever(f.club);
  d.flail.gravity = f.gravity;
  d.flail.plane_tilt = D(f.plane_tilt, kTilt);
  d.flail.start_arm = D(f.start_arm);
  d.flail.start_cock = D(f.start_cock);
  d.flail.shoulder = {D(f.shoulder.torque), f.shoulder.activation, f.shoulder.speed_limit, f.shoulder.hill};
  d.flail.wrist.drive = D(f.wrist.drive);
  d.flail.wrist.release = {static_cast<Release<D>::Kind>(f.wrist.release.kind),
                           D(f.wrist.release.value, kLetGo)};
  d.flail.wrist.speed_limit = f.wrist.speed_limit;
  d.flail.wrist.hill = f.wrist.hill;
  d.flail.wrist.stop = f.wrist.stop;
  d.flail.hub.shift = {D(f.hub.shift.size, kShift), D(f.hub.shift.start), D(f.hub.shift.duration)};
  d.flail.hub.rise = {D(f.hub.rise.size), D(f.hub.rise.start), D(f.hub.rise.duration)};
  const Stance<double>& st = s.stance;
  d.stance = {.hub_along = D(st.hub_along),
              .hub_up = D(st.hub_up, kUp),
              .plane_direction = D(st.plane_direction, kDirection),
              .lie_offset = D(st.lie_offset),
              .strike_toe = D(st.strike_toe),
              .face = {D(st.face.top), D(st.face.contact, kFace), D(st.face.closing_rate)}};
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
  const std::array<int, kSeeds> column{0, 1, 2, 3, 4, 5};
  CauseSlopes out = CauseSlopes::Zero();
  for (int k = 0; k < kSeeds; ++k)
    for (int j = 0; j < kPassSize; ++j)
      out(j, column[static_cast<std::size_t>(k)]) = per[static_cast<std::size_t>(k)] * pass[j].v[k];
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
