#include "reading/reading.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "numeric/draws.hpp"
#include "numeric/quantile.hpp"
#include "reading/recovery.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

namespace {

Setting with(const char* club, Surface surface = Surface::fairway) {
  Setting s;
  s.club = *club_named(generic_bag(), club);
  s.ground.surface = surface;
  return s;
}

Reading read(const std::vector<Sighting>& sightings, const Setting& setting = with("7i"),
             Skill skill = Skill::club) {
  return read_swing(sightings, setting, prior_for(setting.club, skill, setting.ground.surface));
}

int word(Kind kind, const std::string& text) {
  const auto& words = words_of(kind);
  const auto at = std::find(words.begin(), words.end(), text);
  REQUIRE(at != words.end());
  return static_cast<int>(at - words.begin());
}

Sighting said(Kind kind, const std::string& text) { return judged(kind, word(kind, text)); }

}  // namespace

TEST_CASE("with nothing seen the reading is the prior, and says so") {
  const Reading r = read({});
  for (std::size_t k = 0; k < kReported; ++k) {
    const Estimate& e = r.at[k];
    INFO(kReportedFields[k].key);
    // 256 weighted draws against 512 even ones: a mean to about 0.08, a standard deviation to about 8 %.
    CHECK(std::abs(e.mean - e.prior_mean) < 0.15 * e.prior_sd);
    CHECK(std::abs(e.sd / e.prior_sd - 1.0) < 0.15);
    CHECK(e.owed_to_prior > 0.7);
  }
  CHECK(r.health.sentence.find("Nothing was seen") != std::string::npos);
}

TEST_CASE("a divot that lies further back puts the low point further back") {
  // Where it starts alone says little of the low point: a steep club starts its mark just behind the ball,
  // too.
  const auto low_point = [](double start, double end) {
    return read({measured(Kind::divot_start, start, 0.01), measured(Kind::divot_end, end, 0.01)})
        .of(&Reported::low_point)
        .mean;
  };
  const double back = low_point(-0.10, 0.02), middle = low_point(-0.04, 0.10), front = low_point(0.0, 0.16);
  CHECK(back < middle - 0.01);
  CHECK(middle < front - 0.01);
}

TEST_CASE("a ball that starts left of a divot pointing right: face left of the path") {
  const Reading r =
      read({measured(Kind::start, -4.0 * kDegree), measured(Kind::divot_direction, 4.0 * kDegree)});
  CHECK(r.of(&Reported::face_to_path).p75 < 0.0);
  CHECK(r.of(&Reported::face).mean < 0.0);
  CHECK(r.of(&Reported::path).mean > 0.0);
}

TEST_CASE("a fat strike is read as turf before the ball, a thin one as a low mark on the face") {
  const Reading clean = read({said(Kind::contact_word, "clean")});
  const Reading fat = read({said(Kind::contact_word, "fat")});
  const Reading thin = read({said(Kind::contact_word, "thin")});
  CHECK(fat.of(&Reported::divot_start).mean < clean.of(&Reported::divot_start).mean - 0.02);
  CHECK(thin.of(&Reported::strike_up).mean < clean.of(&Reported::strike_up).mean - 0.003);
  CHECK(fat.of(&Reported::low_point_depth).mean < clean.of(&Reported::low_point_depth).mean);
}

TEST_CASE("blank is not the same as no divot: no divot keeps the club up") {
  const Reading blank = read({said(Kind::contact_word, "clean")});
  const Reading none = read({said(Kind::contact_word, "clean"), said(Kind::divot_word, "none")});
  CHECK(none.of(&Reported::low_point_depth).mean > blank.of(&Reported::low_point_depth).mean + 5e-4);
}

TEST_CASE("on a mat no divot says nothing") {
  const Setting mat = with("7i", Surface::mat);
  const Reading blank = read({said(Kind::contact_word, "clean")}, mat);
  const Reading none = read({said(Kind::contact_word, "clean"), said(Kind::divot_word, "none")}, mat);
  CHECK(none.of(&Reported::low_point_depth).mean == blank.of(&Reported::low_point_depth).mean);
}

TEST_CASE("one slip of the finger does not drag the reading along") {
  std::vector<Sighting> good;
  for (int k = 0; k < 5; ++k) good.push_back(measured(Kind::face, 1.0 * kDegree));
  std::vector<Sighting> slipped = good;
  slipped.push_back(measured(Kind::face, 31.0 * kDegree));  // twenty standard deviations off
  const Estimate a = read(good).of(&Reported::face), b = read(slipped).of(&Reported::face);
  CHECK(std::abs(a.mean - b.mean) < 0.5 * a.sd);
}

TEST_CASE("seeing more narrows the reading and owes less to the prior") {
  const std::vector<Sighting> one{measured(Kind::shaft_lean, 5.0 * kDegree)};
  std::vector<Sighting> two = one;
  two.push_back(measured(Kind::handle_lead, 0.06));
  const Estimate none = read({}).of(&Reported::shaft_lean);
  const Estimate some = read(one).of(&Reported::shaft_lean);
  const Estimate more = read(two).of(&Reported::shaft_lean);
  CHECK(some.sd < none.sd);
  CHECK(more.sd < some.sd);
  CHECK(more.owed_to_prior < some.owed_to_prior);
}

