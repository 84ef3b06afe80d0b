// Where a pattern sits and how it scatters.

#include <doctest/doctest.h>

#include <cmath>

#include "bag/generic.hpp"
#include "numeric/quantile.hpp"
#include "reading/pattern.hpp"
#include "reading/recovery.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

namespace {

struct Scene {
  Setting setting;
  Prior prior;
  PriorReach reach;
  Scene() {
    setting.club = *club_named(generic_bag(), "7i");
    prior = prior_for(setting.club, Skill::club);
    reach = prior_reach(setting, prior);
  }
};

TogetherReading read_all(const Scene& scene, const std::vector<std::vector<Sighting>>& seen,
                         FitOptions options = {}) {
  std::vector<FitSwing> swings;
  for (const auto& s : seen) swings.push_back({s, &scene.setting, &scene.prior, 0});
  const std::vector<const PriorReach*> reach(seen.size(), &scene.reach);
  const Condition normal[] = {Condition::normal};
  return read_together(swings, normal, reach, options);
}

const Estimate& low(const TogetherReading& r) { return r.patterns[0].mean[0]; }

std::vector<std::vector<Sighting>> swings_alike(std::size_t n, double start_mm) {
  std::vector<std::vector<Sighting>> all;
  for (std::size_t i = 0; i < n; ++i) {
    const double off = i % 2 == 0 ? 8.0 : -8.0;
    all.push_back({judged(Kind::contact_word, 0), measured(Kind::divot_start, (start_mm + off) * 1e-3),
                   measured(Kind::divot_end, (start_mm + off + 150.0) * 1e-3),
                   measured(Kind::shaft_lean, 4.0 * kDegree)});
  }
  return all;
}

}  // namespace

TEST_CASE("three balls give a wide answer, sixty a narrower one") {
  const Scene scene;
  // So many draws that their own noise does not matter.
  FitOptions many;
  many.first = 200;
  many.sweeps = 1200;
  const TogetherReading three = read_all(scene, swings_alike(3, 0.0), many),
                        sixty = read_all(scene, swings_alike(60, 0.0), many);
  CHECK(sixty.patterns[0].mean[2].sd < 0.85 * three.patterns[0].mean[2].sd);
  CHECK(low(sixty).sd < 0.90 * low(three).sd);
  CHECK(low(three).sd > 0.012);
  // The eye's own bias is not known better after sixty balls than after three: the answer does not shrink to
  // nothing.
  CHECK(low(sixty).sd > 0.004);
  CHECK(sixty.patterns[0].scatter[0].sd < three.patterns[0].scatter[0].sd);
}

TEST_CASE("marks further forward put the pattern further forward") {
  // By a sixth of it: where a mark begins also hangs on how deep the edge goes, and how far it is seen
  // nobody knows.
  const Scene scene;
  CHECK(low(read_all(scene, swings_alike(6, 40.0))).mean >
        low(read_all(scene, swings_alike(6, -20.0))).mean + 0.01);
}

TEST_CASE("nothing seen leaves the prior, and no figure is missing") {
  const Scene scene;
  const TogetherReading r = read_all(scene, std::vector<std::vector<Sighting>>(4));
  CHECK(low(r).sd > 0.8 * std::sqrt(1.0 - 0.4 * 0.4) * scene.reach.sd[0]);
  for (const Estimate& e : r.patterns[0].mean) CHECK(std::isfinite(e.mean));
  for (const Reading& s : r.swings) CHECK(std::isfinite(s.at[0].p90));
}

TEST_CASE("sightings that contradict each other in every swing still give figures") {
  const Scene scene;
  std::vector<std::vector<Sighting>> all(
      5, {measured(Kind::divot_start, 0.3), measured(Kind::divot_end, -0.4), judged(Kind::contact_word, 3),
          measured(Kind::shaft_lean, 0.5), measured(Kind::carry, 300.0), measured(Kind::start, -0.4)});
  const TogetherReading r = read_all(scene, all);
  for (const Estimate& e : r.patterns[0].mean) {
    CHECK(std::isfinite(e.mean));
    CHECK(e.sd > 0.0);
  }
}

