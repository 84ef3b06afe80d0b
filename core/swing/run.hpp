#pragma once
// The flail set going: phases (wrist held, wrist free), their switches located exactly, and the moments that
// matter.

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "numeric/integrate.hpp"
#include "swing/motion.hpp"

namespace strikewright {

/// The flail at one moment. Slopes, where T carries them, are those of the moment itself: they move with its
/// time.
template <class T>
struct Moment {
  T time{};                                     ///< s
  T arm{}, club{};                              ///< rad
  T arm_rate{}, club_rate{};                    ///< rad/s
  T arm_gain{}, club_gain{};                    ///< rad/s2
  HubMotion<T> hub{};                           ///< relative to where the hub started
  T shoulder_work{}, wrist_work{}, hub_work{};  ///< J since the start
};

/// A point of the club in the plane, relative to where the hub started.
template <class T>
struct PlanePoint {
  Vec2<T> p, v, a;  ///< m, m/s, m/s2
};

/// The point of the club `reach` metres below the wrist; 0 = the hands.
template <class T>
PlanePoint<T> point_at(const Flail<T>& f, const Moment<T>& m, const T& reach) {
  using std::cos;
  using std::sin;
  const Vec2<T> down_arm(sin(m.arm), -cos(m.arm)), along_arm(cos(m.arm), sin(m.arm));
  const Vec2<T> down_club(sin(m.club), -cos(m.club)), along_club(cos(m.club), sin(m.club));
  return {.p = m.hub.p + f.arm.length * down_arm + reach * down_club,
          .v = m.hub.v + f.arm.length * m.arm_rate * along_arm + reach * m.club_rate * along_club,
          .a = m.hub.a + f.arm.length * (m.arm_gain * along_arm - m.arm_rate * m.arm_rate * down_arm) +
               reach * (m.club_gain * along_club - m.club_rate * m.club_rate * down_club)};
}

/// Kinetic and potential energy [J]; the zero of height is the hub's start.
///
///     T = 1/2 M |H'|^2 + H' . (S1 arm' u(arm) + S2 club' u(club)) + 1/2 J1 arm'^2 + 1/2 J2 club'^2 + P
///     cos(cock) arm' club' V = g sin(tilt) [M Y - S1 cos(arm) - S2 cos(club)],  M = both masses, u(q) = (cos
///     q, sin q)
///
/// Law that the tests hold it to: d(T + V)/dt = power of shoulder, wrist and hub.
template <class T>
T energy_of(const Flail<T>& f, const Moment<T>& m) {
  using std::cos;
  using std::sin;
  const Lumped<T> k = lumped(f.arm, f.club);
  const T mass = f.arm.mass + f.club.mass;
  const Vec2<T> lift = k.s1 * m.arm_rate * Vec2<T>(cos(m.arm), sin(m.arm)) +
                       k.s2 * m.club_rate * Vec2<T>(cos(m.club), sin(m.club));
  const T kinetic = 0.5 * mass * m.hub.v.dot(m.hub.v) + m.hub.v.dot(lift) +
                    0.5 * k.j1 * m.arm_rate * m.arm_rate + 0.5 * k.j2 * m.club_rate * m.club_rate +
                    k.p * cos(m.arm - m.club) * m.arm_rate * m.club_rate;
  const T potential =
      f.gravity * sin(f.plane_tilt) * (mass * m.hub.p[1] - k.s1 * cos(m.arm) - k.s2 * cos(m.club));
  return kinetic + potential;
}

/// What a run ends at.
enum class End {
  club_vertical,  ///< the shaft passes straight down the slope (club angle 0)
  contact,  ///< the leading edge is where the face meets the ball AND its free arc's low point is behind it
  at_time
};

struct RunOptions {
  Pace pace;
  End end = End::club_vertical;
  double end_time = 0.0;     ///< s, for at_time
  double limit = 3.0;        ///< s; a swing that is not at its end by then has failed
  double trace_every = 0.0;  ///< s between the samples of the trace, 0 = none
};

/// One sample of the trace.
struct Sample {
  double time, arm, club, arm_rate, club_rate;  ///< s, rad, rad/s
};

template <class T>
struct FlailRun {
  Moment<T> release;    ///< the wrists stop holding the club back; its time is negative when they never do
  Moment<T> contact;    ///< only for End::contact
  Moment<T> low_point;  ///< root of the leading edge's height rate on the free motion; only for End::contact
  Moment<T> end;        ///< club_vertical, at_time: there; contact: the contact
  std::vector<Sample> trace;
  int steps = 0;
};

/// Places in time at which the accelerations are not smooth: edges of hub pushes and moves.
template <class T>
std::vector<double> edges_of(const Hub<T>& hub) {
  std::vector<double> out;
  for (const HubPush<T>& p : hub.pushes) out.insert(out.end(), {p.from, p.to});
  for (const HubMove<T>* m : {&hub.shift, &hub.rise})  // also of size zero: its slopes are not zero
    out.insert(out.end(), {value_of(m->start), value_of(m->start) + value_of(m->duration)});
  std::sort(out.begin(), out.end());
  return out;
}

namespace detail {

/// arm, club, arm rate, club rate, work of shoulder, wrist, hub.
template <class T>
using FlailState = State<T, 7>;

enum Watch : int {
  kLetGo,
  kStopLetsGo,
  kDriveOn,
  kStopAgain,
  kNearBottom,
  kVertical,
  kContact,
  kLowPoint,
  kWatches
};

/// Where the run stands between two switches.
struct Phase {
  bool locked = true, withdrawn = false, released = false, driving = false;
  bool near_bottom = false, vertical = false, contact = false, low_point = false;
};

/// The club is watched for contact and low point only below this angle [rad]: the head also rises at the top.
inline constexpr double kBottomFrom = -1.2;

template <class T, class Contact>
class Runner {
 public:
  Runner(const Flail<T>& flail, const RunOptions& options, const Contact& contact)
      : f_(flail), k_(lumped(flail.arm, flail.club)), o_(options), contact_(contact) {
    using std::sin;
    gravity_ = f_.gravity * sin(f_.plane_tilt);
    y_ << f_.start_arm, T(f_.start_arm - f_.start_cock), T(0.0), T(0.0), T(0.0), T(0.0), T(0.0);
    phase_.locked = f_.wrist.stop;
    phase_.withdrawn = f_.wrist.release.kind == Release<T>::Kind::natural || !f_.wrist.stop;
    phase_.near_bottom = value_of(y_[1]) >= kBottomFrom;
    out_.release.time = T(-1.0);
  }

