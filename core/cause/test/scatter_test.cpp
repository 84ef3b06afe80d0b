// Why it scatters: shares by slopes against shares by sampling, and what the trade expects of them.

#include "cause/scatter.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstring>
#include <string>

#include "bag/generic.hpp"

using namespace strikewright;

namespace {

struct Swinger {
  Setting setting;
  Prior prior;
};

Swinger swinger_with(const std::string& club) {
  Swinger p;
  p.setting.club = *club_named(generic_bag(), club);
  if (p.setting.club.family == Family::driver) p.setting.ground.surface = Surface::tee;
  p.prior = prior_for(p.setting.club, Skill::club, p.setting.ground.surface);
  return p;
}

Coordinates all(double sd) { return Coordinates::Constant(sd); }

/// A scatter of one cause alone, of half the shift that a coach calls clear.
void scatter(Coordinates& sd, const Prior& prior, Unknown u, Cause c) {
  const int at = static_cast<int>(u);
  sd[at] = 0.5 * kCauseFacts[static_cast<std::size_t>(c)].step / prior.unit_sd[at];
}

/// Every cause scatters by half of what a coach calls clear: 10 mm, 5 ms, 2.5 mm, 1 deg, 2.5 %.
Coordinates every_cause(const Prior& prior) {
  Coordinates sd = all(0.0);
  scatter(sd, prior, Unknown::weight, Cause::weight);
  scatter(sd, prior, Unknown::release, Cause::release);
  scatter(sd, prior, Unknown::height, Cause::height);
  scatter(sd, prior, Unknown::handle, Cause::handle);
  scatter(sd, prior, Unknown::face_turn, Cause::face_turn);
  scatter(sd, prior, Unknown::plane_tilt, Cause::plane_tilt);
  scatter(sd, prior, Unknown::speed, Cause::speed);
  return sd;
}

/// First-order and total shares of one outcome, "everything else" last.
using Shares = std::array<double, 2 * (kCauses + 1)>;
Shares shares_of(const ScatterRow& row) {
  Shares out{};
  for (std::size_t k = 0; k < kCauses; ++k) {
    out[k] = row.first[k];
    out[kCauses + 1 + k] = row.total[k];
  }
  out[kCauses] = row.rest_first;
  out[2 * kCauses + 1] = row.rest_total;
  return out;
}

struct Sampling {
  Shares mean{}, error{};  ///< over independent seeds; error of the mean
  double sd = 0.0;
};

std::array<Sampling, kOutcomes> sampling_of(const Swinger& p, const Coordinates& sd, std::size_t n) {
  constexpr std::size_t kSeeds = 6;
  std::array<ScatterShares, kSeeds> found;
  for (std::size_t seed = 0; seed < kSeeds; ++seed)
    found[seed] = shares_sampled(Coordinates::Zero(), p.prior, p.setting, sd, n, 100 + seed);
  std::array<Sampling, kOutcomes> out{};
  for (std::size_t o = 0; o < kOutcomes; ++o) {
    Sampling& s = out[o];
    for (const ScatterShares& f : found) s.sd += f.rows[o].sd / kSeeds;
    for (std::size_t k = 0; k < s.mean.size(); ++k) {
      for (const ScatterShares& f : found) s.mean[k] += shares_of(f.rows[o])[k] / kSeeds;
      for (const ScatterShares& f : found) {
        const double off = shares_of(f.rows[o])[k] - s.mean[k];
        s.error[k] += off * off / (kSeeds * (kSeeds - 1));
      }
      s.error[k] = std::sqrt(s.error[k]);
    }
  }
  return out;
}

double farthest(const Shares& a, const Shares& b) {
  double worst = 0.0;
  for (std::size_t k = 0; k < a.size(); ++k) worst = std::max(worst, std::abs(a[k] - b[k]));
  return worst;
}

double sum_first(const ScatterRow& row) {
  double sum = row.rest_first;
  for (const double share : row.first) sum += share;
  return sum;
}

std::string line_of(const ScatterRow& row) {
  std::string out;
  const auto percent = [](double x) { return std::to_string(std::lround(100.0 * x)); };
  for (std::size_t k = 0; k < kCauses; ++k)
    out += std::string(kCauseFacts[k].name) + " " + percent(row.first[k]) + "-" + percent(row.total[k]) + " ";
  return out + "rest " + percent(row.rest_first) + "-" + percent(row.rest_total) + " %";
}

}  // namespace

