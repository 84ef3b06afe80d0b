#include "sheet/flow.hpp"

namespace strikewright {

void Flow::heading(std::string_view text) {
  pen_.line(x_, y, x_ + width_, y, 1.1, colour::turf_deep);
  y += 2.5;
  const Tagged tagged(pen_, "H2");
  y += pen_.text(x_, y, width_, text, {.size = body_ + 1.5, .colour = colour::turf_deep, .bold = true}) + 1.5;
}

void Flow::label(std::string_view text) {
  if (height() > 0.0) y += 0.35 * body_;
  const Tagged tagged(pen_, "H3");
  y += pen_.text(x_, y, width_, text, {.size = body_, .bold = true});
}

void Flow::paragraph(std::string_view text, const Style& style) {
  if (text.empty()) return;
  const Tagged tagged(pen_, "P");
  y += pen_.text(x_, y, width_, text, style);
}

void Flow::led(std::string_view label, std::string_view text) {
  if (text.empty()) return;
  if (height() > 0.0) y += 0.25 * body_;
  const Tagged tagged(pen_, "P");
  y += pen_.led_text(x_, y, width_, label, text, {.size = body_});
}

void Flow::list(const std::vector<std::string>& items, Mark mark, Colour colour) {
  if (items.empty()) return;
  const Tagged tagged(pen_, "L");
  const double indent = mark == Mark::number ? 1.6 * body_ : 1.25 * body_;
  for (std::size_t k = 0; k < items.size(); ++k) {
    const Tagged item(pen_, "LI");
    const double middle = y + 0.66 * body_, half = 0.3 * body_;
    switch (mark) {
      case Mark::number:
        pen_.text(x_, y, indent, std::to_string(k + 1), {.size = body_, .colour = colour, .bold = true});
        break;
      case Mark::box:
        pen_.frame(x_ + 0.5, middle - half, 2.0 * half, 2.0 * half, 0.9, colour);
        break;
      case Mark::dash:
        pen_.line(x_ + 0.5, middle, x_ + 0.6 * body_, middle, 1.2, colour);
        break;
      case Mark::dot:
        pen_.circle(x_ + half, middle, 0.16 * body_, colour, 0.1, colour);
        break;
    }
    y += pen_.text(x_ + indent, y, width_ - indent, items[k], {.size = body_}) +
         (pen_.leading() - 1.1) * body_;
  }
}

}  // namespace strikewright
