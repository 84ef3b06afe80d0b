// Does the reading find known truths, and does it know how well?

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bag/generic.hpp"
#include "reading/recovery.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

namespace {

Setting seven_iron() {
  Setting s;
  s.club = *club_named(generic_bag(), "7i");
  return s;
}

const Look& look(const std::string& name) {
  const auto at = std::find_if(looks().begin(), looks().end(), [&](const Look& l) { return l.name == name; });
  REQUIRE(at != looks().end());
  return *at;
}

constexpr std::size_t kWorlds = 480;

/// 4.6 standard deviations of a share of kWorlds: one of the hundred shares below fails by chance once in
/// 2,000.
double slack(double share) { return 4.6 * std::sqrt(share * (1.0 - share) / static_cast<double>(kWorlds)); }

}  // namespace

TEST_CASE("when the tool says 80 %, it is right 80 % of the time") {
  for (const char* name : {"eye", "full"}) {
    const Recovery r = recover(kWorlds, look(name), seven_iron(), Skill::club, 1000);
    for (std::size_t k = 0; k < kReported; ++k) {
      INFO(std::string(name), " ", std::string(kReportedFields[k].key), " ", r.rows[k].inside50, " ",
           r.rows[k].inside80, " ", r.rows[k].inside95);
      CHECK(std::abs(r.rows[k].inside50 - 0.5) < slack(0.5));
      CHECK(std::abs(r.rows[k].inside80 - 0.8) < slack(0.8));
      CHECK(std::abs(r.rows[k].inside95 - 0.95) < slack(0.95));
    }
    CHECK(r.rough < kWorlds / 20);
  }
}

TEST_CASE("the reading's error comes near what the sightings allow") {
  const Recovery r = recover(kWorlds, look("full"), seven_iron(), Skill::club, 77);
  for (std::size_t k = 0; k < kReported; ++k) {
    const RecoveryRow& row = r.rows[k];
    INFO(std::string(kReportedFields[k].key), " rms ", row.rms_error, " bound ", row.bound, " said ",
         row.mean_sd);
    // The bound is linear; an rms of 480 swings is known to 3 %, and heavy-tailed looks make it wider still.
    CHECK(row.rms_error < 1.35 * row.bound);
    CHECK(std::abs(row.mean_error) < 4.0 * row.rms_error / std::sqrt(static_cast<double>(kWorlds)));
    CHECK(row.rms_error < row.prior_sd);
  }
}

TEST_CASE(
    "a coach's eye taken for four times sharper than it is makes the limits wrong, and the count shows it") {
  const Setting setting = seven_iron();
  const Prior prior = prior_for(setting.club, Skill::club, setting.ground.surface);
  const PriorReach reach = prior_reach(setting, prior);
  std::size_t inside = 0;
  for (std::size_t i = 0; i < kWorlds; ++i) {
    Draws draws(31, i);
    const Shot<double> truth = shot_of(draw_pass(prior, draws), setting);
    std::vector<Sighting> s;
    for (const Kind kind : {Kind::face, Kind::path, Kind::start}) {
      s.push_back(seen(kind, truth, setting, draws));
      s.back().sd *= 0.25;
    }
    const Estimate e = read_swing(s, setting, prior, reach, {}).of(&Reported::path);
    inside += truth.delivery.path > e.p10 && truth.delivery.path < e.p90 ? 1u : 0u;
  }
  CHECK(static_cast<double>(inside) / static_cast<double>(kWorlds) < 0.8 - slack(0.8));
}
