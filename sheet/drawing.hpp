#pragma once
// The exercise's drawing: SVG text in, strokes on the page out. Whatever else the text holds (scripts, links,
// things to fetch) is not looked at: only its strokes pass.

#include <cairo.h>

#include <memory>
#include <optional>
#include <string>

#include "quantity/fault.hpp"

// librsvg's own name, so that its header stays in one source.
typedef struct _RsvgHandle RsvgHandle;  // NOLINT(bugprone-reserved-identifier)

namespace strikewright {

class Drawing {
 public:
  /// Faults: no SVG, or one without a size.
  static Result<Drawing> from(const std::string& svg);

  [[nodiscard]] double height_over_width() const { return ratio_; }
  /// Into the box; mirrored left to right for a left-hander.
  void draw(cairo_t* cairo, double x, double y, double width, bool mirrored) const;

 private:
  struct Drop {
    void operator()(RsvgHandle* handle) const;
  };
  Drawing(RsvgHandle* handle, double ratio) : handle_(handle), ratio_(ratio) {}
  std::unique_ptr<RsvgHandle, Drop> handle_;
  double ratio_;
};

/// The drawing of a checked content, if it has one.
Result<std::optional<Drawing>> drawing_of(const std::string& svg);

}  // namespace strikewright
