#include "sheet/page.hpp"

#include <algorithm>

#include "sheet/check.hpp"
#include "sheet/days.hpp"

namespace strikewright {
namespace {

constexpr double kSide = 34.0, kTop = 24.0, kBottom = 20.0;  // margins; most printers need 18 at least
constexpr double kFoot = 16.0;                               // of the line under everything

constexpr std::size_t kManySessions = 10;  // more of them are what fills the page

std::vector<Band> bands_of(const Matter& matter, const Fit& fit) {
  return matter.content.kind == SheetKind::pupil ? pupil_bands(matter, fit) : summary_bands(matter, fit);
}

// The ways in which a page is set, each with its smallest letters; the first that fits is taken.
std::vector<Fit> ways_to_set() {
  const Fit roomy{.body = 9.0};
  Fit close = roomy;
  close.leading = 1.14;
  close.name = 20.0;
  close.picture = 84.0;
  close.drawing = 0.24;
  close.gap = 5.0;
  Fit shorter = close;
  shorter.easier_harder = false;
  Fit shortest = shorter;
  shortest.errors = false;
  Fit smallest = shortest;
  smallest.body = kSmallestBody;
  Fit across = smallest;
  across.plan_across = true;
  Fit barest = across;
  barest.divots = false;
  barest.name = 17.0;
  barest.picture = 66.0;
  barest.drawing = 0.19;
  barest.gap = 4.0;
  Fit unpictured = barest;
  unpictured.pictured = false;
  return {roomy, close, shorter, shortest, smallest, across, barest, unpictured};
}

// What is left of the page's height under the last band; negative: it does not fit.
double left_over(Pen& pen, const Matter& matter, const Fit& fit) {
  const PageSize size = size_of(matter.content.paper);
  double left = size.height - kTop - kBottom - kFoot;
  pen.set_leading(fit.leading);
  const std::vector<Band> bands = bands_of(matter, fit);
  for (const Band& band : bands) left -= band(pen, kSide, 0.0, size.width - 2.0 * kSide) + fit.gap;
  return left;
}

// Room that is left goes into the drawing and the picture, then into lines to write on, then between the
// bands.
Fit spread(Pen& pen, const Matter& matter, Fit fit) {
  for (const double share : {0.42, 0.38, 0.34, 0.30, 0.27}) {
    Fit larger = fit;
    larger.drawing = std::max(share, fit.drawing);
    if (left_over(pen, matter, larger) < 0.0) continue;
    fit = larger;
    break;
  }
  double left = left_over(pen, matter, fit);
  if (matter.content.picture && fit.pictured) {
    const double more = std::min(left, 160.0 - fit.picture);
    fit.picture += more;
    left -= more;
  }
  if (matter.content.kind == SheetKind::pupil) {
    const double before = left;
    fit.note_lines = 1;
    left = left_over(pen, matter, fit);
    if (left < kNoteLine) {
      fit.note_lines = 0;
      left = before;
    } else {
      const int more = std::min(5, static_cast<int>(left / kNoteLine));
      fit.note_lines += more;
      left -= more * kNoteLine;
    }
  }
  fit.gap += std::min(left / double(bands_of(matter, fit).size()), 9.0);
  return fit;
}

void set_foot(Pen& pen, const Matter& matter, const PageSize& size) {
  const double width = size.width - 2.0 * kSide, y = size.height - kBottom - 8.0;
  const Style style{.size = 7.5, .colour = colour::pale_ink, .lines = 1};
  Style end = style;
  end.align = Align::end;
  const Tagged tagged(pen, "P");
  pen.text(kSide, y, width, matter.words("foot.private"), style);
  if (!matter.content.version.empty())
    pen.text(kSide + 0.6 * width, y, 0.4 * width,
             matter.words("foot.made", {{"version", matter.content.version}}), end);
}

}  // namespace

PageSize size_of(Paper paper) {
  return paper == Paper::a4 ? PageSize{210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0} : PageSize{612.0, 792.0};
}

Result<Fit> fit_of(cairo_t* cairo, const Matter& matter) {
  Pen pen(cairo, matter.content.language, false);
  for (Fit fit : ways_to_set()) {
    if (left_over(pen, matter, fit) < 0.0) continue;
    for (double step = 0.5 * (kLargestBody - fit.body); step >= 0.12; step *= 0.5) {
      Fit larger = fit;
      larger.body += step;
      if (left_over(pen, matter, larger) >= 0.0) fit = larger;
    }
    return spread(pen, matter, fit);
  }
  if (matter.content.sessions.size() > kManySessions)
    return tl::unexpected(Fault{
        "sheet.sessions", std::to_string(matter.content.sessions.size()) + " sessions beside everything else",
        "sessions and texts that fit one page at 8.5 points"});
  const LongText longest = longest_text(matter.content);
  return tl::unexpected(Fault{longest.place,
                              std::to_string(longest.letters) + " letters, the longest text of too many",
                              "texts that fit one page at 8.5 points"});
}

void set_page(Pen& pen, const Matter& matter, const Fit& fit) {
  const PageSize size = size_of(matter.content.paper);
  const Tagged document(pen, "Document");
  pen.set_leading(fit.leading);
  double y = kTop;
  for (const Band& band : bands_of(matter, fit)) y += band(pen, kSide, y, size.width - 2.0 * kSide) + fit.gap;
  set_foot(pen, matter, size);
}

std::string title_of(const SheetContent& content, const Words& words) {
  return words(content.kind == SheetKind::pupil ? "title.pupil" : "title.summary",
               {{"pupil", content.pupil}, {"day", day_in_words(content.day, "date.full", words)}});
}

}  // namespace strikewright
