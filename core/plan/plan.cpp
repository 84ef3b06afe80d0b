#include "plan/plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace strikewright {
namespace {

constexpr int kWarmUpMinutes = 5;
constexpr double kMinutesABall = 0.5;       ///< of other balls (assumption)
constexpr double kMinutesATestBall = 0.75;  ///< a test is not hurried (assumption)
constexpr int kSmallestSession = 8;         ///< fewer balls are not worth the way (assumption)
constexpr double kLightDay = 0.75;          ///< of the day before, where two days follow one another
constexpr double kHard = 0.8;

/// Upper limits of age, balls a session, balls a week. All assumption.
struct AgeCap {
  int under, session, week;
};
constexpr std::array<AgeCap, 6> kAgeCaps{
    {{10, 30, 90}, {13, 40, 120}, {16, 60, 200}, {18, 80, 300}, {70, 120, 500}, {1000, 80, 300}}};

const AgeCap& cap_at(std::optional<int> age) {
  const int years = age.value_or(40);
  return *std::find_if(kAgeCaps.begin(), kAgeCaps.end(), [&](const AgeCap& c) { return years < c.under; });
}

/// Share of a session's balls that are the exercise's.
double exercise_share(Order order) {
  return order == Order::blocked ? 0.8 : (order == Order::serial ? 0.6 : 0.5);
}

/// Up to which share of the time to the next lesson practice is blocked, and up to which serial.
struct Turns {
  double serial, random;
};
constexpr std::array<Turns, 3> kTurns{{{0.50, 0.80}, {0.25, 0.60}, {0.00, 0.40}}};

Order order_on(int day, const PlanAsk& ask, int last_day) {
  const Turns& turns = kTurns[static_cast<std::size_t>(ask.stage)];
  const double gone = static_cast<double>(day - ask.today - 1) / std::max(1, last_day - ask.today);
  const Order by_time =
      gone < turns.serial ? Order::blocked : (gone < turns.random ? Order::serial : Order::random);
  return std::max(by_time, ask.dose.earliest);
}

int rounded_up(double minutes) { return static_cast<int>(std::ceil(minutes - 1e-9)); }

Session practice_on(int day, int week, Order order, int balls, const PlanDose& dose) {
  Session s{.day = day, .week = week, .order = order};
  const int wanted = static_cast<int>(std::lround(balls * exercise_share(order)));
  s.exercise_balls = std::clamp(wanted, 1, std::min(balls, dose.balls));
  s.other_balls = balls - s.exercise_balls;
  s.sets = std::clamp(static_cast<int>(std::lround(1.0 * s.exercise_balls * dose.sets / dose.balls)), 1,
                      std::min(dose.sets, s.exercise_balls));
  s.rest_s = s.sets > 1 ? dose.rest_s : 0;
  s.clubs = order == Order::blocked ? 1 : (order == Order::serial ? 2 : 3);
  s.minutes = rounded_up(kWarmUpMinutes + static_cast<double>(dose.minutes) * s.exercise_balls / dose.balls +
                         kMinutesABall * s.other_balls);
  return s;
}

Session test_on(int day, int week, int balls) {
  Session s{.day = day, .week = week, .other_balls = balls, .self_test = true};
  s.minutes = rounded_up(kWarmUpMinutes + kMinutesATestBall * balls);
  return s;
}

/// How a week's balls are shared out.
struct Shares {
  bool test = false;
  int days = 0;   ///< of practice
  int balls = 0;  ///< a day
};
Shares shares_of(const Week& week, const PlanAsk& ask, int most_days) {
  Shares s;
  const int days = week.to - week.from + 1;
  s.test = days >= 2 && week.at_most >= ask.test_balls + kSmallestSession;
  const int rest = week.at_most - (s.test ? ask.test_balls : 0);
  // Rather more days of fewer balls than the other way round (Dail & Christina 2004), but none of a handful.
  const int least = std::max(kSmallestSession, ask.dose.balls / 2);
  s.days = std::clamp(rest / least, rest > 0 ? 1 : 0, std::min(days - (s.test ? 1 : 0), most_days));
  if (s.days > 0) s.balls = std::min(rest / s.days, most_balls_a_session(ask.age));
  return s;
}

/// Practice evenly over the days before the test, the test on the week's last day.
void plan_week(Plan& plan, int number, const PlanAsk& ask, int most_days, int last_day) {
  Week& week = plan.weeks.back();
  const Shares shares = shares_of(week, ask, most_days);
  const int days = week.to - week.from + 1 - (shares.test ? 1 : 0);
  plan.days_left_out += std::max(0, std::min(ask.dose.days_a_week, days) - shares.days);
  bool light = false;
  for (int i = 0; i < shares.days; ++i) {
    const int day = week.from + (i * days + shares.days - 1) / shares.days;
    const Order order = order_on(day, ask, last_day);
    int balls = std::min(shares.balls, static_cast<int>(std::lround(ask.dose.balls / exercise_share(order))));
    // Of two days that follow one another the second is light.
    light = !light && !plan.sessions.empty() && !plan.sessions.back().self_test &&
            plan.sessions.back().day == day - 1;
    if (light) balls = std::clamp(static_cast<int>(kLightDay * plan.sessions.back().balls()), 1, balls);
    plan.sessions.push_back(practice_on(day, number, order, balls, ask.dose));
    week.balls += balls;
  }
  if (!shares.test) return;
  plan.sessions.push_back(test_on(week.to, number, ask.test_balls));
  week.balls += ask.test_balls;
}

double log_beta(double a, double b) { return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b); }

