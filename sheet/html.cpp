#include "sheet/html.hpp"

#include <cmath>

#include "sheet/bands.hpp"
#include "sheet/days.hpp"
#include "sheet/surface.hpp"

namespace strikewright {
namespace {

// Own look, on a screen and in print; no colour carries a meaning alone.
constexpr const char* kStyle = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #23201b; font: 17px/1.4 Vollkorn, Charter, "Gentium Plus", Georgia, serif; }
main { max-width: 46rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 2.1rem; line-height: 1.1; margin: 0; }
h2 { font-size: 1.1rem; color: #3d552a; border-top: 2px solid #3d552a; margin: 1.4rem 0 .4rem; padding-top: .2rem; }
h3 { font-size: 1.45rem; line-height: 1.2; margin: .2rem 0; }
h4 { font-size: 1rem; margin: .7rem 0 .1rem; }
p { margin: .3rem 0; }
p, li, td { overflow-wrap: anywhere; white-space: pre-line; }
ul, ol { margin: .2rem 0; padding-left: 1.5em; }
ol li::marker { color: #b4552d; font-weight: bold; }
img { display: block; width: 100%; height: auto; margin: .5rem 0; }
table { border-collapse: collapse; width: 100%; }
th { text-align: left; font-weight: normal; font-size: .85rem; color: #575041; }
th, td { padding: .3rem .6rem .3rem 0; vertical-align: top; border-bottom: 1px solid #b9b19f; }
.meta, .small { color: #575041; }
.invented { color: #b4552d; font-style: italic; }
.why { font-size: 1.2rem; }
.purpose, .note { font-style: italic; }
.cue { border-left: 6px solid #6f8f4e; padding-left: .8rem; font-size: 1.2rem; font-weight: bold; }
.cue span { display: block; font-size: .9rem; font-weight: normal; color: #575041; }
.boxes { list-style: "\2610\00a0\00a0"; }
.divots { display: grid; grid-template-columns: repeat(2, 1fr); gap: .8rem; }
.divots b { display: block; }
.cautions { border: 2px solid #b4552d; background: #f8ede6; padding: .2rem .9rem .6rem; margin: 1.4rem 0; }
.cautions h2 { border: 0; color: #b4552d; margin: .4rem 0; }
.cautions .defer { font-weight: bold; }
footer { font-size: .85rem; color: #575041; margin-top: 1rem; }
.day { white-space: nowrap; }
@media (min-width: 40rem) { .divots { grid-template-columns: repeat(4, 1fr); } }
@media print {
  body { font-size: 10pt; line-height: 1.25; }
  main { max-width: none; padding: 0; }
  h2 { margin: .7rem 0 .2rem; }
  h2, h3, h4 { break-after: avoid; }
  img { max-width: 100%; width: auto; max-height: 46mm; }
  header img, .divots img { width: 100%; }
  .divots { grid-template-columns: repeat(4, 1fr); }
  .cautions, .divots, img, tr { break-inside: avoid; }
}
)css";

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char sign : text) switch (sign) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += sign;
    }
  return safe;
}

std::string base64(std::string_view bytes) {
  constexpr char kSigns[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    unsigned three = 0;
    for (std::size_t k = 0; k < 3; ++k)
      three = three << 8 | (at + k < bytes.size() ? static_cast<unsigned char>(bytes[at + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      text += at + k > bytes.size() ? '=' : kSigns[three >> (18 - 6 * k) & 63];
  }
  return text;
}

// Grows as the page is said; every text that it is given is escaped.
class Page {
 public:
  explicit Page(const Matter& matter) : matter_(matter) {}

  void raw(std::string_view html) { html_ += html; }
  void element(const std::string& tag, std::string_view text, std::string_view kind = "") {
    if (text.empty()) return;
    html_ += "<" + tag + (kind.empty() ? "" : " class=\"" + std::string(kind) + "\"") + ">" + escaped(text) +
             "</" + tag + ">\n";
  }
  void heading(std::string_view key) { element("h2", word(key)); }
  void labelled(std::string_view key, std::string_view text) {
    if (!text.empty()) html_ += "<p><b>" + escaped(word(key)) + "</b> " + escaped(text) + "</p>\n";
  }
  void list(const std::vector<std::string>& items, const std::string& tag = "ul",
            std::string_view kind = "") {
    if (items.empty()) return;
    html_ += "<" + tag + (kind.empty() ? "" : " class=\"" + std::string(kind) + "\"") + ">\n";
    for (const std::string& item : items) element("li", item);
    html_ += "</" + tag + ">\n";
  }
  /// `draw` on a sheet of this size, as an image within the page.
  template <class Draw>
  void image(double width, double height, std::string_view says, Draw draw) {
    const std::string svg = svg_of(width, height, [&](cairo_t* cairo) {
      Pen pen(cairo, matter_.content.language, true);
      draw(pen);
    });
    html_ += "<img alt=\"" + escaped(says) + "\" src=\"data:image/svg+xml;base64," + base64(svg) + "\">\n";
  }
  [[nodiscard]] const std::string& word(std::string_view key) const { return matter_.words(key); }
  [[nodiscard]] const Matter& matter() const { return matter_; }
  [[nodiscard]] const SheetContent& content() const { return matter_.content; }
  [[nodiscard]] const std::string& text() const { return html_; }

 private:
  const Matter& matter_;
  std::string html_;
};

void say_head(Page& page) {
  const SheetContent& content = page.content();
  const Words& words = page.matter().words;
  page.raw("<header>\n");
  if (content.kind == SheetKind::summary) page.element("p", words("head.summary"), "small");
  page.element("h1", content.pupil);
  std::string meta = day_in_words(content.day, "date.full", words);
  if (!content.coach.empty()) meta += " · " + words("head.with", {{"coach", content.coach}});
  if (!content.place.empty()) meta += " · " + content.place;
  if (!content.club.empty()) meta += " · " + content.club;
  page.element("p", meta, "meta");
  if (content.invented) page.element("p", words("head.invented"), "invented");
  page.image(520.0, 20.0, "",
             [&](Pen& pen) { draw_turf_line(pen, 0.0, 14.0, 520.0, page.matter().left_handed()); });
  if (content.kind == SheetKind::pupil && content.junior) {
    page.element("p", words("head.junior", {{"pupil", content.pupil}}));
    page.element("p", content.guardian.empty() ? words("head.guardian_blank") + " ______________________"
                                               : words("head.guardian", {{"guardian", content.guardian}}));
  }
  page.raw("</header>\n");
}

void say_picture(Page& page) {
  if (!page.content().picture) return;
  const Matter& matter = page.matter();
  const SheetPicture& picture = *matter.content.picture;
  page.heading("picture.heading");
  page.image(420.0, 190.0, picture_alt(picture, matter.words), [&](Pen& pen) {
    draw_picture(pen, {0.0, 0.0, 420.0, 190.0}, picture, matter.left_handed(), matter.words, 9.5);
  });
  for (const std::string& sentence : picture_in_words(picture, matter.content.units, matter.words))
    page.element("p", sentence);
}

void say_how(Page& page) {
  const SheetExercise& exercise = *page.content().exercise;
  const Drawing* drawing = page.matter().drawing;
  if (drawing != nullptr)
    page.image(640.0, 640.0 * drawing->height_over_width(), exercise.drawing_says,
               [&](Pen& pen) { drawing->draw(pen.cairo(), 0.0, 0.0, 640.0, page.matter().left_handed()); });
  page.list(exercise.steps, "ol");
}

void say_exercise(Page& page) {
  const SheetExercise& exercise = *page.content().exercise;
  const bool pupil = page.content().kind == SheetKind::pupil;
  page.heading(pupil ? "exercise.heading" : "summary.exercise");
  page.element("h3", exercise.title);
  page.element("p", exercise.purpose, "purpose");
  if (pupil) say_how(page);
  if (!exercise.cue.empty())
    page.raw("<p class=\"cue\"><span>" + escaped(page.word("exercise.cue")) + "</span>" +
             escaped(exercise.cue) + "</p>\n");
  page.labelled("exercise.dose", exercise.dose);
  if (!pupil) return;
  if (!exercise.self_check.empty()) page.element("h4", page.word("exercise.self_check"));
  page.list(exercise.self_check, "ul", "boxes");
  if (!exercise.errors.empty()) page.element("h4", page.word("exercise.errors"));
  page.list(exercise.errors);
  page.labelled("exercise.easier", exercise.regression);
  page.labelled("exercise.harder", exercise.progression);
}

void say_plan(Page& page) {
  const SheetContent& content = page.content();
  const Words& words = page.matter().words;
  if (!content.sessions.empty() || !content.next_lesson.empty())
    page.element("h2", plan_heading(content, words));
  if (!content.sessions.empty()) {
    page.raw("<table>\n<tr>");
    for (const char* key : {"plan.day", "plan.what", "plan.minutes", "plan.done"})
      page.element("th", words(key));
    page.raw("</tr>\n");
    for (const SheetSession& session : content.sessions) {
      std::string says = session.what;
      if (session.self_test) says.insert(0, words("plan.test") + (says.empty() ? "" : ": "));
      page.raw("<tr>");
      page.element("td", day_in_words(session.day, "date.short", words), "day");
      page.raw("<td>" + escaped(says) + "</td>");
      page.raw("<td>" + (session.minutes > 0 ? std::to_string(session.minutes) : std::string{}) +
               "</td><td>☐</td></tr>\n");
    }
    page.raw("</table>\n");
  }
  if (content.targets.empty()) return;
  page.heading("targets.heading");
  page.raw("<ul>\n");
  for (const SheetTarget& target : content.targets) {
    std::string says = escaped(target.says);
    if (!target.now.empty()) says += ": " + escaped(words("targets.now", {{"now", target.now}}));
    if (!target.goal.empty())
      says += ", <b>" + escaped(words("targets.goal", {{"goal", target.goal}})) + "</b>";
    page.raw("<li>" + says + "</li>\n");
  }
  page.raw("</ul>\n");
}

void say_divots(Page& page) {
  page.heading("divots.heading");
  page.raw("<div class=\"divots\">\n");
  for (const DivotKind kind : kDivotKinds) {
    const std::string key = std::string("divots.") + key_of(kind);
    page.raw("<div>");
    page.image(124.0, 34.0, "", [&](Pen& pen) {
      draw_divot(pen, {0.0, 0.0, 124.0, 34.0}, kind, page.matter().left_handed());
    });
    page.element("b", page.word(key));
    page.element("span", page.word(key + "_says"));
    page.raw("</div>\n");
  }
  page.raw("</div>\n");
}

void say_cautions(Page& page) {
  page.raw("<section class=\"cautions\">\n");
  if (page.content().exercise) {
    page.heading("cautions.of_exercise");
    page.list(page.content().exercise->cautions);
  }
  if (!page.content().cautions.empty()) page.heading("cautions.always");
  page.list(page.content().cautions);
  page.element("p", page.word("foot.defer"), "defer");
  page.raw("</section>\n");
}

void say_causes(Page& page) {
  if (page.content().causes.empty()) return;
  page.heading("summary.causes");
  page.raw("<table>\n<tr>");
  for (const char* key : {"summary.cause", "summary.figure", "summary.leading", "summary.scatter"})
    page.element("th", page.word(key));
  page.raw("</tr>\n");
  for (const SheetCause& cause : page.content().causes)
    page.raw("<tr><td><b>" + escaped(cause.says) + "</b></td><td>" + escaped(cause.figure) + "</td><td>" +
             std::to_string(std::lround(100.0 * cause.leading)) + " %</td><td>" + escaped(cause.scatter) +
             "</td></tr>\n");
  page.raw("</table>\n");
}

void say_pupil(Page& page) {
  for (const std::string& sentence : page.content().why) page.element("p", sentence, "why");
  say_picture(page);
  say_exercise(page);
  say_cautions(page);
  say_plan(page);
  if (!page.content().note.empty()) page.heading("head.note");
  page.element("p", page.content().note, "note");
  say_divots(page);
}

void say_summary(Page& page) {
  const SheetContent& content = page.content();
  if (!content.reading.empty()) page.heading("summary.reading");
  page.list(content.reading);
  say_picture(page);
  say_causes(page);
  if (content.exercise) say_exercise(page);
  say_cautions(page);
  if (!content.proof.empty()) page.heading("summary.proof");
  page.element("p", content.proof);
  if (!content.next_look.empty()) page.heading("summary.next_look");
  page.list(content.next_look);
  say_plan(page);
  if (!content.note.empty()) page.heading("summary.note");
  page.element("p", content.note, "note");
}

}  // namespace

std::string html_of(const Matter& matter) {
  const SheetContent& content = matter.content;
  Page page(matter);
  page.raw("<!doctype html>\n<html lang=\"" + content.language + "\">\n<head>\n<meta charset=\"utf-8\">\n");
  // The file says of itself that it runs nothing and fetches nothing.
  page.raw(
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "img-src "
      "data:\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  page.element("title", title_of(content, matter.words));
  page.raw("<style>" + std::string(kStyle) +
           "@page { size: " + (content.paper == Paper::a4 ? "A4" : "letter") +
           "; margin: 14mm; }\n</style>\n</head>\n<body>\n<main>\n");
  say_head(page);
  if (content.kind == SheetKind::pupil)
    say_pupil(page);
  else
    say_summary(page);
  page.raw("<footer>\n");
  page.element("p", matter.words("foot.private"));
  if (!content.version.empty()) page.element("p", matter.words("foot.made", {{"version", content.version}}));
  page.raw("</footer>\n</main>\n</body>\n</html>\n");
  return page.text();
}

}  // namespace strikewright
