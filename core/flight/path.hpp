#pragma once
// The path through the air: one source for a double, for dual numbers and for many flights side by side.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "flight/flight.hpp"
#include "numeric/lanes.hpp"
#include "quantity/angle.hpp"

namespace strikewright {

/// What stays the same during a flight.
struct AirForces {
  double drag = 0.0;      ///< 1/m, rho A / 2m times the ball's scale
  double lift = 0.0;      ///< -, rho A r / 2m times the ball's scale
  double decay = 0.0;     ///< 1/m, lambda / r
  double radius = 0.0;    ///< m
  double reynolds = 0.0;  ///< s/m, Re = reynolds |u|
  double wind_x = 0.0;    ///< m/s, uniform, or per unit of ln(z/z0)
  double wind_y = 0.0;
  double per_roughness = 0.0;  ///< 1/m
  double wind_floor = 0.0;     ///< m, height of the ground that the wind is counted from
  double target = 0.0;         ///< m
  bool windy = false;
  bool uniform = false;
};
[[nodiscard]] AirForces air_forces(const Ball& ball, const Day& day);

template <class T>
struct Triple {
  T x, y, z;
};

/// One instant of a flight. `spin_left` is the spin as a share of the launch's.
template <class T>
struct Instant {
  Triple<T> p, v, a;  ///< m, m/s, m/s2
  T spin_left;
  T spin_rate;  ///< 1/s
  T s;          ///< spin parameter
};

/// The end of a path.
template <class T>
struct PathEnd {
  Triple<T> p, v;
  T spin_left, time, apex;
  Mask<T> reached, beyond;
};

/// Air flow past one ball: acceleration and spin decay at a velocity and height.
template <class Law, class T>
class Stream {
 public:
  STRIKEWRIGHT_INLINE Stream(const AirForces& k, const Triple<T>& spin) : k_{k}, w_{spin} {
    using std::sqrt;
    const T square = spin.x * spin.x + spin.y * spin.y + spin.z * spin.z;
    const auto still = !(square > 1e-24);
    // |w| has no slope at zero; there its contribution is taken as zero, the middle of its two sides.
    const T size = sqrt(select(still, T(1.0), square));
    rim_ = select(still, T(0.0), size * k.radius);
    axis_ = {select(still, T(0.0), spin.x / size), select(still, T(0.0), spin.y / size),
             select(still, T(0.0), spin.z / size)};
  }

  STRIKEWRIGHT_INLINE void act(Instant<T>& at) const {
    using std::sqrt;
    Triple<T> u = at.v;
    if (k_.windy) take_wind(u, at.p.z);
    // 1e-12 (m/s)^2 keeps the slope of |u| finite at rest and is below rounding above 0.1 m/s.
    const T square = u.x * u.x + u.y * u.y + u.z * u.z + 1e-12;
    const T speed = sqrt(square);
    const T rim = at.spin_left * rim_;
    const T s = rim / speed;
    const T per_s = speed / select(rim < 1e-9, T(1e-9), rim);
    const Coefficients<T> c = Law::at(s, per_s, Law::uses_reynolds ? k_.reynolds * speed : speed);
    const T drag = -k_.drag * (c.drag * speed);
    const T lift = k_.lift * (c.lift_per_s * at.spin_left) * (speed / sqrt(across(u, square)));
    at.a.x = drag * u.x + lift * (w_.y * u.z - w_.z * u.y);
    at.a.y = drag * u.y + lift * (w_.z * u.x - w_.x * u.z);
    at.a.z = drag * u.z + lift * (w_.x * u.y - w_.y * u.x) - kGravity;
    at.spin_rate = -k_.decay * (speed * at.spin_left);
    at.s = s;
  }

  /// Classical fourth-order Runge-Kutta step of h seconds; places follow from the velocities' stages.
  [[nodiscard]] STRIKEWRIGHT_INLINE Instant<T> step(const Instant<T>& a, const Plain<T>& h) const {
    const Plain<T> half = 0.5 * h;
    Instant<T> k2 = a, k3 = a, k4 = a, b;
    k2.v = moved(a.v, half, a.a);
    k2.p.z = a.p.z + half * a.v.z;
    k2.spin_left = a.spin_left + half * a.spin_rate;
    act(k2);
    k3.v = moved(a.v, half, k2.a);
    k3.p.z = a.p.z + half * k2.v.z;
    k3.spin_left = a.spin_left + half * k2.spin_rate;
    act(k3);
    k4.v = moved(a.v, h, k3.a);
    k4.p.z = a.p.z + h * k3.v.z;
    k4.spin_left = a.spin_left + h * k3.spin_rate;
    act(k4);
    const Plain<T> sixth = h * (1.0 / 6.0);
    advance(a.p.x, a.v.x, a.a.x, k2.a.x, k3.a.x, k4.a.x, h, sixth, b.p.x, b.v.x);
    advance(a.p.y, a.v.y, a.a.y, k2.a.y, k3.a.y, k4.a.y, h, sixth, b.p.y, b.v.y);
    advance(a.p.z, a.v.z, a.a.z, k2.a.z, k3.a.z, k4.a.z, h, sixth, b.p.z, b.v.z);
    b.spin_left = a.spin_left + sixth * (a.spin_rate + 2.0 * (k2.spin_rate + k3.spin_rate) + k4.spin_rate);
    act(b);
    return b;
  }

