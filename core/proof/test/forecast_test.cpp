#include <doctest/doctest.h>

#include "lessons.hpp"

using namespace strikewright;
using test::first;
using test::lesson_of;

namespace {

ProofOptions options() { return {.wish = higher_is_better(), .smallest_worth = 0.3}; }

bool tells(const Change& c) {
  return c.verdict == Verdict::yes || c.verdict == Verdict::no_change_seen || c.verdict == Verdict::worse;
}

}  // namespace

TEST_CASE("so many more balls would tell, as likely as not: and so it is") {
  // Lessons with changes of 1.5 scatters sd; asked after two and after twelve balls, looked at again after
  // the balls that were forecast.
  int forecast = 0, told = 0, beyond = 0, told_beyond = 0;
  for (std::uint64_t k = 0; k < 400; ++k) {
    Draws draws(31, k);
    const Series lesson = lesson_of({.change = 1.5 * draws.normal(), .phi = 0.15, .after = 80}, 32, k);
    for (const int now : {10, 20}) {
      const Change c = proof_of(first(lesson, now), options()).session;
      if (!c.forecast) continue;
      const bool later = tells(proof_of(first(lesson, now + c.forecast->balls), options()).session);
      ++(c.forecast->beyond ? beyond : forecast);
      if (later) ++(c.forecast->beyond ? told_beyond : told);
    }
  }
  REQUIRE(forecast > 100);
  REQUIRE(beyond > 100);
  const double kept = told / static_cast<double>(forecast),
               unforeseen = told_beyond / static_cast<double>(beyond);
  CHECK(kept >
        0.45);  // half is promised; 3 binomial sd of some 200 are 0.1, and a cautious forecast is no fault
  CHECK(kept < 0.90);
  CHECK(unforeseen < 0.40);  // "more than 60" promises less than a half
}

TEST_CASE("what is told already has no forecast, and nobody is sent for more than sixty balls") {
  const Series clear = lesson_of({.change = 5.0}, 33, 1);
  CHECK_FALSE(proof_of(clear, options()).session.forecast.has_value());
  const Change small = proof_of(first(lesson_of({.change = 0.2}, 33, 2), 20), options()).session;
  REQUIRE(small.forecast.has_value());
  CHECK(small.forecast->beyond);
  CHECK(small.forecast->balls == 60);
}

TEST_CASE("the clearer the change, the fewer more balls, and never fewer than a yes asks for") {
  int fewer = 60;
  for (const double change : {1.5, 3.0, 6.0}) {
    const Change c = proof_of(first(lesson_of({.change = change}, 33, 3), 10), options()).session;
    REQUIRE(c.forecast.has_value());
    CHECK(c.forecast->balls >= kAfterForYes - 2);
    CHECK(c.forecast->balls <= fewer);
    fewer = c.forecast->balls;
  }
  CHECK(fewer <= 8);
}
