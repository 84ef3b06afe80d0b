#include "traced_world_player.hpp"

#include <algorithm>
#include <cmath>

namespace traced_world {
namespace {

/// Swing-to-swing scatter of a county player (assumption): units of the causes (7 mm of hub, 3 ms of
/// release, 2.5 mm of height, 0.9 deg of plane, 1.2 deg of face), pace, strike.
constexpr Causes kScatter{0.35, 0.30, 0.50, 0.45, 0.60};
constexpr double kPaceScatter = 0.010, kToeScatter = 0.005;  // share; m

/// Shift of a swing beyond causes.
struct Extra {
  double pace = 1.0;                            ///< times
  double toe = 0.0;                             ///< m further away from the ball: struck nearer the toe
  double style_travel = 1.0, style_rise = 1.0;  ///< times
};

Trace swung(const Pupil& p, const Causes& causes, const Extra& extra) {
  Style style = p.style;
  style.travel *= extra.style_travel;
  style.rise *= extra.style_rise;
  Setup s = shifted(p.setup, style, causes);
  s.pace *= extra.pace;
  s.hub_y += extra.toe;
  return {p.base->club, style, s, p.side};
}

Style style_of(Draws& draws) {
  Style s;
  s.arm += draws.normal(0.0, 0.02);
  s.arm_yields = std::clamp(draws.normal(s.arm_yields, 0.06), 0.15, 0.55);
  s.cock += draws.normal(0.0, 0.10);
  s.past += draws.normal(0.0, 0.10);
  s.unhinge *= std::exp(draws.normal(0.0, 0.10));
  s.roll_range *= std::exp(draws.normal(0.0, 0.20));
  s.roll_follows = std::clamp(draws.normal(0.6, 0.2), 0.0, 1.0);
  s.arm_plane += draws.normal(0.0, 0.05);
  s.shaft_plane += draws.normal(0.0, 0.025);
  s.droop += draws.normal(0.0, 0.008);
  s.bend += draws.normal(0.0, 0.006);
  s.travel += draws.normal(0.0, 0.02);
  s.rise += draws.normal(0.0, 0.015);
  s.aimed = std::clamp(draws.normal(0.5, 0.2), 0.0, 1.0);
  return s;
}

double either_sign(double low, double high, Draws& draws) {
  const double size = low + (high - low) * draws.uniform();
  return draws.uniform() < 0.5 ? -size : size;
}

Causes own_causes(std::size_t leader, double size, Draws& draws) {
  Causes c{};
  for (std::size_t k = 0; k < kAsked; ++k) c[k] = k == leader ? size : either_sign(0.0, 0.4, draws);
  return c;
}

/// What a player has learned to do about his own causes: he finds the turf again by stooping or stretching
/// and sends the ball toward the target by the face. Nobody makes up for a height or a face by itself.
void make_up(Pupil& p, Draws& draws) {
  const double height_share = 0.6 + 0.35 * draws.uniform(), face_share = 0.3 + 0.6 * draws.uniform();
  Causes others = p.own;
  others[2] = others[4] = 0.0;
  const auto of = [&](const Causes& c) { return swung(p, c, {}).delivered(); };
  const Delivered still = of({}), now = of(others);
  const double turned = (of({0.0, 0.0, 0.0, 0.0, 1.0}).face - of({0.0, 0.0, 0.0, 0.0, -1.0}).face) / 2.0;
  p.felt_height = -height_share * (now.edge_height - still.edge_height) / 0.005;
  p.felt_face = -face_share * (now.face - still.face) / turned;
}

Causes meant(const Pupil& p) {
  Causes c = p.own;
  c[2] += p.felt_height;
  c[4] += p.felt_face;
  return c;
}

/// How a way of swinging shifts this player: drawn once a lesson.
struct Shift {
  Causes kept{1.0, 1.0, 1.0, 1.0, 1.0};  ///< share of his own causes that is still there
  Causes moved{};                        ///< units on top
  Extra extra;
  double scatter = 1.0;  ///< times the usual scatter
};

/// All assumption, from watching the exercises.
Shift shift_of(Way way, Draws& draws) {
  Shift s;
  switch (way) {
    case Way::normal:
      break;
    case Way::lead_leg:  // He stands over the lead foot all the time: hub ahead, hardly any travel, slower.
      s.kept[0] = 0.25;
      s.moved = {draws.normal(3.2, 0.6), draws.normal(0.0, 0.3), draws.normal(0.0, 0.6),
                 draws.normal(-0.3, 0.4), draws.normal(0.0, 0.4)};
      s.extra = {0.88 + draws.normal(0.0, 0.03), 0.0, 0.2, 0.6};
      s.scatter = 1.3;
      break;
    case Way::feet_together:  // No base to move over: the hub stays over the feet, a little behind its usual.
      s.kept[0] = 0.2;
      s.moved = {draws.normal(-0.8, 0.5), draws.normal(0.0, 0.2), draws.normal(0.4, 0.5),
                 draws.normal(0.0, 0.4), draws.normal(0.0, 0.3)};
      s.extra = {0.85 + draws.normal(0.0, 0.03), 0.0, 0.3, 0.5};
      s.scatter = 1.15;
      break;
    case Way::trail_hand:  // Nothing holds the lag but the trail wrist: earlier release, trail side lower,
                           // open.
      s.kept[1] = 0.5;
      s.moved = {draws.normal(-0.4, 0.5), draws.normal(-0.6, 0.4), draws.normal(0.3, 0.8),
                 draws.normal(0.3, 0.5), draws.normal(-0.4, 0.7)};
      s.extra = {0.74 + draws.normal(0.0, 0.04), 0.0, 0.9, 0.8};
      s.scatter = 1.6;
      break;
  }
  return s;
}

std::vector<Seeable> swings(const Pupil& p, const Shift& shift, std::size_t count, Draws& draws) {
  const Causes middle = meant(p);
  std::vector<Seeable> out;
  for (std::size_t i = 0; i < count; ++i) {
    Causes c;
    for (std::size_t k = 0; k < kAsked; ++k)
      c[k] = shift.kept[k] * middle[k] + shift.moved[k] + draws.normal(0.0, shift.scatter * kScatter[k]);
    Extra extra = shift.extra;
    extra.pace *= 1.0 + draws.normal(0.0, shift.scatter * kPaceScatter);
    extra.toe += draws.normal(0.0, shift.scatter * kToeScatter);
    out.push_back(shot(swung(p, c, extra), p.ground));
  }
  return out;
}

Ground ground_of(Draws& draws) {
  Ground g;
  g.head_wind = draws.normal(0.0, 0.8);
  g.cross_wind = draws.normal(0.0, 0.6);
  g.heavy = std::exp(draws.normal(0.0, 0.25));
  g.friction = std::clamp(draws.normal(0.33, 0.04), 0.2, 0.45);
  return g;
}

}  // namespace

Base base_of(const Club& club, const Usual& usual) {
  const Solved s = solved(club, {}, usual);
  Base b{club, usual, s.setup, s.off, 0.0};
  b.apex = shot(Trace(club, {}, s.setup), {}).flight.apex;
  return b;
}

Pupil pupil_of(const std::vector<Base>& bases, std::size_t many, std::size_t few, Draws& draws) {
  constexpr double kSolved = 1e-6;
  Pupil p;
  p.base = &bases[std::min(bases.size() - 1,
                           static_cast<std::size_t>(draws.uniform() * static_cast<double>(bases.size())))];
  p.side = draws.uniform() < 0.5 ? -1.0 : 1.0;
  Solved s;
  do {
    p.style = style_of(draws);
    s = solved(p.base->club, p.style, p.base->usual);
  } while (s.off > kSolved);
  p.setup = s.setup;
  p.setup.pace *= 1.0 + draws.normal(0.0, 0.04);
  p.setup.hub_y += draws.normal(0.0, 0.004);
  p.ground = ground_of(draws);
  p.leader = std::min(kAsked - 1, static_cast<std::size_t>(draws.uniform() * static_cast<double>(kAsked)));
  p.size = either_sign(1.0, 2.5, draws);
  p.own = own_causes(p.leader, p.size, draws);
  make_up(p, draws);
  p.truth = swung(p, meant(p), {}).delivered();
  for (std::size_t w = 0; w < kWays; ++w) {
    const Shift shift = shift_of(static_cast<Way>(w), draws);
    p.shots[w] = swings(p, shift, w == 0 ? many : few, draws);
  }
  return p;
}

}  // namespace traced_world
