#include "cause/another_swing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "delivery/pose.hpp"
#include "numeric/draws.hpp"
#include "numeric/parallel.hpp"
#include "numeric/root.hpp"
#include "shot/shot_of.hpp"
#include "sighting/kind/contact.hpp"

namespace strikewright {
namespace {

enum class Way { wrists, handle };
constexpr std::array<Way, 2> kWays{Way::wrists, Way::handle};

const char* name_of(Way way) { return way == Way::wrists ? "wrist-driven" : "handle-led"; }

SwingManner manner_of(Way way, SwingBand band) {
  SwingManner m = usual_manner(band);
  if (way == Way::handle) return m;
  m.shift.size = m.rise.size = 0.0;
  m.drive = 60.0;
  m.drive_spread = 2.0;
  m.release_arm = -60.0 * kDegree;
  m.release_spread = 60.0 * kDegree;
  return m;
}

double lift_in(const Setting& setting, const Pass<double>& aim) {
  const double lift = setting.with_ball ? ball_lift_on(setting.ground.surface, setting.club.family) : 0.0;
  return lift + aim.ball_sits;
}

/// The aim with another lean, the face turned until it points where it did.
Pass<double> with_lean(const Pass<double>& aim, double lean, const Club& club) {
  if (lean == aim.shaft_lean) return aim;
  const double tilt = aim.plane_tilt + aim.lie_offset;
  const auto face = [&](double turn, double leaning) {
    return middle_azimuth(club, tilt, turn, leaning, aim.plane_direction);
  };
  const double wanted = face(aim.face_turn, aim.shaft_lean);
  const auto off = [&](double turn) { return face(turn, lean) - wanted; };
  Pass<double> out = aim;
  out.shaft_lean = lean;
  out.face_turn = root_between(off, aim.face_turn - 0.5, aim.face_turn + 0.5).value_or(aim.face_turn);
  return out;
}

struct Reached {
  Swing<double> swing;
  double lean_given_up = 0.0;
};

/// The aim in this way, or the nearest by lean.
Result<Reached> reached(Way way, const Pass<double>& aim, SwingBand band, const Setting& setting) {
  const SwingManner manner = manner_of(way, band);
  const double to_usual = std::copysign(kDegree, usual_aim(setting.club, band).shaft_lean - aim.shaft_lean);
  std::optional<Fault> fault;
  for (const double steps : {0.0, 1.0, -1.0, 2.0, -2.0, 4.0, -4.0, 8.0}) {
    const Pass<double> near = with_lean(aim, aim.shaft_lean + steps * to_usual, setting.club);
    auto swing = swing_for(near, manner, setting.club, setting.ball, lift_in(setting, aim));
    if (swing) return Reached{std::move(*swing), steps * to_usual};
    if (!fault) fault = swing.error();
  }
  fault->place = fmt::format("{} {}", name_of(way), fault->place);
  return unexpected(*fault);
}

/// How far each cause is off in one swing, SI.
struct Off {
  double release, weight, height, handle, face_turn, plane_tilt, speed;
};

Off drawn(const Noise& noise, std::uint64_t seed, std::size_t swing) {
  Draws draws(seed, swing);
  Off o{};
  o.release = draws.normal(0.0, noise.release);
  o.weight = draws.normal(0.0, noise.weight);
  o.height = draws.normal(0.0, noise.height);
  o.handle = draws.normal(0.0, noise.handle);
  o.face_turn = draws.normal(0.0, noise.face_turn);
  o.plane_tilt = draws.normal(0.0, noise.plane_tilt);
  o.speed = draws.normal(0.0, noise.speed);
  return o;
}

/// A way without noise.
struct Base {
  Swing<double> swing;
  Passing<double> passing;
};

Swing<double> with_noise(const Base& base, const Off& off) {
  Swing<double> s = base.swing;
  const Moment<double>& release = base.passing.run.release;
  const double later = std::max(off.release, -release.time);
  s.flail.wrist.release.value += later * (release.arm_rate + 0.5 * later * release.arm_gain);
  s.flail.hub.shift.size += off.weight;
  s.stance.hub_up += off.height;
  s.stance.plane_direction += off.handle;
  s.stance.face.contact += off.face_turn;
  s.flail.plane_tilt += off.plane_tilt;
  return s;
}

/// What is kept of one noisy swing.
struct Kept : NoisySwing {
  bool fat = false, thin = false;
  double edge_height = 0.0;
};

Kept kept_of(const Base& base, const Off& off, const Pass<double>& aim, const Setting& setting) {
  RunOptions options;
  options.pace.relative = 1e-5;  // 1e-5 mm of low point
  options.pace.absolute = 1e-6;
  const auto at =
      passing_of(with_noise(base, off), setting.club, setting.ball, lift_in(setting, aim), options);
  Kept k;
  if (!at) return k;
  Pass<double> pass = at->pass;
  pass.club_speed *= std::exp(off.speed);
  take_circumstances(aim, pass);
  pass.arc = aim.arc + std::log(at->arc_radius / base.passing.arc_radius);
  Setting here = setting;
  here.club.turn_radius = at->turn_radius;
  const Shot<double> shot = shot_of(pass, here, true, FlightOptions::fast());
  k.arrived = true;
  k.flew = shot.flew;
  k.fat = kind::Contact::fat_latent(shot.strike, setting.ground.surface) > kind::Contact::kFatEdge;
  k.thin = setting.with_ball && !k.fat && shot.strike.strike_up < kind::Contact::thin_edge(setting);
  k.low_point = pass.low_point;
  k.edge_height = shot.strike.edge_height;
  k.plane_direction = pass.plane_direction;
  k.strike_toe = shot.strike.strike_toe;
  k.strike_up = shot.strike.strike_up;
  k.start = shot.strike.launch.azimuth;
  k.curve = shot.flight.curve;
  k.carry = shot.flight.carry;
  k.side = shot.flight.side;
  return k;
}

MeanAndSd spread_of(const std::vector<Kept>& all, double Kept::*what, bool Kept::*counts) {
  MeanAndSd out;
  double n = 0.0;
  for (const Kept& k : all)
    if (k.*counts) {
      out.mean += k.*what;
      n += 1.0;
    }
  if (n == 0.0) return {};
  out.mean /= n;
  for (const Kept& k : all)
    if (k.*counts) out.sd += (k.*what - out.mean) * (k.*what - out.mean);
  out.sd = std::sqrt(out.sd / n);
  return out;
}

std::size_t count_of(const std::vector<Kept>& all, bool Kept::*what) {
  return static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [what](const Kept& k) { return k.*what; }));
}