  Result<FlailRun<T>> run() {
    const double until = o_.end == End::at_time ? o_.end_time : o_.limit;
    std::vector<double> edges = edges_of(f_.hub);
    edges.insert(std::upper_bound(edges.begin(), edges.end(), until), until);
    set_middle(0.0, edges);
    if (!f_.wrist.stop) release_at(T(0.0), y_);
    settle(T(0.0));
    while (t_ < until) {
      const double to = set_middle(t_, edges);
      const Course<T, 7> c = stretch(std::min(to, until));
      out_.steps += c.steps;
      if (c.ending == Ending::out_of_steps || c.ending == Ending::not_finite)
        return unexpected(
            Fault{"swing", "a motion that cannot be computed", "torques and levers of a human swing"});
      t_ = c.t;
      y_ = c.y;
      if (c.ending == Ending::event) switch_at(c);
      if (done()) return std::move(out_);
    }
    if (o_.end != End::at_time)
      return unexpected(Fault{"end", "a club that never gets there",
                              o_.end == End::contact
                                  ? "a swing that passes the ball and its low point within 3 s"
                                  : "a swing whose shaft passes the vertical within 3 s"});
    out_.end = moment(T(t_), y_);
    return std::move(out_);
  }

 private:
  const Flail<T>& f_;
  Lumped<T> k_;
  const RunOptions& o_;
  const Contact& contact_;
  T gravity_{};
  Phase phase_;
  double t_ = 0.0;
  double middle_ = 0.0;  ///< a time inside the present smooth stretch
  double next_sample_ = 0.0;
  FlailState<T> y_;
  FlailRun<T> out_;

  /// Sets the stretch that begins at t and returns its end.
  double set_middle(double t, const std::vector<double>& edges) {
    const auto next = std::upper_bound(edges.begin(), edges.end(), t + 1e-12);
    const double to = next == edges.end() ? o_.limit : *next;
    middle_ = 0.5 * (t + to);
    return to;
  }

  Course<T, 7> stretch(double to) {
    return integrate<T, 7>([this](double t, const FlailState<T>& y) { return rate(T(t), y); }, y_, t_, to,
                           o_.pace, [this](double t, const FlailState<T>& y) { return watch(t, y); },
                           [this](const Step<T, 7>& s) { keep(s); });
  }

