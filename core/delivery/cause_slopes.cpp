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

/// The pass, with the arc that the swing makes in the arc's place.
template <class T>
PassVector<T> numbers_of(const Passing<T>& at) {
  using std::log;
  PassVector<T> out = vector_of(at.pass);
  out[kPassSize - 1] = log(at.arc_radius);
  return out;
}

RunOptions fine() {
  RunOptions options;
  options.pace.relative = 1e-6;
  options.pace.absolute = 1e-7;
  return options;
}

/// How much of the swing's own numbers one unit of a cause is.
struct Scales {
  double shift = 1.0;   ///< the shift at contact is a share of the whole one
  double let_go = 1.0;  ///< an early or late release is an arm angle at the arm's rate
};

template <class T>
Scales scales_of(const Swing<double>& swing, const FlailRun<T>& run) {
  const Flail<double>& f = swing.flail;
  Scales out;
  if (f.hub.shift.size != 0.0) out.shift = f.hub.shift.size / value_of(run.contact.hub.p[0]);
  if (f.wrist.release.kind == Release<double>::Kind::at_arm) out.let_go = value_of(run.release.arm_rate);
  return out;
}

}  // namespace

const char* name_of(Cause cause) { return kCauseFacts[static_cast<std::size_t>(cause)].name; }

Result<CauseSlopes> cause_slopes(const Swing<double>& swing, const Club& club, const Ball& ball,
                                 double ball_lift) {
  const auto at = passing_of(seeded(swing), club, ball, ball_lift, fine());
  if (!at) return unexpected(at.error());
  const Scales per = scales_of(swing, at->run);
  const PassVector<D> pass = numbers_of(*at);
  CauseSlopes out = CauseSlopes::Zero();
  for (int k = 0; k < kSeeds; ++k) {
    const double scale = k == kShift ? per.shift : k == kLetGo ? per.let_go : 1.0;
    for (int j = 0; j < kPassSize; ++j) out(j, k) = scale * pass[j].v[k];
  }
  out(0, static_cast<int>(Cause::speed)) = pass[0].a;
  return out;
}

Result<CauseBends> cause_bends(const Swing<double>& swing, const CauseSlopes& slopes, const Club& club,
                               const Ball& ball, double ball_lift) {
  constexpr double kWeight = 0.040, kRelease = 0.015;
  const auto usual = passing_of(swing, club, ball, ball_lift, fine());
  if (!usual) return unexpected(usual.error());
  const Scales per = scales_of(swing, usual->run);
  const PassVector<double> from = numbers_of(*usual);
  const auto bent = [&](double weight, double release) -> Result<PassVector<double>> {
    Swing<double> s = swing;
    s.flail.hub.shift.size += per.shift * weight;
    s.flail.wrist.release.value += per.let_go * release;
    const auto at = passing_of(s, club, ball, ball_lift, fine());
    if (!at) return unexpected(at.error());
    const auto slope = [&](Cause cause) { return slopes.col(static_cast<int>(cause)); };
    return PassVector<double>(numbers_of(*at) - from - weight * slope(Cause::weight) -
                              release * slope(Cause::release));
  };
  const auto weight = bent(kWeight, 0.0), release = bent(0.0, kRelease), both = bent(kWeight, kRelease);
  for (const auto* one : {&weight, &release, &both})
    if (!*one) return unexpected(one->error());
  return CauseBends{.weight = *weight / (kWeight * kWeight),
                    .release = *release / (kRelease * kRelease),
                    .both = (*both - *weight - *release) / (kWeight * kRelease)};
}

CauseEffects usual_cause_effects(const Club& club, SwingBand band) {
  const auto at = [&](const Club& c) -> Result<CauseEffects> {
    const Result<Swing<double>> swing = default_swing(c, band);
    if (!swing) return unexpected(swing.error());
    const double lift = usual_ball_lift(c);
    const auto slopes = cause_slopes(*swing, c, Ball{}, lift);
    if (!slopes) return unexpected(slopes.error());
    const auto bends = cause_bends(*swing, *slopes, c, Ball{}, lift);
    if (!bends) return unexpected(bends.error());
    return CauseEffects{*slopes, *bends};
  };
  Result<CauseEffects> effects = at(club);
  if (!effects && !club.like.empty())
    if (const auto like = club_named(generic_bag(), club.like)) effects = at(*like);
  if (!effects) effects = at(*club_named(generic_bag(), "7i"));
  ensure(effects.has_value(), "the generic 7-iron has a default swing");
  return *effects;
}

}  // namespace strikewright
