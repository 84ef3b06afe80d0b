// Which exercise is given, and why.

#include "exercise/ranking.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "exercise/play.hpp"
#include "exercise/test/lesson.hpp"
#include "exercise/test/some_exercise.hpp"

using namespace strikewright;

namespace {

/// One exercise a cause, alike in everything else.
const std::vector<Exercise>& five() {
  static const std::vector<Exercise> all = [] {
    std::vector<Exercise> out;
    for (const char* cause : {"weight", "release", "height", "handle", "face_turn"})
      out.push_back(moving(std::string("own_") + cause, cause, 0.4));
    return out;
  }();
  return all;
}

const LessonPupil::Read& handle_out() {
  static const LessonPupil::Read read = LessonPupil().off(Cause::handle, 3.0).hits(10).read();
  return read;
}
const LessonPupil::Read& weight_back() {
  static const LessonPupil::Read read = LessonPupil().off(Cause::weight, -4.0).hits(20).read();
  return read;
}

Ranking rank(const LessonPupil::Read& read, const std::vector<Exercise>& exercises = five(),
             const BookEffects* learned = nullptr, const RankingOptions& options = {}) {
  return ranking_of(read.group, read.causes, exercises, learned, options);
}
const RankedExercise& of(const Ranking& r, const std::string& name) {
  return *std::find_if(r.ranked.begin(), r.ranked.end(),
                       [&](const RankedExercise& e) { return e.name == name; });
}
bool same(const Spread& a, const Spread& b) {
  return a.mean == b.mean && a.sd == b.sd && a.p10 == b.p10 && a.p90 == b.p90;
}

}  // namespace

TEST_CASE("a handle that goes out: the exercise for the handle comes first, and why is said") {
  const Ranking r = rank(handle_out());
  REQUIRE(r.ranked.size() == 5);
  CHECK(r.ranked[0].name == "own_handle");
  CHECK(r.ranked[0].by == Cause::handle);
  // A path 2.4 deg straighter gains little where the player squares most of what the handle does to the face.
  CHECK(r.ranked[0].gain.mean > 2.0 * std::max(0.05, r.ranked[1].gain.mean));
  CHECK(r.ranked[0].probability_gain > 0.75);
  CHECK(!r.rests_on_prior);
  CHECK(r.now.distance.mean > 5.0);
  CHECK(r.target_carry > 80.0);
}

TEST_CASE("a face turned closed by four steps: metres are gained, and it is nearly sure which exercise") {
  const Ranking r = rank(LessonPupil().off(Cause::face_turn, 4.0).hits(20).read());
  CHECK(r.ranked[0].name == "own_face_turn");
  CHECK(r.ranked[0].gain.mean > 2.0);
  CHECK(r.ranked[0].gain.p10 > 0.0);
  CHECK(r.ranked[0].probability_best > 0.9);
}

TEST_CASE("weight that stays back: weight or release first, and fewer are fat or thin") {
  const Ranking r = rank(weight_back());
  const std::string first = r.ranked[0].name;
  CHECK((first == "own_weight" || first == "own_release"));
  CHECK(r.ranked[0].fewer_bad.mean > 0.02);
  CHECK(r.now.bad_share.mean > rank(handle_out()).now.bad_share.mean);
}

TEST_CASE("probabilities of being best add up to one, scores fall, limits enclose the mean") {
  for (const auto* read : {&handle_out(), &weight_back()}) {
    const Ranking r = rank(*read);
    double sum = 0.0;
    for (std::size_t i = 0; i < r.ranked.size(); ++i) {
      const RankedExercise& e = r.ranked[i];
      sum += e.probability_best;
      CHECK(e.gain.p10 <= e.gain.p90);
      CHECK(e.score.mean == doctest::Approx(e.gain.mean + kMetresPerBadStrike * e.fewer_bad.mean));
      if (i > 0) CHECK(e.score.mean <= r.ranked[i - 1].score.mean);
    }
    CHECK(sum == doctest::Approx(1.0));
  }
}

TEST_CASE("an exercise that does nothing gains nothing, exactly") {
  std::vector<Exercise> all = five();
  all.push_back(moving("own_nothing", "weight", 0.0, 0.0));
  const RankedExercise nothing = of(rank(handle_out(), all), "own_nothing");
  CHECK(nothing.gain.mean == 0.0);
  CHECK(nothing.score.sd == 0.0);
  CHECK(nothing.probability_gain == 0.0);
}

