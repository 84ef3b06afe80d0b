#include "sheet/pen.hpp"

#include <cmath>
#include <numbers>

namespace strikewright {
namespace {

// The first that is there: a sturdy text serif, then others of its kind, then what every Debian desktop has.
constexpr const char* kFamilies =
    "Vollkorn, Gentium Plus, Charis SIL, Linux Libertine O, Liberation Serif, DejaVu Serif, serif";

// Some fonts draw a blank nearer to the letters beside it, until two words look like one: not here.
void keep_words_apart(PangoAttrList* attributes, std::string_view text) {
  for (std::size_t at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1)) {
    std::size_t letter = at;
    while (letter > 0 && (text[--letter] & 0xc0) == 0x80) continue;
    PangoAttribute* apart = pango_attr_font_features_new("kern=0");
    apart->start_index = static_cast<guint>(letter);
    apart->end_index = static_cast<guint>(at + 1);
    pango_attr_list_insert(attributes, apart);
  }
}

}  // namespace

Pen::Pen(cairo_t* cairo, std::string_view language, bool draws)
    : cairo_(cairo), draws_(draws), context_(pango_cairo_create_context(cairo)) {
  // The same line breaks on paper and on any screen: no hinting, no rounding to pixels.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_.get(), options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context_.get(), 72.0);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
  pango_context_set_language(context_.get(), pango_language_from_string(std::string(language).c_str()));
  layout_.reset(pango_layout_new(context_.get()));
}

Pen Pen::measuring() const {
  Pen pen(cairo_, pango_language_to_string(pango_context_get_language(context_.get())), false);
  pen.leading_ = leading_;
  return pen;
}