 private:
  STRIKEWRIGHT_INLINE void take_wind(Triple<T>& u, const T& z) const {
    using std::log;
    if (k_.uniform) {
      u.x = u.x - k_.wind_x;
      u.y = u.y - k_.wind_y;
      return;
    }
    // 1/2 ln(1 + (z/z0)^2) is ln(z/z0) but for the last few z0, where it runs smoothly into no wind at the
    // ground.
    const T height = (z - k_.wind_floor) * k_.per_roughness;
    const T logarithm = 0.5 * log(1.0 + height * height);
    u.x = u.x - k_.wind_x * logarithm;
    u.y = u.y - k_.wind_y * logarithm;
  }
  /// Square of the flow across the spin axis. Lift has its full size CL(S) at any angle between axis and
  /// flow, until the ball flies like a rifle bullet, axis within 17 degrees of the flow; there lift fades
  /// linearly with the angle.
  [[nodiscard]] STRIKEWRIGHT_INLINE T across(const Triple<T>& u, const T& square) const {
    const T along = axis_.x * u.x + axis_.y * u.y + axis_.z * u.z;
    const T out = square - along * along;
    const T least = 0.09 * square;
    return select(out < least, least, out);
  }
  STRIKEWRIGHT_INLINE static Triple<T> moved(const Triple<T>& v, const Plain<T>& h, const Triple<T>& a) {
    return {v.x + h * a.x, v.y + h * a.y, v.z + h * a.z};
  }
  STRIKEWRIGHT_INLINE static void advance(const T& p, const T& v, const T& a1, const T& a2, const T& a3,
                                          const T& a4, const Plain<T>& h, const Plain<T>& sixth, T& p_next,
                                          T& v_next) {
    const T middle = a2 + a3;
    p_next = p + h * (v + sixth * (a1 + middle));
    v_next = v + sixth * (a1 + 2.0 * middle + a4);
  }

