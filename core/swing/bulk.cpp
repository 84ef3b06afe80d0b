#include "swing/bulk.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "swing/motion.hpp"
#include "swing/wide.hpp"

// One source, compiled for wide registers too where the machine's loader can choose. The choosing runs before
// the thread sanitizer does and cannot run under it.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__ELF__) && \
    !defined(__SANITIZE_THREAD__)
#define STRIKEWRIGHT_WIDTHS __attribute__((target_clones("arch=x86-64-v3", "default")))
#else
#define STRIKEWRIGHT_WIDTHS
#endif

namespace strikewright {
namespace {

using wide::all;
using wide::kLanes;
using wide::M;
using wide::pick;
using wide::V;

/// What all swings of a batch share, ready for the inner loop.
struct Shared {
  Lumped<double> k;
  double arm_length, club_length, gravity, cock, start_arm;
  double activation, shoulder_limit, shoulder_hill, wrist_limit, wrist_hill;  // limit 0 = none
  double per_activation;                                                      // 1 / activation
  double shift_start, shift_duration, rise_start, rise_duration;
  double per_shift, per_rise;  // 1 / duration
  std::array<double, 4> edges;
  Release<double>::Kind kind;
  ContactLine contact;
  double step;
};

struct Group {
  V torque, release, drive, shift, rise, g, along, up;
};

struct Angles {
  V arm, club, arm_rate, club_rate;
};

struct Rates {
  V arm, club;  // rad/s2
  V pushed;     // N m that a locked wrist asks for
};

struct HubNow {
  V p, v, a;
};

STRIKEWRIGHT_INLINE_ALWAYS HubNow hub_move(V size, double start, double per_duration, V t) {
  const V s = wide::least(wide::most((t - start) * per_duration, all(0.0)), all(1.0));
  const V v = size * per_duration;
  return {size * s * s * s * (10.0 + s * (-15.0 + 6.0 * s)), v * s * s * (30.0 + s * (-60.0 + 30.0 * s)),
          v * per_duration * s * (60.0 + s * (-180.0 + 120.0 * s))};
}

/// torque_velocity in lanes, with one division.
STRIKEWRIGHT_INLINE_ALWAYS V hill(V w, double limit, double curve) {
  if (limit <= 0.0) return all(1.0);
  const V u = w * (-(1.0 + curve) / limit);
  const M lengthening = w < 0.0;
  const V over = pick(lengthening, 0.4 + 1.4 * u, wide::most(limit - w, all(0.0)));
  return over / pick(lengthening, 0.4 + u, limit + curve * w);
}

/// What depends on time alone.
struct Clock {
  V active, ax, ay;  // share of the shoulder torque; felt acceleration of the hub, gravity included
};

STRIKEWRIGHT_INLINE_ALWAYS Clock clock_at(const Shared& c, const Group& g, V t) {
  const V active = c.activation > 0.0 ? 1.0 - wide::exp_falling(t * -c.per_activation) : all(1.0);
  return {active, hub_move(g.shift, c.shift_start, c.per_shift, t).a,
          hub_move(g.rise, c.rise_start, c.per_rise, t).a + g.g};
}

STRIKEWRIGHT_INLINE_ALWAYS Rates rates(const Shared& c, const Group& g, const Clock& t, const Angles& y,
                                       M locked) {
  const auto [sa, ca] = wide::sin_cos(y.arm);
  const auto [sc, cc] = wide::sin_cos(y.club);
  const V pc = c.k.p * (ca * cc + sa * sc);
  const V ps = c.k.p * (sa * cc - ca * sc);
  const V shoulder = g.torque * t.active * hill(y.arm_rate, c.shoulder_limit, c.shoulder_hill);
  const V drive = g.drive * hill(y.club_rate - y.arm_rate, c.wrist_limit, c.wrist_hill);
  const V arm_load = -c.k.s1 * (t.ax * ca + t.ay * sa);
  const V club_load = -c.k.s2 * (t.ax * cc + t.ay * sc);
  const V a = shoulder - drive + arm_load - ps * y.club_rate * y.club_rate;
  const V b = drive + club_load + ps * y.arm_rate * y.arm_rate;
  const V total = shoulder + arm_load + club_load;
  const V inverse = 1.0 / pick(locked, c.k.j1 + c.k.j2 + 2.0 * pc, c.k.j1 * c.k.j2 - pc * pc);
  const V arm = pick(locked, total, c.k.j2 * a - pc * b) * inverse;
  return {arm, pick(locked, total, c.k.j1 * b - pc * a) * inverse,
          (pc + c.k.j2) * arm - ps * y.arm_rate * y.arm_rate - club_load};
}

STRIKEWRIGHT_INLINE_ALWAYS Angles moved(const Angles& y, V h, V arm_rate, V club_rate, const Rates& r) {
  return {y.arm + h * arm_rate, y.club + h * club_rate, y.arm_rate + h * r.arm, y.club_rate + h * r.club};
}

/// One classical Runge-Kutta step; r1 = the rates at its start, `end` = the clock at its end.
STRIKEWRIGHT_INLINE_ALWAYS Angles stepped(const Shared& c, const Group& g, V t, const Angles& y,
                                          const Rates& r1, V h, const Clock& end, M locked) {
  const V half = 0.5 * h;
  const Clock middle = clock_at(c, g, t + half);
  const Angles y2 = moved(y, half, y.arm_rate, y.club_rate, r1);
  const Rates r2 = rates(c, g, middle, y2, locked);
  const Angles y3 = moved(y, half, y2.arm_rate, y2.club_rate, r2);
  const Rates r3 = rates(c, g, middle, y3, locked);
  const Angles y4 = moved(y, h, y3.arm_rate, y3.club_rate, r3);
  const Rates r4 = rates(c, g, end, y4, locked);
  const V sixth = h * (1.0 / 6.0);
  return {y.arm + sixth * (y.arm_rate + 2.0 * (y2.arm_rate + y3.arm_rate) + y4.arm_rate),
          y.club + sixth * (y.club_rate + 2.0 * (y2.club_rate + y3.club_rate) + y4.club_rate),
          y.arm_rate + sixth * (r1.arm + 2.0 * (r2.arm + r3.arm) + r4.arm),
          y.club_rate + sixth * (r1.club + 2.0 * (r2.club + r3.club) + r4.club)};
}

/// How far a locked wrist is past its release; >= 0 = free.
STRIKEWRIGHT_INLINE_ALWAYS V past_release(const Shared& c, const Group& g, V t, const Angles& y,
                                          const Rates& r) {
  if (c.kind == Release<double>::Kind::natural) return -r.pushed;
  const V gap = c.kind == Release<double>::Kind::at_time ? t - g.release : y.arm - g.release;
  return wide::least(gap, -r.pushed);
}

/// One end of a step of one swing.
struct Knot {
  double t, arm, club, arm_rate, club_rate, arm_gain, club_gain;
};

/// Fifth-order Hermite curve through value, slope and bend at both ends of a step of length h, at s in 0..1.
struct Curve {
  double value, slope, bend;  // at s, with respect to time
};
Curve hermite(double h, double s, double y0, double v0, double a0, double y1, double v1, double a1) {
  const double d0 = h * v0, d1 = h * v1, e0 = h * h * a0, e1 = h * h * a1;
  const double rise = y1 - y0;
  const double c2 = 0.5 * e0;
  const double c3 = 10.0 * rise - 6.0 * d0 - 4.0 * d1 - 1.5 * e0 + 0.5 * e1;
  const double c4 = -15.0 * rise + 8.0 * d0 + 7.0 * d1 + 1.5 * e0 - e1;
  const double c5 = 6.0 * rise - 3.0 * (d0 + d1) + 0.5 * (e1 - e0);
  return {y0 + s * (d0 + s * (c2 + s * (c3 + s * (c4 + s * c5)))),
          (d0 + s * (2.0 * c2 + s * (3.0 * c3 + s * (4.0 * c4 + s * 5.0 * c5)))) / h,
          (2.0 * c2 + s * (6.0 * c3 + s * (12.0 * c4 + s * 20.0 * c5))) / (h * h)};
}

/// The leading edge of one swing at a place s of a step.
struct Edge {
  Curve arm, club;
  double t, x, y, vx, vy, ay;
};

struct OneHub {
  double shift, rise, along, up;
};

Edge edge_in(const Shared& c, const OneHub& hub, const Knot& a, const Knot& b, double s) {
  const double h = b.t - a.t;
  Edge e{hermite(h, s, a.arm, a.arm_rate, a.arm_gain, b.arm, b.arm_rate, b.arm_gain),
         hermite(h, s, a.club, a.club_rate, a.club_gain, b.club, b.club_rate, b.club_gain),
         a.t + s * h,
         0,
         0,
         0,
         0,
         0};
  HubMotion<double> m;
  detail::add_move(HubMove<double>{hub.shift, c.shift_start, c.shift_duration}, e.t, 0, m);
  detail::add_move(HubMove<double>{hub.rise, c.rise_start, c.rise_duration}, e.t, 1, m);
  const double sa = std::sin(e.arm.value), ca = std::cos(e.arm.value);
  const double sc = std::sin(e.club.value), cc = std::cos(e.club.value);
  const double l = c.arm_length, r = c.club_length;
  e.x = hub.along + m.p[0] + l * sa + r * sc;
  e.y = hub.up + m.p[1] - l * ca - r * cc;
  e.vx = m.v[0] + l * e.arm.slope * ca + r * e.club.slope * cc;
  e.vy = m.v[1] + l * e.arm.slope * sa + r * e.club.slope * sc;
  e.ay = m.a[1] + l * (e.arm.bend * sa + e.arm.slope * e.arm.slope * ca) +
         r * (e.club.bend * sc + e.club.slope * e.club.slope * cc);
  return e;
}

/// Newton's method inside a step for a function that rises through zero in it: enough rounds for the last
/// digits.
template <class Value, class Slope>
Edge edge_where(const Shared& c, const OneHub& hub, const Knot& a, const Knot& b, double first,
                const Value& value, const Slope& slope) {
  double s = first;
  Edge e = edge_in(c, hub, a, b, s);
  for (int round = 0; round < 6; ++round) {
    const double change = value(e) / (slope(e) * (b.t - a.t));
    s = std::clamp(s - change, 0.0, 1.0);
    e = edge_in(c, hub, a, b, s);
    if (std::fabs(change) < 1e-9) break;
  }
  return e;
}

void note_contact(const Shared& c, const OneHub& hub, const Knot& a, const Knot& b, double first,
                  std::size_t i, SwingBatchEnds& out) {
  const ContactLine& l = c.contact;
  const Edge e = edge_where(
      c, hub, a, b, first,
      [&l](const Edge& q) {
        return q.x - l.along - l.per_up * (q.y - l.up) - l.per_club * (q.club.value - l.club);
      },
      [&l](const Edge& q) { return q.vx - l.per_up * q.vy - l.per_club * q.club.slope; });
  out.contact_time[i] = e.t;
  out.arm[i] = e.arm.value;
  out.club[i] = e.club.value;
  out.arm_rate[i] = e.arm.slope;
  out.club_rate[i] = e.club.slope;
  out.edge_speed[i] = std::hypot(e.vx, e.vy);
}

void note_low_point(const Shared& c, const OneHub& hub, const Knot& a, const Knot& b, double first,
                    std::size_t i, SwingBatchEnds& out) {
  const Edge e = edge_where(
      c, hub, a, b, first, [](const Edge& q) { return q.vy; }, [](const Edge& q) { return q.ay; });
  out.low_along[i] = e.x;
  out.low_up[i] = e.y;
}

struct Track {
  V t;
  Angles y;
  Rates r;
  V gap;   // edge short of contact (negative) or past it
  V fall;  // edge's height rate
};

STRIKEWRIGHT_INLINE_ALWAYS void look_at_edge(const Shared& c, const Group& g, Track& k) {
  const M low = k.y.club >= -1.2;  // the head also rises at the top
  k.gap = all(-1.0);
  k.fall = all(-1.0);
  if (!wide::any(low)) return;
  const auto [sa, ca] = wide::sin_cos(k.y.arm);
  const auto [sc, cc] = wide::sin_cos(k.y.club);
  const HubNow hx = hub_move(g.shift, c.shift_start, c.per_shift, k.t);
  const HubNow hy = hub_move(g.rise, c.rise_start, c.per_rise, k.t);
  const ContactLine& l = c.contact;
  const V x = g.along + hx.p + c.arm_length * sa + c.club_length * sc;
  const V y = g.up + hy.p - c.arm_length * ca - c.club_length * cc;
  k.gap = pick(low, x - l.along - l.per_up * (y - l.up) - l.per_club * (k.y.club - l.club), all(-1.0));
  k.fall = pick(low, hy.v + c.arm_length * k.y.arm_rate * sa + c.club_length * k.y.club_rate * sc, all(-1.0));
}

Knot knot_of(const Track& k, int lane) {
  return {k.t[lane],           k.y.arm[lane], k.y.club[lane], k.y.arm_rate[lane],
          k.y.club_rate[lane], k.r.arm[lane], k.r.club[lane]};
}

/// Step to take from t: the batch's step, cut at the next edge of the hub's motion.
STRIKEWRIGHT_INLINE_ALWAYS V step_from(const Shared& c, V t) {
  V h = all(c.step);
  for (const double edge : c.edges) h = wide::least(h, pick(t < edge - 1e-12, edge - t, all(c.step)));
  return h;
}

/// False position (Illinois) for the time of release inside a step: the bracket's ends and what was found
/// there.
struct Bracket {
  V low, high, at_low, at_high;  // s from the step's start; past_release there
};

STRIKEWRIGHT_INLINE_ALWAYS Angles kept(M where, const Angles& a, const Angles& z) {
  return {pick(where, a.arm, z.arm), pick(where, a.club, z.club), pick(where, a.arm_rate, z.arm_rate),
          pick(where, a.club_rate, z.club_rate)};
}

/// One group of swings under way.
struct GroupRun {
  const Shared& c;
  const Group& g;
  const std::size_t first;
  SwingBatchEnds& out;
  M done;  ///< lanes that are finished, or only fill the group
  Track now{};
  M locked{}, seeking{}, seen_contact{}, seen_low{};
  Bracket b{};