TEST_CASE("a shank among sound strikes falls out of its pattern") {
  const Scene scene;
  Draws draws(3);
  std::vector<std::vector<Sighting>> all;
  for (int i = 0; i < 12; ++i)
    all.push_back({judged(Kind::contact_word, 0), measured(Kind::strike_toe, 0.004 * draws.normal()),
                   measured(Kind::start, 0.02 * draws.normal())});
  all.push_back(
      {judged(Kind::contact_word, 4), measured(Kind::strike_toe, -0.045), measured(Kind::start, 0.3)});
  const TogetherReading r = read_all(scene, all);
  double others = 0.0;
  for (std::size_t i = 0; i < 12; ++i) others += r.swings[i].health.belongs / 12.0;
  CHECK(r.swings[12].health.belongs < 0.7 * others);
}

TEST_CASE("the same seed gives the same draws on one core and on two") {
  const Scene scene;
  FitOptions one, two;
  one.threads = 1;
  two.threads = 2;
  CHECK(low(read_all(scene, swings_alike(4, 0.0), one)).mean ==
        low(read_all(scene, swings_alike(4, 0.0), two)).mean);
}

// Second road: no chain straightened, no sweeps: pupils, scatters, biases and swings drawn from the prior and
// weighed by the likelihood itself (importance sampling; unbiased although each swing is drawn once).
TEST_CASE("two swings: the fit agrees with brute force") {
  const Scene scene;
  const std::vector<std::vector<Sighting>> seen{
      {judged(Kind::start_word, 3), judged(Kind::contact_word, 1)},
      {judged(Kind::start_word, 2), judged(Kind::divot_begins_word, 0)}};
  FitOptions much;
  much.first = 1000;
  much.sweeps = 6000;
  const TogetherReading fit = read_all(scene, seen, much);
  constexpr std::size_t kDraws = 400000;
  std::array<std::vector<double>, 3> values;
  std::vector<double> weight;
  double sum = 0.0;
  for (std::size_t k = 0; k < kDraws; ++k) {
    Draws draws(11, k);
    const auto chi_square = [&](double freedom) {
      double s = 0.0;
      for (int i = 0; i < static_cast<int>(freedom); ++i) s += std::pow(draws.normal(), 2);
      return s;
    };
    Coordinates pupil, scale;
    for (int j = 0; j < kUnknowns; ++j) {
      pupil[j] = between_sd()[j] * draws.normal();
      const double mean_square = within_sd()[j] * within_sd()[j] * (kSwingFreedom - 2.0) / kSwingFreedom;
      scale[j] = std::sqrt(mean_square * (kScatterFreedom - 2.0) / chi_square(kScatterFreedom));
    }
    std::array<double, kKinds> bias{};
    for (std::size_t b = 0; b < kKinds; ++b) bias[b] = facts_of(static_cast<Kind>(b)).bias * draws.normal();
    double log_weight = 0.0;
    for (const auto& sightings : seen) {
      const double tail = std::sqrt(kSwingFreedom / chi_square(kSwingFreedom));
      Coordinates z;
      for (int j = 0; j < kUnknowns; ++j) z[j] = pupil[j] + tail * scale[j] * draws.normal();
      const Shot<double> shot = shot_of(pass_at(scene.prior, z), scene.setting, false);
      for (const Sighting& s : sightings)
        log_weight += log_likelihood(s, predict(s, shot, scene.setting), scene.setting,
                                     bias[static_cast<std::size_t>(s.kind)]);
    }
    const auto row = reported_values(shot_of(pass_at(scene.prior, pupil), scene.setting, false));
    values[0].push_back(row[0]);
    values[1].push_back(row[2]);
    values[2].push_back(row[5]);
    weight.push_back(std::exp(log_weight));
    sum += weight.back();
  }
  for (double& w : weight) w /= sum;
  const std::array<std::size_t, 3> of{0, 2, 5};  // low point, shaft lean, face
  for (std::size_t q = 0; q < 3; ++q) {
    const WeightedDraws brute(values[q], weight);
    const Estimate& e = fit.patterns[0].mean[of[q]];
    CAPTURE(kReportedFields[of[q]].key);
    CHECK(std::abs(e.mean - brute.mean()) < 0.1 * brute.sd());
    // The fit's draws are spread on purpose.
    CHECK(std::abs(e.sd / kPatternAllowance / brute.sd() - 1.0) < 0.1);
  }
}

