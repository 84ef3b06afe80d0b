#include "plan/plan.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

using namespace strikewright;

namespace {

PlanAsk club_player() {
  return {.today = 20000,
          .next_lesson = 20014,
          .weekly_now = 100,
          .weekly_time = 150,
          .age = 45,
          .dose = {.exercise = "after_the_line"},
          .test_good = 4};
}

/// A small seeded generator, the same on every machine (Knuth's MMIX constants, from memory).
class Dice {
 public:
  explicit Dice(unsigned seed) : state_{seed} {}
  int between(int low, int high) {
    state_ = state_ * 6364136223846793005ull + 1442695040888963407ull;
    return low + static_cast<int>((state_ >> 33) % static_cast<unsigned>(high - low + 1));
  }
  bool chance() { return between(0, 1) == 1; }

 private:
  unsigned long long state_;
};

PlanAsk any_pupil(unsigned seed) {
  Dice dice(seed);
  PlanAsk ask{.today = dice.between(-5, 30000)};
  if (dice.chance()) ask.next_lesson = ask.today + dice.between(1, dice.chance() ? 30 : 365);
  if (dice.chance()) ask.weekly_now = dice.between(0, dice.chance() ? 150 : 2000);
  if (dice.chance()) ask.weekly_time = dice.between(0, dice.chance() ? 100 : 2000);
  if (dice.chance()) ask.age = dice.between(4, 90);
  ask.stage = static_cast<Stage>(dice.between(0, 2));
  ask.dose = {.balls = dice.between(4, 60),
              .sets = dice.between(1, 4),
              .rest_s = dice.between(0, 300),
              .minutes = dice.between(3, 40),
              .days_a_week = dice.between(1, 6),
              .earliest = static_cast<Order>(dice.between(0, 2))};
  ask.test_balls = dice.between(5, 30);
  if (dice.chance()) ask.test_good = dice.between(0, ask.test_balls);
  return ask;
}

/// What must be true of any plan.
void check_sound(const PlanAsk& ask, const Plan& plan) {
  const int lesson = ask.next_lesson.value_or(ask.today + 14);
  CHECK(plan.next_lesson == lesson);
  CHECK(plan.sessions.size() <= static_cast<std::size_t>(kMostSessions));
  int before = ask.today;
  for (const Session& s : plan.sessions) {
    CHECK(s.day > before);  // none before tomorrow, at most one a day, by day
    CHECK(s.day < lesson);
    before = s.day;
    CHECK(s.balls() > 0);
    CHECK(s.exercise_balls >= 0);
    CHECK(s.other_balls >= 0);
    CHECK(s.exercise_balls <= ask.dose.balls);
    CHECK((s.exercise_balls == 0) == s.self_test);
    CHECK(s.balls() <= std::max(most_balls_a_session(ask.age), s.self_test ? ask.test_balls : 0));
    CHECK(s.minutes > 0);
    if (!s.self_test) CHECK(s.order >= ask.dose.earliest);
    if (!s.self_test) CHECK(s.sets >= 1);
  }
}

void check_weeks(const PlanAsk& ask, const Plan& plan) {
  const double now = std::max(ask.weekly_now.value_or(kUnknownWeekly), kLeastWeekly);
  double used_to = now;
  for (std::size_t w = 0; w < plan.weeks.size(); ++w) {
    const Week& week = plan.weeks[w];
    int balls = 0, practices = 0, tests = 0;
    for (const Session& s : plan.sessions)
      if (s.day >= week.from && s.day <= week.to) {
        balls += s.balls();
        ++(s.self_test ? tests : practices);
        if (s.self_test) CHECK(s.day == week.to);
      }
    CHECK(balls == week.balls);
    CHECK(balls <= week.at_most);
    CHECK(balls <= 1.15 * used_to + 1e-9);
    CHECK(balls <= most_balls_a_week(ask.age));
    if (ask.weekly_time) CHECK(balls <= *ask.weekly_time);
    CHECK(practices <= ask.dose.days_a_week);
    CHECK(tests <= 1);
    used_to = std::max<double>(used_to, balls);
  }
}

void check_hard_days(const Plan& plan) {
  for (std::size_t k = 1; k < plan.sessions.size(); ++k) {
    const Session &a = plan.sessions[k - 1], &b = plan.sessions[k];
    CHECK_FALSE((a.hard && b.hard && b.day == a.day + 1));
  }
}

}  // namespace

