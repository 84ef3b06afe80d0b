#include "verbs/sheet_verb.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "bag/generic.hpp"
#include "sheet/words.hpp"
#include "verbs/cause_words.hpp"
#include "verbs/lesson_file.hpp"
#include "verbs/lesson_words.hpp"
#include "verbs/pictures.hpp"
#include "verbs/plan_verb.hpp"
#include "verbs/proof_verb.hpp"
#include "verbs/ranking_verb.hpp"
#include "verbs/read_lesson.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

/// The lesson read, and what was given in it.
struct Sources {
  LessonFile file;
  LessonOptions options;
  ReadLesson read;
  std::optional<GivenFile> given;
  std::string language;
  UnitSystem units = UnitSystem::metric;
};

Answer<Sources> sources_of(Book& book, const SheetAsked& asked) {
  Sources out;
  Result<LessonFile> file = lesson_file(book, asked.lesson);
  if (!file) return refused(file.error());
  out.file = *std::move(file);
  const Result<std::string> language =
      asked.kind == "summary" ? Result<std::string>("en") : sheet_language(asked.language, out.file.pupil);
  if (!language) return refused(language.error());
  out.language = *language;
  if (const auto good = check_units(asked.units); !good) return refused(good.error());
  out.units = units_of(out.file.settings, asked.units);
  ReadingAsked reading = reading_asked(out.file, asked.units);
  reading.threads = asked.threads;
  Result<LessonOptions> options = options_for(reading);
  if (!options) return refused(options.error());
  out.options = *std::move(options);
  Answer<ReadLesson> read = lesson_read(reading, out.options);
  if (!read) return tl::unexpected<std::vector<Fault>>(read.error());
  out.read = *std::move(read);
  const Result<std::vector<Given>> given = book.given_to(out.file.pupil.id);
  if (!given) return refused(given.error());
  for (auto one = given->rbegin(); one != given->rend(); ++one) {
    if (one->lesson != asked.lesson || one->exercise.empty()) continue;
    Answer<GivenFile> found = given_file(book, one->id, true, asked.threads);
    if (!found) return tl::unexpected<std::vector<Fault>>(found.error());
    out.given = *std::move(found);
    break;
  }
  return out;
}

SheetSpan span_of(const Document& json) {
  return {json.at("mean").get<double>(), json.at("p10").get<double>(), json.at("p90").get<double>()};
}

std::optional<double> number_in(const Document& json, const char* key) {
  if (!json.contains(key) || json.at(key).is_null()) return std::nullopt;
  return json.at(key).get<double>();
}

std::optional<SheetPicture> picture_in(const Sources& from) {
  const Explained* main = group_spoken_of(from.read.all);
  if (main == nullptr) return std::nullopt;
  const std::size_t pattern = main->group->patterns[pattern_spoken_of(*main->group)];
  const bool ball = had_ball(from.read.lesson.patterns[pattern], from.read.lesson, from.read.seen);
  const Document picture = picture_of(from.read.lesson, pattern, from.read.seen, {}, ball);
  SheetPicture out;
  out.ball = ball;
  out.low_point_mm = span_of(picture.at("strip").at("low_point_mm"));
  for (const Document& at : picture.at("strip").at("cloud"))
    out.cloud.push_back({at.at(0).get<double>(), at.at(1).get<double>()});
  for (const Document& d : picture.at("strip").at("divots"))
    out.divots.push_back({.start_mm = number_in(d, "start_mm"),
                          .end_mm = number_in(d, "end_mm"),
                          .direction_deg = number_in(d, "direction_deg"),
                          .depth_mm = number_in(d, "depth_mm")});
  const Document& side = picture.at("side");
  for (const Document& at : side.at("arc"))
    out.arc.push_back({at.at(0).get<double>(), at.at(1).get<double>()});
  out.depth_mm = side.at("low_point_depth_mm").at("mean").get<double>();
  out.handle_lead_mm = side.at("handle").at("lead_mm").get<double>();
  out.handle_height_mm = std::clamp(side.at("handle").at("height_mm").get<double>(), 200.0, 1500.0);
  out.shaft_lean_deg = span_of(side.at("shaft_lean_deg"));
  if (from.given && from.given->proved->member == &Reported::low_point) {
    const ProofOptions wish = proof_options(*from.given);
    out.aim_mm = {{wish.wish.from * 1e3, wish.wish.to * 1e3}};
  }
  return out;
}