/// P(at least `goal` of n in the next test) after k of n in the last, rate unchanged and not known better
/// (beta-binomial with a flat prior).
double by_luck(int k, int n, int goal) {
  double sum = 0.0;
  for (int j = goal; j <= n; ++j)
    sum += std::exp(std::lgamma(n + 1.0) - std::lgamma(j + 1.0) - std::lgamma(n - j + 1.0) +
                    log_beta(1.0 + k + j, 1.0 + 2.0 * n - k - j) - log_beta(1.0 + k, 1.0 + n - k));
  return std::min(sum, 1.0);
}

/// Two fifths of the way from where the pupil stands to nine in ten; seven in ten where that is not known
/// (assumption). Difficulty is moved so that six to eight in ten succeed (assumption after Guadagnoli & Lee
/// 2004).
Target target_of(const PlanAsk& ask) {
  const int n = ask.test_balls;
  const auto of_ten = [n](double tenths) { return static_cast<int>(std::lround(0.1 * tenths * n)); };
  Target t{.of = n,
           .now = ask.test_good,
           .goal = of_ten(7.0),
           .easier_below = of_ten(6.0),
           .harder_above = of_ten(8.0)};
  if (!ask.test_good) return t;
  const int k = *ask.test_good;
  const double rate = (k + 1.0) / (n + 2.0);
  t.goal = std::clamp(of_ten(10.0 * (rate + 0.4 * std::max(0.0, 0.9 - rate))), std::min(k + 1, n), n);
  t.by_luck = by_luck(k, n, t.goal);
  return t;
}

}  // namespace

int most_balls_a_session(std::optional<int> age) { return cap_at(age).session; }
int most_balls_a_week(std::optional<int> age) { return cap_at(age).week; }

Plan plan_of(const PlanAsk& ask) {
  ensure(!plan_fault(ask), "a plan needs a sound ask");
  Plan plan{.today = ask.today, .next_lesson = ask.next_lesson.value_or(ask.today + 14)};
  plan.target = target_of(ask);
  plan.junior = ask.age && *ask.age < 18;
  plan.weekly_now_assumed = !ask.weekly_now;
  const int last_day = std::min(plan.next_lesson - 1, ask.today + 7 * kMostWeeks);
  const int weeks = (last_day - ask.today + 6) / 7;
  const int most = std::min(most_balls_a_week(ask.age), ask.weekly_time.value_or(2000));
  // Practice days a week that leave room for a test in each, within the sessions that a sheet can show.
  const int most_days = weeks > 0 ? std::clamp(kMostSessions / weeks - 1, 1, ask.dose.days_a_week) : 0;
  double used_to = std::max(ask.weekly_now.value_or(kUnknownWeekly), kLeastWeekly);
  for (int w = 0; w < weeks; ++w) {
    Week week{.from = ask.today + 7 * w + 1, .to = std::min(ask.today + 7 * w + 7, last_day)};
    const double short_week = std::min(1.0, (week.to - week.from + 1) / 5.0);
    week.at_most = static_cast<int>(short_week * std::min<double>(most, used_to * (1.0 + kWeeklyGrowth)));
    plan.weeks.push_back(week);
    plan_week(plan, w, ask, most_days, last_day);
    used_to = std::max<double>(used_to, plan.weeks.back().balls);
  }
  int largest = 0;
  for (const Session& s : plan.sessions)
    if (!s.self_test) largest = std::max(largest, s.balls());
  for (Session& s : plan.sessions) s.hard = !s.self_test && s.balls() > kHard * largest;
  return plan;
}

std::optional<Fault> plan_fault(const PlanAsk& ask) {
  struct Limit {
    const char* place;
    std::optional<int> found;
    int low, high;
  };
  const PlanDose& d = ask.dose;
  const std::array<Limit, 12> limits{{
      {"plan.today", ask.today, -1'000'000, 1'000'000},
      {"plan.next_lesson", ask.next_lesson, ask.today + 1, ask.today + 365},
      {"plan.weekly_now", ask.weekly_now, 0, 2000},
      {"plan.weekly_time", ask.weekly_time, 0, 2000},
      {"plan.age", ask.age, 4, 110},
      {"plan.dose.balls", d.balls, 4, 60},
      {"plan.dose.sets", d.sets, 1, std::min(10, std::max(1, d.balls))},
      {"plan.dose.rest_s", d.rest_s, 0, 300},
      {"plan.dose.minutes", d.minutes, 3, 40},
      {"plan.dose.days_a_week", d.days_a_week, 1, 6},
      {"plan.test_balls", ask.test_balls, 5, 30},
      {"plan.test_good", ask.test_good, 0, ask.test_balls},
  }};
  for (const Limit& l : limits)
    if (l.found && (*l.found < l.low || *l.found > l.high))
      return Fault{l.place, fmt::format("{}", *l.found), fmt::format("{} to {}", l.low, l.high)};
  return std::nullopt;
}

}  // namespace strikewright