  STRIKEWRIGHT_INLINE_ALWAYS void begin() {
    now = Track{all(0.0),
                {all(c.start_arm), all(c.start_arm - c.cock), all(0.0), all(0.0)},
                {},
                all(-1.0),
                all(-1.0)};
    b = {all(0.0), all(0.0), all(-1.0), all(1.0)};
    locked = ~M{};
    const Clock start = clock_at(c, g, now.t);
    now.r = rates(c, g, start, now.y, locked);
    locked = locked & ~(past_release(c, g, now.t, now.y, now.r) >= 0.0);
    now.r = rates(c, g, start, now.y, locked);
  }

  [[nodiscard]] STRIKEWRIGHT_INLINE_ALWAYS V step() const {
    const V inside = b.low + (b.high - b.low) * (b.at_low / (b.at_low - b.at_high));
    return pick(done, all(0.0), pick(seeking, inside, step_from(c, now.t)));
  }

  /// Releases: a locked swing that is past its release at the step's end goes back and seeks the time.
  /// Returns the lanes that may go on to `next`.
  STRIKEWRIGHT_INLINE_ALWAYS M releases(Track& next, V h, const Clock& end) {
    if (!wide::any(locked & ~done)) return ~done;
    const V past = past_release(c, g, next.t, next.y, next.r);
    const M over = past >= 0.0;
    const M close = (b.high - b.low < 1e-10) | ((past < 1e-9) & (past > -1e-9));
    const M found = locked & ((seeking & close) | (over & (h < 1e-10)));
    const M turn_back = locked & ~seeking & over & ~found;
    const M go_on = seeking & ~found;
    b.low = pick(turn_back, all(0.0), pick(go_on & ~over, h, b.low));
    b.high = pick(turn_back | (go_on & over), h, b.high);
    b.at_low = pick(turn_back, past_release(c, g, now.t, now.y, now.r),
                    pick(go_on & over, 0.5 * b.at_low, pick(go_on, past, b.at_low)));
    b.at_high = pick(turn_back | (go_on & over), past, pick(go_on, 0.5 * b.at_high, b.at_high));
    seeking = (seeking | turn_back) & ~found;
    locked = locked & ~found;
    if (wide::any(found)) {
      next.r = rates(c, g, end, next.y, locked);
      for (int lane = 0; lane < kLanes; ++lane)
        if ((found & ~done)[lane] != 0)
          out.release_time[first + static_cast<std::size_t>(lane)] = next.t[lane];
    }
    return ~done & ~(turn_back | go_on);
  }

