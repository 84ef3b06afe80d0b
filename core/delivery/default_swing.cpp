#include "delivery/default_swing.hpp"

#include <fmt/format.h>

#include <Eigen/Cholesky>

#include "delivery/pose.hpp"

namespace strikewright {
namespace {

/// How far the face is open about the shaft at the top, against contact [rad]: about a right angle
/// (assumption; it moves nothing but the picture of the downswing).
constexpr double kUsualFaceOpening = 80.0 * kDegree;

constexpr int kUnknowns = 5;
constexpr int kResiduals = 6;
using Unknowns = Eigen::Matrix<double, kUnknowns, 1>;
using Slope = Dual<kUnknowns>;

/// Unknowns: log(torque / 100 N m), hub along [m], hub up [m], release arm [rad], drive [10 N m].
template <class T>
Swing<T> swing_at(const Eigen::Matrix<T, kUnknowns, 1>& x, const Pass<double>& aim, const SwingManner& m,
                  const Club& club) {
  using std::exp;
  const auto lever = [](const Lever<double>& l) {
    return Lever<T>{T(l.mass), T(l.com), T(l.length), T(l.inertia_com)};
  };
  const auto move = [](const HubMove<double>& h) { return HubMove<T>{T(h.size), T(h.start), T(h.duration)}; };
  Swing<T> s;
  s.flail.arm = lever(usual_arms());
  s.flail.club = lever(club_lever(club));
  s.flail.plane_tilt = T(aim.plane_tilt);
  s.flail.start_arm = T(m.start_arm);
  s.flail.start_cock = T(m.start_cock);
  s.flail.shoulder = {100.0 * exp(x[0]), m.activation, m.shoulder_limit, m.hill};
  s.flail.wrist.drive = 10.0 * x[4];
  s.flail.wrist.release = {Release<T>::Kind::at_arm, x[3]};
  s.flail.wrist.speed_limit = m.wrist_limit;
  s.flail.wrist.hill = m.hill;
  s.flail.hub.shift = move(m.shift);
  s.flail.hub.rise = move(m.rise);
  s.stance = {.hub_along = x[1],
              .hub_up = x[2],
              .plane_direction = T(aim.plane_direction),
              .lie_offset = T(aim.lie_offset),
              .strike_toe = T(aim.strike_toe),
              .face = {.top = T(aim.face_turn - kUsualFaceOpening),
                       .contact = T(aim.face_turn),
                       .closing_rate = T(aim.closing_rate)}};
  return s;
}

struct Goal {
  const Pass<double>& aim;
  const SwingManner& manner;
  const Club& club;
  const Ball& ball;
  double ball_lift;

