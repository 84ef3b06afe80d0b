#include "traced_world_swing.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

namespace traced_world {
namespace {

using strikewright::azimuth_of;
using strikewright::elevation_of;
using strikewright::turn_about;

constexpr double kHandsDown = 0.10;    // m from the butt
constexpr double kEdgeAhead = 0.0035;  // m, leading edge ahead of the shaft's axis
constexpr double kHosel = 0.007;       // m, shaft's axis beyond the heel end of the face
constexpr double kBendAt = 0.30;       // m up the shaft: where a bent shaft's tip seems to pivot
constexpr double kTravelAt = 0.15, kTravelIn = 0.03;  // s at pace 1: hub's way to the target
constexpr double kRiseAt = 0.26, kRiseIn = 0.03;      // s at pace 1: hub's way up
constexpr double kImpactAbout = 0.277;                // s at pace 1

double sigmoid(double x) { return 1.0 / (1.0 + std::exp(-x)); }
double softplus(double x) { return x > 30.0 ? x : std::log1p(std::exp(x)); }

Vec along(double direction) { return {std::cos(direction), -std::sin(direction), 0.0}; }
/// Up the slope of a plane, toward the golfer.
Vec slope(double direction, double tilt) {
  return {std::cos(tilt) * std::sin(direction), std::cos(tilt) * std::cos(direction), std::sin(tilt)};
}

template <class F>
double bisected(const F& f, double low, double high) {
  const bool low_negative = f(low) < 0.0;
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    ((f(middle) < 0.0) == low_negative ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

Trace::Trace(const Club& club, const Style& style, const Setup& setup, double side, double step)
    : club_{club}, style_{style}, setup_{setup}, side_{side}, step_{step} {
  contact_ = found_contact();
  low_ = found_low();
}

double Trace::arm_at(double u) const {
  const double rise = style_.arm_rise;
  return style_.arm_top + style_.arm_speed * (u - rise * (1.0 - std::exp(-u / rise))) -
         style_.arm_yields * style_.arm_speed * style_.unhinge *
             softplus((u - setup_.release) / style_.unhinge);
}

double Trace::cock_at(double u) const {
  return style_.cock + (style_.past - style_.cock) * sigmoid((u - setup_.release) / style_.unhinge);
}

Vec Trace::hub_at(double u) const {
  const double at_impact = sigmoid((kImpactAbout - kRiseAt) / kRiseIn);
  return {setup_.hub_x + style_.travel * (sigmoid((u - kTravelAt) / kTravelIn) - 1.0), setup_.hub_y,
          setup_.hub_z + style_.rise * (sigmoid((u - kRiseAt) / kRiseIn) - at_impact)};
}

Pose Trace::at(double time) const {
  const double u = setup_.pace * time;
  const double arm = arm_at(u), club = arm - cock_at(u);
  const Vec forward = along(setup_.direction);
  const double tilt = club_.lie + style_.shaft_plane;
  const Vec arm_slope = slope(setup_.direction, tilt + style_.arm_plane);
  const Vec club_slope = slope(setup_.direction, tilt);
  Pose p;
  p.hands = hub_at(u) + style_.arm * (std::sin(arm) * forward - std::cos(arm) * arm_slope);
  p.shaft = -std::sin(club) * forward + std::cos(club) * club_slope;
  const Vec across = std::cos(club) * forward + std::sin(club) * club_slope;
  // The club as soled at address, its shaft laid into the plane, then rolled.
  const Vec x = Vec::UnitX(), axis{0.0, std::cos(club_.lie), std::sin(club_.lie)};
  Mat from, to;
  from << x, axis, x.cross(axis);
  to << across, p.shaft, across.cross(p.shaft);
  const double rolled =
      setup_.roll +
      style_.roll_range *
          (sigmoid((u - kImpactAbout - style_.roll_follows * (setup_.release - Setup{}.release)) /
                   style_.roll_time) -
           0.5);
  const Mat laid = turn_about(p.shaft, rolled) * to * from.transpose();
  const Mat bent = turn_about(x, style_.droop) * turn_about(Vec(Vec::UnitY()), -style_.bend);
  const Vec foot{-kEdgeAhead, club_.heel_reach + kHosel, 0.0};
  const Vec pivot = foot + kBendAt * axis, grip = foot + (club_.length - kHandsDown) * axis;
  p.edge = p.hands + laid * (pivot - bent * pivot - grip);
  const Mat head = laid * bent;
  p.normal = head * Vec{std::cos(club_.loft), 0.0, std::sin(club_.loft)};
  p.up = head * Vec{-std::sin(club_.loft), 0.0, std::cos(club_.loft)};
  p.toe = head * Vec{0.0, -1.0, 0.0};
  for (Vec* v : {&p.edge, &p.normal, &p.up, &p.toe, &p.shaft, &p.hands}) v->y() *= side_;
  return p;
}

Vec Trace::velocity(double time, double toe, double up, double behind) const {
  const auto place = [&](double t) {
    const Pose p = at(t);
    return Vec(p.edge + toe * p.toe + up * p.up - behind * p.normal);
  };
  return (place(time + step_) - place(time - step_)) / (2.0 * step_);
}

double Trace::gap(double time) const {
  const Pose p = at(time);
  return (Vec{0.0, 0.0, kBallRadius + kBallLift} - p.edge).dot(p.normal) - kBallRadius;
}

double Trace::found_contact() const {
  constexpr double kLook = 2.5e-4;  // s
  double t = kImpactAbout / setup_.pace - 0.035;
  const double last = t + 0.10;
  while (t < last && (at(t).edge.x() < -0.30 || gap(t) > 0.0)) t += kLook;
  return bisected([&](double s) { return gap(s); }, t - kLook, t);
}

double Trace::found_low() const {
  constexpr double kAround = 0.025;  // s
  return bisected([&](double t) { return velocity(t, 0.0, 0.0, 0.0).z(); }, contact_ - kAround,
                  contact_ + kAround);
}

Delivered Trace::delivered() const {
  const Pose p = at(contact_), lowest = at(low_);
  const Vec v = velocity(contact_, club_.com_toe, club_.com_up, club_.com_depth);
  const Vec touch = Vec{0.0, 0.0, kBallRadius + kBallLift} - kBallRadius * p.normal - p.edge;
  Delivered d;
  d.low_point = lowest.edge.x();
  d.low_depth = lowest.edge.z();
  d.edge_height = p.edge.z();
  d.attack = elevation_of(v);
  d.path = side_ * azimuth_of(v);
  d.face = side_ * azimuth_of(p.normal);
  d.loft = elevation_of(p.normal);
  d.lie = std::asin(p.toe.z());
  d.lean = std::atan2(p.shaft.x(), p.shaft.z());
  d.speed = v.norm();
  d.direction = side_ * azimuth_of(velocity(low_, club_.com_toe, club_.com_up, club_.com_depth));
  d.handle_lead = p.hands.x();
  d.toe = touch.dot(p.toe);
  d.up = touch.dot(p.up);
  return d;
}

Setup shifted(const Setup& setup, const Style& style, const Causes& causes) {
  const double weight = 0.020 * causes[0], turned = 2.0 * kDegree * causes[3];
  Setup s = setup;
  s.hub_z += 0.005 * causes[2] + style.tilts_up * weight;
  s.release += setup.pace * 0.010 * causes[1];
  s.direction += turned + style.tilts_right * weight;
  s.roll += 2.0 * kDegree * causes[4];
  // The stance's share of the turn takes the hub about the ball.
  const double aimed = style.aimed * turned, x = s.hub_x + weight;
  s.hub_x = std::cos(aimed) * x + std::sin(aimed) * setup.hub_y;
  s.hub_y = std::cos(aimed) * setup.hub_y - std::sin(aimed) * x;
  return s;
}

Solved solved(const Club& club, const Style& style, const Usual& usual) {
  constexpr int kUnknowns = 7;
  using Seven = Eigen::Matrix<double, kUnknowns, 1>;
  const auto setup_of = [](const Seven& x) { return Setup{x[0], x[1], x[2], x[3], x[4], x[5], x[6]}; };
  const auto off = [&](const Seven& x) {
    const Delivered d = Trace(club, style, setup_of(x)).delivered();
    return Seven{d.speed - usual.speed,
                 d.low_point - usual.low_point,
                 d.low_depth - usual.low_depth,
                 d.lean - usual.lean,
                 d.direction - usual.direction,
                 d.face - usual.face,
                 d.toe};
  };
  const Setup start;
  const double reach = style.arm + club.length - 0.08, tilt = club.lie + style.shaft_plane;
  Seven x{start.pace,      start.release, start.hub_x, reach * std::cos(tilt) - 0.1, reach * std::sin(tilt),
          start.direction, start.roll};
  const Seven nudge{1e-4, 1e-5, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4};
  const Seven most{0.05, 0.006, 0.03, 0.05, 0.05, 0.05, 0.10};
  Seven f = off(x);
  for (int turn = 0; turn < 60 && f.cwiseAbs().maxCoeff() > 1e-9; ++turn) {
    Eigen::Matrix<double, kUnknowns, kUnknowns> slopes;
    for (int k = 0; k < kUnknowns; ++k) {
      Seven moved = x;
      moved[k] += nudge[k];
      slopes.col(k) = (off(moved) - f) / nudge[k];
    }
    const Seven step = slopes.partialPivLu().solve(-f);
    x += step * std::min(1.0, 1.0 / step.cwiseQuotient(most).cwiseAbs().maxCoeff());
    f = off(x);
  }
  return {setup_of(x), f.cwiseAbs().maxCoeff()};
}

}  // namespace traced_world
