#pragma once
// What the pupil does until the next lesson: which day, which exercise balls and which others, in which order
// of practice, and when to test oneself. Numbers, no prose.
//
// Rules and their sources: docs/models/plan.md. Days are counted in any way that rises by one a day (days
// since 1970-01-01 do); weeks are seven days from tomorrow.

#include <optional>
#include <string>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

/// How balls follow one another: the same again; in a fixed round; never the same twice.
enum class Order { blocked, serial, random };

/// Where the pupil stands in learning this.
enum class Stage { early, middle, late };

/// What the exercise asks for.
struct PlanDose {
  std::string exercise{};           ///< its name
  int balls = 24;                   ///< swings a session in all, 4 to 60
  int sets = 3;                     ///< 1 to 10, not more than balls
  int rest_s = 60;                  ///< between sets, 0 to 300
  int minutes = 15;                 ///< 3 to 40, rests included
  int days_a_week = 3;              ///< 1 to 6
  Order earliest = Order::blocked;  ///< the first order of practice at which it belongs
};

struct PlanAsk {
  int today = 0;
  std::optional<int> next_lesson{};  ///< today + 1 to today + 365; absent = today + 14
  std::optional<int> weekly_now{};   ///< balls a week that the pupil hits now, 0 to 2000; absent = not known
  std::optional<int> weekly_time{};  ///< balls a week that there is time for, 0 to 2000; absent = no limit
  std::optional<int> age{};          ///< years, 4 to 110
  Stage stage = Stage::early;
  PlanDose dose{};
  int test_balls = 10;             ///< of the self-test, 5 to 30
  std::optional<int> test_good{};  ///< of them good at the lesson, 0 to test_balls
};

struct Session {
  int day = 0;
  int week = 0;  ///< 0 = the first
  Order order = Order::blocked;
  int exercise_balls = 0;  ///< 0 in a self-test
  int sets = 0;            ///< of the exercise
  int rest_s = 0;          ///< between sets
  int other_balls = 0;     ///< plain swings; in a self-test those of the test
  int clubs = 1;           ///< that the other balls go round
  int minutes = 0;         ///< warm-up and rests included
  bool self_test = false;  ///< test_balls as at the lesson, and nothing else but the warm-up
  bool hard = false;       ///< practice of more than 0.8 of the plan's largest session
  [[nodiscard]] int balls() const { return exercise_balls + other_balls; }
};

struct Week {
  int from = 0, to = 0;  ///< days, both included
  int balls = 0;         ///< planned
  int at_most = 0;       ///< what growth, time and age allow
};

/// What the self-test should come to by the next lesson.
struct Target {
  int of = 10;
  std::optional<int> now{};  ///< good ones at the lesson
  int goal = 7;
  double by_luck =
      0.0;  ///< P(one test reaches the goal though nothing has changed); 0 where `now` is not known
  int easier_below = 6, harder_above = 8;  ///< of `of`: outside, the difficulty is moved
};

struct Plan {
  int today = 0, next_lesson = 0;
  std::vector<Session> sessions{};  ///< by day, at most one a day, at most 24
  std::vector<Week> weeks{};        ///< at most twelve; a later lesson lies beyond the plan
  Target target{};
  bool junior = false;              ///< under 18
  bool weekly_now_assumed = false;  ///< what the pupil hits now was not known
  int days_left_out = 0;            ///< days that the dose asks for and that found no room
};

/// The weekly total may grow by so much a week. Assumption: 10 to 20 % is the usual counsel; common practice,
/// no source.
inline constexpr double kWeeklyGrowth = 0.15;
/// Balls a week that are taken for a pupil of whom nothing is known (assumption).
inline constexpr int kUnknownWeekly = 60;
/// Nobody starts with less than this, whatever they hit now (assumption).
inline constexpr int kLeastWeekly = 30;
inline constexpr int kMostSessions = 24;
inline constexpr int kMostWeeks = 12;

/// Most balls a session and a week by age (assumption; a doctor's, a physiotherapist's or a parent's word
/// goes first).
[[nodiscard]] int most_balls_a_session(std::optional<int> age);
[[nodiscard]] int most_balls_a_week(std::optional<int> age);

/// The plan. Nothing in it lies before tomorrow or after the day before the next lesson; with no day between
/// them, or no balls allowed, there are no sessions. The ask must be sound (ours to `ensure`: plan_fault
/// first).
[[nodiscard]] Plan plan_of(const PlanAsk& ask);

/// What is absurd in an ask that came from outside, or nothing. place: "plan.dose.balls".
[[nodiscard]] std::optional<Fault> plan_fault(const PlanAsk& ask);

}  // namespace strikewright
