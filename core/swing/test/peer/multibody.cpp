#include "multibody.hpp"

#include <Simbody.h>

#include <cmath>

namespace multibody {

State after(const Flail& f, double time, double accuracy) {
  using namespace SimTK;
  MultibodySystem system;
  SimbodyMatterSubsystem matter(system);
  GeneralForceSubsystem forces(system);
  Force::UniformGravity(forces, matter, SimTK::Vec3(0, 0, -f.gravity));

  // Ground axes to plane axes: along, up the slope, normal. Two carriers move the hub, two pins turn about
  // the normal.
  const SimTK::Rotation plane(f.tilt, XAxis);
  const SimTK::Rotation quarter(Pi / 2, ZAxis);
  const Body::Rigid carrier(MassProperties(1, SimTK::Vec3(0), Inertia(1)));
  MobilizedBody::Slider along(matter.Ground(), Transform(plane), carrier, Transform());
  MobilizedBody::Slider up(along, Transform(quarter), carrier, Transform(quarter));
  Motion::Sinusoid(along, Motion::Position, f.hub_along, f.hub_rate, 0);
  // B sin^2 wt = B/2 + B/2 sin(2 wt - pi/2); the constant moves nothing.
  Motion::Sinusoid(up, Motion::Position, 0.5 * f.hub_up, 2 * f.hub_rate, -Pi / 2);

  const auto lever = [](double mass, double com, double inertia) {
    const double about_end = inertia + mass * com * com;
    return Body::Rigid(
        MassProperties(mass, SimTK::Vec3(0, -com, 0), Inertia(about_end, 1e-3 * inertia, about_end)));
  };
  MobilizedBody::Pin shoulder(up, Transform(), lever(f.arm_mass, f.arm_com, f.arm_inertia), Transform());
  MobilizedBody::Pin wrist(shoulder, Transform(SimTK::Vec3(0, -f.arm_length, 0)),
                           lever(f.club_mass, f.club_com, f.club_inertia), Transform());
  Force::MobilityConstantForce(forces, shoulder, 0, f.shoulder);
  Force::MobilityConstantForce(forces, wrist, 0, f.wrist);

  SimTK::State state = system.realizeTopology();
  shoulder.setOneQ(state, 0, f.arm);
  wrist.setOneQ(state, 0, f.club - f.arm);
  RungeKuttaMersonIntegrator integrator(system);
  integrator.setAccuracy(accuracy);
  TimeStepper stepper(system, integrator);
  stepper.initialize(state);
  stepper.stepTo(time);
  const SimTK::State& end = stepper.getState();
  const double q1 = shoulder.getOneQ(end, 0), q2 = wrist.getOneQ(end, 0);
  const double u1 = shoulder.getOneU(end, 0), u2 = wrist.getOneU(end, 0);
  return {q1, q1 + q2, u1, u1 + u2};
}

}  // namespace multibody