TEST_CASE("in small scatter, shares by slopes and shares by sampling are the same") {
  // A hundredth of the prior's spread: a tenth already reaches the turf's edge, which bends the carry.
  for (const std::string club : {"7i", "driver"}) {
    const Swinger p = swinger_with(club);
    const ScatterShares by_slopes = shares_linear(Coordinates::Zero(), p.prior, p.setting, all(0.01));
    const auto sampled = sampling_of(p, all(0.01), 1024);
    for (std::size_t o = 0; o < kOutcomes; ++o) {
      const Shares linear = shares_of(by_slopes.rows[o]);
      const Sampling& s = sampled[o];
      double worst_error = 0.0;
      for (std::size_t k = 0; k < linear.size(); ++k) {
        CAPTURE(club);
        CAPTURE(kOutcomeFacts[o].key);
        CAPTURE(k);
        CAPTURE(linear[k]);
        CAPTURE(s.mean[k]);
        // Five standard errors from six seeds, and a thousandth for what the cut to 0..1 does to a share of
        // nothing.
        CHECK(std::abs(s.mean[k] - linear[k]) < 5.0 * s.error[k] + 1e-3);
        worst_error = std::max(worst_error, s.error[k]);
      }
      CHECK(s.sd == doctest::Approx(by_slopes.rows[o].sd).epsilon(0.02));
      CHECK(worst_error < 0.02);
      MESSAGE(club, " ", std::string(kOutcomeFacts[o].key), ": worst gap ", farthest(s.mean, linear),
              ", largest standard error ", worst_error);
    }
  }
}

TEST_CASE("how far the two part as the scatter grows is said") {
  for (const std::string club : {"7i", "driver"}) {
    const Swinger p = swinger_with(club);
    for (const double size : {0.06, 0.4, 1.0}) {
      const ScatterShares lin = shares_linear(Coordinates::Zero(), p.prior, p.setting, all(size));
      const ScatterShares sam = shares_sampled(Coordinates::Zero(), p.prior, p.setting, all(size), 2048, 5);
      for (std::size_t o = 0; o < kOutcomes; ++o) {
        const Shares a = shares_of(lin.rows[o]), b = shares_of(sam.rows[o]);
        MESSAGE(club, " scatter ", size, " of the prior's, ", std::string(kOutcomeFacts[o].key), ": sd ",
                lin.rows[o].sd / kOutcomeFacts[o].scale, " by slopes, ",
                sam.rows[o].sd / kOutcomeFacts[o].scale, " sampled; shares part by up to ", farthest(a, b),
                "; sampled: ", line_of(sam.rows[o]));
      }
      // 6 % of the prior's spread, 0.4 mm of height, is the linear regime: three standard errors of 2048
      // swings, about 0.01.
      if (size < 0.2)
        for (std::size_t o = 0; o < kOutcomes; ++o)
          CHECK(farthest(shares_of(lin.rows[o]), shares_of(sam.rows[o])) < 0.03);
      // Low point and start direction are nearly straight all the way; carry and curve are not.
      for (const Outcome o : {Outcome::low_point, Outcome::start})
        CHECK(farthest(shares_of(lin.of(o)), shares_of(sam.of(o))) < 0.06);
    }
  }
}

TEST_CASE("by slopes the shares sum to one, and first-order and total are the same") {
  for (const std::string club : {"driver", "4h", "7i", "sw"}) {
    const Swinger p = swinger_with(club);
    const ScatterShares s = shares_linear(Coordinates::Zero(), p.prior, p.setting, all(0.3));
    for (const ScatterRow& row : s.rows) {
      CHECK(row.sd > 0.0);
      CHECK(sum_first(row) == doctest::Approx(1.0).epsilon(1e-12));
      CHECK(row.first == row.total);
    }
  }
}

TEST_CASE("what interacts counts in total shares only: sampled totals are not less than first-order shares") {
  const Swinger p = swinger_with("driver");
  const Sampling s = sampling_of(p, all(1.0), 512)[static_cast<std::size_t>(Outcome::carry)];
  double first = 0.0, total = 0.0;
  for (std::size_t k = 0; k <= kCauses; ++k) {
    CHECK(s.mean[kCauses + 1 + k] > s.mean[k] - 4.0 * std::hypot(s.error[k], s.error[kCauses + 1 + k]));
    first += s.mean[k];
    total += s.mean[kCauses + 1 + k];
  }
  MESSAGE("driver, carry, the whole prior: first-order shares sum to ", first, ", total shares to ", total);
  CHECK(first < 1.0);
  CHECK(total > 1.0);
}

TEST_CASE("a cause that does not scatter has no share") {
  const Swinger p = swinger_with("7i");
  Coordinates sd = all(0.3);
  sd[static_cast<int>(Unknown::release)] = 0.0;
  const auto check = [](const ScatterShares& s) {
    for (const ScatterRow& row : s.rows) {
      CHECK(row.first_of(Cause::release) == 0.0);
      CHECK(row.total_of(Cause::release) == 0.0);
      CHECK(row.sd > 0.0);
    }
  };
  check(shares_linear(Coordinates::Zero(), p.prior, p.setting, sd));
  check(shares_sampled(Coordinates::Zero(), p.prior, p.setting, sd, 64, 3));
}

