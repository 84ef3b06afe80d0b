#pragma once
// A flail in Simbody, a general-purpose multibody library (Sherman, Seth & Delp, Simbody: multibody dynamics
// for biomedical research, Procedia IUTAM 2 (2011) 241-261). Its headers compile as C++17 only, so nothing of
// ours is included here.

namespace multibody {

struct Flail {
  double arm_mass, arm_com, arm_length, arm_inertia;
  double club_mass, club_com, club_inertia;
  double tilt, gravity;                // rad, m/s2
  double arm, club;                    // rad, start, at rest
  double shoulder, wrist;              // N m
  double hub_along, hub_up, hub_rate;  // hub at (A sin wt, B sin^2 wt)
};

struct State {
  double arm, club, arm_rate, club_rate;
};

/// Integrated by the library's own Runge-Kutta-Merson at the given accuracy.
State after(const Flail& flail, double time, double accuracy);

}  // namespace multibody
