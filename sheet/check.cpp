#include "sheet/check.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "quantity/utf8.hpp"
#include "sheet/days.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kTextBytes = 8000;       // of one text; a page holds about as much
constexpr std::size_t kDrawingBytes = 300000;  // of the exercise's drawing
constexpr std::size_t kItems = 40;             // of one list of sentences
constexpr std::size_t kSessions = 24;

// Every text of the content that is shown, with its place. `Content` may be const.
template <class Content, class Visit>
void visit_texts(Content& content, Visit visit) {
  const auto list = [&](const std::string& place, auto& texts) {
    for (std::size_t k = 0; k < texts.size(); ++k) visit(place + "[" + std::to_string(k) + "]", texts[k]);
  };
  visit("sheet.pupil", content.pupil);
  visit("sheet.coach", content.coach);
  visit("sheet.place", content.place);
  visit("sheet.club", content.club);
  visit("sheet.note", content.note);
  visit("sheet.version", content.version);
  visit("sheet.guardian", content.guardian);
  list("sheet.why", content.why);
  if (content.exercise) {
    auto& exercise = *content.exercise;
    visit("sheet.exercise.title", exercise.title);
    visit("sheet.exercise.purpose", exercise.purpose);
    visit("sheet.exercise.drawing_says", exercise.drawing_says);
    list("sheet.exercise.steps", exercise.steps);
    visit("sheet.exercise.cue", exercise.cue);
    visit("sheet.exercise.dose", exercise.dose);
    list("sheet.exercise.self_check", exercise.self_check);
    list("sheet.exercise.errors", exercise.errors);
    visit("sheet.exercise.progression", exercise.progression);
    visit("sheet.exercise.regression", exercise.regression);
    list("sheet.exercise.cautions", exercise.cautions);
  }
  for (std::size_t k = 0; k < content.sessions.size(); ++k)
    visit("sheet.sessions[" + std::to_string(k) + "].what", content.sessions[k].what);
  for (std::size_t k = 0; k < content.targets.size(); ++k) {
    const std::string place = "sheet.targets[" + std::to_string(k) + "]";
    visit(place + ".says", content.targets[k].says);
    visit(place + ".now", content.targets[k].now);
    visit(place + ".goal", content.targets[k].goal);
  }
  list("sheet.cautions", content.cautions);
  list("sheet.reading", content.reading);
  for (std::size_t k = 0; k < content.causes.size(); ++k) {
    const std::string place = "sheet.causes[" + std::to_string(k) + "]";
    visit(place + ".says", content.causes[k].says);
    visit(place + ".figure", content.causes[k].figure);
    visit(place + ".scatter", content.causes[k].scatter);
  }
  visit("sheet.proof", content.proof);
  list("sheet.next_look", content.next_look);
}

// U+202A to U+202E and U+2066 to U+2069: they would turn the direction of what follows.
bool turns_direction(std::string_view letter) {
  if (letter.size() != 3 || letter[0] != '\xe2') return false;
  const auto last = static_cast<unsigned char>(letter[2]);
  return (letter[1] == '\x80' && last >= 0xaa && last <= 0xae) ||
         (letter[1] == '\x81' && last >= 0xa6 && last <= 0xa9);
}

std::string cleaned_text(const std::string& text) {
  if (!is_utf8(text)) return text;
  std::string clean;
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view letter =
        std::string_view(text).substr(at, utf8_length(std::string_view(text).substr(at)));
    at += letter.size();
    if (turns_direction(letter) || letter == "\r" || letter == "\u2028" || letter == "\u2029") continue;
    const bool control = letter.size() == 1 &&
                         (static_cast<unsigned char>(letter[0]) < 0x20 || letter[0] == 0x7f) &&
                         letter != "\n";
    const bool later_control =
        letter.size() == 2 && letter[0] == '\xc2' && static_cast<unsigned char>(letter[1]) < 0xa0;
    if (control || later_control)
      clean += ' ';
    else
      clean += letter;
  }
  const auto begin = clean.find_first_not_of(" \n");
  if (begin == std::string::npos) return "";
  return clean.substr(begin, clean.find_last_not_of(" \n") - begin + 1);
}

void without_blanks(std::vector<std::string>& texts) { std::erase(texts, ""); }

Result<void> check_texts(const SheetContent& content) {
  Result<void> sound;
  visit_texts(content, [&](const std::string& place, const std::string& text) {
    if (!sound) return;
    if (!is_utf8(text))
      sound = fault(place, quoted(text), "text in UTF-8");
    else if (text.size() > kTextBytes)
      sound = fault(place, std::to_string(text.size()) + " bytes",
                    "a text of at most " + std::to_string(kTextBytes) + " bytes");
  });
  return sound;
}

