
#include "numeric/draws.hpp"
#include "numeric/parallel.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {

namespace {

constexpr std::size_t kBlock = 64;  // shots that share a stream of draws

Pass<double> drawn(const Scatter& scatter, Draws& draws) {
  PassVector<double> z;
  for (int j = 0; j < kPassSize; ++j) z[j] = draws.normal();
  return pass_of<double>(vector_of(scatter.centre) + scatter.root * z);
}

void keep(const Shot<double>& s, std::size_t i, Shots& out) {
  out.low_point[i] = s.pass.low_point;
  out.attack[i] = s.delivery.attack;
  out.path[i] = s.delivery.path;
  out.face[i] = s.delivery.face;
  out.strike_up[i] = s.strike.strike_up;
  out.divot_start[i] = s.strike.divot.start;
  out.divot_depth[i] = s.strike.divot.depth;
  out.turf_before[i] = s.strike.turf_before;
  out.ball_speed[i] = s.strike.launch.speed;
  out.start[i] = s.strike.launch.azimuth;
  out.curve[i] = s.flight.curve;
  out.carry[i] = s.flight.carry;
  out.side[i] = s.flight.side;
  out.apex[i] = s.flight.apex;
  out.flew[i] = s.flew ? 1 : 0;
}

}  // namespace

Shots::Shots(std::size_t n) : flew(n) {
  for (auto* v : {&low_point, &attack, &path, &face, &strike_up, &divot_start, &divot_depth, &turf_before,
                  &ball_speed, &start, &curve, &carry, &side, &apex})
    v->resize(n);
}

Shots shots_of(const Scatter& scatter, const Setting& setting, std::size_t n, std::uint64_t seed,
               unsigned threads) {
  Shots out(n);
  const auto fly = [&](std::size_t begin, std::size_t end) {
    Draws draws(seed, begin / kBlock);
    for (std::size_t i = begin; i < end; ++i)
      keep(shot_of(drawn(scatter, draws), setting, true, FlightOptions::fast()), i, out);
  };
  in_parallel(n, kBlock, fly, threads);
  return out;
}

}  // namespace strikewright
