// Why the pattern sits where it sits, and what to look at next.

#include "cause/causes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bag/generic.hpp"
#include "cause/looks.hpp"
#include "shot/shot_of.hpp"

using namespace strikewright;

namespace {

const std::vector<Kind> kByEye{Kind::start,       Kind::curve,        Kind::carry,
                               Kind::height_word, Kind::contact_word, Kind::divot_word,
                               Kind::divot_start, Kind::divot_end,    Kind::divot_direction,
                               Kind::divot_depth, Kind::strike_toe,   Kind::strike_groove};

/// A pupil whose usual swing is the default but for some causes, in steps.
class Pupil {
 public:
  explicit Pupil(std::uint64_t seed = 4) : draws_(seed) {
    setting_.club = *club_named(generic_bag(), "7i");
    prior_ = prior_for(setting_.club, Skill::club);
  }
  Pupil& off(Cause cause, double steps) {
    z_[place_of(cause)] += steps / steps_in(cause, prior_);
    return *this;
  }
  /// n swings that scatter a little, seen by an eye without bias.
  Pupil& hits(int n, Condition condition = Condition::normal, std::vector<Kind> kinds = kByEye) {
    const auto effects = effects_of(condition, prior_);
    for (int i = 0; i < n; ++i) {
      Coordinates z;
      for (int j = 0; j < kUnknowns; ++j) {
        const ConditionEffect& e = effects[static_cast<std::size_t>(j)];
        z[j] = e.keeps * z_[j] + e.shift + 0.5 * within_sd()[j] * draws_.normal();
      }
      const Shot<double> shot = shot_of(pass_at(prior_, z), setting_);
      SeenSwing s;
      s.row = s.line = rows_.size() + 1;
      s.club = "7i";
      s.condition = condition;
      for (const Kind kind : kinds)
        if (can_be_seen(kind, shot)) s.sightings.push_back(seen(kind, shot, setting_, draws_));
      rows_.push_back(s);
    }
    return *this;
  }
  [[nodiscard]] CauseReading read(From from = From::usual) const {
    LessonOptions options;
    options.bag = generic_bag();
    const auto lesson = read_lesson(rows_, options, "lesson.csv");
    REQUIRE(lesson.has_value());
    return causes_of(lesson->groups.front(), rows_, from);
  }

 private:
  Setting setting_;
  Prior prior_;
  Coordinates z_ = Coordinates::Zero();
  Draws draws_;
  std::vector<SeenSwing> rows_;
};

const CauseShift& of(const CauseReading& r, Cause cause) {
  return *std::find_if(r.causes.begin(), r.causes.end(),
                       [&](const CauseShift& c) { return c.cause == cause; });
}

}  // namespace

TEST_CASE("a handle that goes left leads, and by about how much") {
  const CauseReading r = Pupil().off(Cause::handle, -3.0).hits(12).read();
  CHECK(r.causes[0].cause == Cause::handle);
  CHECK(r.causes[0].probability_leading > 0.5);
  CHECK(r.causes[0].shift.p10 < -6.0 * kDegree);
  CHECK(r.causes[0].shift.p90 < 0.0);
}

TEST_CASE("a face turned open leads when balls start right and bend right of their marks") {
  const CauseReading r = Pupil().off(Cause::face_turn, -3.0).hits(12).read();
  CHECK(r.causes[0].cause == Cause::face_turn);
  CHECK(r.causes[0].shift.mean < 0.0);
}

TEST_CASE("weight that stays back: low point back, and weight or release named, not the handle") {
  const CauseReading r = Pupil().off(Cause::weight, -3.0).hits(12).read();
  const double back = of(r, Cause::weight).probability_leading + of(r, Cause::release).probability_leading;
  CHECK(back > 0.7);  // how far back is open: no mark is believed to the centimetre
  CHECK(of(r, Cause::weight).shift.mean < 0.0);
}

TEST_CASE("who lets go early and keeps the edge at the ball is told of the release, not of the height") {
  const Prior prior = prior_for(*club_named(generic_bag(), "7i"), Skill::club);
  // The height that makes good what the release still does to the edge.
  const Cause release = Cause::release, height = Cause::height;
  const double early = -2.5 / steps_in(release, prior);
  const double kept = -early * prior.factor(4, place_of(release)) / prior.factor(4, place_of(height));
  double by_release = 0.0, by_height = 0.0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const CauseReading r =
        Pupil(seed).off(release, -2.5).off(height, kept * steps_in(height, prior)).hits(12).read();
    CHECK(of(r, release).shift.mean < 0.0);
    by_release += of(r, release).probability_leading;
    by_height += of(r, height).probability_leading;
  }
  CHECK(by_release > 1.5 * by_height);  // measured 2.1 times
}

TEST_CASE("probabilities of leading add up to one, whatever was seen") {
  for (const CauseReading& r :
       {Pupil().hits(1, Condition::normal, {}).read(), Pupil().off(Cause::height, 2.0).hits(5).read()}) {
    double sum = 0.0;
    for (const CauseShift& c : r.causes) {
      sum += c.probability_leading;
      CHECK(std::isfinite(c.shift.mean));
      CHECK(c.shift.p10 <= c.shift.p90);
    }
    CHECK(sum == doctest::Approx(1.0));
  }
}