/// "3 cm" in the sheet's language.
std::string size_in(Cause cause, double shift, UnitSystem units, const Words& words) {
  const double size = std::abs(shift);
  const bool yards = units == UnitSystem::yards;
  const auto with = [&](const char* key, double value, int places) {
    std::string n = figure(value, places);
    if (const std::size_t dot = n.find('.'); dot != std::string::npos)
      n.replace(dot, 1, words("number.decimal"));
    return words(key, {{"n", n}});
  };
  switch (cause) {
    case Cause::weight:
      return yards ? with("size.in", size / kInch, 1) : with("size.cm", size / 1e-2, 0);
    case Cause::height:
      return yards ? with("size.in", size / kInch, 1) : with("size.mm", size / 1e-3, 0);
    case Cause::release:
      return with("size.ms", size / 1e-3, 0);
    case Cause::speed:
      return with("size.percent", size / 1e-2, 0);
    default:
      return with("size.deg", size / kDegree, 0);
  }
}

/// The cause that the exercise is for: as it was given, else the exercise's own first.
Cause cause_for(const Sources& from) {
  for (int k = 0; k < kCauses; ++k)
    if (from.given->given.cause == name_of(static_cast<Cause>(k))) return static_cast<Cause>(k);
  const auto& exercise = from.given->exercise;
  return exercise && !exercise->moves.empty() ? exercise->moves.front().cause : Cause::weight;
}

std::string why_of(const Sources& from) {
  if (!from.given->given.why.empty()) return from.given->given.why;
  const Words& words = *words_of(from.language);
  const Explained* main = group_spoken_of(from.read.all);
  if (main == nullptr || !main->anything_seen) return words("why.unseen");
  const Cause cause = cause_for(from);
  for (const CauseShift& c : main->causes.causes) {
    if (c.cause != cause) continue;
    if (std::abs(c.shift.mean) < kWorthAWord * kCauseFacts[static_cast<std::size_t>(cause)].step)
      return words("why.scatter");
    const std::string key = std::string("why.") + name_of(cause) + (c.shift.mean < 0.0 ? ".minus" : ".plus");
    return words(key, {{"size", size_in(cause, c.shift.mean, from.units, words)}});
  }
  return words("why.unseen");
}

SheetExercise exercise_in(const Exercise& exercise, const std::string& language, const BodyNotes& notes) {
  const Language l = language == "de" ? Language::de : Language::en;
  const ShownExercise shown = strikewright::shown(exercise, l, notes);
  const ExerciseText& text = shown.text();
  SheetExercise out{.title = text.title,
                    .purpose = text.purpose,
                    .drawing = shown.drawing(),
                    .drawing_says = text.alt,
                    .steps = text.steps,
                    .cue = text.cue,
                    .dose = text.dose,
                    .self_check = text.self_check,
                    .errors = text.errors,
                    .progression = text.progression,
                    .regression = text.regression,
                    .cautions = shown.cautions()};
  // What holds every time stands in a list of its own.
  const std::size_t own = out.cautions.size() - universal_cautions(l).size();
  if (own > 0) out.cautions.resize(own);
  return out;
}

const char* target_key(const GivenFile& given) {
  if (given.proved->member == &Reported::low_point) return "target.low_point";
  if (given.proved->member == &Reported::low_point_depth) return "target.depth";
  return given.proved->member == &Reported::path ? "target.path" : "target.face";
}

Answer<bool> add_given(const Sources& from, const BodyNotes& notes, SheetContent& out) {
  const GivenFile& given = *from.given;
  if (!given.exercise)
    return refused({"exercise of given " + given.given.id,
                    "'" + given.given.exercise + "', which nobody knows",
                    "an exercise of the catalogue or of your own"});
  const Permission may = allowed(*given.exercise, notes, {.surface = surface_of(from.file.lesson.surface)});
  if (may.permit == Permit::hidden)
    return refused({"exercise of given " + given.given.id,
                    "one that is not for this pupil or place: " +
                        (may.reasons.empty() ? std::string() : may.reasons.front()),
                    "another exercise"});
  out.exercise = exercise_in(*given.exercise, from.language, notes);
  out.why = {why_of(from)};
  out.note = given.given.notes;
  const Result<Plan> plan = plan_for(given);
  if (!plan) return refused(plan.error());
  out.sessions = sheet_sessions(given, *plan, from.language);
  if (!from.file.pupil.next_lesson_at.empty()) out.next_lesson = day_text(plan->next_lesson);
  const Words& words = *words_of(from.language);
  const auto of = [&](int k) {
    return words("target.of", {{"k", std::to_string(k)}, {"n", std::to_string(plan->target.of)}});
  };
  out.targets = {{.says = words(target_key(given)),
                  .now = plan->target.now ? of(*plan->target.now) : "",
                  .goal = of(plan->target.goal)}};
  return true;
}