PangoLayout* Pen::laid(std::string_view text, const Style& style, double width, std::size_t bold_bytes) {
  PangoLayout* layout = layout_.get();
  const double leading = style.leading > 0.0 ? style.leading : leading_;
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, kFamilies);
  pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(font, style.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
  PangoAttrList* attributes = pango_attr_list_new();
  // Figures of one height, so that tables and dates stand still.
  pango_attr_list_insert(attributes, pango_attr_font_features_new("lnum=1"));
  keep_words_apart(attributes, text);
  pango_attr_list_insert(
      attributes, pango_attr_line_height_new_absolute(static_cast<int>(style.size * leading * PANGO_SCALE)));
  if (bold_bytes > 0) {
    PangoAttribute* bold = pango_attr_weight_new(PANGO_WEIGHT_BOLD);
    bold->end_index = static_cast<guint>(bold_bytes);
    pango_attr_list_insert(attributes, bold);
  }
  pango_layout_set_attributes(layout, attributes);
  pango_attr_list_unref(attributes);
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout, width < 0 ? -1 : static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_alignment(layout, style.align == Align::middle ? PANGO_ALIGN_CENTER
                                     : style.align == Align::end  ? PANGO_ALIGN_RIGHT
                                                                  : PANGO_ALIGN_LEFT);
  pango_layout_set_height(layout, style.lines > 0 ? -style.lines : -1);
  pango_layout_set_ellipsize(layout, style.lines > 0 ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  pango_layout_set_text(layout, text.data(), static_cast<int>(text.size()));
  return layout;
}

double Pen::show(PangoLayout* layout, double x, double y, const Style& style) {
  PangoRectangle box;
  pango_layout_get_extents(layout, nullptr, &box);
  if (draws_) {
    ink(style.colour);
    cairo_move_to(cairo_, x, y);
    pango_cairo_show_layout(cairo_, layout);
  }
  return box.height / double(PANGO_SCALE);
}

double Pen::text(double x, double y, double width, std::string_view text, const Style& style) {
  return text.empty() ? 0.0 : show(laid(text, style, width), x, y, style);
}

double Pen::led_text(double x, double y, double width, std::string_view label, std::string_view text,
                     const Style& style) {
  const std::string both = std::string(label) + " " + std::string(text);
  return show(laid(both, style, width, label.size()), x, y, style);
}

double Pen::width_of(std::string_view text, const Style& style) {
  PangoRectangle box;
  pango_layout_get_extents(laid(text, style, -1.0), nullptr, &box);
  return box.width / double(PANGO_SCALE);
}

void Pen::ink(Colour colour, double opacity) {
  cairo_set_source_rgba(cairo_, colour.red, colour.green, colour.blue, opacity);
}

void Pen::stroke(double thick, Colour colour, bool dashed) {
  ink(colour);
  cairo_set_line_width(cairo_, thick);
  const double dashes[] = {3.2, 2.6};
  cairo_set_dash(cairo_, dashes, dashed ? 2 : 0, 0.0);
  cairo_set_line_cap(cairo_, dashed ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke(cairo_);
}

void Pen::line(double x1, double y1, double x2, double y2, double thick, Colour colour, bool dashed) {
  path({{x1, y1}, {x2, y2}}, thick, colour, dashed);
}

void Pen::rectangle(double x, double y, double width, double height, Colour colour) {
  if (!draws_) return;
  ink(colour);
  cairo_rectangle(cairo_, x, y, width, height);
  cairo_fill(cairo_);
}

void Pen::frame(double x, double y, double width, double height, double thick, Colour colour) {
  if (!draws_) return;
  cairo_rectangle(cairo_, x, y, width, height);
  stroke(thick, colour, false);
}

void Pen::circle(double x, double y, double radius, Colour colour, double thick, Colour edge) {
  if (!draws_) return;
  cairo_new_sub_path(cairo_);
  cairo_arc(cairo_, x, y, radius, 0.0, 2.0 * std::numbers::pi);
  ink(colour);
  cairo_fill_preserve(cairo_);
  stroke(thick, edge, false);
}

void Pen::path(const std::vector<std::pair<double, double>>& points, double thick, Colour colour,
               bool dashed) {
  if (!draws_ || points.empty()) return;
  cairo_new_path(cairo_);
  for (const auto& [x, y] : points) cairo_line_to(cairo_, x, y);
  stroke(thick, colour, dashed);
}

void Pen::fill(const std::vector<std::pair<double, double>>& points, Colour colour, double opacity) {
  if (!draws_ || points.empty()) return;
  cairo_new_path(cairo_);
  for (const auto& [x, y] : points) cairo_line_to(cairo_, x, y);
  cairo_close_path(cairo_);
  ink(colour, opacity);
  cairo_fill(cairo_);
}

void Pen::arrow(double x1, double y1, double x2, double y2, double thick, Colour colour) {
  const double length = std::hypot(x2 - x1, y2 - y1);
  if (!(length > 0.0)) return;
  const double ux = (x2 - x1) / length, uy = (y2 - y1) / length;
  const double barb = 2.0 + 3.0 * thick;
  line(x1, y1, x2 - ux * barb * 0.6, y2 - uy * barb * 0.6, thick, colour);
  fill({{x2, y2},
        {x2 - ux * barb - uy * barb * 0.5, y2 - uy * barb + ux * barb * 0.5},
        {x2 - ux * barb + uy * barb * 0.5, y2 - uy * barb - ux * barb * 0.5}},
       colour);
}

void Pen::begin(const char* tag) {
  if (draws_) cairo_tag_begin(cairo_, tag, nullptr);
}

void Pen::end(const char* tag) {
  if (draws_) cairo_tag_end(cairo_, tag);
}

void Pen::clip(double x, double y, double width, double height) {
  if (!draws_) return;
  cairo_save(cairo_);
  cairo_rectangle(cairo_, x, y, width, height);
  cairo_clip(cairo_);
}

void Pen::unclip() {
  if (draws_) cairo_restore(cairo_);
}

bool any_font() {
  PangoFontFamily** families = nullptr;
  int count = 0;
  pango_font_map_list_families(pango_cairo_font_map_get_default(), &families, &count);
  g_free(families);
  return count > 0;
}

}  // namespace strikewright
