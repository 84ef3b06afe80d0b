#include "swing/swing.hpp"

namespace strikewright {
namespace {

struct Part {
  double mass, at, inertia;  // kg, m from the wrist down, kg m2 about its own centre of mass
};

Part rod(double mass, double from, double to) {
  const double length = to - from;
  return {mass, 0.5 * (from + to), mass * length * length / 12.0};
}

}  // namespace

Lever<double> club_lever(const Club& club) {
  constexpr double kGripLength = 0.26;
  const double foot = club.length - kWristBelowButt;
  const double edge = foot + club.heel_reach * std::cos(club.lie);
  const double com_height = club.com_up * std::cos(club.loft) - club.com_depth * std::sin(club.loft);
  // In the plane the head turns about the plane's normal: between its target and vertical axes, so about the
  // mean.
  const double head_inertia = club.inertia.z() * std::cos(club.lie) * std::cos(club.lie) +
                              club.inertia.y() * std::sin(club.lie) * std::sin(club.lie);
  const Part parts[] = {rod(club.grip_mass, -kWristBelowButt, kGripLength - kWristBelowButt),
                        rod(club.shaft_mass, -kWristBelowButt, foot),
                        {club.head_mass, edge - com_height * std::sin(club.lie), head_inertia}};
  Lever<double> lever{.length = edge};
  for (const Part& p : parts) {
    lever.mass += p.mass;
    lever.com += p.mass * p.at;
  }
  lever.com /= lever.mass;
  for (const Part& p : parts) {
    const double off = p.at - lever.com;
    lever.inertia_com += p.inertia + p.mass * off * off;
  }
  return lever;
}

Lever<double> usual_arms() { return {.mass = 7.0, .com = 0.31, .length = 0.62, .inertia_com = 0.4773}; }

}  // namespace strikewright
