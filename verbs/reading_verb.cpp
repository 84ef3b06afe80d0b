#include "verbs/reading_verb.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "bag/generic.hpp"
#include "bag/json.hpp"
#include "verbs/explain.hpp"
#include "verbs/lesson_json.hpp"
#include "verbs/lesson_words.hpp"
#include "verbs/pictures.hpp"
#include "verbs/ranking_verb.hpp"
#include "verbs/read_lesson.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

Document words(const char* kind, const std::string& heading, const std::string& text) {
  return {{"kind", kind}, {"heading", heading}, {"paragraphs", lines_of(text)}};
}

Document spoken(const ReadLesson& read, const LessonOptions& options, UnitSystem units) {
  Document out = Document::array();
  for (const Explained& why : read.all) {
    for (const std::size_t p : why.group->patterns) {
      const Pattern& pattern = read.lesson.patterns[p];
      const Club club = *club_named(options.bag, pattern.club);
      const bool ball = had_ball(pattern, read.lesson, read.seen);
      out.push_back(words("pattern", heading_of(pattern), sentences_of(pattern, club, ball, units)));
    }
    out.push_back(words("why", heading_of(*why.group), cause_sentences(why, read.lesson, read.seen, units)));
  }
  if (const std::string health = health_sentence(read.lesson); !health.empty())
    out.push_back(words("health", "", health));
  return out;
}

Document nothing_seen() {
  Document out = Document::object();
  for (const char* list :
       {"patterns", "swings", "causes", "cannot_tell_apart", "conflicts", "next_look", "exercises", "groups"})
    out[list] = Document::array();
  out["health"] = {{"says", "good"}};
  out["words"] =
      Document::array({words("pattern", "No swing yet", "Keep a ball, and what it says stands here.")});
  out["pictures"] = Document::array();
  return out;
}

/// How far the balls end from the target, on the pattern that is spoken of; null where no ball was hit.
Document result_of(const ReadLesson& read, unsigned threads) {
  const Explained* main = group_spoken_of(read.all);
  if (main == nullptr || !main->group->setting.with_ball) return nullptr;
  RankingOptions options;
  options.threads = threads;
  const Ranking now = ranking_of(*main->group, main->causes, {}, nullptr, options);
  const Spread& far = now.now.distance;
  return {{"club", now.club}, {"distance_m", {{"mean", far.mean}, {"p10", far.p10}, {"p90", far.p90}}}};
}

/// Which swing of the coach's each entry is about, and how a page can start a next look.
void add_names(const ReadingAsked& asked, Document& out) {
  for (const char* list : {"swings", "conflicts"})
    for (Document& one : out[list]) {
      const std::size_t row = one.at("swing").get<std::size_t>() - 1;
      one["id"] = row < asked.ids.size() ? Document(asked.ids[row]) : Document(nullptr);
      one["number"] = row < asked.numbers.size() ? Document(asked.numbers[row]) : Document(row + 1);
    }
  for (Document& look : out["next_look"])
    look[look.at("look") == "condition" ? "condition" : "column"] = look.at("name");
}

}  // namespace

Answer<Document> reading_document(const ReadingAsked& asked) {
  if (asked.units != "metric" && asked.units != "yards")
    return refused({"units", "'" + asked.units + "'", "metric or yards"});
  const UnitSystem units = asked.units == "yards" ? UnitSystem::yards : UnitSystem::metric;
  const Result<LessonOptions> options = options_for(asked);
  if (!options) return refused(options.error());
  Answer<ReadLesson> read = lesson_read(asked, *options);
  if (!read) return tl::unexpected<std::vector<Fault>>(read.error());
  Document out = nothing_seen();
  out["result"] = result_of(*read, asked.threads);
  if (!read->seen.empty()) {
    out.update(lesson_document(read->lesson, read->all, read->seen, units));
    out["words"] = spoken(*read, *options, units);
    out["pictures"] = Document::array();
    const SwingNames names{asked.ids, asked.numbers};
    for (std::size_t p = 0; p < read->lesson.patterns.size(); ++p)
      out["pictures"].push_back(picture_of(read->lesson, p, read->seen, names,
                                           had_ball(read->lesson.patterns[p], read->lesson, read->seen)));
  }
  if (asked.left_out > 0) {
    out["words"].push_back(
        words("left_out", "",
              fmt::format("{} swing{} of an exercise or after it {} left out here: the proof speaks of {}.",
                          asked.left_out, asked.left_out == 1 ? "" : "s", asked.left_out == 1 ? "is" : "are",
                          asked.left_out == 1 ? "it" : "them")));
  }
  add_names(asked, out);
  out["left_out"] = asked.left_out;
  out["units"] = asked.units;
  out["from"] = asked.from;
  out["n"] = read->seen.size();
  out["ids"] = asked.ids;
  out["numbers"] = asked.numbers;
  return out;
}

Document reading_summary(const Document& reading) {
  Document patterns = Document::array();
  for (const Document& p : reading.at("patterns")) {
    Document one = Document::object();
    for (const char* key : {"club", "condition", "hand", "n"}) one[key] = p.at(key);
    one["low_point_mm"] = p.at("mean").at("low_point_mm");
    one["low_point_scatter_mm"] = p.at("scatter").at("low_point_mm");
    const Document result = reading.value("result", Document(nullptr));
    if (result.is_object() && result.at("club") == p.at("club") && p.at("condition") == "normal")
      one["result_m"] = result.at("distance_m");
    patterns.push_back(std::move(one));
  }
  return {{"patterns", std::move(patterns)}};
}

}  // namespace strikewright