  const AirForces& k_;
  Triple<T> w_;
  Triple<T> axis_;  ///< unit vector, or zero without spin
  T rim_;           ///< m/s, speed of the ball's rim at launch
};

/// Between two instants h apart: the quintic with both ends' place, velocity and acceleration. `x` runs from
/// 0 to 1.
template <class T>
struct Quintic {
  T c0, c1, c2, c3, c4, c5;
  STRIKEWRIGHT_INLINE Quintic(const T& p0, const T& v0, const T& a0, const T& p1, const T& v1, const T& a1,
                              const Plain<T>& h)
      : c0{p0}, c1{h * v0}, c2{(0.5 * h * h) * a0} {
    const T d = p1 - c0 - c1 - c2;
    const T dv = h * v1 - c1 - 2.0 * c2;
    const T da = (h * h) * a1 - 2.0 * c2;
    c3 = 10.0 * d - 4.0 * dv + 0.5 * da;
    c4 = 7.0 * dv - 15.0 * d - da;
    c5 = 6.0 * d - 3.0 * dv + 0.5 * da;
  }
  [[nodiscard]] STRIKEWRIGHT_INLINE T at(const T& x) const {
    return ((((c5 * x + c4) * x + c3) * x + c2) * x + c1) * x + c0;
  }
  [[nodiscard]] STRIKEWRIGHT_INLINE T slope(const T& x) const {
    return (((5.0 * c5 * x + 4.0 * c4) * x + 3.0 * c3) * x + 2.0 * c2) * x + c1;
  }
  [[nodiscard]] STRIKEWRIGHT_INLINE T bend(const T& x) const {
    return ((20.0 * c5 * x + 12.0 * c4) * x + 6.0 * c3) * x + 2.0 * c2;
  }
  /// The same curve without slopes, for finding roots.
  STRIKEWRIGHT_INLINE explicit Quintic(const T& b0, const T& b1, const T& b2, const T& b3, const T& b4,
                                       const T& b5)
      : c0{b0}, c1{b1}, c2{b2}, c3{b3}, c4{b4}, c5{b5} {}
  [[nodiscard]] STRIKEWRIGHT_INLINE Quintic<Plain<T>> values() const {
    return Quintic<Plain<T>>{plain(c0), plain(c1), plain(c2), plain(c3), plain(c4), plain(c5)};
  }
};

template <class T>
STRIKEWRIGHT_INLINE Quintic<T> height_between(const Instant<T>& a, const Instant<T>& b, const Plain<T>& h) {
  return {a.p.z, a.v.z, a.a.z, b.p.z, b.v.z, b.a.z, h};
}

/// Height of the top between two instants of which the first rises and the second falls.
template <class T>
STRIKEWRIGHT_INLINE T top_between(const Instant<T>& a, const Instant<T>& b, const Plain<T>& h) {
  const Quintic<T> z = height_between(a, b, h);
  const auto c = z.values();
  const Plain<T> fall = plain(a.v.z) - plain(b.v.z);
  Plain<T> x = plain(a.v.z) / select(fall > 1e-12, fall, Plain<T>(1e-12));
  for (int i = 0; i < 3; ++i) x = x - c.slope(x) / c.bend(x);
  // At the top the height's slope along the path is zero: the top's time adds nothing to the slopes of its
  // height.
  return z.at(T(x));
}

template <class T>
STRIKEWRIGHT_INLINE Instant<T> chosen(const Mask<T>& m, const Instant<T>& yes, const Instant<T>& no) {
  const auto three = [&m](const Triple<T>& y, const Triple<T>& n) {
    return Triple<T>{select(m, y.x, n.x), select(m, y.y, n.y), select(m, y.z, n.z)};
  };
  return {three(yes.p, no.p),
          three(yes.v, no.v),
          three(yes.a, no.a),
          select(m, yes.spin_left, no.spin_left),
          select(m, yes.spin_rate, no.spin_rate),
          no.s};
}

/// First step: an eighth of the time that a ball with the launch's vertical acceleration would stay up, so
/// that a short hop has several steps too.
template <class P>
STRIKEWRIGHT_INLINE P first_step(const P& vz, const P& az, double target, double longest) {
  using std::sqrt;
  const P fall = select(az < -1e-3, 0.0 - az, P(1e-3));
  const P rise = select(vz > 0.0, vz, P(0.0));
  const P up =
      0.125 * (vz + sqrt(rise * rise + (vz * vz - rise * rise) + 2.0 * std::max(0.0, -target) * fall)) / fall;
  return select(up > longest, P(longest), select(up < 1e-5, P(1e-5), up));
}

/// Wind by height changes most near the ground: there a step climbs or falls by no more than half the height.
template <class P>
STRIKEWRIGHT_INLINE P shear_step(const P& h, const P& z, const P& vz, const AirForces& k, double longest) {
  if (!k.windy || k.uniform) return h;
  const P height = select(z > k.wind_floor, z - k.wind_floor, P(0.0)) + 2.0 * longest;
  const P rate = select(vz < 0.0, 0.0 - vz, vz) + 0.1;
  const P most = 0.5 * height / rate;
  return select(h > most, most, h);
}

template <class P>
STRIKEWRIGHT_INLINE P next_step(const P& h, const P& z, const P& vz, const AirForces& k, double longest) {
  const P grown = 1.5 * h;
  return shear_step(select(grown > longest, P(longest), grown), z, vz, k, longest);
}

/// The step in which the path meets the landing surface.
template <class T>
struct Meeting {
  Instant<T> before, after;
  Plain<T> h, time, level;
};

/// Lands inside the step: Newton's method from the step's end, where a path that bends down lies below its
/// tangent, so that it cannot overshoot; the last step is taken in T and carries the landing time's slope.
template <class T>
STRIKEWRIGHT_INLINE void land(const Meeting<T>& m, PathEnd<T>& end) {
  const Instant<T>& a = m.before;
  const Instant<T>& b = m.after;
  const Quintic<T> z = height_between(a, b, m.h);
  const auto c = z.values();
  Plain<T> x0 = Plain<T>(1.0);
  for (int i = 0; i < 5; ++i) {
    const Plain<T> slope = c.slope(x0);
    x0 = x0 - (c.at(x0) - m.level) / select(slope < -1e-12, slope, Plain<T>(-1e-12));
    x0 = select(x0 < 0.0, Plain<T>(0.0), select(x0 > 1.0, Plain<T>(1.0), x0));
  }
  const T at = T(x0);
  const T slope = z.slope(at);
  const T x = at - (z.at(at) - m.level) / select(slope < -1e-12, slope, T(-1e-12));
  const Quintic<T> px{a.p.x, a.v.x, a.a.x, b.p.x, b.v.x, b.a.x, m.h};
  const Quintic<T> py{a.p.y, a.v.y, a.a.y, b.p.y, b.v.y, b.a.y, m.h};
  const Plain<T> per_h = 1.0 / m.h;
  end.p = {px.at(x), py.at(x), z.at(x)};
  end.v = {px.slope(x) * per_h, py.slope(x) * per_h, z.slope(x) * per_h};
  const T d = b.spin_left - a.spin_left;
  const T r0 = m.h * a.spin_rate;
  const T r1 = m.h * b.spin_rate;
  end.spin_left = ((((r0 + r1) - 2.0 * d) * x + (3.0 * d - 2.0 * r0 - r1)) * x + r0) * x + a.spin_left;
  end.time = m.time + m.h * x;
}

/// Where the path ended: on the surface where it landed, else at the last instant kept.
template <class T>
STRIKEWRIGHT_INLINE PathEnd<T> settled(const Meeting<T>& m, const Mask<T>& landed, const PathEnd<T>& so_far) {
  PathEnd<T> end = so_far;
  land(m, end);
  const Instant<T>& last = m.before;
  end.p = {select(landed, end.p.x, last.p.x), select(landed, end.p.y, last.p.y),
           select(landed, end.p.z, last.p.z)};
  end.v = {select(landed, end.v.x, last.v.x), select(landed, end.v.y, last.v.y),
           select(landed, end.v.z, last.v.z)};
  end.spin_left = select(landed, end.spin_left, last.spin_left);
  end.time = select(landed, end.time, so_far.time);
  return end;
}

/// The whole path from the origin to the landing surface.
template <class Law, class T>
STRIKEWRIGHT_INLINE PathEnd<T> path_of(const Triple<T>& v, const Triple<T>& w, const AirForces& k,
                                       double longest) {
  using P = Plain<T>;
  constexpr double too_long = 60.0;  // s
  const Stream<Law, T> stream{k, w};
  Instant<T> a{{T(0.0), T(0.0), T(0.0)}, v, {T(0.0), T(0.0), T(0.0)}, T(1.0), T(0.0), T(0.0)};
  stream.act(a);
  PathEnd<T> end{a.p, a.v, T(1.0), T(0.0), T(0.0), Mask<T>{}, Mask<T>{}};
  const P vz = plain(v.z);
  P h = first_step(vz, plain(a.a.z), k.target, longest);
  h = shear_step(h, P(0.0), vz, k, longest);
  // It flies if it rises, if the air lifts it, or if the surface lies below it.
  Mask<T> flying = (vz > 0.0) | ((vz > -1e-12) & (plain(a.a.z) > 0.0)) | (P(k.target) < 0.0);
  end.reached = flying | (P(k.target) < 1e-12);
  Meeting<T> m{a, a, h, P(0.0), P(std::min(k.target, 0.0))};
  P level = select(flying, P(k.target), P(0.0));
  P time = P(0.0);
  end.beyond = (plain(a.s) > Law::highest) | (plain(a.s) < Law::lowest);
  Mask<T> landed{};
  while (any(flying)) {
    const Instant<T> b = stream.step(a, h);
    end.beyond = end.beyond | (flying & ((plain(b.s) > Law::highest) | (plain(b.s) < Law::lowest)));
    const Mask<T> over = flying & (plain(a.v.z) > 0.0) & !(plain(b.v.z) > 0.0);
    Mask<T> from_above = plain(a.p.z) >= level;
    if (any(over)) {
      const T top = top_between(a, b, h);
      end.apex = select(over, top, end.apex);
      const Mask<T> below = over & (plain(top) < level);
      level = select(below, P(0.0), level);
      end.reached = end.reached & !below;
      from_above = from_above | (over & (plain(top) >= level));
    }
    const Mask<T> now = flying & (plain(b.p.z) < level) & !(plain(b.v.z) > 0.0) & from_above;
    if (any(now)) {
      m.before = chosen<T>(now, a, m.before);
      m.after = chosen<T>(now, b, m.after);
      m.h = select(now, h, m.h);
      m.time = select(now, time, m.time);
      m.level = select(now, level, m.level);
      landed = landed | now;
      flying = flying & !now;
    }
    time = time + h;
    const Mask<T> lost = flying & (time > too_long);
    if (any(lost)) {
      end.reached = end.reached & !lost;
      m.before = chosen<T>(lost, b, m.before);
      end.time = select(lost, T(time), end.time);
      flying = flying & !lost;
    }
    a = b;
    h = next_step(h, plain(a.p.z), plain(a.v.z), k, longest);
  }
  return settled(m, landed, end);
}

}  // namespace strikewright