TEST_CASE("twice the share gains more; steadier swings gain, too") {
  nlohmann::json steady = some_document("own_steady");
  steady["moves"][0] = {{"cause", "face_turn"}, {"home", 0},      {"home_sd", 0},     {"shift", 0},
                        {"shift_sd", 0},        {"scatter", 0.5}, {"scatter_sd", 0.1}};
  const std::vector<Exercise> all{moving("own_half", "handle", 0.3), moving("own_whole", "handle", 0.6),
                                  some_exercise(steady)};
  const Ranking r = rank(handle_out(), all);
  CHECK(of(r, "own_whole").gain.mean > 1.3 * of(r, "own_half").gain.mean);
  CHECK(of(r, "own_steady").gain.mean > 0.1);
}

TEST_CASE("of two moves the one that brings the gain is named") {
  nlohmann::json d = some_document("own_both");
  d["moves"].push_back(d["moves"][0]);
  d["moves"][1]["cause"] = "handle";
  const Ranking r = rank(handle_out(), {some_exercise(d)});
  CHECK(r.ranked[0].by == Cause::handle);
  CHECK(r.what_would_make_second_first.empty());
}

TEST_CASE("the same bits for one thread or many, and for whatever stands beside it in the catalogue") {
  RankingOptions one, two;
  one.threads = 1;
  two.threads = 2;
  const Ranking a = rank(handle_out(), five(), nullptr, one), b = rank(handle_out(), five(), nullptr, two);
  for (std::size_t i = 0; i < a.ranked.size(); ++i) {
    CHECK(a.ranked[i].name == b.ranked[i].name);
    CHECK(same(a.ranked[i].score, b.ranked[i].score));
  }
  const Ranking alone = rank(handle_out(), {five()[3]}, nullptr, one);
  CHECK(same(alone.ranked[0].score, of(a, "own_handle").score));
}

TEST_CASE("a left-hander's mirrored lesson ranks the same") {
  // The same swings in the player's terms: the door has turned the sightings, only the hand differs.
  const auto left = LessonPupil(Hand::left).off(Cause::handle, 3.0).hits(10).read();
  const Ranking a = rank(handle_out()), b = rank(left);
  REQUIRE(a.ranked.size() == b.ranked.size());
  for (std::size_t i = 0; i < a.ranked.size(); ++i) {
    CHECK(a.ranked[i].name == b.ranked[i].name);
    CHECK(a.ranked[i].score.mean == doctest::Approx(b.ranked[i].score.mean).epsilon(1e-9));
  }
}

TEST_CASE("a left-hander in side wind ranks as the right-hander in the mirror") {
  LessonPupil::Read right = handle_out(), left = handle_out();
  right.group.setting.day.wind_across = 4.0;
  left.group.setting.day.wind_across = -4.0;  // the world's; the group's setting is the player's mirror
  left.group.setting = mirrored(left.group.setting);
  left.group.hand = Hand::left;
  CHECK(rank(left).ranked[0].score.mean == rank(right).ranked[0].score.mean);
}

TEST_CASE("nothing seen: still a ranking, and it says that it rests on the prior") {
  const auto blind = LessonPupil().hits(3, {}).read();
  const Ranking r = rank(blind);
  CHECK(r.rests_on_prior);
  CHECK(r.ranked.size() == 5);
  const Ranking prior = ranking_of_prior(blind.group.setting, blind.group.prior, five());
  CHECK(prior.rests_on_prior);
  REQUIRE(prior.ranked.size() == 5);
  CHECK(prior.ranked[0].score.mean > 0.0);
  CHECK(prior.ranked[0].probability_best < rank(handle_out()).ranked[0].probability_best);
}

TEST_CASE("what is not allowed is left out with its reason, what is to be asked stays flagged") {
  RankingOptions options;
  options.notes = body_notes_of("stiff back");
  std::vector<Exercise> all = five();  // ask_first: elbow and back
  nlohmann::json d = some_document("own_hidden");
  d["not_with"] = {"wrist", "back"};
  d["ask_first"] = {"elbow"};
  all.push_back(some_exercise(d));
  d = some_document("own_wood");
  d["clubs"] = {"driver"};
  all.push_back(some_exercise(d));
  const Ranking r = rank(handle_out(), all, nullptr, options);
  CHECK(r.ranked.size() == 5);
  for (const RankedExercise& e : r.ranked) {
    CHECK(e.permission.permit == Permit::flagged);
    CHECK(!e.permission.reasons.empty());
  }
  REQUIRE(r.left_out.size() == 2);
  CHECK(r.left_out[0].name == "own_hidden");
  CHECK(r.left_out[0].reasons[0] == "The body notes speak of the back.");
  CHECK(r.left_out[1].reasons.back() == "Not for this club: iron.");
  CHECK(rank(handle_out(), {}).ranked.empty());
}