TEST_CASE("any pupil's plan keeps its days, its balls and its growth") {
  for (unsigned seed = 0; seed < 3000; ++seed) {
    const PlanAsk ask = any_pupil(seed);
    CAPTURE(seed);
    REQUIRE_FALSE(plan_fault(ask).has_value());
    const Plan plan = plan_of(ask);
    check_sound(ask, plan);
    check_weeks(ask, plan);
    check_hard_days(plan);
  }
}

TEST_CASE("a fortnight of a club player: three days a week, a self-test at the end of each") {
  const Plan plan = plan_of(club_player());
  REQUIRE(plan.weeks.size() == 2);
  CHECK(plan.sessions.size() == 8);
  CHECK(plan.days_left_out == 0);
  for (const Session& s : plan.sessions) CHECK(s.self_test == (s.day == 20007 || s.day == 20013));
  CHECK(plan.weeks[0].balls <= 115);
  CHECK(plan.weeks[0].balls >= 80);
  CHECK(plan.weeks[1].balls <= 132);
  CHECK(plan.sessions.front().day == 20001);
  CHECK(plan.sessions.front().sets == 3);
}

TEST_CASE("practice goes from blocked over serial to random, never back") {
  for (const Stage stage : {Stage::early, Stage::middle, Stage::late}) {
    PlanAsk ask = club_player();
    ask.stage = stage;
    std::set<Order> seen;
    Order before = Order::blocked;
    for (const Session& s : plan_of(ask).sessions) {
      if (s.self_test) continue;
      CHECK(s.order >= before);
      before = s.order;
      seen.insert(s.order);
      CHECK((s.clubs > 1) == (s.order != Order::blocked));
    }
    CHECK(seen.count(Order::random) == 1);
    CHECK(seen.count(Order::blocked) == (stage == Stage::late ? 0u : 1u));
  }
}

TEST_CASE("three days of a week never follow one another, and four leave the second of two light") {
  PlanAsk ask = club_player();
  for (int weekdays = 1; weekdays <= 6; ++weekdays) {
    ask.dose.days_a_week = weekdays;
    ask.weekly_now = 200;
    ask.weekly_time = 300;
    int followed = 0, before = 0, balls = 0;
    for (const Session& s : plan_of(ask).sessions) {
      if (s.self_test) continue;
      if (s.day == before + 1) {
        ++followed;
        CHECK((s.balls() <= 0.75 * balls || balls <= 0.75 * s.balls()));
      }
      before = s.day;
      balls = s.balls();
    }
    CHECK((followed > 0) == (weekdays > 3));
  }
}

TEST_CASE("who is further on mixes sooner") {
  const auto first_random = [](Stage stage) {
    PlanAsk ask = club_player();
    ask.stage = stage;
    for (const Session& s : plan_of(ask).sessions)
      if (s.order == Order::random) return s.day;
    return 99999;
  };
  CHECK(first_random(Stage::late) < first_random(Stage::middle));
  CHECK(first_random(Stage::middle) < first_random(Stage::early));
}

TEST_CASE("an exercise for random practice is never given in blocks") {
  PlanAsk ask = club_player();
  ask.dose.earliest = Order::random;
  for (const Session& s : plan_of(ask).sessions)
    if (!s.self_test) CHECK(s.order == Order::random);
}

TEST_CASE("a child hits fewer balls than a grown-up who hits as many now") {
  PlanAsk ask = club_player();
  ask.weekly_now = 400;
  ask.weekly_time = 500;
  ask.dose.balls = 40;
  const Plan grown = plan_of(ask);
  ask.age = 11;
  const Plan child = plan_of(ask);
  CHECK(child.junior);
  CHECK_FALSE(grown.junior);
  CHECK(child.weeks[0].balls <= most_balls_a_week(11));
  CHECK(child.weeks[0].balls < grown.weeks[0].balls);
  for (int age = 5; age < 60; ++age) CHECK(most_balls_a_session(age) <= most_balls_a_session(age + 1));
}

