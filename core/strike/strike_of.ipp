// Body of strike_of; included by strike_of.cpp, and by tests that need other scalars.

#include "strike/impulse.hpp"
#include "strike/mark.hpp"
#include "strike/strike_of.hpp"

namespace strikewright {
namespace detail {

/// Arc length [m] of the leading edge when it stands at x = edge_along.
/// r sin b cos(dir) + r (1 - cos b) cos(tilt) sin(dir) = x - low point, solved for b.
template <class T>
T arc_length_at(const Arc<T>& arc, const T& x) {
  using std::asin;
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  const T c = cos(arc.direction);
  const T k = cos(arc.tilt) * sin(arc.direction);
  const T size = sqrt(c * c + k * k);
  T share = ((x - arc.low_point) / arc.radius - k) / size;
  if (value_of(share) > 0.9) share = T(0.9);
  if (value_of(share) < -0.9) share = T(-0.9);
  return arc.radius * (asin(share) + atan2(k, c));
}

/// What is between face and ball, and what that does.
template <class T>
T grass_between(const Soil& soil, const T& section) {
  using std::exp;
  constexpr double kCover = 1e-4;  // m2
  return T(1.0) - (1.0 - soil.grass) * exp(-section * (1.0 / kCover));
}

/// How the face ends: turn of the normal to the right of the face and what is left of the restitution.
template <class T>
struct FaceEnd {
  T turn{}, restitution_left{};
  bool off = false;
};

template <class T>
FaceEnd<T> face_end(const Club& club, const T& toe, const T& up) {
  constexpr double kRun = 0.010;
  const T heel_past = -toe - club.heel_reach;
  const T shank = safe::step(heel_past, kRun);
  T left = 1.0 - 0.5 * shank;
  left *= 1.0 - 0.7 * safe::step(T(toe - club.toe_reach), kRun);
  left *= 1.0 - 0.7 * safe::step(T(up - club.face_height), kRun);
  const bool off =
      value_of(heel_past) > 0.0 || value_of(toe) > club.toe_reach || value_of(up) > club.face_height;
  return {50.0 * kDegree * shank, left, off};
}

/// The head at the ball: slowed and lifted by the turf, its contact where `meet` says.
template <class T>
HeadInRigidMotion<T> head_at_ball(const Delivery<T>& d, const Club& club, const Ball& ball, const Soil& soil,
                                  const Meeting<T>& m, const Strike<T>& so_far, const T& lift_rate) {
  using std::cos;
  using std::sin;
  HeadInRigidMotion<T> h;
  h.mass = club.head_mass;
  h.inertia_W = d.inertia_W;
  h.v_WH_W = so_far.speed_left * d.v_WH_W;
  h.v_WH_W.z() += lift_rate;
  h.w_WH_W = so_far.speed_left * d.w_WH_W;
  T up = m.strike_up;
  if (value_of(up) < 0.0) up = T(0.0);
  const FaceEnd<T> end = face_end(club, d.strike_toe, m.strike_up);
  h.normal_W = m.normal_W;
  if (value_of(end.turn) > 0.0) {
    h.normal_W = cos(end.turn) * m.normal_W + sin(end.turn) * d.toe_W;
    h.normal_W *= 1.0 / safe::length(h.normal_W);
  }
  h.p_HC_W =
      (d.strike_toe - club.com_toe) * d.toe_W + (up - club.com_up) * d.up_W + club.com_depth * d.normal_W;
  const T& g = so_far.grass;
  h.friction = (1.0 - g) * club.friction + g * soil.covered_friction;
  h.tangential_restitution = T(club.tangential_restitution);
  const T closing = h.normal_W.dot(meeting_velocity(h, ball));
  h.restitution = club.restitution0 - club.restitution_slope * closing;
  if (value_of(h.restitution) < 0.0) h.restitution = T(0.0);
  h.restitution *= ball.restitution_scale * (1.0 - soil.cushion * g) * end.restitution_left;
  return h;
}

/// Share of the impulse that is left when the leading edge passes over the ball: 1 on it, 0 from 2 mm over
/// it.
template <class T>
T share_of_miss(const Delivery<T>& d, const Ball& ball, double lift, const Meeting<T>& m) {
  if (!m.missed) return T(1.0);
  using std::sqrt;
  const T amplitude = sqrt(d.normal_W.z() * d.normal_W.z() + d.up_W.z() * d.up_W.z());
  const T over = m.edge_height + d.strike_toe * d.toe_W.z() - (lift + d.ball_sits + ball.radius) -
                 0.98 * ball.radius * amplitude;
  return 1.0 - safe::step(over, 0.002);
}

/// Ball struck: fills the launch and the head's velocity after it.
template <class T>
void strike_ball(const HeadInRigidMotion<T>& head, const Ball& ball, const T& share, Strike<T>& out) {
  Impact<T> impact = impact_of(head, ball);
  impact.ball.v_WB_W *= share;
  impact.ball.w_WB_W *= share;
  out.v_WH_after_W = head.v_WH_W - share * (head.v_WH_W - impact.v_WH_W);
  out.launch = launch_of(impact.ball);
  out.sliding = impact.regime == Regime::slide;
}

/// Turns the mark's arc lengths into what lies on the ground.
template <class T>
Divot<T> divot_of(const Delivery<T>& d, const TurfSetting<T>& t, const MarkOnArc<T>& m, const T& kick) {
  using std::atan2;
  using std::cos;
  using std::sin;
  const auto along = [&](const T& s) { return edge_at(d.arc, T(s / d.arc.radius), T(0.0)).x; };
  Divot<T> out;
  out.start = along(m.start);
  out.end = along(m.end);
  out.deepest_at = along(m.deepest);
  out.depth = m.depth;
  if (!t.soil.cuts) {
    out.depth = -safe::positive_part(T(-m.depth), t.soil.unevenness);
    out.start = out.end = out.deepest_at;
  }
  out.any = t.soil.cuts && value_of(m.depth) > 0.0;
  // Where the free arc points at the middle of the mark, and how far the ball turned the head aside.
  const T middle = 0.5 * (m.start + m.end) / d.arc.radius;
  out.direction = d.arc.direction - atan2(T(sin(middle) * cos(d.arc.tilt)), T(cos(middle))) + kick;
  // The blade's slope there: it goes on turning with the club.
  const T slope = d.toe_W.z() + (d.w_WH_W.x() * d.toe_W.y() - d.w_WH_W.y() * d.toe_W.x()) *
                                    (m.deepest - t.at_ball) / safe::length(d.v_WH_W);
  const T drop = -0.5 * t.blade * slope;
  out.toe_depth = safe::positive_part(T(out.depth + drop), t.soil.unevenness) -
                  safe::positive_part(T(out.depth - drop), t.soil.unevenness);
  return out;
}

/// Share of the mark that lies beyond the ball, times the turn [rad] that the ball gave the head's path.
template <class T>
T sideways_kick(const Vec3<T>& before, const Vec3<T>& after, const MarkOnArc<T>& m, const T& at_ball) {
  const T turn = safe::angle(T(-after.y()), after.x()) - safe::angle(T(-before.y()), before.x());
  const T length = m.end - m.start;
  if (value_of(m.start) >= value_of(at_ball)) return turn;
  if (value_of(m.end) <= value_of(at_ball)) return T(0.0);
  return turn * (m.end - at_ball) / length;
}

/// The head's way through turf, ball and turf.
template <class T>
struct Course {
  TurfSetting<T> turf;
  TurfPath<T> path;
  TurfState<T> state;
  T at_ball{};  ///< m, arc length at free contact
  T speed{};    ///< m/s, before the turf takes any
};

/// Up to the ball: what the turf takes of the speed and lays on the face.
template <class T>
void before_ball(Course<T>& c, Strike<T>& out) {
  const T slowness = 1.0 / c.speed;
  c.state.slowness = slowness;
  const T entry = -half_chord(c.turf, T(0.0));
  c.path.has_before = value_of(entry) < value_of(c.at_ball);
  if (c.path.has_before) c.state = through_turf(c.turf, entry, c.at_ball, c.state, c.path.before);
  out.speed_left = slowness / c.state.slowness;
  out.turf_before = c.state.section;
  out.grass = grass_between(c.turf.soil, out.turf_before);
}

/// From the ball on, at the speed the ball left and on the slope by which it turned the head off its arc.
/// @param head_v_W [m/s] the head just before the ball
template <class T>
void after_ball(Course<T>& c, const Delivery<T>& d, const Vec3<T>& head_v_W, Strike<T>& out) {
  using std::sqrt;
  const T per_speed = 1.0 / c.speed;
  const Vec3<T> heading = per_speed * d.v_WH_W;
  const T ahead = heading.dot(out.v_WH_after_W);
  const T ahead2 = value_of(ahead) > 0.0 ? T(ahead * ahead) : T(0.0);
  const T along = sqrt(ahead2 + 0.01);  // 0.1 m/s: a head that the ball stopped still has a direction
  const Vec3<T> turned = out.v_WH_after_W - head_v_W;
  const T rise = c.state.slope * out.speed_left * c.speed + turned.z() - heading.dot(turned) * heading.z();
  c.state.slope = rise / along;
  const T slowness = 1.0 / along;
  c.state.slowness = slowness;
  const T shaft_time = kShaftTime * d.shaft_factor;
  const T kick_depth = safe::positive_part(T(-0.37 * shaft_time * rise), 1e-4);
  T exit = half_chord(c.turf, T(kick_depth + 0.003));
  constexpr double kSettled = 0.3;  // m: a head that takes longer to come back is out of the turf by then
  T settles = 4.0 * shaft_time * along;
  if (value_of(settles) > kSettled) settles = T(kSettled);
  const T settled = c.at_ball + settles;
  if (value_of(settled) > value_of(exit)) exit = settled;
  c.state = through_turf(c.turf, c.at_ball, exit, c.state, c.path.after);
  const T kept = slowness / c.state.slowness;
  out.energy_lost =
      1.0 - out.speed_left * out.speed_left + ahead2 * per_speed * per_speed * (1.0 - kept * kept);
}

}  // namespace detail

template <class T>
Strike<T> strike_of(const Delivery<T>& d, const Club& club, const Ball& ball, const Ground& ground,
                    bool with_ball) {
  const Soil soil = soil_of(ground.surface);
  const double ball_lift = ball_lift_on(ground.surface, club.family);
  detail::Course<T> course;
  course.speed = safe::length(d.v_WH_W);
  course.at_ball = detail::arc_length_at(d.arc, d.edge_along);
  course.turf = turf_setting(d, club, soil, T(ground.strength * d.turf_factor), course.at_ball);
  Strike<T> out;
  detail::before_ball(course, out);

  const Meeting<T> m = meet(d, club, ball, ball_lift, course.state.lift);
  const T lift_rate = course.state.slope * out.speed_left * course.speed;
  const HeadInRigidMotion<T> head = detail::head_at_ball(d, club, ball, soil, m, out, lift_rate);
  out.attack_at_ball = elevation_of(head.v_WH_W);
  out.strike_toe = d.strike_toe;
  out.strike_up = m.strike_up;
  out.edge_height = m.edge_height;
  out.missed = m.missed;
  out.bladed = m.bladed;
  out.off_face = detail::face_end(club, d.strike_toe, m.strike_up).off;
  out.v_WH_after_W = head.v_WH_W;
  out.launch = launch_of(BallMotion<T>{});
  if (with_ball) detail::strike_ball(head, ball, detail::share_of_miss(d, ball, ball_lift, m), out);

  detail::after_ball(course, d, head.v_WH_W, out);
  const MarkOnArc<T> mark = mark_of(course.path, soil.unevenness);
  const T kick = detail::sideways_kick(head.v_WH_W, out.v_WH_after_W, mark, course.at_ball);
  out.divot = detail::divot_of(d, course.turf, mark, kick);
  return out;
}

}  // namespace strikewright
