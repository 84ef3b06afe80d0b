// The judge of the limits is itself judged: it must pass what is right and catch what is too sure of itself.

#include "cause/calibration.hpp"

#include <doctest/doctest.h>

#include <cstring>

using namespace strikewright;

namespace {

/// What a normal with this middle and standard deviation would be stated as.
Estimate stated(double mean, double sd) {
  Estimate e;
  e.mean = e.p50 = mean;
  e.sd = sd;
  e.p2_5 = mean - 1.95996 * sd;
  e.p10 = mean - 1.28155 * sd;
  e.p25 = mean - 0.67449 * sd;
  e.p75 = mean + 0.67449 * sd;
  e.p90 = mean + 1.28155 * sd;
  e.p97_5 = mean + 1.95996 * sd;
  return e;
}

CalibrationRow row_of(double said_over_true) {
  CalibrationRow row;
  Draws draws(7);
  for (int k = 0; k < 1000; ++k) {
    const double truth = draws.normal();
    row.add(truth, stated(truth + draws.normal(), said_over_true));
  }
  return row;
}

CalibrationOptions few(std::size_t patterns, unsigned threads) {
  CalibrationOptions options;
  options.patterns = patterns;
  options.threads = threads;
  return options;
}

/// Always names the same cause, and knows that it cannot tell weight from release.
CauseReading says_weight(const Group&, const std::vector<SeenSwing>&) {
  CauseReading read;
  read.causes.push_back({});
  read.causes.back().cause = Cause::weight;
  read.cannot_tell_apart.push_back({{Cause::release, Cause::weight}, ""});
  return read;
}

}  // namespace

TEST_CASE("chi-square has the tail of the printed tables") {
  // 5 % and 0.1 % points of 1, 3 and 7 degrees of freedom, as every table prints them.
  CHECK(chi_square_above(3.841, 1) == doctest::Approx(0.05).epsilon(2e-3));
  CHECK(chi_square_above(7.815, 3) == doctest::Approx(0.05).epsilon(2e-3));
  CHECK(chi_square_above(14.067, 7) == doctest::Approx(0.05).epsilon(2e-3));
  CHECK(chi_square_above(24.322, 7) == doctest::Approx(0.001).epsilon(2e-3));
  CHECK(chi_square_above(0.0, 7) == 1.0);
}

TEST_CASE("limits that are right are inside as often as they say, and their ranks are likely") {
  const CalibrationRow row = row_of(1.0);
  CHECK(std::abs(row.inside(0.5) - 0.50) < 0.055);  // 3.5 standard errors of 1000
  CHECK(std::abs(row.inside(0.8) - 0.80) < 0.044);
  CHECK(std::abs(row.inside(0.95) - 0.95) < 0.024);
  CHECK(row.chance() > 0.001);
  CHECK(row.said() == doctest::Approx(1.0));
  CHECK(std::abs(row.rms_error() - 1.0) < 0.08);
}

TEST_CASE("limits a quarter too narrow or too wide are caught by their ranks") {
  CHECK(row_of(0.75).chance() < 1e-6);
  CHECK(row_of(0.75).inside(0.8) < 0.74);
  CHECK(row_of(1.33).chance() < 1e-6);
  CHECK(row_of(1.33).inside(0.8) > 0.86);
}

TEST_CASE("a truth below all limits has the first rank, above all the last") {
  const Estimate e = stated(0.0, 1.0);
  CHECK(rank_of(-3.0, e) == 0);
  CHECK(rank_of(-0.1, e) == 3);
  CHECK(rank_of(0.1, e) == 4);
  CHECK(rank_of(3.0, e) == 7);
}

TEST_CASE("the same pupils on one core and on two, each evidence set in turn") {
  const Calibration one = calibrate(few(12, 1)), two = calibrate(few(12, 2));
  CHECK(one.sets.size() == 6);
  for (const CalibrationSet& set : one.sets) CHECK(set.patterns == 2);
  CHECK(one.all.patterns == 12);
  for (std::size_t k = 0; k < kReported; ++k) {
    CHECK(one.all.swing[k].error_squares == two.all.swing[k].error_squares);
    CHECK(one.all.mean[k].ranks == two.all.mean[k].ranks);
  }
}

TEST_CASE("every other world changes what is seen, and every reading stays a number") {
  const double usual = calibrate(few(6, 1)).all.swing[0].error_squares;
  for (std::size_t w = 1; w < kWorlds; ++w) {
    CAPTURE(kWorldFacts[w].key);
    CalibrationOptions options = few(6, 1);
    options.world = static_cast<World>(w);
    const Calibration c = calibrate(options);
    CHECK(std::isfinite(c.all.swing[0].error_squares));
    CHECK(c.all.swing[0].error_squares != usual);
  }
}

TEST_CASE("who always says weight is right when it was weight") {
  const CauseCalibration c = calibrate_causes(12, few(0, 1), says_weight);
  CHECK(c.no_next_look == 12);
  for (const CauseRow& row : c.rows) {
    CHECK(row.pupils == 12);
    CHECK(row.share() == row.bound());
    CHECK(row.right < 12);
    CHECK(row.wrong_flagged <= 12 - row.right);
  }
  CHECK(c.rows[0].right == c.rows[3].right);
}
