#include "sheet/sheet.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cmath>

#include "sheet/check.hpp"
#include "sheet/days.hpp"
#include "sheet/html.hpp"
#include "sheet/page.hpp"
#include "sheet/pdf_facts.hpp"
#include "sheet/surface.hpp"

namespace strikewright {
namespace {

// A checked content with its words, its drawing and how it fits.
struct Ready {
  SheetContent content;
  std::optional<Drawing> drawing;
  const Words* words = nullptr;
  Fit fit{};
  [[nodiscard]] Matter matter() const { return {content, *words, drawing ? &*drawing : nullptr}; }
};

Result<Ready> ready_for_paper(const SheetContent& given) {
  Result<SheetContent> content = ready(given);
  if (!content) return tl::unexpected(content.error());
  if (!any_font())
    return tl::unexpected(
        Fault{"sheet", "no font on this machine", "a font, such as Debian's package fonts-vollkorn"});
  Result<std::optional<Drawing>> drawing =
      drawing_of(content->exercise ? content->exercise->drawing : std::string{});
  if (!drawing) return tl::unexpected(drawing.error());
  Ready all{std::move(*content), std::move(*drawing), nullptr};
  all.words = words_of(all.content.language);
  const Surface nowhere{cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr)};
  const Cairo cairo{cairo_create(nowhere.get())};
  const Result<Fit> fit = fit_of(cairo.get(), all.matter());
  if (!fit) return tl::unexpected(fit.error());
  all.fit = *fit;
  return all;
}

void draw(cairo_t* cairo, const Ready& all) {
  Pen pen(cairo, all.content.language, true);
  set_page(pen, all.matter(), all.fit);
}

// What each picture shows, in the order in which they are drawn.
std::vector<std::string> shown_by(const Ready& all) {
  std::vector<std::string> shown;
  if (all.content.picture) shown.push_back(picture_alt(*all.content.picture, *all.words));
  if (all.drawing && all.content.kind == SheetKind::pupil)
    shown.push_back(all.content.exercise->drawing_says);
  return shown;
}

std::string moment_of(const SheetContent& content) {
  return content.made_at.empty() ? content.day + "T00:00:00Z" : content.made_at;
}

}  // namespace

Result<std::string> sheet_pdf(const SheetContent& content) {
  const Result<Ready> all = ready_for_paper(content);
  if (!all) return tl::unexpected(all.error());
  const PageSize size = size_of(content.paper);
  const std::string title = title_of(all->content, *all->words);
  std::string pdf;
  const Surface surface{cairo_pdf_surface_create_for_stream(append_to, &pdf, size.width, size.height)};
  // Later versions pack their table of objects, to which the language is added below.
  cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_4);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 moment_of(all->content).c_str());
  if (!all->content.coach.empty())
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_AUTHOR, all->content.coach.c_str());
  {
    const Cairo cairo{cairo_create(surface.get())};
    draw(cairo.get(), *all);
  }
  cairo_surface_finish(surface.get());
  ensure(cairo_surface_status(surface.get()) == CAIRO_STATUS_SUCCESS,
         "a checked sheet can be written as PDF");
  return with_facts(std::move(pdf), all->content.language, shown_by(*all));
}

Result<std::string> sheet_png(const SheetContent& content, double dots_per_inch) {
  if (!(dots_per_inch >= 36.0 && dots_per_inch <= 400.0))
    return tl::unexpected(Fault{"dots per inch", std::to_string(dots_per_inch), "36 to 400"});
  const Result<Ready> all = ready_for_paper(content);
  if (!all) return tl::unexpected(all.error());
  const PageSize size = size_of(content.paper);
  const double scale = dots_per_inch / 72.0;
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                   static_cast<int>(std::lround(size.width * scale)),
                                                   static_cast<int>(std::lround(size.height * scale)))};
  {
    const Cairo cairo{cairo_create(surface.get())};
    cairo_set_source_rgb(cairo.get(), 1.0, 1.0, 1.0);
    cairo_paint(cairo.get());
    cairo_scale(cairo.get(), scale, scale);
    draw(cairo.get(), *all);
  }
  std::string png;
  ensure(cairo_surface_write_to_png_stream(surface.get(), append_to, &png) == CAIRO_STATUS_SUCCESS,
         "a checked sheet can be written as PNG");
  return png;
}

Result<std::string> sheet_svg(const SheetContent& content) {
  const Result<Ready> all = ready_for_paper(content);
  if (!all) return tl::unexpected(all.error());
  const PageSize size = size_of(content.paper);
  return svg_of(size.width, size.height, [&](cairo_t* cairo) {
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    draw(cairo, *all);
  });
}

Result<std::string> sheet_html(const SheetContent& given) {
  const Result<SheetContent> content = ready(given);
  if (!content) return tl::unexpected(content.error());
  const Result<std::optional<Drawing>> drawing =
      drawing_of(content->exercise ? content->exercise->drawing : std::string{});
  if (!drawing) return tl::unexpected(drawing.error());
  return html_of({*content, *words_of(content->language), *drawing ? &**drawing : nullptr});
}

}  // namespace strikewright