TEST_CASE("only one cause scatters: it has all of it") {
  const Swinger p = swinger_with("7i");
  Coordinates sd = all(0.0);
  scatter(sd, p.prior, Unknown::weight, Cause::weight);
  const ScatterShares lin = shares_linear(Coordinates::Zero(), p.prior, p.setting, sd);
  const ScatterShares sam = shares_sampled(Coordinates::Zero(), p.prior, p.setting, sd, 1024, 3);
  CHECK(lin.of(Outcome::low_point).first_of(Cause::weight) == doctest::Approx(1.0).epsilon(1e-12));
  // 10 mm of weight: the low point's scatter is 10 mm times what weight does to it.
  CHECK(lin.of(Outcome::low_point).sd > 0.007);
  CHECK(lin.of(Outcome::low_point).sd < 0.012);
  CHECK(sam.of(Outcome::low_point).total_of(Cause::weight) == doctest::Approx(1.0).epsilon(0.02));
}

TEST_CASE("common practice, no source: the low point scatters by weight and release") {
  for (const std::string club : {"7i", "pw", "driver"}) {
    const Swinger p = swinger_with(club);
    const ScatterRow row =
        shares_linear(Coordinates::Zero(), p.prior, p.setting, every_cause(p.prior)).of(Outcome::low_point);
    MESSAGE(club, " low point, sd ", 1e3 * row.sd, " mm: ", line_of(row));
    CHECK(row.first_of(Cause::weight) + row.first_of(Cause::release) > 0.95);
    CHECK(row.first_of(Cause::weight) > 0.2);
    CHECK(row.first_of(Cause::release) > 0.2);
  }
}

TEST_CASE(
    "common practice, no source: the ball starts where the face points, so the face makes its scatter") {
  // Degree for degree the handle does as much, because most of what it turns goes into the face (the prior's
  // assumption): there the two together make the start direction, and half a step of weight and release does
  // little through the lean. Where the face scatters by twice the
  // degrees of the handle, it makes most of it by itself.
  for (const std::string club : {"7i", "pw", "driver"}) {
    CAPTURE(club);
    const Swinger p = swinger_with(club);
    Coordinates sd = every_cause(p.prior);
    const ScatterRow equal = shares_linear(Coordinates::Zero(), p.prior, p.setting, sd).of(Outcome::start);
    MESSAGE(club, " start, face and handle 1 deg: sd ", equal.sd / kDegree, " deg: ", line_of(equal));
    CHECK(equal.first_of(Cause::face_turn) + equal.first_of(Cause::handle) > 0.75);
    CHECK(equal.first_of(Cause::weight) + equal.first_of(Cause::release) < 0.15);
    sd[static_cast<int>(Unknown::face_turn)] *= 2.0;
    const ScatterRow loose = shares_linear(Coordinates::Zero(), p.prior, p.setting, sd).of(Outcome::start);
    MESSAGE(club, " start, face 2 deg, handle 1 deg: sd ", loose.sd / kDegree, " deg: ", line_of(loose));
    CHECK(loose.first_of(Cause::face_turn) > 0.5);
  }
}

TEST_CASE("nothing scatters: all shares are none, and none is not a number") {
  const Swinger p = swinger_with("7i");
  for (const ScatterShares& s : {shares_linear(Coordinates::Zero(), p.prior, p.setting, all(0.0)),
                                 shares_sampled(Coordinates::Zero(), p.prior, p.setting, all(0.0), 32, 1)})
    for (const ScatterRow& row : s.rows) {
      CHECK(row.sd == 0.0);
      CHECK(std::isfinite(row.middle));
      for (const double share : shares_of(row)) CHECK(share == 0.0);
    }
}

TEST_CASE("a swing without a ball has a low point that scatters, and no flight that could") {
  Swinger p = swinger_with("7i");
  p.setting.with_ball = false;
  for (const ScatterShares& s : {shares_linear(Coordinates::Zero(), p.prior, p.setting, all(0.3)),
                                 shares_sampled(Coordinates::Zero(), p.prior, p.setting, all(0.3), 256, 1)}) {
    CHECK(s.flew == 0.0);
    CHECK(s.of(Outcome::low_point).sd > 0.005);
    for (const Outcome o : {Outcome::start, Outcome::curve, Outcome::carry})
      for (const double share : shares_of(s.of(o))) CHECK(share == 0.0);
  }
}

TEST_CASE("equal seeds give equal shares, bit for bit, on one core or many") {
  const Swinger p = swinger_with("7i");
  const auto sample = [&](std::uint64_t seed, unsigned threads) {
    return shares_sampled(Coordinates::Zero(), p.prior, p.setting, all(0.5), 100, seed, threads);
  };
  const ScatterShares one = sample(9, 1), many = sample(9, 4), other = sample(10, 1);
  for (std::size_t o = 0; o < kOutcomes; ++o) {
    const Shares a = shares_of(one.rows[o]), b = shares_of(many.rows[o]);
    CHECK(std::memcmp(a.data(), b.data(), sizeof a) == 0);
    CHECK(one.rows[o].sd == many.rows[o].sd);
    CHECK(one.rows[o].sd != other.rows[o].sd);
  }
}