  /// Notes contact and low point where the step from `now` to `next` holds them.
  STRIKEWRIGHT_INLINE_ALWAYS void passes(const Track& next, M advance) {
    const M contact = advance & ~seen_contact & (now.gap < 0.0) & (next.gap >= 0.0);
    const M low = advance & ~seen_low & (now.fall < 0.0) & (next.fall >= 0.0);
    if (!wide::any(contact | low)) return;
    seen_contact = seen_contact | contact;
    seen_low = seen_low | low;
    for (int lane = 0; lane < kLanes; ++lane) {
      if ((contact | low)[lane] == 0) continue;
      const std::size_t i = first + static_cast<std::size_t>(lane);
      const OneHub hub{g.shift[lane], g.rise[lane], g.along[lane], g.up[lane]};
      const Knot from = knot_of(now, lane), to = knot_of(next, lane);
      if (contact[lane] != 0)
        note_contact(c, hub, from, to, now.gap[lane] / (now.gap[lane] - next.gap[lane]), i, out);
      if (low[lane] != 0)
        note_low_point(c, hub, from, to, now.fall[lane] / (now.fall[lane] - next.fall[lane]), i, out);
      if ((seen_contact & seen_low)[lane] != 0) out.arrived[i] = 1;
    }
    done = done | (seen_contact & seen_low);
  }