void add_summary(const Sources& from, SheetContent& out) {
  const Explained* main = group_spoken_of(from.read.all);
  if (main != nullptr) {
    const Pattern& pattern = pattern_spoken_of(*main->group, from.read.lesson);
    const Club club = *club_named(from.options.bag, pattern.club);
    const bool ball = had_ball(pattern, from.read.lesson, from.read.seen);
    out.reading = lines_of(sentences_of(pattern, club, ball, from.units));
    constexpr std::size_t kMostParagraphs = 5;
    if (out.reading.size() > kMostParagraphs) out.reading.resize(kMostParagraphs);
    constexpr std::size_t kMostCauses = 4;
    const Words& words = *words_of(from.language);
    for (const CauseShift& c : main->causes.causes) {
      if (out.causes.size() == kMostCauses) break;
      const Sides sides = sides_of(c.cause, main->group->hand);
      const auto size = [&](double v) { return size_in(c.cause, v, from.units, words); };
      const char* side = c.shift.mean < 0.0 ? sides.minus : sides.plus;
      out.causes.push_back(
          {.says = plain_name(c.cause),
           .figure = size(c.shift.mean) + " " + side,
           .leading = c.probability_leading,
           .scatter = fmt::format("{:.0f} % of the low point's",
                                  100.0 * c.share[static_cast<std::size_t>(Outcome::low_point)])});
    }
    for (const NextLook& look : main->causes.next_look) {
      if (out.next_look.size() == 2) break;
      out.next_look.push_back(look_in_words(look));
    }
  }
  if (from.given) {
    const Series series = series_of(*from.given);
    const ProofOptions options = proof_options(*from.given);
    if (series_fault(series, options)) return;
    const Proof proof = proof_of(series, options);
    std::string all;
    for (const std::string& one : proof_sentences(*from.given, proof, from.units))
      all += (all.empty() ? "" : " ") + one;
    out.proof = all;
  }
}

}  // namespace

Answer<SheetContent> sheet_content(Book& book, const SheetAsked& asked) {
  if (asked.kind != "pupil" && asked.kind != "summary")
    return refused({"kind", "'" + asked.kind + "'", "pupil or summary"});
  if (asked.paper != "a4" && asked.paper != "letter")
    return refused({"paper", "'" + asked.paper + "'", "a4 or letter"});
  Answer<Sources> from = sources_of(book, asked);
  if (!from) return tl::unexpected<std::vector<Fault>>(from.error());
  const Pupil& pupil = from->file.pupil;
  const Lesson& lesson = from->file.lesson;
  const BodyNotes notes = notes_of(pupil, lesson.begun_at);
  SheetContent out;
  out.kind = asked.kind == "summary" ? SheetKind::summary : SheetKind::pupil;
  out.paper = asked.paper == "letter" ? Paper::letter : Paper::a4;
  out.units = from->units;
  out.language = from->language;
  out.hand = pupil.hand;
  out.version = asked.version;
  out.invented = pupil.id.starts_with("demo-");
  out.pupil = pupil.name;
  out.day = day_text(day_number(lesson.begun_at).value_or(0));
  out.place = lesson.place;
  const Explained* main = group_spoken_of(from->read.all);
  out.club = main == nullptr ? lesson.club : main->group->club;
  out.junior = notes.junior;
  out.guardian = pupil.guardian;
  out.cautions = universal_cautions(from->language == "de" ? Language::de : Language::en);
  out.picture = picture_in(*from);
  if (out.kind == SheetKind::pupil && !from->given)
    return refused(
        {"lesson " + lesson.id, "no exercise given in it", "an exercise for the sheet to carry home"});
  if (from->given) {
    if (const Answer<bool> added = add_given(*from, notes, out); !added)
      return tl::unexpected<std::vector<Fault>>(added.error());
  }
  if (out.kind == SheetKind::summary) {
    // The lesson's notes are the coach's own; what the pupil was told is on both pages.
    out.note = lesson.notes + (lesson.notes.empty() || out.note.empty() ? "" : " ") + out.note;
    // The plan is on the pupil's page; here it would push the proof off.
    out.sessions.clear();
    add_summary(*from, out);
  }
  return out;
}

Result<SheetForm> sheet_form_named(const std::string& text) {
  if (text == "pdf") return SheetForm::pdf;
  if (text == "html") return SheetForm::html;
  if (text == "png") return SheetForm::png;
  if (text == "svg") return SheetForm::svg;
  return unexpected(Fault{"form", "'" + text + "'", "pdf, html, png or svg"});
}

Answer<std::string> sheet_file(Book& book, const SheetAsked& asked, SheetForm form) {
  constexpr double kDotsPerInch = 110.0;
  const Answer<SheetContent> content = sheet_content(book, asked);
  if (!content) return tl::unexpected<std::vector<Fault>>(content.error());
  Result<std::string> out;
  switch (form) {
    case SheetForm::pdf:
      out = sheet_pdf(*content);
      break;
    case SheetForm::html:
      out = sheet_html(*content);
      break;
    case SheetForm::png:
      out = sheet_png(*content, kDotsPerInch);
      break;
    case SheetForm::svg:
      out = sheet_svg(*content);
      break;
  }
  if (!out) return refused(out.error());
  return *std::move(out);
}

}  // namespace strikewright
