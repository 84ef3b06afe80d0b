#pragma once
// Ink on paper: cairo and pango behind the few strokes that the sheet needs. Lengths in points (1/72 inch), y
// down.

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace strikewright {

struct Colour {
  double red, green, blue;
};
namespace colour {
inline constexpr Colour ink{0x23 / 255.0, 0x20 / 255.0, 0x1b / 255.0};
inline constexpr Colour pale_ink{0x57 / 255.0, 0x50 / 255.0, 0x41 / 255.0};
inline constexpr Colour rule{0xb9 / 255.0, 0xb1 / 255.0, 0x9f / 255.0};
inline constexpr Colour paper{1.0, 1.0, 1.0};
inline constexpr Colour turf{0x6f / 255.0, 0x8f / 255.0, 0x4e / 255.0};
inline constexpr Colour turf_pale{0xdf / 255.0, 0xe7 / 255.0, 0xd3 / 255.0};
inline constexpr Colour turf_deep{0x3d / 255.0, 0x55 / 255.0, 0x2a / 255.0};
inline constexpr Colour earth{0x8a / 255.0, 0x6a / 255.0, 0x45 / 255.0};
inline constexpr Colour earth_pale{0xe6 / 255.0, 0xda / 255.0, 0xca / 255.0};
inline constexpr Colour clay{0xb4 / 255.0, 0x55 / 255.0, 0x2d / 255.0};
inline constexpr Colour clay_pale{0xf8 / 255.0, 0xed / 255.0, 0xe6 / 255.0};
}  // namespace colour

enum class Align { start, middle, end };

struct Style {
  double size = 10.0;  ///< points
  Colour colour = colour::ink;
  bool bold = false, italic = false;
  Align align = Align::start;
  int lines = 0;         ///< at most so many, then an ellipsis; 0 = any number
  double leading = 0.0;  ///< distance of two lines in sizes; 0: the page's own
};

/// One page's pen. `draws` false: it measures only, and its text costs no ink.
class Pen {
 public:
  Pen(cairo_t* cairo, std::string_view language, bool draws);

  /// Sets `text` in a box of `width` with its top left corner at (x, y). Returns its height.
  double text(double x, double y, double width, std::string_view text, const Style& style);
  /// The same, behind a bold label in the same paragraph.
  double led_text(double x, double y, double width, std::string_view label, std::string_view text,
                  const Style& style);
  /// The width of `text` in one line.
  double width_of(std::string_view text, const Style& style);

  void line(double x1, double y1, double x2, double y2, double thick, Colour colour, bool dashed = false);
  void rectangle(double x, double y, double width, double height, Colour fill);
  void frame(double x, double y, double width, double height, double thick, Colour colour);
  void circle(double x, double y, double radius, Colour fill, double thick, Colour edge);
  /// Through the points, rounded; `fill` closes it instead.
  void path(const std::vector<std::pair<double, double>>& points, double thick, Colour colour,
            bool dashed = false);
  void fill(const std::vector<std::pair<double, double>>& points, Colour colour, double opacity = 1.0);
  void arrow(double x1, double y1, double x2, double y2, double thick, Colour colour);

  /// Names what follows for whoever reads the PDF aloud; one end for every begin.
  void begin(const char* tag);
  void end(const char* tag);
  void clip(double x, double y, double width, double height);
  void unclip();

  /// A pen that sets the same text alike and draws nothing.
  [[nodiscard]] Pen measuring() const;
  /// The page's own distance of two lines, in sizes.
  void set_leading(double leading) { leading_ = leading; }
  [[nodiscard]] double leading() const { return leading_; }
  [[nodiscard]] bool draws() const { return draws_; }
  [[nodiscard]] cairo_t* cairo() { return cairo_; }

 private:
  struct Drop {
    void operator()(void* object) const { g_object_unref(object); }
  };
  PangoLayout* laid(std::string_view text, const Style& style, double width, std::size_t bold_bytes = 0);
  double show(PangoLayout* layout, double x, double y, const Style& style);
  void ink(Colour colour, double opacity = 1.0);
  void stroke(double thick, Colour colour, bool dashed);

  cairo_t* cairo_;
  bool draws_;
  double leading_ = 1.2;
  std::unique_ptr<PangoContext, Drop> context_;
  std::unique_ptr<PangoLayout, Drop> layout_;
};

/// Begins a tag and ends it with the block.
class Tagged {
 public:
  Tagged(Pen& pen, const char* tag) : pen_(pen), tag_(tag) { pen_.begin(tag_); }
  ~Tagged() { pen_.end(tag_); }
  Tagged(const Tagged&) = delete;
  Tagged& operator=(const Tagged&) = delete;

 private:
  Pen& pen_;
  const char* tag_;
};

/// Has this machine any font at all? Without one pango would end the program.
bool any_font();

}  // namespace strikewright