Result<void> check_head(const SheetContent& content) {
  if (words_of(content.language) == nullptr) {
    const std::vector<std::string> known = sheet_languages();
    std::string list;
    for (const std::string& one : known) list += (list.empty() ? "" : ", ") + one;
    return fault("sheet.language", quoted(content.language), list + suggestion(content.language, known));
  }
  if (content.hand != "right" && content.hand != "left")
    return fault("sheet.hand", quoted(content.hand), "right or left");
  if (content.pupil.empty()) return fault("sheet.pupil", "nothing", "the pupil's name");
  if (!day_from(content.day)) return fault("sheet.day", quoted(content.day), "a day, YYYY-MM-DD");
  if (!content.next_lesson.empty() && !day_from(content.next_lesson))
    return fault("sheet.next_lesson", quoted(content.next_lesson), "a day, YYYY-MM-DD, or nothing");
  if (!content.made_at.empty() && !basic_moment(content.made_at))
    return fault("sheet.made_at", quoted(content.made_at),
                 "a moment in UTC, YYYY-MM-DDThh:mm:ssZ, or nothing");
  return {};
}

Result<void> check_lists(const SheetContent& content) {
  const std::pair<const char*, std::size_t> lists[] = {
      {"sheet.why", content.why.size()},         {"sheet.cautions", content.cautions.size()},
      {"sheet.targets", content.targets.size()}, {"sheet.reading", content.reading.size()},
      {"sheet.causes", content.causes.size()},   {"sheet.next_look", content.next_look.size()}};
  for (const auto& [place, count] : lists)
    if (count > kItems)
      return fault(place, std::to_string(count) + " items", "at most " + std::to_string(kItems));
  if (content.sessions.size() > kSessions)
    return fault("sheet.sessions", std::to_string(content.sessions.size()) + " sessions",
                 "at most " + std::to_string(kSessions));
  for (std::size_t k = 0; k < content.sessions.size(); ++k) {
    const SheetSession& session = content.sessions[k];
    const std::string place = "sheet.sessions[" + std::to_string(k) + "]";
    if (!day_from(session.day)) return fault(place + ".day", quoted(session.day), "a day, YYYY-MM-DD");
    if (k > 0 && session.day < content.sessions[k - 1].day)
      return fault(place + ".day", quoted(session.day), "no day before that of the session before");
    if (session.minutes < 0 || session.minutes > 600)
      return fault(place + ".minutes", std::to_string(session.minutes), "0 to 600");
  }
  for (std::size_t k = 0; k < content.causes.size(); ++k)
    if (!(content.causes[k].leading >= 0.0 && content.causes[k].leading <= 1.0))
      return fault("sheet.causes[" + std::to_string(k) + "].leading",
                   std::to_string(content.causes[k].leading), "a probability, 0 to 1");
  return {};
}

// A number of the picture that a person's swing could have.
bool within(double value, double low, double high) { return value >= low && value <= high; }

Result<void> check_picture(const SheetPicture& picture) {
  const auto bad = [](const std::string& member, double value, const std::string& expected) {
    return fault("sheet.picture." + member, std::to_string(value), expected);
  };
  const std::string span_mm = "a number, -1000 to 1000 mm";
  const SheetSpan& low = picture.low_point_mm;
  for (const double value : {low.mean, low.p10, low.p90})
    if (!within(value, -1000, 1000)) return bad("low_point_mm", value, span_mm);
  if (low.p10 > low.p90)
    return bad("low_point_mm.p10", low.p10, "no more than p90, " + std::to_string(low.p90));
  if (picture.cloud.size() > 400 || picture.divots.size() > 200)
    return fault("sheet.picture",
                 std::to_string(std::max(picture.cloud.size(), picture.divots.size())) + " marks",
                 "at most 400 of the cloud and 200 divots");
  for (const auto& [mm, deg] : picture.cloud)
    if (!within(mm, -1000, 1000) || !within(deg, -90, 90))
      return bad("cloud", within(mm, -1000, 1000) ? deg : mm, span_mm + " and -90 to 90 degrees");
  for (const SheetDivot& divot : picture.divots) {
    for (const auto& mm : {divot.start_mm, divot.end_mm, divot.depth_mm})
      if (mm && !within(*mm, -1000, 1000)) return bad("divots", *mm, span_mm);
    if (divot.direction_deg && !within(*divot.direction_deg, -90, 90))
      return bad("divots", *divot.direction_deg, "a direction, -90 to 90 degrees");
  }
  if (picture.arc.size() < 2 || picture.arc.size() > 2000)
    return fault("sheet.picture.arc", std::to_string(picture.arc.size()) + " points", "2 to 2000 points");
  for (const auto& [x, z] : picture.arc)
    if (!within(x, -5000, 5000) || !within(z, -5000, 5000))
      return bad("arc", within(x, -5000, 5000) ? z : x, "a number, -5000 to 5000 mm");
  if (picture.depth_mm && !within(*picture.depth_mm, -500, 500))
    return bad("depth_mm", *picture.depth_mm, "a number, -500 to 500 mm");
  if (picture.handle_lead_mm && !within(*picture.handle_lead_mm, -600, 600))
    return bad("handle_lead_mm", *picture.handle_lead_mm, "a number, -600 to 600 mm");
  if (!within(picture.handle_height_mm, 200, 1500))
    return bad("handle_height_mm", picture.handle_height_mm, "a number, 200 to 1500 mm");
  if (picture.shaft_lean_deg && !within(picture.shaft_lean_deg->mean, -80, 80))
    return bad("shaft_lean_deg", picture.shaft_lean_deg->mean, "a number, -80 to 80 degrees");
  if (picture.aim_mm)
    for (const double mm : *picture.aim_mm)
      if (!within(mm, -1000, 1000)) return bad("aim_mm", mm, span_mm);
  return {};
}

