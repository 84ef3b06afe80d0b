#pragma once
// Text that flows down one column.

#include <string>
#include <string_view>
#include <vector>

#include "sheet/pen.hpp"

namespace strikewright {

enum class Mark {
  number,  ///< 1, 2, 3: steps
  box,     ///< to be ticked by hand
  dash,
  dot
};

/// A column whose `y` moves down with what is set in it; on a pen that does not draw it only measures.
class Flow {
 public:
  /// `body`: size of the running text in points.
  Flow(Pen& pen, double x, double top, double width, double body)
      : y(top), pen_(pen), x_(x), width_(width), top_(top), body_(body) {}

  double y;

  [[nodiscard]] double height() const { return y - top_; }
  [[nodiscard]] Pen& pen() { return pen_; }
  [[nodiscard]] double x() const { return x_; }
  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double body() const { return body_; }

  void space(double points) { y += points; }
  /// A section's name over a rule.
  void heading(std::string_view text);
  /// A part's name within a section; nothing above it at the column's top.
  void label(std::string_view text);
  void paragraph(std::string_view text) { paragraph(text, {.size = body_}); }
  void paragraph(std::string_view text, const Style& style);
  /// A paragraph whose first words are a bold label.
  void led(std::string_view label, std::string_view text);
  void list(const std::vector<std::string>& items, Mark mark, Colour colour);

 private:
  Pen& pen_;
  double x_, width_, top_, body_;
};

}  // namespace strikewright
