// Conflicts in the light of a player's other swings.

#include "reading/lesson_conflicts.hpp"

#include <doctest/doctest.h>

#include "bag/generic.hpp"

using namespace strikewright;

namespace {

/// A player who swings in to out, device and ball agreeing; `slip` has its path's sign turned round.
std::vector<SeenSwing> draws_with_slip(std::size_t swings, std::size_t slip) {
  std::vector<SeenSwing> out;
  for (std::size_t k = 0; k < swings; ++k) {
    SeenSwing s;
    s.row = k + 1;
    s.club = "7i";
    const double path = (6.0 + 0.5 * static_cast<double>(k % 3)) * kDegree;
    s.sightings = {measured(Kind::start, 2.0 * kDegree), measured(Kind::curve, -9.0),
                   measured(Kind::face, 1.5 * kDegree), measured(Kind::path, k == slip ? -path : path)};
    out.push_back(s);
  }
  return out;
}

LessonReading lesson_of(const std::vector<SeenSwing>& seen) {
  LessonOptions options;
  options.bag = generic_bag();
  return *read_lesson(seen, options, "test");
}

constexpr std::size_t kNone = 99;

}  // namespace

TEST_CASE("a path with the wrong sign among five draws is found") {
  const auto seen = draws_with_slip(5, 2);
  const LessonReading lesson = lesson_of(seen);
  const auto found = conflicts_of(lesson.groups[0], lesson, seen, {});
  REQUIRE(found.size() == 1);
  CHECK(found[0].swing == 2);
  CHECK(found[0].slip == Conflict::Slip::sign);
  CHECK(found[0].sightings.front() == 3);
}

TEST_CASE("five sound draws have no conflict") {
  const auto seen = draws_with_slip(5, kNone);
  const LessonReading lesson = lesson_of(seen);
  CHECK(conflicts_of(lesson.groups[0], lesson, seen, generic_bag()).empty());
}

TEST_CASE("the same conflicts on one core and on many") {
  const auto seen = draws_with_slip(6, 4);
  const LessonReading lesson = lesson_of(seen);
  const auto one = conflicts_of(lesson.groups[0], lesson, seen, {}, 1);
  const auto many = conflicts_of(lesson.groups[0], lesson, seen, {}, 3);
  REQUIRE(one.size() == many.size());
  for (std::size_t k = 0; k < one.size(); ++k) {
    CHECK(one[k].swing == many[k].swing);
    CHECK(one[k].odds == many[k].odds);
  }
}

TEST_CASE("a swing alone in its pattern does not vouch for itself") {
  const auto seen = draws_with_slip(1, kNone);
  const LessonReading lesson = lesson_of(seen);
  const Group& group = lesson.groups[0];
  const auto alone = conflicts_in(0, seen[0].sightings, group.setting, group.prior, {});
  CHECK(conflicts_of(group, lesson, seen, {}).size() == alone.size());
}

TEST_CASE("what the others say narrows the prior to their middle") {
  const auto seen = draws_with_slip(8, kNone);
  const LessonReading lesson = lesson_of(seen);
  const Group& group = lesson.groups[0];
  const Prior narrow = prior_within(group, 0);
  constexpr std::size_t kPlaneDirection = 1;
  CHECK(narrow.sd(kPlaneDirection) < group.prior.sd(kPlaneDirection));
  // Draws of 6 degrees in to out: the plane points right of what is usual.
  CHECK(narrow.mean[kPlaneDirection] > group.prior.mean[kPlaneDirection]);
  Coordinates middle = Coordinates::Zero();
  for (const Coordinates& z : group.fit.patterns[0].centre)
    middle += z / static_cast<double>(group.fit.patterns[0].centre.size());
  CHECK((narrow.numbers_at(Coordinates::Zero()) - group.prior.numbers_at(middle)).norm() < 1e-12);
}
