#pragma once
// What the pupil does until the next lesson: which day, which exercise balls and which others, in which order
// of practice, and when to test oneself. Numbers, no prose.
//
// Rules and their sources: docs/models/plan.md. Days are counted in any way that rises by one a day (days
// since 1970-01-01 do); a week is seven days from today.

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
  std::string exercise;             ///< its name; copied into the sessions
  int balls = 24;                   ///< swings a session in all, 4 to 60
  int sets = 3;                     ///< 1 to 10
  int rest_s = 60;                  ///< between sets, 0 to 300
  int minutes = 15;                 ///< 3 to 40
  int days_a_week = 3;              ///< 1 to 6
  Order earliest = Order::blocked;  ///< the first order of practice at which it belongs
  bool ball = true;                 ///< false: swings without a ball; they count all the same
};

struct PlanAsk {
  int today = 0;
  std::optional<int> next_lesson{};  ///< > today; absent = today + 14
  std::optional<int> weekly_now{};   ///< balls a week that the pupil hits now; absent = not known
  std::optional<int>
      weekly_time{};         ///< balls a week that there is time for; absent = no limit of the pupil's
  std::optional<int> age{};  ///< years
  Stage stage = Stage::early;
  PlanDose dose;
  int test_balls = 10;             ///< of the self-test
  std::optional<int> test_good{};  ///< of them good at the lesson, 0 to test_balls
};

struct Session {
  int day = 0;
  int week = 0;  ///< 0 = the first
  Order order = Order::blocked;
  int exercise_balls = 0;  ///< 0 in a self-test
  int sets = 0;            ///< of the exercise
  int other_balls = 0;     ///< plain swings, with other clubs where the order is serial or random
  int clubs = 1;           ///< that the other balls go round
  int minutes = 0;         ///< warm-up and rests included
  bool self_test = false;  ///< test_balls under the protocol of the lesson, and nothing else but warm-up
  bool hard = false;       ///< more than 0.8 of the plan's largest session
  [[nodiscard]] int balls() const { return exercise_balls + other_balls; }
};

struct Week {
  int from = 0, to = 0;  ///< days, both included
  int balls = 0;
  int at_most = 0;  ///< what growth, time and age allow
};

/// What the self-test should come to.
struct Target {
  int of = 10;
  std::optional<int> now{};  ///< good ones at the lesson
  int goal = 7;              ///< by the next lesson
  int change_easier_below = 6,
      change_harder_above = 8;  ///< of `of`: outside, the coach or pupil moves the difficulty
};

struct Plan {
  int today = 0, next_lesson = 0;
  std::vector<Session> sessions;  ///< by day, at most one a day, at most 24
  std::vector<Week> weeks;
  Target target;
  bool junior = false;
  bool weekly_now_assumed = false;  ///< what the pupil hits now was not known
  int left_over_days = 0;           ///< days of the dose that found no room
};

/// The weekly total may grow by so much a week. Assumption: 10 to 20 % is the usual counsel, common practice.
inline constexpr double kWeeklyGrowth = 0.15;
/// Balls a week that are taken for a pupil of whom nothing is known (assumption).
inline constexpr int kUnknownWeekly = 60;
/// Most balls a session and a week by age (assumption; a physiotherapist's or doctor's word goes before it).
[[nodiscard]] int most_balls_a_session(std::optional<int> age);
[[nodiscard]] int most_balls_a_week(std::optional<int> age);

/// The plan. Nothing in it lies before tomorrow or after the day before the next lesson; with no day between
/// them, or no balls allowed, there are no sessions. The ask must be sound (ours to `ensure`: plan_fault
/// first).
[[nodiscard]] Plan plan_of(const PlanAsk& ask);

/// What is absurd in an ask that came from outside, or nothing. place: "plan.dose.balls".
[[nodiscard]] std::optional<Fault> plan_fault(const PlanAsk& ask);

}  // namespace strikewright
