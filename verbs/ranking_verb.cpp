#include "verbs/ranking_verb.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include "bag/generic.hpp"
#include "verbs/ranking_words.hpp"
#include "verbs/read_lesson.hpp"

namespace strikewright {
namespace {

/// Where the low point of a lesson's usual swings was.
struct LowPoint {
  std::string club;
  double mean = 0.0, sd = 0.0;  ///< m
};

/// The normal pattern with most swings, out of a kept summary.
std::optional<LowPoint> low_point_in(const std::optional<KeptReading>& reading, const std::string& club) {
  if (!reading) return std::nullopt;
  const Document summary = Document::parse(reading->summary, nullptr, false);
  if (!summary.is_object() || !summary.contains("patterns")) return std::nullopt;
  std::optional<LowPoint> out;
  int most = 0;
  for (const Document& p : summary["patterns"]) {
    if (p.at("condition") != "normal" || (!club.empty() && p.at("club") != club)) continue;
    const int n = p.at("n").get<int>();
    if (n <= most) continue;
    constexpr double kTenToNinety = 2.5631;  // standard deviations of a normal between p10 and p90
    const Document& at = p.at("low_point_mm");
    out = LowPoint{p.at("club").get<std::string>(), at.at("mean").get<double>() * 1e-3,
                   (at.at("p90").get<double>() - at.at("p10").get<double>()) * 1e-3 / kTenToNinety};
    most = n;
  }
  return out;
}

/// The usual low point of such players with a club, and how far it is from one to another.
class Usual {
 public:
  std::optional<std::pair<double, double>> of(const std::string& club, const std::string& skill) {
    const auto key = std::make_pair(club, skill);
    if (const auto at = known_.find(key); at != known_.end()) return at->second;
    std::optional<std::pair<double, double>> out;
    const Result<Skill> band = skill_named(skill, "skill");
    Setting setting;
    const Result<Club> named = club_named(bag_, club);
    if (band && named) {
      setting.club = *named;
      const PriorReach reach = prior_reach(setting, prior_for(*named, *band, setting.ground.surface));
      out = std::make_pair(reach.mean[0], reach.sd[0]);
    }
    known_[key] = out;
    return out;
  }