  void keep(const Step<T, 7>& s) {
    if (o_.trace_every <= 0.0) return;
    for (; next_sample_ <= s.t0 + s.h; next_sample_ += o_.trace_every) {
      const FlailState<T> y = s.at(next_sample_);
      out_.trace.push_back({next_sample_, value_of(y[0]), value_of(y[1]), value_of(y[2]), value_of(y[3])});
    }
  }

  [[nodiscard]] T wrist_active(const FlailState<T>& y) const {
    const bool on = f_.wrist.drive_after_arm ? phase_.driving : phase_.released;
    return on ? drive_torque(f_.wrist, T(y[3] - y[2])) : T(0.0);
  }

  /// Everything about the motion at one state.
  struct Now {
    HubMotion<T> hub;
    Load<T> load;
    T shoulder{};  ///< N m
    Turning<T> turning;
    T pushed{};  ///< N m that a locked wrist asks for beyond the active torque (> 0: the stop pushes)
  };

  [[nodiscard]] Now now(const T& t, const FlailState<T>& y) const {
    Now n{.hub = hub_at(f_.hub, t, middle_),
          .load = {},
          .shoulder = shoulder_torque(f_.shoulder, t, y[2]),
          .turning = {}};
    n.load = load_of(k_, gravity_, y[0], y[1], n.hub);
    if (!phase_.locked) {
      n.turning = turning_free(k_, n.load, y[2], y[3], n.shoulder, wrist_active(y));
      return n;
    }
    const T both = turning_locked(k_, n.load, n.shoulder);
    n.turning = {.arm = both, .club = both};
    n.pushed = hold_torque(k_, n.load, both, y[2]) - wrist_active(y);
    return n;
  }

  [[nodiscard]] FlailState<T> rate(const T& t, const FlailState<T>& y) const {
    const Now n = now(t, y);
    const Turning<T>& q = n.turning;
    const Vec2<T>& a = n.load.arm_dir;
    const Vec2<T>& c = n.load.club_dir;
    // Force of the trunk on the hub: masses times their accelerations, and their weight.
    const T mass = f_.arm.mass + f_.club.mass;
    const Vec2<T> push = mass * (n.hub.a + Vec2<T>(T(0.0), gravity_)) +
                         k_.s1 * (q.arm * a + y[2] * y[2] * Vec2<T>(-a[1], a[0])) +
                         k_.s2 * (q.club * c + y[3] * y[3] * Vec2<T>(-c[1], c[0]));
    FlailState<T> d;
    d << y[2], y[3], q.arm, q.club, T(n.shoulder * y[2]),
        T(phase_.locked ? T(0.0) : T(wrist_active(y) * (y[3] - y[2]))), T(push.dot(n.hub.v));
    return d;
  }

  [[nodiscard]] std::array<T, kWatches> watch(double t, const FlailState<T>& y) const {
    using std::cos;
    using std::sin;
    std::array<T, kWatches> g;
    g.fill(T(-1.0));
    const auto& w = f_.wrist;
    if (!phase_.withdrawn)
      g[kLetGo] =
          w.release.kind == Release<T>::Kind::at_time ? T(t - w.release.value) : T(y[0] - w.release.value);
    const HubMotion<T> hub = hub_at(f_.hub, T(t), middle_);
    if (phase_.locked && phase_.withdrawn) g[kStopLetsGo] = -now(T(t), y).pushed;
    if (w.drive_after_arm && !phase_.driving) g[kDriveOn] = y[0] - *w.drive_after_arm;
    if (!phase_.locked && w.stop) g[kStopAgain] = y[0] - y[1] - f_.start_cock;
    if (!phase_.near_bottom) {
      g[kNearBottom] = y[1] - kBottomFrom;
      return g;
    }
    if (!phase_.vertical) g[kVertical] = y[1];
    if (o_.end != End::contact) return g;
    if (!phase_.low_point)
      g[kLowPoint] = hub.v[1] + f_.arm.length * y[2] * sin(y[0]) + f_.club.length * y[3] * sin(y[1]);
    if (!phase_.contact) {
      const Vec2<T> edge = hub.p + f_.arm.length * Vec2<T>(sin(y[0]), -cos(y[0])) +
                           f_.club.length * Vec2<T>(sin(y[1]), -cos(y[1]));
      g[kContact] = contact_(edge, y[1]);
    }
    return g;
  }

  [[nodiscard]] Moment<T> moment(const T& when, const FlailState<T>& y) const {
    const Now n = now(when, y);
    return {.time = when,
            .arm = y[0],
            .club = y[1],
            .arm_rate = y[2],
            .club_rate = y[3],
            .arm_gain = n.turning.arm,
            .club_gain = n.turning.club,
            .hub = n.hub,
            .shoulder_work = y[4],
            .wrist_work = y[5],
            .hub_work = y[6]};
  }

