// A root without errno and vectors of every loop over lanes; neither changes a bit.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC optimize("O3", "no-math-errno")
#endif

#include "flight/flights.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "flight/path.hpp"
#include "numeric/lanes.hpp"
#include "numeric/parallel.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace {

constexpr int kLanes = 4;  // one 256-bit register: wider ones would live in memory
using Many = Lanes<kLanes>;

/// Launches from `at` on; beyond the end the last one again.
Many taken(const std::vector<double>& from, std::size_t at, std::size_t count) {
  double x[kLanes];
  for (int i = 0; i < kLanes; ++i) x[i] = from[std::min(at + static_cast<std::size_t>(i), count - 1)];
  Many::Values v;
  std::memcpy(&v, x, sizeof(v));
  return Many(v);
}

void put(std::vector<double>& to, std::size_t at, int live, const Many& x) {
  for (int i = 0; i < live; ++i) to[at + static_cast<std::size_t>(i)] = x.at(i);
}

STRIKEWRIGHT_INLINE Many length(const Many& x, const Many& y) {
  const Many square = x * x + y * y;
  const LaneMask<kLanes> some = square > Many(1e-24);
  return select(some, sqrt(square), Many(0.0));
}

/// As flying::read_off.
STRIKEWRIGHT_INLINE void store(const PathEnd<Many>& end, const Triple<Many>& v, const Triple<Many>& w,
                               std::size_t at, int live, Flights& out) {
  const Many start = length(v.x, v.y);
  const LaneMask<kLanes> aimed = start > Many(0.0);
  const Many across = end.p.x * v.y - end.p.y * v.x;
  const Many level = length(end.v.x, end.v.y);
  const Many spin = w.x * w.x + w.y * w.y + w.z * w.z;
  put(out.along, at, live, end.p.x);
  put(out.side, at, live, -end.p.y);
  put(out.carry, at, live, length(end.p.x, end.p.y));
  put(out.curve, at, live, select(aimed, across / select(aimed, start, Many(1.0)), -end.p.y));
  put(out.apex, at, live, end.apex);
  put(out.time, at, live, end.time);
  put(out.landing_speed, at, live, length(level, end.v.z));
  put(out.landing_spin, at, live, select(spin > Many(1e-24), end.spin_left * sqrt(spin), Many(0.0)));
  for (int i = 0; i < live; ++i) {
    const std::size_t k = at + static_cast<std::size_t>(i);
    out.landing_angle[k] = out.landing_speed[k] > 0.0 ? std::atan2(-end.v.z.at(i), level.at(i)) : 0.0;
    out.reached[k] = end.reached.at(i) ? 1 : 0;
    out.beyond[k] = end.beyond.at(i) ? 1 : 0;
  }
}

template <class Law>
STRIKEWRIGHT_INLINE void fly_groups(const Launches& from, const AirForces& k, double step, std::size_t begin,
                                    std::size_t end, Flights& out) {
  for (std::size_t at = begin; at < end; at += kLanes) {
    const Triple<Many> v{taken(from.vx, at, end), taken(from.vy, at, end), taken(from.vz, at, end)};
    const Triple<Many> w{taken(from.wx, at, end), taken(from.wy, at, end), taken(from.wz, at, end)};
    const int live = static_cast<int>(std::min<std::size_t>(kLanes, end - at));
    store(path_of<Law, Many>(v, w, k, step), v, w, at, live, out);
  }
}

STRIKEWRIGHT_WIDE void fly_naruo(const Launches& from, const AirForces& k, double step, std::size_t begin,
                                 std::size_t end, Flights& out) {
  fly_groups<NaruoLaw>(from, k, step, begin, end, out);
}
STRIKEWRIGHT_WIDE void fly_iron(const Launches& from, const AirForces& k, double step, std::size_t begin,
                                std::size_t end, Flights& out) {
  fly_groups<IronLaw>(from, k, step, begin, end, out);
}
STRIKEWRIGHT_WIDE void fly_played(const Launches& from, const AirForces& k, double step, std::size_t begin,
                                  std::size_t end, Flights& out) {
  fly_groups<PlayedLaw>(from, k, step, begin, end, out);
}

}  // namespace

void Launches::reserve(std::size_t count) {
  for (auto* one : {&vx, &vy, &vz, &wx, &wy, &wz}) one->reserve(count);
}

void Launches::add(const Vec3<double>& v_WB_W, const Vec3<double>& w_WB_W) {
  vx.push_back(v_WB_W.x());
  vy.push_back(v_WB_W.y());
  vz.push_back(v_WB_W.z());
  wx.push_back(w_WB_W.x());
  wy.push_back(w_WB_W.y());
  wz.push_back(w_WB_W.z());
}

void Flights::resize(std::size_t count) {
  for (auto* one :
       {&carry, &along, &side, &curve, &apex, &time, &landing_angle, &landing_speed, &landing_spin}) {
    one->resize(count);
  }
  reached.resize(count);
  beyond.resize(count);
}

Flights flights_of(const Launches& launches, const Ball& ball, const Day& day, const FlightOptions& options,
                   unsigned threads) {
  const std::size_t count = launches.size();
  for (const auto* one :
       {&launches.vx, &launches.vy, &launches.vz, &launches.wx, &launches.wy, &launches.wz}) {
    ensure(one->size() == count, "flights_of: arrays of different lengths");
    ensure(std::all_of(one->begin(), one->end(), [](double x) { return std::isfinite(x); }),
           "flights_of: a launch with a number that is not finite");
  }
  const AirForces k = air_forces(ball, day);
  Flights out;
  out.resize(count);
  constexpr std::size_t chunk = 512;  // about 0.1 ms of work: far above the cost of handing it out
  const auto fly = day.law == FlightLaw::iron     ? fly_iron
                   : day.law == FlightLaw::played ? fly_played
                                                  : fly_naruo;
  in_parallel(
      count, chunk,
      [&](std::size_t begin, std::size_t end) { fly(launches, k, options.step, begin, end, out); }, threads);
  return out;
}

}  // namespace strikewright