Result<void> check_exercise(const SheetContent& content) {
  if (!content.exercise) {
    if (content.kind == SheetKind::pupil)
      return fault("sheet.exercise", "none", "the one exercise that the page is for");
    return {};
  }
  const SheetExercise& exercise = *content.exercise;
  if (exercise.title.empty()) return fault("sheet.exercise.title", "nothing", "a title");
  if (exercise.steps.empty() && content.kind == SheetKind::pupil)
    return fault("sheet.exercise.steps", "none", "at least one step");
  if (exercise.cautions.empty())
    return fault("sheet.exercise.cautions", "none", "at least one caution: people get hurt at practice");
  if (content.cautions.empty())
    return fault("sheet.cautions", "none", "at least one caution: people get hurt at practice");
  for (const auto& [place, list] : {std::pair{"sheet.exercise.steps", &exercise.steps},
                                    std::pair{"sheet.exercise.self_check", &exercise.self_check},
                                    std::pair{"sheet.exercise.errors", &exercise.errors},
                                    std::pair{"sheet.exercise.cautions", &exercise.cautions}})
    if (list->size() > kItems)
      return fault(place, std::to_string(list->size()) + " items", "at most " + std::to_string(kItems));
  if (exercise.drawing.size() > kDrawingBytes)
    return fault("sheet.exercise.drawing", std::to_string(exercise.drawing.size()) + " bytes",
                 "an SVG of at most " + std::to_string(kDrawingBytes) + " bytes");
  return {};
}

}  // namespace

tl::unexpected<Fault> fault(std::string place, std::string found, std::string expected) {
  return tl::unexpected(Fault{std::move(place), std::move(found), std::move(expected)});
}

SheetContent cleaned(SheetContent content) {
  visit_texts(content, [](const std::string&, std::string& text) { text = cleaned_text(text); });
  for (auto* texts : {&content.why, &content.cautions, &content.reading, &content.next_look})
    without_blanks(*texts);
  if (content.exercise)
    for (auto* texts : {&content.exercise->steps, &content.exercise->self_check, &content.exercise->errors,
                        &content.exercise->cautions})
      without_blanks(*texts);
  std::erase_if(content.targets, [](const SheetTarget& target) { return target.says.empty(); });
  std::erase_if(content.causes, [](const SheetCause& cause) { return cause.says.empty(); });
  return content;
}

Result<void> check_cleaned(const SheetContent& content) {
  Result<void> sound = check_texts(content);
  if (sound) sound = check_head(content);
  if (sound) sound = check_lists(content);
  if (sound) sound = check_exercise(content);
  if (sound && content.kind == SheetKind::pupil && content.why.empty())
    sound = fault("sheet.why", "nothing", "one or two sentences on why this exercise");
  if (sound && content.picture) sound = check_picture(*content.picture);
  return sound;
}

Result<SheetContent> ready(const SheetContent& content) {
  SheetContent clean = cleaned(content);
  const Result<void> sound = check_cleaned(clean);
  if (!sound) return tl::unexpected(sound.error());
  return clean;
}

Result<void> sheet_sound(const SheetContent& content) {
  return ready(content).map([](const SheetContent&) {});
}

LongText longest_text(const SheetContent& content) {
  LongText longest;
  visit_texts(content, [&](const std::string& place, const std::string& text) {
    if (place == "sheet.exercise.drawing_says") return;  // not set in letters
    const auto letters = static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char sign) { return (sign & 0xc0) != 0x80; }));
    if (letters > longest.letters) longest = {place, letters};
  });
  return longest;
}

}  // namespace strikewright
