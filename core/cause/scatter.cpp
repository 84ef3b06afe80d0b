#include "cause/scatter.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "numeric/parallel.hpp"
#include "numeric/quasi.hpp"
#include "reading/slopes.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {
namespace {

template <class T>
using Outcomes = std::array<T, kOutcomes>;

/// The causes, and everything else as the last.
constexpr std::size_t kGroups = kCauses + 1;
constexpr std::size_t kRest = kCauses;
template <class T>
using PerGroup = std::array<T, kGroups>;

std::size_t group_of(int coordinate) {
  for (std::size_t k = 0; k < kRest; ++k)
    if (place_of(static_cast<Cause>(k)) == coordinate) return k;
  return kRest;
}

template <class T>
struct Seen {
  Outcomes<T> values;
  bool flew = false;
};

template <class T>
Seen<T> seen_in(const Shot<T>& shot) {
  if (!shot.flew) return {{shot.pass.low_point, T(0.0), T(0.0), T(0.0)}, false};
  return {{shot.pass.low_point, shot.strike.launch.azimuth, shot.flight.curve, shot.flight.carry}, true};
}

bool varies(double variance, double middle) {
  constexpr double kNone = 1e-12;  // of 1 + |middle|: rounding
  const double least = kNone * (1.0 + std::abs(middle));
  return variance > least * least;
}

/// Puts shares of the variance into a row, cut to 0..1.
ScatterRow row_of(double middle, double variance, const PerGroup<double>& first,
                  const PerGroup<double>& total) {
  ScatterRow row;
  row.middle = middle;
  if (!varies(variance, middle)) return row;
  row.sd = std::sqrt(variance);
  const auto share = [variance](double part) { return std::clamp(part / variance, 0.0, 1.0); };
  for (std::size_t k = 0; k < kRest; ++k) {
    row.first[k] = share(first[k]);
    row.total[k] = share(total[k]);
  }
  row.rest_first = share(first[kRest]);
  row.rest_total = share(total[kRest]);
  return row;
}

/// The sets of swings: A, B, and A with one group's coordinates from B.
struct Sets {
  std::vector<Coordinates> a, b;
  std::vector<Seen<double>> seen_a, seen_b;
  PerGroup<std::vector<Seen<double>>> seen_ab;  ///< empty: that group does not scatter
};

Sets spread_sets(const Coordinates& centre, const Coordinates& sd, std::size_t n, std::uint64_t seed) {
  constexpr std::size_t kBoth = 2 * std::size_t{kUnknowns};
  const std::vector<double> u = spread_uniforms(n, kBoth, seed);
  Sets s;
  s.a.resize(n);
  s.b.resize(n);
  for (std::size_t i = 0; i < n; ++i)
    for (int j = 0; j < kUnknowns; ++j) {
      const std::size_t at = i * kBoth + static_cast<std::size_t>(j);
      s.a[i][j] = centre[j] + sd[j] * normal_quantile(u[at]);
      s.b[i][j] = centre[j] + sd[j] * normal_quantile(u[at + kUnknowns]);
    }
  s.seen_a.resize(n);
  s.seen_b.resize(n);
  for (int j = 0; j < kUnknowns; ++j)
    if (sd[j] > 0.0) s.seen_ab[group_of(j)].resize(n);
  return s;
}

Coordinates swapped(const Coordinates& a, const Coordinates& b, std::size_t group) {
  Coordinates z = a;
  for (int j = 0; j < kUnknowns; ++j)
    if (group_of(j) == group) z[j] = b[j];
  return z;
}

struct Moments {
  double mean = 0.0, variance = 0.0;
};
Moments moments_of(const Sets& s, std::size_t outcome) {
  const auto n = static_cast<double>(2 * s.a.size());
  Moments m;
  for (const auto* set : {&s.seen_a, &s.seen_b})
    for (const Seen<double>& y : *set) m.mean += y.values[outcome] / n;
  for (const auto* set : {&s.seen_a, &s.seen_b})
    for (const Seen<double>& y : *set)
      m.variance += (y.values[outcome] - m.mean) * (y.values[outcome] - m.mean) / n;
  return m;
}

ScatterRow sampled_row(const Sets& s, std::size_t outcome) {
  const Moments m = moments_of(s, outcome);
  PerGroup<double> first{}, total{};
  const auto n = static_cast<double>(s.a.size());
  for (std::size_t k = 0; k < kGroups; ++k)
    for (std::size_t i = 0; i < s.seen_ab[k].size(); ++i) {
      const double a = s.seen_a[i].values[outcome] - m.mean;
      const double b = s.seen_b[i].values[outcome] - m.mean;
      const double ab = s.seen_ab[k][i].values[outcome] - m.mean;
      first[k] += b * (ab - a) / n;
      total[k] += 0.5 * (a - ab) * (a - ab) / n;
    }
  return row_of(m.mean, m.variance, first, total);
}

}  // namespace

ScatterShares shares_linear(const Coordinates& centre, const Prior& prior, const Setting& setting,
                            const Coordinates& sd) {
  const Seen<PassSlopes> seen = seen_in(shot_with_slopes(prior, centre, setting, true));
  const Factor factor = prior.factor_at(centre);
  ScatterShares out;
  out.flew = seen.flew ? 1.0 : 0.0;
  for (std::size_t o = 0; o < kOutcomes; ++o) {
    const PassSlopes& y = seen.values[o];
    const Coordinates moved = along(factor, y).cwiseProduct(sd);
    PerGroup<double> parts{};
    for (int j = 0; j < kUnknowns; ++j) parts[group_of(j)] += moved[j] * moved[j];
    out.rows[o] = row_of(y.a, moved.squaredNorm(), parts, parts);
  }
  return out;
}

ScatterShares shares_sampled(const Coordinates& centre, const Prior& prior, const Setting& setting,
                             const Coordinates& sd, std::size_t n, std::uint64_t seed, unsigned threads) {
  ensure(n > 0, "shares_sampled needs at least one swing");
  Sets s = spread_sets(centre, sd, n, seed);
  const auto see = [&](const Coordinates& z) {
    return seen_in(shot_of(pass_at(prior, z), setting, true, FlightOptions::fast()));
  };
  constexpr std::size_t kChunk = 16;
  const auto swing = [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
      s.seen_a[i] = see(s.a[i]);
      s.seen_b[i] = see(s.b[i]);
      for (std::size_t k = 0; k < kGroups; ++k)
        if (!s.seen_ab[k].empty()) s.seen_ab[k][i] = see(swapped(s.a[i], s.b[i], k));
    }
  };
  in_parallel(n, kChunk, swing, threads);
  ScatterShares out;
  for (std::size_t o = 0; o < kOutcomes; ++o) out.rows[o] = sampled_row(s, o);
  for (const auto* set : {&s.seen_a, &s.seen_b})
    for (const Seen<double>& y : *set) out.flew += y.flew ? 0.5 / static_cast<double>(n) : 0.0;
  return out;
}

}  // namespace strikewright
