#include <doctest/doctest.h>

#include <atomic>
#include <cmath>

#include "lessons.hpp"
#include "numeric/parallel.hpp"

using namespace strikewright;
using test::Lesson;

namespace {

/// Lessons in which `said` came true at some look, of `count`.
template <class Said>
int lessons_with(const Lesson& lesson, std::size_t count, std::uint64_t seed, const Said& said) {
  const ProofOptions options{.wish = higher_is_better(), .smallest_worth = 0.3, .verdict_only = true};
  std::atomic<int> found{0};
  in_parallel(count, 8, [&](std::size_t begin, std::size_t end) {
    for (std::size_t k = begin; k < end; ++k)
      if (test::first_said(test::lesson_of(lesson, seed, k), options, said) > 0) ++found;
  });
  return found;
}

bool yes(const Change& c) { return c.verdict == Verdict::yes; }

/// The most that 5 % may come to in so many lessons: 3.5 binomial sd, exceeded by chance once in four
/// thousand.
double most(std::size_t count) {
  const double n = static_cast<double>(count);
  return 0.05 * n + 3.5 * std::sqrt(n * 0.05 * 0.95);
}

}  // namespace

TEST_CASE("where nothing changed, looking after every ball says yes in no more than one lesson in twenty") {
  // The hardest of the four gets the most lessons; all of them with 20,000: docs/models/proof.md.
  CHECK(lessons_with({.drift = 0.5, .phi = 0.3}, 2000, 11, yes) <= most(2000));
  CHECK(lessons_with({}, 400, 12, yes) <= most(400));
  CHECK(lessons_with({.drift = 0.5}, 400, 13, yes) <= most(400));
  CHECK(lessons_with({.phi = 0.3}, 400, 14, yes) <= most(400));
}

TEST_CASE("looking after every ball at a plain probability would fool: that is what the e-value is for") {
  // The same lessons as above, asking only for P(improved) of 95 %: the check above can fail.
  const auto rash = [](const Change& c) { return c.after_balls >= kAfterForYes && c.p_improved > 0.95; };
  CHECK(lessons_with({.drift = 0.5, .phi = 0.3}, 400, 11, rash) > most(400));
}

TEST_CASE("where something changed by two scatters, forty balls find it in most lessons") {
  CHECK(lessons_with({.change = 2.0}, 100, 15, yes) >= 80);
  CHECK(lessons_with({.change = 2.0, .drift = -0.5, .phi = 0.3}, 100, 16, yes) >= 20);
}
