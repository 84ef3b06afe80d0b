#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "quantity/angle.hpp"
#include "verbs/plan_verb.hpp"
#include "verbs/progress_verb.hpp"
#include "verbs/proof_verb.hpp"
#include "verbs/ranking_verb.hpp"
#include "verbs/ranking_words.hpp"
#include "verbs/sheet_verb.hpp"
#include "verbs/test/scratch_book.hpp"

using namespace strikewright;

namespace {

struct Demo : ScratchBook {
  Demo() { REQUIRE(fill_demo(*book) == Result<int>(3)); }
};

std::string first_fault(const std::vector<Fault>& faults) { return faults.front().sentence(); }

}  // namespace

TEST_CASE("every exercise is shown with cautions, in both languages, and every ranked one too") {
  const Demo demo;
  for (const char* language : {"en", "de"}) {
    const auto all = exercises_document(*demo.book, language);
    REQUIRE(all);
    CHECK(all->at("exercises").size() >= 20);
    for (const Document& one : all->at("exercises")) {
      CHECK_MESSAGE(one.at("cautions").size() > all->at("always").size(), one.at("name"));
      CHECK_FALSE(one.at("drawing").get<std::string>().empty());
    }
  }
  const auto ranking = ranking_document(*demo.book, "demo-osk-1", "", "en");
  REQUIRE_MESSAGE(ranking.has_value(), first_fault(ranking.error()));
  CHECK(ranking->at("ranked").size() >= 5);
  double best = 1e9, chance = 0.0;
  for (const Document& one : ranking->at("ranked")) {
    CHECK_FALSE(one.at("cautions").empty());
    CHECK(one.at("score_m").at("mean").get<double>() <= best);
    best = one.at("score_m").at("mean").get<double>();
    chance += one.at("probability_best").get<double>();
  }
  CHECK(chance == doctest::Approx(1.0));
  CHECK_FALSE(ranking->at("second_first").empty());
}

TEST_CASE("a knee that must not carry the swing hides the swings on one leg") {
  const Demo demo;
  const auto ranking = ranking_document(*demo.book, "demo-linnet-1", "", "en");
  REQUIRE(ranking);
  std::set<std::string> offered, left_out;
  for (const Document& one : ranking->at("ranked"))
    if (one.at("permission") == "free") offered.insert(one.at("name").get<std::string>());
  for (const Document& one : ranking->at("left_out")) {
    left_out.insert(one.at("name").get<std::string>());
    CHECK_FALSE(one.at("reasons").empty());
  }
  CHECK_FALSE(offered.contains("lead_leg_only"));
  CHECK_FALSE(offered.contains("hop_and_land"));
  CHECK(left_out.contains("hop_and_land"));
}

TEST_CASE("a lesson without a ball still has an order of exercises, and says what it rests on") {
  const Demo demo;
  REQUIRE(demo.book->keep(Lesson{.id = "empty", .pupil = "demo-osk", .begun_at = "2026-11-01T09:00:00Z"},
                          "test"));
  const auto ranking = ranking_document(*demo.book, "empty", "", "en");
  REQUIRE_MESSAGE(ranking.has_value(), first_fault(ranking.error()));
  CHECK(ranking->at("rests_on_prior") == true);
  CHECK_FALSE(ranking->at("ranked").empty());
}

TEST_CASE("the proof counts balls before, of and after the exercise, and a later lesson's look") {
  const Demo demo;
  const auto proof = proof_document(*demo.book, "demo-osk-2-given", "");
  REQUIRE_MESSAGE(proof.has_value(), first_fault(proof.error()));
  const Document& counted = proof->at("counted");
  CHECK(counted.at("baseline") == 10);
  CHECK(counted.at("exercise") == 8);
  CHECK(counted.at("after") == 12);
  CHECK(counted.at("retention") == 12);
  CHECK(proof->at("points").size() == 42);
  CHECK(proof->at("quantity") == "low point");
  // The invented low point moves from -45 to +25 mm (verbs/demo_verb.cpp): 7 cm. Sixteen times in twenty such
  // an interval holds it; this draw is one of them.
  const Document& change = proof->at("session").at("change");
  CHECK(change.at("p10").get<double>() < 7.0);
  CHECK(change.at("p90").get<double>() > 7.0);
  CHECK(proof->at("session").at("p_improved").get<double>() > 0.8);
  CHECK_FALSE(proof->at("retention").is_null());
  CHECK(proof->at("retention").at("days") == 28);
  CHECK_FALSE(proof->at("says").empty());
}

TEST_CASE("a ball whose time was corrected to an earlier day breaks no proof") {
  const Demo demo;
  const auto swings = demo.book->swings_of("demo-osk-2");
  REQUIRE(swings);
  KeptSwing moved = swings->back();
  moved.at = "2026-09-01T08:00:00Z";
  REQUIRE(demo.book->keep(moved, "test"));
  const auto proof = proof_document(*demo.book, "demo-osk-2-given", "");
  REQUIRE_MESSAGE(proof.has_value(), first_fault(proof.error()));
  CHECK(proof->at("counted").at("after") == 12);
}