  void release_at(const T& when, const FlailState<T>& y) {
    phase_.released = true;
    out_.release = moment(when, y);
  }

  /// The club comes back onto the stop: what both levers carry together goes on as one (inelastic).
  void lock(FlailState<T>& y) {
    using std::cos;
    const T c = k_.p * cos(y[0] - y[1]);
    const T both = ((k_.j1 + c) * y[2] + (k_.j2 + c) * y[3]) / (k_.j1 + k_.j2 + 2.0 * c);
    y[1] = y[0] - f_.start_cock;
    y[2] = both;
    y[3] = both;
    phase_.locked = true;
  }

  /// Acts on the event that ended a stretch. The state moves on under the new law, but the event's time has
  /// slopes of its own: going to it under the old law and back under the new one (saltation) keeps the slopes
  /// right.
  void switch_at(const Course<T, 7>& c) {
    FlailState<T> y = c.y_when();
    act(static_cast<Watch>(c.event), c.when, y);
    y_ = y;
    settle(c.when);
    y_ -= rate(T(t_), y_) * (c.when - T(t_));
  }

  void act(Watch which, const T& when, FlailState<T>& y) {
    switch (which) {
      case kLetGo:
        phase_.withdrawn = true;
        break;
      case kDriveOn:
        phase_.driving = true;
        break;
      case kStopAgain:
        lock(y);
        break;
      case kNearBottom:
        phase_.near_bottom = true;
        break;
      case kStopLetsGo:
        stop_lets_go(when, y);
        break;
      case kVertical:
        reach(phase_.vertical, out_.end, when, y, End::club_vertical);
        break;
      case kContact:
        reach(phase_.contact, out_.contact, when, y, End::contact);
        out_.end = out_.contact;
        break;
      case kLowPoint:
        reach(phase_.low_point, out_.low_point, when, y, End::contact);
        break;
      case kWatches:
        break;
    }
  }

  void reach(bool& flag, Moment<T>& into, const T& when, const FlailState<T>& y, End wanted) {
    flag = true;
    if (o_.end == wanted) into = moment(when, y);
  }

  void stop_lets_go(const T& when, const FlailState<T>& y) {
    const double before = value_of(wrist_active(y));
    if (!phase_.released) release_at(when, y);
    // Braking begins with the release: then the stop still pushes for a while.
    if (value_of(wrist_active(y)) >= before) phase_.locked = false;
  }

  /// Whatever is already due at this moment.
  void settle(const T& when) {
    const auto& w = f_.wrist;
    if (!phase_.withdrawn) {
      const T& now = w.release.kind == Release<T>::Kind::at_time ? when : y_[0];
      phase_.withdrawn = value_of(now) >= value_of(w.release.value);
    }
    if (w.drive_after_arm && value_of(y_[0]) >= value_of(*w.drive_after_arm)) phase_.driving = true;
    for (int round = 0; round < 2 && phase_.locked && phase_.withdrawn; ++round) {
      if (value_of(now(when, y_).pushed) > 0.0) break;
      stop_lets_go(when, y_);
    }
  }

  [[nodiscard]] bool done() const {
    if (o_.end == End::club_vertical) return phase_.vertical;
    return o_.end == End::contact && phase_.contact && phase_.low_point;
  }
};

}  // namespace detail

/// Runs a flail from rest to its end.
///
/// @param contact  (Vec2 edge, club angle) -> m by which the leading edge is past the place where the face
/// meets the ball;
///                 `edge` relative to where the hub started. Only asked for End::contact.
/// @returns a Fault when the flail cannot be (see fault_of) or never gets to its end
template <class T, class Contact>
Result<FlailRun<T>> run_flail(const Flail<T>& flail, const RunOptions& options, const Contact& contact) {
  if (auto fault = fault_of(values_of(flail))) return unexpected(*fault);
  return detail::Runner<T, Contact>(flail, options, contact).run();
}

/// The same for ends that do not ask for a ball.
template <class T>
Result<FlailRun<T>> run_flail(const Flail<T>& flail, const RunOptions& options = {}) {
  ensure(options.end != End::contact, "a run to contact needs to know where contact is");
  return run_flail(flail, options, [](const Vec2<T>&, const T&) { return T(-1.0); });
}

}  // namespace strikewright