  template <class T>
  [[nodiscard]] Result<Eigen::Matrix<T, kResiduals, 1>> residuals(const Eigen::Matrix<T, kUnknowns, 1>& x,
                                                                  double tolerance) const {
    RunOptions options;
    options.pace.relative = tolerance;
    options.pace.absolute = 0.1 * tolerance;
    const auto p = passing_of(swing_at(x, aim, manner, club), club, ball, ball_lift, options);
    if (!p) return unexpected(p.error());
    Eigen::Matrix<T, kResiduals, 1> r;
    r << (p->pass.club_speed - aim.club_speed) / 0.01, (p->pass.low_point - aim.low_point) / 1e-4,
        (p->pass.low_point_depth - aim.low_point_depth) / 1e-4,
        (p->pass.shaft_lean - aim.shaft_lean) / (0.01 * kDegree),
        (x[3] - manner.release_arm) / manner.release_spread,
        (10.0 * x[4] - manner.drive) / manner.drive_spread;
    return r;
  }
};

Unknowns first_guess(const Pass<double>& aim, const SwingManner& m, const Club& club) {
  const double reach = usual_arms().length + club_lever(club).length;
  const double faster = aim.club_speed / 34.0;
  Unknowns x;
  x << std::log(1.8 * faster * faster), aim.low_point - 0.7 * m.shift.size - 0.05,
      reach - 0.7 * m.rise.size - 0.02 + aim.low_point_depth / std::sin(aim.plane_tilt), m.release_arm,
      0.1 * m.drive;
  return x;
}

/// Names the number that is farthest from its aim, when one is too far.
std::optional<Fault> out_of_reach(const Eigen::Matrix<double, kResiduals, 1>& r, const Pass<double>& aim) {
  struct Number {
    const char* name;
    double got, wanted;
    const char* unit;
  };
  const Number numbers[] = {
      {"club_speed", aim.club_speed + 0.01 * r[0], aim.club_speed, "m/s"},
      {"low_point", (aim.low_point + 1e-4 * r[1]) * 1e3, aim.low_point * 1e3, "mm"},
      {"low_point_depth", (aim.low_point_depth + 1e-4 * r[2]) * 1e3, aim.low_point_depth * 1e3, "mm"},
      {"shaft_lean", aim.shaft_lean / kDegree + 0.01 * r[3], aim.shaft_lean / kDegree, "deg"}};
  Eigen::Index worst = 0;
  const double off = r.head<4>().cwiseAbs().maxCoeff(&worst);
  if (off < 5.0) return std::nullopt;  // 0.05 m/s, 0.5 mm, 0.05 deg
  const Number& n = numbers[worst];
  return Fault{fmt::format("swing.{}", n.name), fmt::format("{:.4g} {} at the nearest", n.got, n.unit),
               fmt::format("{:.4g} {}, which this flail does not reach", n.wanted, n.unit)};
}

}  // namespace

Result<Swing<double>> swing_for(const Pass<double>& aim, const SwingManner& manner, const Club& club,
                                const Ball& ball, double ball_lift) {
  const Goal goal{aim, manner, club, ball, ball_lift};
  constexpr double kTolerance = 1e-7;
  Unknowns x = first_guess(aim, manner, club);
  double damping = 1e-3;
  auto now = goal.residuals<double>(x, kTolerance);
  if (!now) return unexpected(now.error());
  for (int round = 0; round < 40; ++round) {
    Eigen::Matrix<Slope, kUnknowns, 1> dual;
    for (int i = 0; i < kUnknowns; ++i) dual[i] = Slope(x[i], i);
    const auto r = goal.residuals<Slope>(dual, kTolerance);
    if (!r) return unexpected(r.error());
    Eigen::Matrix<double, kResiduals, kUnknowns> jacobian;
    for (int k = 0; k < kResiduals; ++k) jacobian.row(k) = (*r)[k].v.transpose();
    const Eigen::Matrix<double, kUnknowns, kUnknowns> square = jacobian.transpose() * jacobian;
    const Unknowns pull = jacobian.transpose() * *now;
    bool better = false;
    double change = 0.0;
    for (int trial = 0; trial < 8 && !better; ++trial) {
      Eigen::Matrix<double, kUnknowns, kUnknowns> damped = square;
      damped.diagonal() *= 1.0 + damping;
      const Unknowns step = damped.ldlt().solve(pull);
      const auto next = goal.residuals<double>(x - step, kTolerance);
      better = next && next->squaredNorm() < now->squaredNorm();
      if (better) {
        change = now->squaredNorm() - next->squaredNorm();
        x -= step;
        now = next;
      }
      damping = better ? std::max(1e-9, 0.1 * damping) : 10.0 * damping;
    }
    // The aim is met and release and drive are about as near their usual values as it allows.
    if (!better || (change < 0.3 && now->head<4>().norm() < 0.3)) break;
  }
  if (auto fault = out_of_reach(*now, aim)) return unexpected(*fault);
  return swing_at<double>(x, aim, manner, club);
}

Pass<double> usual_pass(const Club& club, SwingBand band) {
  const SwingAim a = usual_aim(club, band);
  Pass<double> p{.club_speed = a.club_speed,
                 .plane_direction = 0.0,
                 .plane_tilt = a.plane_tilt,
                 .low_point = a.low_point,
                 .low_point_depth = a.low_point_depth,
                 .shaft_lean = a.shaft_lean,
                 .face_turn = 0.0,
                 .strike_toe = 0.0,
                 .lie_offset = a.lie_offset,
                 .closing_rate = a.closing_rate};
  const auto face = [&](double turn) {
    const Mat3<double> r = pose_of(club.lie, club.lie, turn, in_plane_lean(a.shaft_lean, club.lie), 0.0);
    return azimuth_of<double>(r * Vec3<double>(std::cos(club.loft), 0.0, std::sin(club.loft)));
  };
  p.face_turn = root_between(face, -1.0, 1.0).value_or(0.0);
  return p;
}

double usual_ball_lift(const Club& club) { return club.family == Family::driver ? 0.030 : 0.0; }

Result<Swing<double>> default_swing(const Club& club, SwingBand band) {
  return swing_for(usual_pass(club, band), usual_manner(band), club, Ball{}, usual_ball_lift(club));
}

}  // namespace strikewright