TEST_CASE("nothing seen: no cause leads") {
  const CauseReading r = Pupil().hits(3, Condition::normal, {}).read();
  CHECK(r.causes[0].probability_leading < 0.45);
  for (const CauseShift& c : r.causes) CHECK(std::abs(c.shift.mean) < 0.3 * c.shift.sd + 1e-12);
}

TEST_CASE("weight and release, little seen: the tool says that it cannot tell, and a condition would") {
  const CauseReading r = Pupil()
                             .off(Cause::weight, -2.5)
                             .hits(10, Condition::normal, {Kind::divot_start, Kind::divot_end})
                             .read();
  const bool said =
      std::any_of(r.cannot_tell_apart.begin(), r.cannot_tell_apart.end(), [](const Confounded& c) {
        const auto has = [&](Cause x) {
          return std::find(c.causes.begin(), c.causes.end(), x) != c.causes.end();
        };
        return has(Cause::weight) && has(Cause::release);
      });
  CHECK(said);
  CHECK(
      std::any_of(r.next_look.begin(), r.next_look.end(), [](const NextLook& n) { return n.is_condition; }));
}

TEST_CASE("swings on each leg narrow the weight") {
  Pupil pupil;
  pupil.off(Cause::weight, -2.5).hits(10);
  // Not the shift's own spread: it is of two states, near and off, and grows where it was sure of one of
  // them.
  const double before = of(pupil.read(), Cause::weight).told;
  pupil.hits(8, Condition::lead_leg).hits(8, Condition::trail_leg);
  CHECK(of(pupil.read(), Cause::weight).told > before + 0.1);
}

TEST_CASE("of one thing in words and in numbers only the more telling look is offered") {
  const CauseReading r = Pupil().hits(4, Condition::normal, {Kind::start, Kind::contact_word}).read();
  const auto at_curve = [](const NextLook& look) {
    return !look.is_condition && (look.kind == Kind::curve || look.kind == Kind::curve_word);
  };
  CHECK(std::count_if(r.next_look.begin(), r.next_look.end(), at_curve) == 1);
}

TEST_CASE("next looks are ranked by gain per second, and none was made already") {
  const CauseReading r = Pupil().off(Cause::release, 2.0).hits(8).read();
  REQUIRE(!r.next_look.empty());
  for (std::size_t i = 1; i < r.next_look.size(); ++i)
    CHECK(r.next_look[i - 1].gain_per_minute() >= r.next_look[i].gain_per_minute());
  for (const NextLook& n : r.next_look) {
    CHECK(n.gain > 0.0);
    if (!n.is_condition) CHECK(std::find(kByEye.begin(), kByEye.end(), n.kind) == kByEye.end());
  }
}

TEST_CASE("from the pupil's own best: asked with no good swing, the usual is taken and said so") {
  const CauseReading r = Pupil().off(Cause::height, 4.0).hits(6).read(From::best);
  CHECK(r.from == From::usual);
  CHECK(!r.from_best_possible);
  const CauseReading good = Pupil().hits(16).read(From::best);
  CHECK(good.from == From::best);
}

TEST_CASE("the joint draws are those that the shifts tell of, and every n-th of them is a fair sample") {
  const Pupil pupil = Pupil().off(Cause::handle, -3.0).hits(10);
  const CauseReading r = pupil.read();
  const Prior prior = prior_for(*club_named(generic_bag(), "7i"), Skill::club);
  REQUIRE(r.draws.size() > 1400);
  for (const CauseShift& c : r.causes) {
    const double unit = prior.unit_sd[place_of(c.cause)];
    double mean = 0.0, thinned = 0.0, n = 0.0;
    for (std::size_t i = 0; i < r.draws.size(); ++i) {
      mean += unit * r.draws[i][place_of(c.cause)] / static_cast<double>(r.draws.size());
      if (i % 10 == 5) thinned += unit * r.draws[i][place_of(c.cause)], n += 1.0;
    }
    // A part of the height and the face turn in a draw is done about another cause, and none of its own.
    if (c.cause == Cause::height || c.cause == Cause::face_turn)
      CHECK(std::abs(c.shift.mean) < std::abs(mean) + 0.1 * c.shift.sd);
    else
      CHECK(mean == doctest::Approx(c.shift.mean).epsilon(1e-9));
    CHECK(std::abs(thinned / n - mean) <
          4.0 * c.shift.sd / std::sqrt(n));  // 4 sigma, if no better than chance
  }
}

TEST_CASE("what the sightings tell of a cause: nothing when nothing was seen, more the more was") {
  const auto told = [](const CauseReading& r) { return of(r, Cause::handle).told; };
  CHECK(told(Pupil().hits(3, Condition::normal, {}).read()) < 0.02);
  const double few = told(Pupil().hits(3).read()), many = told(Pupil().hits(15).read());
  CHECK(few > 0.1);
  CHECK(many > few);
}

TEST_CASE("without a message the draws are the prior's: three in ten far off") {
  const Prior prior = prior_for(*club_named(generic_bag(), "7i"), Skill::club);
  const auto draws = pattern_draws({}, prior, Coordinates::Zero(), 3);
  double square = 0.0;
  for (const Coordinates& z : draws)
    square += std::pow(z[place_of(Cause::weight)] * steps_in(Cause::weight, prior), 2) /
              static_cast<double>(draws.size());
  // 0.3 x 1.8^2 + 0.7 x 0.25^2 = 1.016; 1,500 draws of kurtosis 10: 8 %, 4 sigma
  CHECK(square == doctest::Approx(1.016).epsilon(0.32));
}
