#include "sheet/drawing.hpp"

#include <librsvg/rsvg.h>

#include <string_view>

#include "quantity/nearest.hpp"

namespace strikewright {

void Drawing::Drop::operator()(RsvgHandle* handle) const { g_object_unref(handle); }

Result<Drawing> Drawing::from(const std::string& svg) {
  const auto fault = [&](const std::string& expected) {
    return tl::unexpected(Fault{"sheet.exercise.drawing", quoted(svg), expected});
  };
  GError* error = nullptr;
  // No base address: nothing that the text refers to is ever read.
  RsvgHandle* handle =
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error);
  if (handle == nullptr) {
    const std::string why = error != nullptr ? error->message : "unreadable";
    g_clear_error(&error);
    return fault("an SVG drawing (" + why + ")");
  }
  Drawing drawing{handle, 1.0};
  gboolean has_width = FALSE, has_height = FALSE, has_box = FALSE;
  RsvgLength width{}, height{};
  RsvgRectangle box{};
  rsvg_handle_get_intrinsic_dimensions(handle, &has_width, &width, &has_height, &height, &has_box, &box);
  const bool sized =
      has_width && has_height && width.unit != RSVG_UNIT_PERCENT && height.unit != RSVG_UNIT_PERCENT;
  if (!has_box && sized) box = {0.0, 0.0, width.length, height.length};
  if (!(box.width > 0.0 && box.height > 0.0)) return fault("an SVG drawing with a viewBox");
  drawing.ratio_ = box.height / box.width;
  // Twice as high as wide would push everything else off the page; as flat as a line would show nothing.
  if (drawing.ratio_ < 0.1 || drawing.ratio_ > 2.0)
    return fault("a drawing between 0.1 and 2 times as high as wide");
  return drawing;
}

void Drawing::draw(cairo_t* cairo, double x, double y, double width, bool mirrored) const {
  cairo_save(cairo);
  // What a drawing says beyond its viewBox would run into the words around it.
  cairo_rectangle(cairo, x, y, width, width * ratio_);
  cairo_clip(cairo);
  if (mirrored) {
    cairo_translate(cairo, 2.0 * x + width, 0.0);
    cairo_scale(cairo, -1.0, 1.0);
  }
  const RsvgRectangle viewport{x, y, width, width * ratio_};
  GError* error = nullptr;
  // What cannot be drawn leaves its place blank; the words of the exercise stand without it.
  if (rsvg_handle_render_document(handle_.get(), cairo, &viewport, &error) == FALSE) g_clear_error(&error);
  cairo_restore(cairo);
}

Result<std::optional<Drawing>> drawing_of(const std::string& svg) {
  if (svg.empty()) return std::optional<Drawing>{};
  Result<Drawing> drawing = Drawing::from(svg);
  if (!drawing) return tl::unexpected(drawing.error());
  return std::optional<Drawing>{std::move(*drawing)};
}

}  // namespace strikewright
