// `strikewright read`: from a sightings file to what the club did.

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "bag/generic.hpp"
#include "bag_option.hpp"
#include "commands.hpp"
#include "day_options.hpp"
#include "lesson_tables.hpp"
#include "sightings_input.hpp"
#include "take.hpp"
#include "truth.hpp"
#include "verbs/cause_words.hpp"
#include "verbs/explain.hpp"
#include "verbs/json_door.hpp"
#include "verbs/lesson_json.hpp"
#include "verbs/lesson_words.hpp"
#include "verbs/ranking_verb.hpp"
#include "verbs/ranking_words.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

constexpr std::uint64_t kMostSwings = 2000;

struct ReadInput {
  std::string file, truth, body;
  BagGiven bag{.club = "", .file = "", .skill = "club"};
  std::size_t hand = 0, from = 0;
  bool explain = false, compare = false;
  std::uint64_t most = kMostSwings, seed = FitOptions{}.seed;
};

/// What the options say, apart from the file itself.
Result<LessonOptions> options_of(const ReadInput& in, const DayGiven& given) {
  LessonOptions options;
  const Result<std::vector<Club>> bag = bag_of(in.bag);
  if (!bag) return unexpected(bag.error());
  if (!in.bag.club.empty()) {
    const Result<Club> club = club_named(*bag, in.bag.club, "--club");
    if (!club) return unexpected(club.error());
  }
  const Result<Day> day = day_of(given);
  if (!day) return unexpected(day.error());
  const Result<Ball> ball = ball_of(given);
  if (!ball) return unexpected(ball.error());
  const Result<Skill> skill = skill_of(in.bag);
  if (!skill) return unexpected(skill.error());
  options.bag = *bag;
  options.day = *day;
  options.ball = *ball;
  options.skill = *skill;
  options.fit.seed = in.seed;
  return options;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// Wrapped, with no line that begins with a percent sign.
void print_paragraphs(std::string text, std::ostream& out) {
  constexpr std::string_view kBreaking = " %", kHolding = "\u00A0%";
  replace_all(text, kBreaking, kHolding);
  for (std::string line : wrapped(text, kColumns)) {
    replace_all(line, kHolding, kBreaking);
    out << line << '\n';
  }
}

constexpr const char* kModelNotes =
    "Carry and curve are taken as good to about 3 % of the carry: that is how far published flight laws lie "
    "apart. What "
    "turf does to the club is wide and adjustable. Every figure of a club that is not given is a generic "
    "one. "
    "docs/models.md has each model with its source, its range and its measured error.";

void print_sentences(const Pattern& pattern, bool ball, const LessonOptions& options, Doors& doors) {
  const Club club = *club_named(options.bag, pattern.club);
  doors.out << heading_of(pattern) << "\n\n";
  print_paragraphs(sentences_of(pattern, club, ball, doors.units), doors.out);
  doors.out << '\n';
}

void print_tables(const LessonReading& lesson, const Pattern& pattern, const Prior& prior,
                  const LessonOptions& options, bool explain, Doors& doors) {
  std::ostream& out = doors.out;
  out << pattern_table(pattern, doors.units) << '\n' << swing_table(lesson, pattern, doors.units) << '\n';
  if (!explain) return;
  out << "  Before anything was seen (" << name_of(options.skill) << " player), and what it still decides\n\n"
      << prior_table(pattern, prior, doors.units) << '\n';
}

/// Sentences of every pattern, why, and only then the figures.
void print_group(const LessonReading& lesson, const Explained& why, const std::vector<SeenSwing>& seen,
                 const LessonOptions& options, bool explain, Doors& doors) {
  const Group& group = *why.group;
  const bool several = group.patterns.size() > 1;
  for (const std::size_t p : group.patterns)
    print_sentences(lesson.patterns[p], had_ball(lesson.patterns[p], lesson, seen), options, doors);
  if (several) doors.out << heading_of(group) << "\n\n";
  print_paragraphs(cause_sentences(why, lesson, seen, doors.units), doors.out);
  doors.out << '\n';
  if (why.anything_seen) doors.out << cause_table(why, lesson, doors.units) << '\n';
  if (const std::string ways = ways_text(why, doors.units); !ways.empty()) doors.out << ways << '\n';
  for (const std::size_t p : group.patterns) {
    if (several) doors.out << heading_of(lesson.patterns[p]) << ", figures\n\n";
    print_tables(lesson, lesson.patterns[p], group.prior, options, explain, doors);
  }
}

void print_ranking(const Ranking& ranking, const Group& group, bool body_noted, Doors& doors) {
  constexpr std::size_t kSpokenOf = 2;
  doors.out << "Which exercise" << (ranking.club.empty() ? "" : ", " + ranking.club) << "\n\n";
  for (const std::string& sentence :
       ranking_sentences(ranking, catalogue(), group.hand, group.setting.with_ball, doors.units, kSpokenOf))
    print_paragraphs(sentence, doors.out);
  print_paragraphs(
      "Warm up, keep clear space, stop on pain; 'strikewright exercise NAME' shows an exercise with its "
      "cautions.",
      doors.out);
  if (body_noted)
    print_paragraphs(
        "The next look knows nothing of the body: ask first, and leave out a way of swinging that could "
        "hurt.",
        doors.out);
  doors.out << '\n';
}

/// The verdict is the reading's own; the heading says its rule (core/reading/pattern.cpp).
void print_health(const LessonReading& lesson, std::ostream& out) {
  std::vector<std::vector<std::string>> rows;
  for (const SwingReading& s : lesson.swings) {
    const ReadingHealth& h = s.reading.health;
    rows.push_back({std::to_string(s.row), fmt::format("{:.2f}", h.pareto_k),
                    fmt::format("{:.1f}", h.effective_draws), h.rough ? "rough" : "good"});
  }
  out << "Health of the arithmetic\n"
         "  rough: a tail index above 0.7 and fewer than 15 draws that count\n\n"
      << table({"swing", "tail index", "draws that count", ""}, rows, 2) << '\n';
}

Result<int> print_lesson(const LessonReading& lesson, const std::vector<Explained>& all,
                         const std::vector<SeenSwing>& seen, const ReadInput& in,
                         const LessonOptions& options, const std::optional<Ranking>& ranking,
                         const std::vector<TrueSwing>& truths, Doors& doors) {
  for (const Explained& why : all) print_group(lesson, why, seen, options, in.explain, doors);
  if (ranking) print_ranking(*ranking, *group_spoken_of(all)->group, !in.body.empty(), doors);
  if (const std::string health = health_sentence(lesson); !health.empty()) {
    print_paragraphs(health, doors.out);
    doors.out << '\n';
  }
  if (in.explain) {
    print_health(lesson, doors.out);
    print_paragraphs(kModelNotes, doors.out);
    doors.out << '\n';
  }
  if (in.truth.empty()) return kGood;
  const Result<std::string> compared = comparison(lesson, truths, in.truth, doors.units);
  if (!compared) return unexpected(compared.error());
  doors.out << *compared;
  return kGood;
}

Result<std::vector<TrueSwing>> truths_of(const ReadInput& in) {
  if (in.truth.empty()) return std::vector<TrueSwing>{};
  std::istringstream none;
  const Result<std::string> text = document_of(in.truth == "-" ? "./-" : in.truth, none);
  if (!text) return unexpected(text.error());
  return truth_from(*text, in.truth);
}

Result<int> run(const ReadInput& in, const DayGiven& given, Doors& doors) {
  Result<LessonOptions> options = options_of(in, given);
  if (!options) return unexpected(options.error());
  const Result<std::vector<TrueSwing>> truths = truths_of(in);
  if (!truths) return unexpected(truths.error());
  const std::string name = in.file == "-" ? "standard input" : in.file;
  const TableOptions table{.file = name,
                           .club = in.bag.club,
                           .hand = in.hand == 1 ? Hand::left : Hand::right,
                           .most_rows = static_cast<std::size_t>(in.most)};
  const std::vector<SeenSwing> swings = read_sightings(in.file, table, doors);
  if (doors.exit_code != kGood) return doors.exit_code;
  Result<LessonReading> lesson{};
  std::vector<Explained> all;
  {
    Progress progress(doors);
    options->progress = [&](std::size_t done, std::size_t of) {
      progress.say(fmt::format("reading: {} of {} swings", done, of));
    };
    lesson = read_lesson(swings, *options, name);
    if (!lesson) return unexpected(lesson.error());
    for (const Group& group : lesson->groups) {
      progress.say(fmt::format("causes: {} of {} clubs", all.size(), lesson->groups.size()));
      all.push_back(
          explained(group, *lesson, swings, *options, in.from == 1 ? From::best : From::usual, in.compare));
    }
  }
  const std::optional<Ranking> ranking = ranking_for(all, swings, in.body, options->threads);
  if (!doors.json) return print_lesson(*lesson, all, swings, in, *options, ranking, *truths, doors);
  nlohmann::ordered_json document = lesson_document(*lesson, all, swings, doors.units);
  if (ranking)
    document["exercises"] =
        ranked_json(*ranking, catalogue(), nullptr, doors.units, body_notes_of(in.body), Language::en);
  doors.out << document.dump(2) << '\n';
  return kGood;
}

}  // namespace