TEST_CASE("inches are centimetres over 2.54, in the proof as well") {
  const Demo demo;
  const auto metric = proof_document(*demo.book, "demo-osk-2-given", "metric");
  const auto yards = proof_document(*demo.book, "demo-osk-2-given", "yards");
  REQUIRE(metric);
  REQUIRE(yards);
  CHECK(yards->at("unit") == "in");
  CHECK(metric->at("session").at("change").at("mean").get<double>() ==
        doctest::Approx(2.54 * yards->at("session").at("change").at("mean").get<double>()));
  CHECK(metric->at("session").at("verdict") == yards->at("session").at("verdict"));
}

TEST_CASE("balls of an exercise and after it are left out of the lesson's reading, which says so") {
  const Demo demo;
  const Result<LessonFile> file = lesson_file(*demo.book, "demo-osk-2");
  REQUIRE(file);
  CHECK(file->swings.size() == 30);
  const ReadingAsked asked = reading_asked(*file);
  CHECK(asked.ids.size() == 10);
  CHECK(asked.left_out == 20);
  const auto reading = reading_document(asked);
  REQUIRE(reading);
  CHECK(reading->at("n") == 10);
  CHECK(reading->at("left_out") == 20);
}

TEST_CASE("a plan lies between the lesson and the next one, and its calendar has an entry for each session") {
  const Demo demo;
  const auto plan = plan_document(*demo.book, "demo-tam-1-given", "en");
  REQUIRE_MESSAGE(plan.has_value(), first_fault(plan.error()));
  CHECK(plan->at("today") == "2026-11-07");
  CHECK(plan->at("next_lesson") == "2026-11-21");
  CHECK(plan->at("junior") == true);
  CHECK_FALSE(plan->at("sessions").empty());
  for (const Document& s : plan->at("sessions")) {
    CHECK(s.at("day").get<std::string>() > "2026-11-07");
    CHECK(s.at("day").get<std::string>() < "2026-11-21");
  }
  const auto calendar = plan_calendar(*demo.book, "demo-tam-1-given", "en");
  REQUIRE(calendar);
  std::size_t entries = 0;
  for (std::size_t at = calendar->find("BEGIN:VEVENT"); at != std::string::npos;
       at = calendar->find("BEGIN:VEVENT", at + 1))
    ++entries;
  CHECK(entries == plan->at("sessions").size() + 1);  // and the next lesson
}

TEST_CASE("a junior's sheet speaks to the adult, and no sheet goes home without cautions") {
  const Demo demo;
  for (const char* language : {"en", "de"}) {
    const auto content = sheet_content(*demo.book, {.lesson = "demo-tam-1", .language = language});
    REQUIRE_MESSAGE(content.has_value(), first_fault(content.error()));
    CHECK(content->junior);
    CHECK(content->guardian == "Wren Quillery, at every practice");
    CHECK(content->invented);
    CHECK_FALSE(content->cautions.empty());
    REQUIRE(content->exercise);
    CHECK_FALSE(content->exercise->cautions.empty());
    CHECK_FALSE(content->why.empty());
    CHECK_FALSE(content->sessions.empty());
  }
}

TEST_CASE("every form of every demo sheet can be made, for home and for the coach") {
  const Demo demo;
  for (const char* lesson : {"demo-osk-1", "demo-osk-3", "demo-linnet-2", "demo-tam-1"})
    for (const char* kind : {"pupil", "summary"})
      for (const SheetForm form : {SheetForm::pdf, SheetForm::html, SheetForm::png, SheetForm::svg}) {
        const auto file = sheet_file(*demo.book, {.lesson = lesson, .kind = kind}, form);
        REQUIRE_MESSAGE(file.has_value(), lesson, " ", kind, ": ", first_fault(file.error()));
        if (form == SheetForm::pdf) CHECK(file->starts_with("%PDF"));
        CHECK(file->size() > 1000);
      }
}

TEST_CASE("a lesson in which nothing was given has a summary but no page for home") {
  const Demo demo;
  const auto home = sheet_content(*demo.book, {.lesson = "demo-linnet-1"});
  REQUIRE_FALSE(home);
  CHECK(home.error().front().place == "lesson demo-linnet-1");
  CHECK(sheet_content(*demo.book, {.lesson = "demo-linnet-1", .kind = "summary"}).has_value());
}

TEST_CASE("an exercise that the pupil's body forbids is not printed, whoever gave it") {
  const Demo demo;
  REQUIRE(demo.book->keep(Given{.id = "hop",
                                .pupil = "demo-linnet",
                                .lesson = "demo-linnet-1",
                                .exercise = "hop_and_land",
                                .at = "2026-09-26T16:30:00Z",
                                .notes = ""}));
  const auto sheet = sheet_content(*demo.book, {.lesson = "demo-linnet-1"});
  REQUIRE_FALSE(sheet);
  CHECK(sheet.error().front().found.find("not for this pupil") != std::string::npos);
}