TEST_CASE("exercises that do not work for this coach sink") {
  const std::vector<Exercise> all{moving("own_first", "handle", 0.45), moving("own_other", "handle", 0.35)};
  CHECK(rank(handle_out(), all).ranked[0].name == "own_first");
  std::vector<Trial> trials;
  for (int p = 0; p < 12; ++p) {
    Trial t;
    t.exercise = "own_first";
    t.pupil = std::to_string(p);
    t.causes[Cause::handle] = {4.0 * kDegree, 0.5 * kDegree, 4.0 * kDegree, 0.5 * kDegree, 0.0, 0.0};
    trials.push_back(t);
  }
  const BookEffects book = learned_effects(all, trials);
  const Ranking r = rank(handle_out(), all, &book);
  CHECK(r.ranked[0].name == "own_other");
  CHECK(!r.ranked[0].learned);
  CHECK(of(r, "own_first").learned);
}

TEST_CASE("what would turn the order does turn it") {
  const std::vector<Exercise> all{moving("own_first", "face_turn", 0.5, 0.1),
                                  moving("own_second", "face_turn", 0.35, 0.1)};
  const Ranking r = rank(LessonPupil().off(Cause::face_turn, 3.0).hits(10).read(), all);
  REQUIRE(r.what_would_make_second_first.size() == 3);
  const Turn& first = r.what_would_make_second_first[1];
  const Turn& second = r.what_would_make_second_first[2];
  CHECK(r.what_would_make_second_first[0].what == Turn::What::cause);
  CHECK(first.now == doctest::Approx(0.5).epsilon(1e-6));
  // The same move to the same home: each would have to do what the other does.
  REQUIRE(first.needed.has_value());
  REQUIRE(second.needed.has_value());
  CHECK(*first.needed == doctest::Approx(0.35).epsilon(0.12));
  CHECK(*second.needed == doctest::Approx(0.5).epsilon(0.12));
}

TEST_CASE("a face that was open instead of closed would want another exercise first") {
  // One brings the face home, the other to 2 deg closed: equally good for a face that is a little open.
  const std::vector<Exercise> all{moving("own_home", "face_turn", 0.4, 0.2, 0.0),
                                  moving("own_closed", "face_turn", 0.4, 0.2, 2.0)};
  const Ranking r = rank(LessonPupil().off(Cause::face_turn, 2.0).hits(10).read(), all);
  CHECK(r.ranked[0].name == "own_home");
  const Turn& cause = r.what_would_make_second_first[0];
  CHECK(cause.cause == Cause::face_turn);
  CHECK(cause.now > 2.0 * kDegree);
  REQUIRE(cause.needed.has_value());
  CHECK(*cause.needed < 1.0 * kDegree);
  CHECK(*cause.needed > -3.0 * kDegree);
}

TEST_CASE("a given target: who carries short of it gains by carrying further") {
  RankingOptions far;
  far.target_carry = 200.0;
  const Ranking r = rank(handle_out(), {moving("own_speed", "speed", 0.5, 0.1, 15.0)}, nullptr, far);
  CHECK(r.target_carry == 200.0);
  CHECK(r.now.distance.mean > 30.0);
  CHECK(r.ranked[0].gain.mean > 2.0);
}

TEST_CASE("a swing that misses the ball leaves it where it lies: the whole carry away, and thin") {
  Setting setting;
  setting.club = *club_named(generic_bag(), "7i");
  const Prior prior = prior_for(setting.club, Skill::club);
  Coordinates high = Coordinates::Zero();
  high[place_of(Cause::height)] = 5.0;
  const Thinkable who(setting, prior, {high}, {Coordinates(1e-3 * within_sd())}, 2, 8, 1);
  PlayOptions options;
  options.target_carry = 120.0;
  const auto came = play(who, {{}}, options);
  CHECK(came[0][0].bad_share == 1.0);
  CHECK(came[0][0].distance > 60.0);
}
