#pragma once
// flight_of for any width of dual number. Most rooms need only flight.hpp: double and Dual<15> are compiled
// once in flight.cpp.

#include <cmath>
#include <type_traits>

#include "flight/path.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace flying {

/// Length of a horizontal vector, with slope 0 at 0.
template <class T>
T level_length(const T& x, const T& y) {
  using std::sqrt;
  const T square = x * x + y * y;
  return plain(square) > 1e-24 ? T(sqrt(square)) : T(0.0);
}

/// The numbers that people read off the end of a path.
template <class T>
Flight<T> read_off(const PathEnd<T>& end, const Vec3<T>& v0, const Vec3<T>& w0) {
  using std::atan2;
  using std::sqrt;
  Flight<T> f;
  f.along = end.p.x;
  f.side = -end.p.y;
  f.carry = level_length(end.p.x, end.p.y);
  const T start = level_length(v0.x(), v0.y());
  f.curve = plain(start) > 0.0 ? T((end.p.x * v0.y() - end.p.y * v0.x()) / start) : f.side;
  f.apex = end.apex;
  f.time = end.time;
  f.v_landing_W = {end.v.x, end.v.y, end.v.z};
  f.w_landing_W = end.spin_left * w0;
  const T level = level_length(end.v.x, end.v.y);
  f.landing_speed = level_length(level, end.v.z);
  f.landing_angle = plain(f.landing_speed) > 0.0 ? T(atan2(-end.v.z, level)) : T(0.0);
  const T square = w0.squaredNorm();
  f.landing_spin = plain(square) > 1e-24 ? T(end.spin_left * sqrt(square)) : T(0.0);
  f.reached = end.reached;
  f.beyond = end.beyond;
  return f;
}

template <class T>
Flight<T> fly(const Vec3<T>& v, const Vec3<T>& w, const AirForces& k, FlightLaw law, double step) {
  const Triple<T> v0{v.x(), v.y(), v.z()};
  const Triple<T> w0{w.x(), w.y(), w.z()};
  switch (law) {
    case FlightLaw::iron:
      return read_off(path_of<IronLaw, T>(v0, w0, k, step), v, w);
    case FlightLaw::played:
      return read_off(path_of<PlayedLaw, T>(v0, w0, k, step), v, w);
    case FlightLaw::naruo:
      break;
  }
  return read_off(path_of<NaruoLaw, T>(v0, w0, k, step), v, w);
}

/// Slopes of one result by the six inputs, turned into slopes by whatever the inputs depend on.
template <int N>
Dual<N> chained(const Dual<6>& y, const Eigen::Matrix<double, 6, N>& inputs) {
  return Dual<N>(y.a, (y.v.transpose() * inputs).transpose());
}

template <int N>
Flight<Dual<N>> fly_chained(const Vec3<Dual<N>>& v, const Vec3<Dual<N>>& w, const AirForces& k, FlightLaw law,
                            double step) {
  Eigen::Matrix<double, 6, N> inputs;
  Vec3<Dual<6>> v6, w6;
  for (int i = 0; i < 3; ++i) {
    inputs.row(i) = v[i].v.transpose();
    inputs.row(i + 3) = w[i].v.transpose();
    v6[i] = Dual<6>(v[i].a, i);
    w6[i] = Dual<6>(w[i].a, i + 3);
  }
  const Flight<Dual<6>> f = fly(v6, w6, k, law, step);
  Flight<Dual<N>> out;
  out.carry = chained(f.carry, inputs);
  out.along = chained(f.along, inputs);
  out.side = chained(f.side, inputs);
  out.curve = chained(f.curve, inputs);
  out.apex = chained(f.apex, inputs);
  out.time = chained(f.time, inputs);
  out.landing_angle = chained(f.landing_angle, inputs);
  out.landing_speed = chained(f.landing_speed, inputs);
  out.landing_spin = chained(f.landing_spin, inputs);
  for (int i = 0; i < 3; ++i) {
    out.v_landing_W[i] = chained(f.v_landing_W[i], inputs);
    out.w_landing_W[i] = chained(f.w_landing_W[i], inputs);
  }
  out.reached = f.reached;
  out.beyond = f.beyond;
  return out;
}

inline Flight<double> fly_any(const Vec3<double>& v, const Vec3<double>& w, const AirForces& k, FlightLaw law,
                              double step) {
  return fly(v, w, k, law, step);
}
template <int N>
Flight<Dual<N>> fly_any(const Vec3<Dual<N>>& v, const Vec3<Dual<N>>& w, const AirForces& k, FlightLaw law,
                        double step) {
  if constexpr (N > 6) {
    return fly_chained(v, w, k, law, step);
  } else {
    return fly(v, w, k, law, step);
  }
}

}  // namespace flying

template <class T>
Flight<T> flight_of(const Launch<T>& launch, const Ball& ball, const Day& day, const FlightOptions& options) {
  for (int i = 0; i < 3; ++i) {
    ensure(std::isfinite(plain(launch.v_WB_W[i])) && std::isfinite(plain(launch.w_WB_W[i])),
           "flight_of: a launch with a number that is not finite");
  }
  return flying::fly_any(launch.v_WB_W, launch.w_WB_W, air_forces(ball, day), day.law, options.step);
}

}  // namespace strikewright
