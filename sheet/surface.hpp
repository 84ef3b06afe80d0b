#pragma once
// Where cairo writes to: memory.

#include <cairo-svg.h>
#include <cairo.h>

#include <memory>
#include <string>

namespace strikewright {

struct DropSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Surface = std::unique_ptr<cairo_surface_t, DropSurface>;
using Cairo = std::unique_ptr<cairo_t, DropSurface>;

/// A cairo_write_func_t that appends to the std::string at `text`.
cairo_status_t append_to(void* text, const unsigned char* data, unsigned length);

/// cairo counts the surfaces of a program and names parts of an SVG after them; here by their order in this
/// SVG.
std::string with_own_names(const std::string& svg);

/// `draw` on an SVG surface of this size in points, as SVG text.
template <class Draw>
std::string svg_of(double width, double height, Draw draw) {
  std::string svg;
  {
    const Surface surface{cairo_svg_surface_create_for_stream(append_to, &svg, width, height)};
    const Cairo cairo{cairo_create(surface.get())};
    draw(cairo.get());
    cairo_surface_finish(surface.get());
  }
  return with_own_names(svg);
}

}  // namespace strikewright
