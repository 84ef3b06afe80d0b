#include "reading/prior.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

TEST_CASE("what is usual for every club and band is a ball that flies") {
  for (const Club& club : generic_bag()) {
    for (const Skill skill : kSkills) {
      Setting s;
      s.club = club;
      s.ground.surface = club.family == Family::driver ? Surface::tee : Surface::fairway;
      const Prior p = prior_for(club, skill, s.ground.surface);
      const Shot<double> shot = shot_of(pass_at(p, Coordinates::Zero()), s);
      INFO(club.name, " ", name_of(skill));
      CHECK(shot.flew);
      CHECK(shot.flight.carry > 35.0);
      CHECK(shot.strike.strike_up > 0.0);
      CHECK(shot.strike.strike_up < club.face_height);
      CHECK(std::abs(shot.delivery.face) < 3.0 * kDegree);
      for (std::size_t i = 0; i < kNumbers; ++i) {
        CHECK(p.sd(i) > 0.0);
        CHECK(!p.source[i].empty());
      }
    }
  }
}

TEST_CASE("better players are less variable and faster") {
  const Club seven = *club_named(generic_bag(), "7i");
  for (std::size_t i = 0; i + 1 < kSkills.size(); ++i) {
    const Prior worse = prior_for(seven, kSkills[i]), better = prior_for(seven, kSkills[i + 1]);
    CHECK(better.mean[0] > worse.mean[0]);
    CHECK(better.sd(3) < worse.sd(3));
    CHECK(better.sd(5) < worse.sd(5));
  }
}

TEST_CASE("coordinates of a pass lead back to the pass") {
  const Club seven = *club_named(generic_bag(), "7i");
  const Prior p = prior_for(seven, Skill::county);
  Coordinates z;
  z << 0.3, -1.1, 0.4, 1.9, -0.7, 0.2, -0.5, 1.3, 0.8, -0.9, 0.6, -0.2, 0.5, -0.3, 0.1, -0.4;
  const Pass<double> pass = pass_at(p, z);
  const Coordinates back = coordinates_of(p, pass);
  CHECK((vector_of(pass_at(p, back)) - vector_of(pass)).norm() < 1e-10);
  CHECK(back.norm() <= z.norm());  // of all that lead there, the likeliest
}

TEST_CASE("a handicap names a band, nonsense names its place") {
  CHECK(*skill_named("club", "--skill") == Skill::club);
  CHECK(*skill_named("+2", "--skill") == Skill::tour);
  CHECK(*skill_named("5", "--skill") == Skill::county);
  CHECK(*skill_named("18", "--skill") == Skill::club);
  CHECK(*skill_named("36", "--skill") == Skill::beginner);
  for (const char* bad : {"", "good", "60", "-3", "7x", "+"}) {
    const auto r = skill_named(bad, "--skill");
    REQUIRE(!r.has_value());
    CHECK(r.error().place == "--skill");
  }
}
