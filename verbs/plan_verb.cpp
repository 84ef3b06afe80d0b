#include "verbs/plan_verb.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "reading/prior.hpp"
#include "sheet/calendar.hpp"
#include "sheet/words.hpp"

namespace strikewright {
namespace {

Stage stage_of(const std::string& skill) {
  const Result<Skill> band = skill_named(skill, "skill");
  if (!band || *band == Skill::beginner) return Stage::early;
  return *band == Skill::tour ? Stage::late : Stage::middle;
}

/// What was given instead of the exercise's own dose: `{balls, sets, minutes, days_a_week}`, each may be left
/// out.
void change_dose(const std::string& text, PlanDose& dose) {
  const Document own = Document::parse(text, nullptr, false);
  if (!own.is_object()) return;
  const std::array<std::pair<const char*, int*>, 5> members{{{"balls", &dose.balls},
                                                             {"sets", &dose.sets},
                                                             {"rest_s", &dose.rest_s},
                                                             {"minutes", &dose.minutes},
                                                             {"days_a_week", &dose.days_a_week}}};
  for (const auto& [key, to] : members)
    if (own.contains(key) && own[key].is_number_integer()) *to = own[key].get<int>();
}

PlanDose dose_of(const GivenFile& file) {
  PlanDose out;
  out.exercise = file.given.exercise;
  if (file.exercise) {
    const Dose& d = file.exercise->dose;
    out.balls = d.balls;
    out.sets = d.sets;
    out.rest_s = d.rest_s;
    out.minutes = d.minutes;
    out.days_a_week = d.days_a_week;
    out.earliest = static_cast<Order>(file.exercise->stage);
  }
  change_dose(file.given.dose, out);
  return out;
}

/// Of the last balls before the exercise, those that were as wished.
std::optional<int> good_of(const GivenFile& file, int of) {
  const ProofOptions options = proof_options(file);
  int seen = 0, good = 0;
  for (auto b = file.balls.rbegin(); b != file.balls.rend() && seen < of; ++b) {
    if (b->phase != Phase::baseline || b->other_club || !b->value) continue;
    ++seen;
    good += *b->value >= options.wish.from && *b->value <= options.wish.to ? 1 : 0;
  }
  if (seen < of) return std::nullopt;
  return good;
}

const char* order_name(Order order) {
  constexpr std::array<const char*, 3> kNames{"blocked", "serial", "random"};
  return kNames[static_cast<std::size_t>(order)];
}

std::string session_says(const Session& s, const Words& words) {
  const auto n = [](int value) { return std::to_string(value); };
  if (s.self_test) return words("session.test", {{"balls", n(s.balls())}});
  const bool once = s.order == Order::blocked && s.sets <= 1;
  std::string key = std::string("session.") + (once ? "once" : order_name(s.order));
  if (s.order == Order::blocked && s.other_balls > 0) key += "_other";
  return words(key, {{"balls", n(s.exercise_balls)},
                     {"sets", n(s.sets)},
                     {"other", n(s.other_balls)},
                     {"clubs", n(s.clubs)}});
}

std::string session_id(const GivenFile& file, const Session& s) {
  return file.given.id + "-" + day_text(s.day);
}

}  // namespace

Result<std::string> sheet_language(const std::string& asked, const Pupil& pupil) {
  const std::string& wanted = asked.empty() ? pupil.language : asked;
  if (words_of(wanted) != nullptr) return wanted;
  if (asked.empty()) return std::string("en");
  return unexpected(Fault{"language", "'" + asked + "'", "en or de"});
}

Result<Plan> plan_for(const GivenFile& file) {
  PlanAsk ask;
  const std::optional<int> today = day_number(file.given.at);
  ask.today = today.value_or(0);
  const std::optional<int> next = day_number(file.pupil.next_lesson_at);
  if (next && *next > ask.today) ask.next_lesson = next;
  ask.weekly_time = file.pupil.weekly_balls;
  if (file.pupil.birth_year) ask.age = std::stoi(day_text(ask.today).substr(0, 4)) - *file.pupil.birth_year;
  ask.stage = stage_of(file.pupil.skill);
  ask.dose = dose_of(file);
  ask.test_good = good_of(file, ask.test_balls);
  if (auto fault = plan_fault(ask)) return unexpected(*std::move(fault));
  return plan_of(ask);
}

std::vector<SheetSession> sheet_sessions(const GivenFile& file, const Plan& plan,
                                         const std::string& language) {
  const Words& words = *words_of(language);
  std::vector<SheetSession> out;
  for (const Session& s : plan.sessions)
    out.push_back({.id = session_id(file, s),
                   .day = day_text(s.day),
                   .what = session_says(s, words),
                   .minutes = s.minutes,
                   .self_test = s.self_test});
  return out;
}

Answer<Document> plan_document(Book& book, const Id& given, const std::string& asked) {
  const Answer<GivenFile> file = given_file(book, given, true);
  if (!file) return tl::unexpected<std::vector<Fault>>(file.error());
  const Result<std::string> language = sheet_language(asked, file->pupil);
  if (!language) return refused(language.error());
  const Result<Plan> plan = plan_for(*file);
  if (!plan) return refused(plan.error());
  Document out{{"given", given},
               {"today", day_text(plan->today)},
               {"next_lesson", day_text(plan->next_lesson)},
               {"sessions", Document::array()},
               {"weeks", Document::array()},
               {"target",
                {{"of", plan->target.of},
                 {"now", plan->target.now ? Document(*plan->target.now) : Document(nullptr)},
                 {"goal", plan->target.goal}}},
               {"junior", plan->junior},
               {"weekly_now_assumed", plan->weekly_now_assumed}};
  for (const Session& s : plan->sessions)
    out["sessions"].push_back({{"id", session_id(*file, s)},
                               {"day", day_text(s.day)},
                               {"order", order_name(s.order)},
                               {"exercise_balls", s.exercise_balls},
                               {"sets", s.sets},
                               {"other_balls", s.other_balls},
                               {"clubs", s.clubs},
                               {"minutes", s.minutes},
                               {"self_test", s.self_test},
                               {"says", session_says(s, *words_of(*language))}});
  for (const Week& w : plan->weeks)
    out["weeks"].push_back(
        {{"from", day_text(w.from)}, {"to", day_text(w.to)}, {"balls", w.balls}, {"at_most", w.at_most}});
  return out;
}

Answer<std::string> plan_calendar(Book& book, const Id& given, const std::string& asked) {
  const Answer<GivenFile> file = given_file(book, given, true);
  if (!file) return tl::unexpected<std::vector<Fault>>(file.error());
  const Result<std::string> language = sheet_language(asked, file->pupil);
  if (!language) return refused(language.error());
  const Result<Plan> plan = plan_for(*file);
  if (!plan) return refused(plan.error());
  CalendarFacts facts{.made_at = day_text(plan->today) + "T00:00:00Z", .language = *language};
  if (file->exercise)
    facts.title = file->exercise->words.title(*language == "de" ? Language::de : Language::en);
  facts.next_lesson = file->pupil.next_lesson_at.empty() ? "" : day_text(plan->next_lesson);
  facts.lesson = file->given.lesson.empty() ? file->given.id : file->given.lesson;
  const std::vector<SheetSession> sessions = sheet_sessions(*file, *plan, *language);
  Result<std::string> text = calendar_of(sessions, facts);
  if (!text) return refused(text.error());
  return *std::move(text);
}

}  // namespace strikewright
