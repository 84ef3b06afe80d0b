#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bag/generic.hpp"
#include "numeric/draws.hpp"
#include "reading/lesson.hpp"

using namespace strikewright;

namespace {

/// Rows of one club with divots and flight about a place, a minute apart.
std::vector<std::string> rows(int n, double divot_mm, std::uint64_t seed) {
  Draws draws(seed, 0);
  std::vector<std::string> out;
  for (int k = 0; k < n; ++k)
    out.push_back(fmt::format("7i,2026-11-28T10:{:02}:00Z,{:.1f},{:.1f},{:.1f}\n", k,
                              divot_mm + 20.0 * draws.normal(), 2.0 * draws.normal(), 5.0 * draws.normal()));
  return out;
}

LessonReading lesson(const std::vector<std::string>& lines, FitMemory* memory, bool timed = true) {
  std::string text = "club,time,divot_start_mm,start_deg,curve_m\n";
  for (std::string line : lines) {
    if (!timed) line.replace(3, line.find(',', 3) - 3, "");
    text += line;
  }
  LessonOptions options;
  options.bag = generic_bag();
  options.fit.memory = memory;
  const auto swings = read_table(text, {.file = "lesson.csv"});
  REQUIRE(swings.has_value());
  const auto reading = read_lesson(*swings, options, "lesson.csv");
  REQUIRE(reading.has_value());
  return *reading;
}

bool same(const LessonReading& a, const LessonReading& b) {
  for (std::size_t k = 0; k < kReported; ++k)
    if (a.patterns[0].mean[k].mean != b.patterns[0].mean[k].mean ||
        a.patterns[0].mean[k].p90 != b.patterns[0].mean[k].p90 ||
        a.patterns[0].scatter[k].mean != b.patterns[0].scatter[k].mean)
      return false;
  for (std::size_t i = 0; i < a.swings.size(); ++i)
    if (a.swings[i].reading.at[0].mean != b.swings[i].reading.at[0].mean) return false;
  return true;
}

}  // namespace

TEST_CASE("what was fitted before is taken over to the last bit, ball after ball") {
  FitMemory memory(6);
  const std::vector<std::string> all = rows(44, 10.0, 3);
  for (const std::ptrdiff_t n : {21, 40, 41, 44}) {
    const std::vector<std::string> some(all.begin(), all.begin() + n);
    CHECK(same(lesson(some, &memory), lesson(some, nullptr)));
    CHECK(same(lesson(some, &memory), lesson(some, nullptr)));
  }
}

TEST_CASE("a corrected ball is never read from memory, and a memory of one block is no worse") {
  FitMemory memory(1);
  std::vector<std::string> all = rows(30, 10.0, 4);
  (void)lesson(all, &memory);
  all[3] = "7i,2026-11-28T10:03:00Z,-80,0,0\n";
  CHECK(same(lesson(all, &memory), lesson(all, nullptr)));
}

TEST_CASE("with times the order of the rows changes nothing either") {
  std::vector<std::string> all = rows(44, 10.0, 5);
  const LessonReading before = lesson(all, nullptr);
  std::reverse(all.begin(), all.end());
  const LessonReading after = lesson(all, nullptr);
  CHECK(before.patterns[0].mean[0].mean == after.patterns[0].mean[0].mean);
  CHECK(before.patterns[0].scatter[0].p90 == after.patterns[0].scatter[0].p90);
  CHECK(before.swings.front().reading.at[0].mean == after.swings.back().reading.at[0].mean);
}

TEST_CASE("one ball more than two blocks hold moves the low point no further than one ball can") {
  // Blocks of 20, 20 and 1: the last one knows little and must count as little.
  std::vector<std::string> all = rows(41, 10.0, 6);
  const LessonReading more = lesson(all, nullptr);
  all.pop_back();
  const LessonReading less = lesson(all, nullptr);
  const double moved = more.patterns[0].mean[0].mean - less.patterns[0].mean[0].mean;
  CHECK(std::abs(moved) < 0.5 * less.patterns[0].mean[0].sd);
  CHECK(more.patterns[0].mean[0].sd < 1.2 * less.patterns[0].mean[0].sd);
}

TEST_CASE("in order of time or dealt in turn, the blocks agree on the same low point") {
  // One lesson read with other draws moves by about a fifth of its sd; blocks of other swings add to that.
  constexpr int kLessons = 4;
  double square = 0.0;
  for (std::uint64_t seed = 7; seed < 7 + kLessons; ++seed) {
    const std::vector<std::string> all = rows(60, 10.0, seed);
    const LessonReading timed = lesson(all, nullptr), dealt = lesson(all, nullptr, false);
    const Estimate &a = timed.patterns[0].mean[0], &b = dealt.patterns[0].mean[0];
    const double apart = (a.mean - b.mean) / std::max(a.sd, b.sd);
    square += apart * apart / kLessons;
    CHECK(std::max(a.sd, b.sd) < 1.5 * std::min(a.sd, b.sd));
  }
  CHECK(std::sqrt(square) < 0.5);
}
