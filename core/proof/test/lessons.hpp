#pragma once
// Simulated lessons: what is known of them is what was put in.

#include <cmath>

#include "numeric/draws.hpp"
#include "proof/proof.hpp"

namespace strikewright::test {

/// In units of the swing's scatter.
struct Lesson {
  double change = 0.0;    ///< what the exercise did
  double drift = 0.0;     ///< a trend over all the balls that was there anyway
  double phi = 0.0;       ///< autocorrelation from ball to ball
  double reading = 0.0;   ///< sd of the reading of one ball
  double steadier = 1.0;  ///< scatter after / before
  int before = 8, after = 40;
};

/// The whole lesson; `scatter` and `level` in the series' unit.
inline Series lesson_of(const Lesson& l, std::uint64_t seed, std::uint64_t stream, double scatter = 1.0,
                        double level = 0.0) {
  Draws draws(seed, stream);
  Series series;
  double w = draws.normal();
  for (int t = 0; t < l.before + l.after; ++t) {
    if (t > 0) w = l.phi * w + std::sqrt(1.0 - l.phi * l.phi) * draws.normal();
    const bool after = t >= l.before;
    const double value = (after ? l.change + l.steadier * w : w) + l.drift * t / (l.before + l.after - 1.0) +
                         l.reading * draws.normal();
    series.push_back({.value = level + scatter * value,
                      .sd = scatter * l.reading,
                      .phase = after ? Phase::after : Phase::baseline,
                      .day = 1,
                      .ball = t + 1});
  }
  return series;
}

inline Series first(const Series& series, int balls) { return {series.begin(), series.begin() + balls}; }

/// Looks after every ball from the first one "after" on. Number of balls after at which a word was first
/// said; 0 = never.
template <class Said>
int first_said(const Series& series, const ProofOptions& options, const Said& said) {
  Series seen;
  int after = 0;
  for (const Point& p : series) {
    seen.push_back(p);
    if (p.phase != Phase::after) continue;
    ++after;
    if (said(proof_of(seen, options).session)) return after;
  }
  return 0;
}

}  // namespace strikewright::test
