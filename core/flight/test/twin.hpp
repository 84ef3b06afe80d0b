#pragma once
// A second road to the same flight: plain equations written out once more, integrated by GSL with error
// control, the landing found by bisection on the integration itself. It shares no line with flight/path.hpp.

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include <array>
#include <cmath>
#include <numbers>
#include <string>

namespace strikewright::test {

struct TwinSetup {
  std::string law = "N04";
  double density = 1.22552;
  double viscosity = 1.7894e-5;
  double decay_per_density = 2.0e-5 / 1.2;          ///< lambda = this times the density
  double wind_along = 0.0, wind_right = 0.0;        ///< m/s at 10 m
  double roughness = 0.0;                           ///< m, 0 = uniform wind
  double spin_x = 0.0, spin_y = 0.0, spin_z = 0.0;  ///< rad/s
  double ground = 0.0;                              ///< m
};

inline void twin_coefficients(const TwinSetup& s, double x, double re, double& cd, double& cl) {
  if (s.law == "N04") {
    const double h = std::fmin(x, 1.13);
    cd = 0.7510 * std::pow(h, 4) - 1.760 * std::pow(h, 3) + 1.098 * h * h + 0.2148 * h + 0.2049;
    cl = -0.2158 * std::pow(h, 4) + 1.006 * std::pow(h, 3) - 1.644 * h * h + 1.250 * h + 0.0616;
    if (x < 0.03) cl = x / 0.03 * 0.097646;
  } else if (s.law == "UR06") {
    const double h = std::fmin(x, 1.8);
    const double lr = std::log(std::fmin(std::fmax(re / 1e5, 0.2), 2.0));
    cd = 0.06639 + 0.3963 * h * h - 0.6312 * h * std::log(h);
    cl = std::fmax(0.0, 0.4221 + 0.1134 * std::log(h) + 0.03225 * std::pow(h, 2.5) - 0.1208 * lr * lr);
  } else {
    const double h = std::fmin(x, 0.75);
    cd = 0.1304 + 0.9287 * h - 0.8259 * h * h;
    cl = 0.0504 + 1.2031 * h - 1.1490 * h * h;
  }
}

/// y = x, y, z, vx, vy, vz, spin share.
inline int twin_rates(double, const double y[], double dy[], void* data) {
  const TwinSetup& s = *static_cast<const TwinSetup*>(data);
  constexpr double mass = 0.04593, radius = 0.021335, g = 9.80665;
  double share = 1.0;
  if (s.roughness > 0.0) {
    const double height = y[2] - std::fmin(0.0, s.ground);
    share = height > s.roughness ? std::log(height / s.roughness) / std::log(10.0 / s.roughness) : 0.0;
  }
  const double ux = y[3] - s.wind_along * share, uy = y[4] + s.wind_right * share, uz = y[5];
  const double u = std::sqrt(ux * ux + uy * uy + uz * uz);
  const double w = std::sqrt(s.spin_x * s.spin_x + s.spin_y * s.spin_y + s.spin_z * s.spin_z);
  double cd = 0.0, cl = 0.0;
  twin_coefficients(s, y[6] * w * radius / u, u * 2.0 * radius * s.density / s.viscosity, cd, cl);
  const double q = 0.5 * s.density * std::numbers::pi * radius * radius * u * u / mass;
  double lx = s.spin_y * uz - s.spin_z * uy, ly = s.spin_z * ux - s.spin_x * uz,
         lz = s.spin_x * uy - s.spin_y * ux;
  const double l = std::sqrt(lx * lx + ly * ly + lz * lz);
  dy[0] = y[3];
  dy[1] = y[4];
  dy[2] = y[5];
  dy[3] = q * (-cd * ux / u + cl * lx / l);
  dy[4] = q * (-cd * uy / u + cl * ly / l);
  dy[5] = q * (-cd * uz / u + cl * lz / l) - g;
  dy[6] = -s.decay_per_density * s.density * u / radius * y[6];
  return GSL_SUCCESS;
}

struct TwinFlight {
  double along = 0.0, right = 0.0, apex = 0.0, time = 0.0, speed = 0.0, angle = 0.0, spin_left = 0.0;
};

/// Tolerance 1e-11 a step; the ball must rise from the start and come down.
inline TwinFlight twin_flight(TwinSetup s, double vx, double vy, double vz) {
  gsl_odeiv2_system system{twin_rates, nullptr, 7, &s};
  gsl_odeiv2_driver* d = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-3, 1e-11, 1e-11);
  std::array<double, 7> y{0.0, 0.0, 0.0, vx, vy, vz, 1.0};
  double t = 0.0;
  TwinFlight out;
  // Steps of 10 ms up to the first below the ground, then halving: 50 halvings leave 1e-17 s.
  double step = 0.01;
  for (int halvings = 0; halvings < 50;) {
    const std::array<double, 7> kept = y;
    const double t_kept = t;
    gsl_odeiv2_driver_reset_hstart(d, step);
    gsl_odeiv2_driver_apply(d, &t, t + step, y.data());
    if (y[5] <= 0.0 && y[2] < s.ground) {
      y = kept;
      t = t_kept;
      step *= 0.5;
      ++halvings;
    } else if (halvings > 0) {
      step *= 0.5;
      ++halvings;
    }
    // Top: the height gained since the last instant is below g dt^2 / 8 = 1.2e-4 m; it is added to first
    // order.
    if (y[5] > 0.0) out.apex = y[2] + 0.5 * y[5] * y[5] / 9.80665;
  }
  gsl_odeiv2_driver_free(d);
  out.along = y[0];
  out.right = -y[1];
  out.time = t;
  out.speed = std::sqrt(y[3] * y[3] + y[4] * y[4] + y[5] * y[5]);
  out.angle = std::atan2(-y[5], std::hypot(y[3], y[4]));
  out.spin_left = y[6];
  return out;
}

}  // namespace strikewright::test