Command read_command() {
  const auto in = std::make_shared<ReadInput>();
  const auto given = std::make_shared<DayGiven>();
  Command command{
      .name = "read",
      .says = "a lesson's sightings: what the club did, why, and how sure that is",
      .more =
          "FILE is comma-separated text, one swing a row, blank = not seen; docs/commands.md lists the "
          "columns. "
          "Says in plain words what the club did at the ball and why, what does not fit and what to look at "
          "next, then shows the figures. 80 % means: right four times in five.",
      .options =
          {needed(text("FILE", "FILE", member(in, in->file), "the sightings, - for standard input")),
           choice("--hand", member(in, in->hand), {"right", "left"}, "of rows that do not say", "right"),
           text("--club", "CLUB", member(in, in->bag.club), "of rows that do not say: 7i, pw, driver ..."),
           text("--skill", "SKILL", member(in, in->bag.skill),
                "beginner, club, county, tour, or a handicap such as 18: what is likely before anything is "
                "seen",
                "club"),
           text("--bag", "FILE", member(in, in->bag.file), "own clubs (JSON)", "a generic bag"),
           choice(
               "--from", member(in, in->from), {"usual", "best"},
               "what causes are measured from: what such players usually do, or the pupil's own best swings",
               "usual"),
           toggle("--compare-swings", member(in, in->compare),
                  "what the same noise does when the wrists drive and when the handle leads"),
           text("--body", "TEXT", member(in, in->body),
                "what is known of the pupil's body, such as \"sore wrist\": hides or flags exercises"),
           toggle("--explain", member(in, in->explain), "what was taken for likely, and how much it decides"),
           text("--truth", "FILE", member(in, in->truth),
                "of an invented lesson: compare the reading with it"),
           count("--most", member(in, in->most), 1, 100'000, "swings in one file at most",
                 std::to_string(kMostSwings)),
           count("--seed", member(in, in->seed), 0, 1'000'000'000, "of the random draws inside a reading",
                 std::to_string(in->seed))},
      .examples = {{.says = "the invented lesson, with what is behind the figures",
                    .line = "strikewright read demo/lesson.csv --explain"}},
      .run = {}};
  add_day_options(command.options, given);
  command.run = [in, given](Doors& doors) { return run(*in, *given, doors); };
  return command;
}

}  // namespace strikewright