TEST_CASE("where balls are few, days are kept and balls a day are cut before days are") {
  PlanAsk ask = club_player();
  ask.weekly_time = 50;
  const Plan plan = plan_of(ask);
  CHECK(plan.days_left_out == 0);
  CHECK(plan.sessions.front().balls() < 24);
  ask.weekly_time = 30;
  CHECK(plan_of(ask).days_left_out > 0);
  ask.weekly_time = 0;
  CHECK(plan_of(ask).sessions.empty());
}

TEST_CASE("a lesson tomorrow leaves no day to practise, one in a year a plan of twelve weeks") {
  PlanAsk ask = club_player();
  ask.next_lesson = ask.today + 1;
  CHECK(plan_of(ask).sessions.empty());
  ask.next_lesson = ask.today + 2;
  CHECK(plan_of(ask).sessions.size() == 1);
  ask.next_lesson = ask.today + 365;
  const Plan year = plan_of(ask);
  CHECK(year.weeks.size() == 12);
  CHECK(year.sessions.size() == 24);
  CHECK(year.sessions.back().self_test);
}

TEST_CASE("a pupil of whom nothing is known is taken for one who hits sixty balls a week") {
  PlanAsk ask = club_player();
  ask.weekly_now.reset();
  const Plan plan = plan_of(ask);
  CHECK(plan.weekly_now_assumed);
  CHECK(plan.weeks[0].at_most == 69);
}

TEST_CASE("the goal is above where the pupil stands, and says how often luck alone reaches it") {
  PlanAsk ask = club_player();
  const Target t = plan_of(ask).target;
  CHECK(t.now == 4);
  CHECK(t.goal == 6);  // 5/12 + 0.4 (0.9 - 5/12) = 0.61
  // Worked out apart: sum over j = 6..10 of C(10,j) B(5+j, 17-j) / B(5,7).
  CHECK(t.by_luck == doctest::Approx(0.2599428).epsilon(1e-7));
  ask.test_good = 10;
  CHECK(plan_of(ask).target.goal == 10);
  ask.test_good.reset();
  CHECK(plan_of(ask).target.goal == 7);
  CHECK(plan_of(ask).target.by_luck == 0.0);
  for (int n = 5; n <= 30; ++n)
    for (int k = 0; k <= n; ++k) {
      ask.test_balls = n;
      ask.test_good = k;
      const Target any = plan_of(ask).target;
      CHECK(any.goal <= n);
      CHECK((any.goal > k || k == n));
      CHECK(any.by_luck > 0.0);
      CHECK(any.by_luck <= 1.0);
    }
}

TEST_CASE("the same ask gives the same plan") {
  const Plan a = plan_of(any_pupil(7)), b = plan_of(any_pupil(7));
  REQUIRE(a.sessions.size() == b.sessions.size());
  for (std::size_t k = 0; k < a.sessions.size(); ++k) {
    CHECK(a.sessions[k].day == b.sessions[k].day);
    CHECK(a.sessions[k].balls() == b.sessions[k].balls());
    CHECK(a.sessions[k].minutes == b.sessions[k].minutes);
  }
}

TEST_CASE("an absurd ask is refused, and the place is named") {
  PlanAsk ask = club_player();
  CHECK_FALSE(plan_fault(ask).has_value());
  ask.dose.balls = 500;
  CHECK(plan_fault(ask)->place == "plan.dose.balls");
  CHECK(plan_fault(ask)->expected == "4 to 60");
  ask = club_player();
  ask.next_lesson = ask.today;
  CHECK(plan_fault(ask)->place == "plan.next_lesson");
  ask = club_player();
  ask.test_good = 11;
  CHECK(plan_fault(ask)->place == "plan.test_good");
  ask = club_player();
  ask.age = 3;
  CHECK(plan_fault(ask)->place == "plan.age");
}