  STRIKEWRIGHT_INLINE_ALWAYS void run(double limit) {
    begin();
    const int most_steps = static_cast<int>(4.0 * limit / c.step);
    for (int round = 0; round < most_steps && wide::any(~done); ++round) {
      const V h = step();
      Track next = now;
      next.t = now.t + h;
      const Clock end = clock_at(c, g, next.t);
      next.y = stepped(c, g, now.t, now.y, now.r, h, end, locked);
      next.r = rates(c, g, end, next.y, locked);
      const M advance = releases(next, h, end);
      look_at_edge(c, g, next);
      passes(next, advance);
      now = Track{pick(advance, next.t, now.t),
                  kept(advance, next.y, now.y),
                  {pick(advance, next.r.arm, now.r.arm), pick(advance, next.r.club, now.r.club),
                   pick(advance, next.r.pushed, now.r.pushed)},
                  pick(advance, next.gap, now.gap),
                  pick(advance, next.fall, now.fall)};
    }
  }
};

STRIKEWRIGHT_INLINE_ALWAYS V lanes_of(const std::vector<double>& v, std::size_t first) {
  V out{};
  for (int lane = 0; lane < kLanes; ++lane)
    out[lane] = v[std::min(first + static_cast<std::size_t>(lane), v.size() - 1)];
  return out;
}

STRIKEWRIGHT_WIDTHS
void run_all(const Shared& c, const SwingBatch& batch, double limit, SwingBatchEnds& out) {
  const std::size_t n = batch.size();
  for (std::size_t first = 0; first < n; first += kLanes) {
    Group g{lanes_of(batch.torque, first),    lanes_of(batch.release, first), lanes_of(batch.drive, first),
            lanes_of(batch.shift, first),     lanes_of(batch.rise, first),    lanes_of(batch.tilt, first),
            lanes_of(batch.hub_along, first), lanes_of(batch.hub_up, first)};
    g.g = c.gravity * wide::sin_cos(g.g).sin;
    M filler{};
    for (int lane = 0; lane < kLanes; ++lane)
      filler[lane] = first + static_cast<std::size_t>(lane) < n ? 0 : -1;
    GroupRun{.c = c, .g = g, .first = first, .out = out, .done = filler}.run(limit);
  }
}

}  // namespace

void SwingBatch::resize(std::size_t n) {
  for (auto* v : {&torque, &release, &drive, &shift, &rise, &tilt, &hub_along, &hub_up}) v->resize(n);
}

void SwingBatch::set(std::size_t i, const Swing<double>& s) {
  const Flail<double>& f = s.flail;
  torque[i] = f.shoulder.torque;
  release[i] = f.wrist.release.value;
  drive[i] = f.wrist.drive;
  shift[i] = f.hub.shift.size;
  rise[i] = f.hub.rise.size;
  tilt[i] = f.plane_tilt;
  hub_along[i] = s.stance.hub_along;
  hub_up[i] = s.stance.hub_up;
}

void SwingBatchEnds::resize(std::size_t n) {
  for (auto* v :
       {&release_time, &contact_time, &arm, &club, &arm_rate, &club_rate, &edge_speed, &low_along, &low_up})
    v->assign(n, 0.0);
  arrived.assign(n, 0);
}

void swings_of(const SwingBatch& batch, SwingBatchEnds& out, double step) {
  const Flail<double>& f = batch.base;
  ensure(step > 0.0, "a step of the bulk kernel is longer than nothing");
  ensure(f.hub.pushes.empty() && !f.wrist.drive_after_arm && f.wrist.stop,
         "a batch of swings is of the kind it takes");
  out.resize(batch.size());
  if (batch.size() == 0) return;
  const HubMove<double>&s = f.hub.shift, &r = f.hub.rise;
  const Shared shared{.k = lumped(f.arm, f.club),
                      .arm_length = f.arm.length,
                      .club_length = f.club.length,
                      .gravity = f.gravity,
                      .cock = f.start_cock,
                      .start_arm = f.start_arm,
                      .activation = f.shoulder.activation,
                      .shoulder_limit = f.shoulder.speed_limit.value_or(0.0),
                      .shoulder_hill = f.shoulder.hill,
                      .wrist_limit = f.wrist.speed_limit.value_or(0.0),
                      .wrist_hill = f.wrist.hill,
                      .per_activation = f.shoulder.activation > 0.0 ? 1.0 / f.shoulder.activation : 0.0,
                      .shift_start = s.start,
                      .shift_duration = s.duration,
                      .rise_start = r.start,
                      .rise_duration = r.duration,
                      .per_shift = 1.0 / s.duration,
                      .per_rise = 1.0 / r.duration,
                      .edges = {s.start, s.start + s.duration, r.start, r.start + r.duration},
                      .kind = f.wrist.release.kind,
                      .contact = batch.contact,
                      .step = step};
  constexpr double kLimit = 3.0;  // s, as RunOptions::limit
  run_all(shared, batch, kLimit, out);
}

}  // namespace strikewright