void sum_up(const std::vector<Kept>& all, WaySwung& out) {
  out.each.assign(all.begin(), all.end());
  out.swings = all.size();
  out.arrived = count_of(all, &Kept::arrived);
  out.flew = count_of(all, &Kept::flew);
  out.low_point = spread_of(all, &Kept::low_point, &Kept::arrived);
  out.edge_height = spread_of(all, &Kept::edge_height, &Kept::arrived);
  out.strike_up = spread_of(all, &Kept::strike_up, &Kept::arrived);
  out.start = spread_of(all, &Kept::start, &Kept::flew);
  out.curve = spread_of(all, &Kept::curve, &Kept::flew);
  out.carry = spread_of(all, &Kept::carry, &Kept::flew);
  if (out.arrived == 0) return;
  const auto share = [&](bool Kept::*what) {
    return static_cast<double>(count_of(all, what)) / static_cast<double>(out.arrived);
  };
  out.fat = share(&Kept::fat);
  out.thin = share(&Kept::thin);
}

std::string given_up(const Reached& r) {
  if (r.lean_given_up == 0.0) return {};
  return fmt::format("This way does not reach the aim: the shaft leans {:.1f} degrees {} here.",
                     std::abs(r.lean_given_up) / kDegree, r.lean_given_up > 0.0 ? "more" : "less");
}

}  // namespace

Result<WaysSwung> ways_of(const Pass<double>& aim, SwingBand band, const Setting& setting, const Noise& noise,
                          std::size_t n, std::uint64_t seed, unsigned threads) {
  ensure(n > 0, "ways_of needs at least one swing");
  WaysSwung out;
  for (std::size_t w = 0; w < kWays.size(); ++w) {
    const auto way = reached(kWays[w], aim, band, setting);
    if (!way) return unexpected(way.error());
    const auto at = passing_of(way->swing, setting.club, setting.ball, lift_in(setting, aim));
    if (!at) return unexpected(at.error());
    const Base base{way->swing, *at};
    std::vector<Kept> all(n);
    constexpr std::size_t kChunk = 16;
    const auto swing = [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i) all[i] = kept_of(base, drawn(noise, seed, i), aim, setting);
    };
    in_parallel(n, kChunk, swing, threads);
    out[w].name = name_of(kWays[w]);
    out[w].swing = base.swing;
    out[w].pass = at->pass;
    out[w].lean_given_up = way->lean_given_up;
    out[w].said = given_up(*way);
    sum_up(all, out[w]);
  }
  // Some aims ask for so much drive that the handle's way is driven by the wrists too.
  if (out[0].swing.flail.wrist.drive < 1.25 * out[1].swing.flail.wrist.drive)
    out[0].said += fmt::format(
        "{}The two ways hardly differ here: the wrists drive with {:.0f} and {:.0f} N m.",
        out[0].said.empty() ? "" : " ", out[0].swing.flail.wrist.drive, out[1].swing.flail.wrist.drive);
  return out;
}

}  // namespace strikewright
