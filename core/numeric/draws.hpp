#pragma once
// Seeded draws. The generator and the normal transform are Boost's, whose outputs are the same on every
// machine (the standard library leaves its normal distribution open).

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_01.hpp>
#include <cstdint>

namespace strikewright {

/// A stream of random numbers. Equal seeds give equal streams; streams of one seed are told apart by
/// `stream`.
class Draws {
 public:
  explicit Draws(std::uint64_t seed, std::uint64_t stream = 0) : engine_{mix(seed, stream)} {}
  [[nodiscard]] double uniform() { return boost::random::uniform_01<double>{}(engine_); }
  [[nodiscard]] double normal() { return normal_(engine_); }
  [[nodiscard]] double normal(double mean, double sd) { return mean + sd * normal(); }

 private:
  /// SplitMix64 finaliser (Steele, Lea & Flood, "Fast splittable pseudorandom number generators", OOPSLA
  /// 2014).
  static std::uint64_t mix(std::uint64_t seed, std::uint64_t stream) {
    std::uint64_t z = seed + 0x9e3779b97f4a7c15ull * (stream + 1);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
    return z ^ (z >> 31);
  }
  boost::random::mt19937_64 engine_;
  boost::random::normal_distribution<double> normal_;
};

}  // namespace strikewright
