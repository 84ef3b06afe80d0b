#pragma once
// Many flights at once: arrays in, arrays out.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "flight/flight.hpp"

namespace strikewright {

/// Launches, one array a number: m/s and rad/s in world axes, all of one length.
struct Launches {
  std::vector<double> vx, vy, vz, wx, wy, wz;

  [[nodiscard]] std::size_t size() const { return vx.size(); }
  void reserve(std::size_t count);
  void add(const Vec3<double>& v_WB_W, const Vec3<double>& w_WB_W);
};

/// Flights, one array a number; the same numbers and units as in Flight.
struct Flights {
  std::vector<double> carry, along, side, curve, apex, time, landing_angle, landing_speed, landing_spin;
  std::vector<std::uint8_t> reached, beyond;

  [[nodiscard]] std::size_t size() const { return carry.size(); }
  void resize(std::size_t count);
};

/// The flights of all launches, four side by side in the machine's registers and on all cores.
///
/// The same equations and steps as flight_of; in still air and by the Naruo law the same bits, else the
/// logarithm may differ by 2 units in the last place. The bits do not depend on the number of threads, on the
/// order of the launches or on the width of the registers.
/// @param threads 0 = as many as there are cores
[[nodiscard]] Flights flights_of(const Launches& launches, const Ball& ball, const Day& day,
                                 const FlightOptions& options = {}, unsigned threads = 0);

}  // namespace strikewright