 private:
  std::vector<Club> bag_ = generic_bag();
  std::map<std::pair<std::string, std::string>, std::optional<std::pair<double, double>>> known_;
};

std::optional<Trial> trial_of(const Given& given, const Pupil& pupil, const std::vector<LessonLine>& lessons,
                              std::size_t at, Usual& usual) {
  const std::optional<LowPoint> before = low_point_in(lessons[at].reading, "");
  if (!before) return std::nullopt;
  for (std::size_t k = at + 1; k < lessons.size(); ++k) {
    const std::optional<LowPoint> after = low_point_in(lessons[k].reading, before->club);
    if (!after) continue;
    const auto middle = usual.of(before->club, pupil.skill);
    if (!middle || before->sd <= 0.0 || after->sd <= 0.0) return std::nullopt;
    Trial out{.exercise = given.exercise,
              .pupil = pupil.id,
              .day = 0,
              .causes = {},
              .low_point = {},
              .result_before = {},
              .result_after = {}};
    out.day = day_number(lessons[k].lesson.begun_at).value_or(0);
    out.low_point = BeforeAfter{.before = before->mean - middle->first,
                                .before_sd = before->sd,
                                .after = after->mean - middle->first,
                                .after_sd = after->sd,
                                .prior_mean = 0.0,
                                .prior_sd = middle->second};
    return out;
  }
  return std::nullopt;
}

Ranking prior_ranking(const LessonFile& file, const LessonOptions& options, const KnownExercises& known,
                      const BookEffects& learned, const RankingOptions& how) {
  Setting setting;
  const Result<Club> club = club_named(options.bag, file.lesson.club.empty() ? "7i" : file.lesson.club);
  setting.club = club ? *club : *club_named(generic_bag(), "7i");
  setting.ground.surface = how.place.surface;
  const Prior prior = prior_for(setting.club, options.skill, how.place.surface);
  return ranking_of_prior(setting, prior, known.all, &learned, how);
}

Document left_out_json(const Ranking& ranking, const KnownExercises& known, Language language) {
  Document out = Document::array();
  for (const LeftOut& one : ranking.left_out) {
    const Exercise* exercise = known.named(one.name);
    out.push_back({{"name", one.name},
                   {"title", exercise == nullptr ? one.name : exercise->words.title(language)},
                   {"reasons", one.reasons}});
  }
  for (const Fault& fault : known.unread)
    out.push_back({{"name", ""},
                   {"title", "One of your own"},
                   {"reasons", {"This version cannot read it: " + fault.sentence()}}});
  return out;
}

}  // namespace

const Explained* group_spoken_of(const std::vector<Explained>& all) {
  const auto main = std::max_element(all.begin(), all.end(), [](const Explained& a, const Explained& b) {
    return a.group->swings.size() < b.group->swings.size();
  });
  return main == all.end() ? nullptr : &*main;
}

std::optional<Ranking> ranking_for(const std::vector<Explained>& all, const std::vector<SeenSwing>& seen,
                                   const std::string& body, unsigned threads) {
  const Explained* main = group_spoken_of(all);
  if (main == nullptr || main->group->swings.empty()) return std::nullopt;
  RankingOptions how;
  how.notes = body_notes_of(body);
  how.place.surface = seen[main->group->swings.front()].surface;
  how.threads = threads;
  return ranking_of(*main->group, main->causes, catalogue(), nullptr, how);
}

Result<std::vector<Trial>> trials_in(Book& book) {
  constexpr int kMostPupils = 500;
  const Result<std::vector<PupilLine>> pupils = book.pupils("", kMostPupils, 0);
  if (!pupils) return unexpected(pupils.error());
  std::vector<Trial> out;
  Usual usual;
  for (const PupilLine& line : *pupils) {
    const Result<std::vector<Given>> given = book.given_to(line.pupil.id);
    if (!given) return unexpected(given.error());
    if (given->empty()) continue;
    const Result<std::vector<LessonLine>> lessons = book.lessons_of(line.pupil.id);
    if (!lessons) return unexpected(lessons.error());
    for (const Given& one : *given) {
      const auto at = std::find_if(lessons->begin(), lessons->end(),
                                   [&](const LessonLine& l) { return l.lesson.id == one.lesson; });
      if (one.exercise.empty() || at == lessons->end()) continue;
      if (auto trial =
              trial_of(one, line.pupil, *lessons, static_cast<std::size_t>(at - lessons->begin()), usual))
        out.push_back(*std::move(trial));
    }
  }
  return out;
}

Answer<Document> ranking_document(Book& book, const Id& lesson, const std::string& units,
                                  const std::string& language_text, unsigned threads) {
  const Result<Language> language = language_named(language_text);
  if (!language) return refused(language.error());
  if (const auto good = check_units(units); !good) return refused(good.error());
  const Result<LessonFile> file = lesson_file(book, lesson);
  if (!file) return refused(file.error());
  const Result<KnownExercises> known = known_exercises(book);
  if (!known) return refused(known.error());
  const Result<std::vector<Trial>> trials = trials_in(book);
  if (!trials) return refused(trials.error());
  ReadingAsked asked = reading_asked(*file, units);
  asked.threads = threads;
  const Result<LessonOptions> options = options_for(asked);
  if (!options) return refused(options.error());
  const Answer<ReadLesson> read = lesson_read(asked, *options);
  if (!read) return tl::unexpected<std::vector<Fault>>(read.error());

  const BookEffects learned = learned_effects(known->all, *trials);
  RankingOptions how;
  how.notes = notes_of(file->pupil, file->lesson.begun_at);
  how.threads = threads;
  how.place.surface = surface_of(file->lesson.surface);
  const Explained* main = group_spoken_of(read->all);
  const Ranking ranking = main == nullptr ? prior_ranking(*file, *options, *known, learned, how)
                                          : ranking_of(*main->group, main->causes, known->all, &learned, how);
  const UnitSystem system = units_of(file->settings, units);
  const bool ball = main == nullptr || main->group->setting.with_ball;
  const Hand hand = file->pupil.hand == "left" ? Hand::left : Hand::right;
  Document out{{"lesson", lesson},
               {"club", ranking.club},
               {"rests_on_prior", ranking.rests_on_prior},
               {"says", ranking_sentences(ranking, known->all, hand, ball, system, 2)},
               {"now",
                {{"distance_m", spread_json(ranking.now.distance)},
                 {"bad_share", spread_json(ranking.now.bad_share)}}},
               {"ranked", ranked_json(ranking, known->all, &learned, system, how.notes, *language)},
               {"left_out", left_out_json(ranking, *known, *language)},
               {"second_first", second_first_sentences(ranking, known->all, hand, system)},
               {"cautions", universal_cautions(*language)}};
  for (Document& one : out["ranked"]) {
    const Exercise* exercise = known->named(one.at("name").get<std::string>());
    const auto at = static_cast<std::size_t>(exercise - known->all.data());
    one["own"] = !known->own[at].empty();
  }
  return out;
}

}  // namespace strikewright