TEST_CASE("the same sightings give the same bits") {
  const std::vector<Sighting> s{measured(Kind::start, 0.02), said(Kind::contact_word, "thin")};
  const Reading a = read(s), b = read(s);
  for (std::size_t k = 0; k < kReported; ++k) {
    CHECK(a.at[k].mean == b.at[k].mean);
    CHECK(a.at[k].p10 == b.at[k].p10);
  }
}

TEST_CASE("every kind of sighting alone gives a finite reading inside sense") {
  for (std::size_t k = 0; k < kKinds; ++k) {
    const auto kind = static_cast<Kind>(k);
    const std::size_t words = words_of(kind).size();
    std::vector<Sighting> all;
    if (is_word(kind))
      for (std::size_t w = 0; w < words; ++w) all.push_back(judged(kind, static_cast<int>(w)));
    else
      all.push_back(measured(kind, kind == Kind::strike_groove ? 3.0 : kind == Kind::carry ? 110.0 : 0.02));
    for (const Sighting& s : all) {
      const Reading r = read({s});
      INFO(column_of(kind), " ", s.word);
      for (const Estimate& e : r.at) {
        CHECK(std::isfinite(e.mean));
        CHECK(e.sd > 0.0);
        CHECK(e.p10 <= e.p50);
        CHECK(e.p50 <= e.p90);
      }
    }
  }
}

TEST_CASE("the posterior's slope agrees with differences, at ordinary points and at the edges") {
  struct Case {
    const char* club;
    Surface surface;
    std::vector<Sighting> sightings;
  };
  const std::vector<Case> cases{
      {"7i",
       Surface::fairway,
       {measured(Kind::start, 0.03), measured(Kind::curve, -8.0), measured(Kind::carry, 120.0),
        measured(Kind::divot_start, 0.01), said(Kind::contact_word, "clean")}},
      {"driver",
       Surface::tee,
       {measured(Kind::start, -0.02), said(Kind::height_word, "low"), measured(Kind::spin, 260.0)}},
      {"sw", Surface::rough, {measured(Kind::strike_up, 0.02), said(Kind::contact_word, "fat")}},
      {"5i", Surface::mat, {said(Kind::contact_word, "topped"), said(Kind::curve_word, "left")}}};
  const double step = 1e-4;
  Draws draws(8);
  for (const Case& c : cases) {
    const Setting setting = with(c.club, c.surface);
    const Prior prior = prior_for(setting.club, Skill::club, c.surface);
    const Target target(c.sightings, setting, prior);
    for (int place = 0; place < 4; ++place) {
      Coordinates z = Coordinates::Zero();  // first the centre, then drawn places
      if (place > 0)
        for (int j = 0; j < kUnknowns; ++j) z[j] = draws.normal();
      const Local here = target.local(z);
      CHECK(here.cost == doctest::Approx(target.cost(z)).epsilon(1e-9));
      for (int j = 0; j < kUnknowns; ++j) {
        Coordinates up = z, down = z;
        up[j] += step;
        down[j] -= step;
        const double rough = (target.cost(up) - target.cost(down)) / (2.0 * step);
        INFO(c.club, " place ", place, " coordinate ", j, " exact ", here.gradient[j], " rough ", rough);
        // 1e-4 prior standard deviations: truncation 1e-8 of the third slope; the flight's step count may
        // change between the two sides by its stated error.
        CHECK(std::abs(here.gradient[j] - rough) < 2e-3 * (1.0 + std::abs(rough)));
      }
    }
  }
}

TEST_CASE("brute force over the prior gives the same means and spreads") {
  // A second road that shares no step with the climb or the proposal: 160,000 plain prior draws, each
  // weighted by the likelihood. Few sightings, so that thousands of draws carry weight.
  const std::vector<Sighting> s{measured(Kind::start, 2.0 * kDegree), measured(Kind::divot_start, 0.0),
                                said(Kind::contact_word, "clean"),
                                measured(Kind::shaft_lean, 6.0 * kDegree, 0.05)};
  const Setting setting = with("7i");
  const Prior prior = prior_for(setting.club, Skill::club, setting.ground.surface);
  const Target target(s, setting, prior);
  Draws draws(21);
  std::array<std::vector<double>, kReported> values;
  std::vector<double> weight;
  double total = 0.0;
  for (int i = 0; i < 160000; ++i) {
    Coordinates z;
    for (int j = 0; j < kUnknowns; ++j) z[j] = draws.normal();
    Shot<double> shot;
    weight.push_back(std::exp(0.5 * z.squaredNorm() - target.cost(z, shot)));
    total += weight.back();
    const auto row = reported_values(shot);
    for (std::size_t k = 0; k < kReported; ++k) values[k].push_back(row[k]);
  }
  for (double& w : weight) w /= total;
  ReadingOptions options;
  options.draws = 2048;
  const Reading r = read_swing(s, setting, prior, options);
  for (std::size_t k = 0; k < kReported; ++k) {
    const WeightedDraws brute(values[k], weight);
    INFO(kReportedFields[k].key, " ", r.at[k].mean, " ", brute.mean(), " ", r.at[k].sd, " ", brute.sd());
    CHECK(std::abs(r.at[k].mean - brute.mean()) < 0.1 * brute.sd());
    CHECK(std::abs(r.at[k].sd / brute.sd() - 1.0) < 0.1);
  }
}