TEST_CASE("the pupil's page has the coach's note to the pupil, and nothing of the coach's own record") {
  const Demo demo;
  REQUIRE(demo.book->keep(Given{.id = "brush",
                                .pupil = "demo-tam",
                                .lesson = "demo-tam-1",
                                .exercise = "brush_the_grass",
                                .at = "2026-12-18T16:30:00Z",
                                .notes = "Quieter already. Keep at it."}));
  REQUIRE(demo.book->keep(Given{.id = "record",
                                .pupil = "demo-tam",
                                .lesson = "demo-tam-1",
                                .exercise = "",
                                .at = "2026-12-18T16:31:00Z",
                                .notes = "Asked first. The body notes speak of the wrist."}));
  const auto home = sheet_content(*demo.book, {.lesson = "demo-tam-1"});
  REQUIRE(home);
  CHECK(home->note == "Quieter already. Keep at it.");
  const auto summary = sheet_content(*demo.book, {.lesson = "demo-tam-1", .kind = "summary"});
  REQUIRE(summary);
  CHECK(summary->note.find("Keep at it.") != std::string::npos);
}

TEST_CASE("what is asked in a way that nobody knows is a fault that names it") {
  const Demo demo;
  CHECK(exercises_document(*demo.book, "fr").error().front().place == "language");
  CHECK(ranking_document(*demo.book, "demo-osk-1", "feet", "en").error().front().place == "units");
  CHECK(proof_document(*demo.book, "nobody", "").error().front().place.find("nobody") != std::string::npos);
  CHECK(sheet_content(*demo.book, {.lesson = "demo-osk-1", .kind = "poem"}).error().front().place == "kind");
  CHECK(sheet_content(*demo.book, {.lesson = "demo-osk-1", .paper = "a9"}).error().front().place == "paper");
  CHECK_FALSE(sheet_form_named("doc"));
  CHECK(no_such_exercise("towel_behind_bal").expected.find("towel_behind_ball") != std::string::npos);
}

TEST_CASE("a reading says how far the balls end from the target, and its summary takes that along") {
  const Demo demo;
  const Result<LessonFile> file = lesson_file(*demo.book, "demo-osk-2");
  REQUIRE(file);
  const auto reading = reading_document(reading_asked(*file));
  REQUIRE(reading);
  const Document& far = reading->at("result").at("distance_m");
  CHECK(far.at("p10").get<double>() > 0.0);
  CHECK(far.at("p10").get<double>() < far.at("mean").get<double>());
  CHECK(far.at("mean").get<double>() < far.at("p90").get<double>());
  CHECK(reading_summary(*reading).at("patterns").front().at("result_m") == far);
  // The order of exercises starts from the same figure.
  const auto ranking = ranking_document(*demo.book, "demo-osk-2", "", "en");
  REQUIRE(ranking);
  CHECK(ranking->at("now").at("distance_m").at("mean").get<double>() ==
        doctest::Approx(far.at("mean").get<double>()));
  CHECK(reading_document({.csv = "club,ball,divot_start_mm\n7i,no,20\n"})->at("result").is_null());
  CHECK(reading_document({.csv = "club\n"})->at("result").is_null());
}

TEST_CASE("progress has the lessons in order of date and what was given between them") {
  const Demo demo;
  const auto progress = progress_document(*demo.book, "demo-osk", "", "");
  REQUIRE(progress);
  CHECK(progress->at("lessons").size() == 3);
  CHECK(progress->at("given").size() == 3);
  CHECK(progress->at("given").front().at("from") == "2026-09-05");
  CHECK(progress->at("given").front().at("to") == "2026-09-19");
  // No reading was made yet, so there are no figures, and none are invented.
  for (const Document& lesson : progress->at("lessons")) CHECK(lesson.at("low_point").is_null());
}

TEST_CASE("what would make the second first is said in figures that differ") {
  Ranking ranking;
  ranking.ranked.resize(2);
  ranking.ranked[0].name = "start_line_gate";
  ranking.ranked[1].name = "groove_ladder";
  const auto said = [&](double now, double needed) {
    ranking.what_would_make_second_first = {{.cause = Cause::face_turn, .now = now, .needed = needed}};
    return second_first_sentences(ranking, catalogue(), Hand::right, UnitSystem::metric).front();
  };
  // 2.2 and 1.6 degrees are both "2 degrees" without a decimal.
  const std::string close = said(1.6 * kDegree, 2.2 * kDegree);
  CHECK(close.find("2.2 degrees") != std::string::npos);
  CHECK(close.find("1.6 degrees") != std::string::npos);
  const std::string apart = said(1.0 * kDegree, 4.0 * kDegree);
  CHECK(apart.find("4 degrees") != std::string::npos);
  CHECK(apart.find('.') == apart.size() - 1);
}