TEST_CASE("more evidence does not widen the expected interval") {
  const Scene scene;
  double eye = 0.0, more = 0.0;
  for (std::uint64_t pupil = 0; pupil < 12; ++pupil) {
    Draws draws(21, pupil);
    std::vector<std::vector<Sighting>> few(5), many(5);
    Coordinates z0;
    for (int j = 0; j < kUnknowns; ++j) z0[j] = 0.8 * draws.normal();
    for (std::size_t i = 0; i < few.size(); ++i) {
      Coordinates z;
      for (int j = 0; j < kUnknowns; ++j) z[j] = z0[j] + 0.4 * draws.normal();
      const Shot<double> shot = shot_of(pass_at(scene.prior, z), scene.setting);
      for (const Kind kind : looks()[1].kinds) many[i].push_back(seen(kind, shot, scene.setting, draws));
      few[i].assign(many[i].begin(), many[i].begin() + static_cast<std::ptrdiff_t>(looks()[0].kinds.size()));
    }
    eye += low(read_all(scene, few)).sd;
    more += low(read_all(scene, many)).sd;
  }
  CHECK(more < eye);
}

namespace {

/// Swings of one pupil about a place, seen by eye with divot and strike mark.
std::vector<std::vector<Sighting>> seen_of(const Scene& scene, const Coordinates& pupil, std::size_t n,
                                           Draws& draws) {
  std::vector<std::vector<Sighting>> all(n);
  for (auto& sightings : all) {
    Coordinates z;
    for (int j = 0; j < kUnknowns; ++j) z[j] = pupil[j] + within_sd()[j] * draws.normal();
    const Shot<double> shot = shot_of(pass_at(scene.prior, z), scene.setting);
    for (const Kind kind : looks()[2].kinds)
      if (can_be_seen(kind, shot)) sightings.push_back(seen(kind, shot, scene.setting, draws));
  }
  return all;
}

}  // namespace

TEST_CASE("a long lesson finds the low point, and does not run away with it") {
  const Scene scene;
  for (std::uint64_t index = 0; index < 3; ++index) {
    Draws draws(31, index);
    Coordinates pupil;
    for (int j = 0; j < kUnknowns; ++j) pupil[j] = between_sd()[j] * draws.normal();
    const auto seen_all = seen_of(scene, pupil, 60, draws);
    const TogetherReading r = read_all(scene, seen_all);
    const TogetherReading few = read_all(scene, {seen_all.begin(), seen_all.begin() + 4});
    const double truth = pass_at(scene.prior, pupil).low_point;
    CAPTURE(index);
    CHECK(std::abs(low(r).mean - truth) < 3.0 * low(r).sd);
    CHECK(low(r).sd < low(few).sd);
  }
}

TEST_CASE("a pupil who tops every ball gets figures, not a sampler that ran away") {
  const Scene scene;
  Draws draws(8);
  Coordinates pupil = Coordinates::Zero();
  pupil[static_cast<int>(Unknown::height)] = 3.5;
  pupil[static_cast<int>(Unknown::release)] = 2.0;
  const TogetherReading r = read_all(scene, seen_of(scene, pupil, 10, draws));
  for (const Estimate& e : r.patterns[0].mean) CHECK(std::isfinite(e.mean));
  for (const Coordinates& z : r.fit.patterns[0].centre) CHECK(z.cwiseAbs().maxCoeff() <= kFarthest);
}
