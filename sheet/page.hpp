#pragma once
// The one page: bands from top to bottom, each of which says how high it is; the letters shrink until all
// fit. Lengths in points (1/72 inch), y down.

#include <functional>
#include <string>
#include <vector>

#include "sheet/drawing.hpp"
#include "sheet/pen.hpp"
#include "sheet/pictures.hpp"
#include "sheet/sheet.hpp"
#include "sheet/words.hpp"

namespace strikewright {

struct PageSize {
  double width = 0.0, height = 0.0;
};
/// A4: 210 x 297 mm (ISO 216, 2007). Letter: 8.5 x 11 in (ANSI/ASME Y14.1, 1995).
[[nodiscard]] PageSize size_of(Paper paper);

/// What is set: a checked content with the words of its language and its parsed drawing.
struct Matter {
  const SheetContent& content;
  const Words& words;
  const Drawing* drawing = nullptr;
  [[nodiscard]] bool left_handed() const { return content.hand == "left"; }
};

/// How it is set.
struct Fit {
  double body = 10.0;                        ///< size of the running text
  bool errors = true, easier_harder = true;  ///< are these parts of the exercise set?
  bool divots = true;                        ///< is it said how to read one's own divots?
  bool pictured = true;                      ///< is there the picture of the turf?
  bool plan_across = false;                  ///< the plan over the page's width, a line a day?
  double leading = 1.2;                      ///< distance of two lines in sizes
  double name = 25.0;                        ///< size of the pupil's name
  double picture = 124.0;                    ///< height of the turf strip and the side view
  double drawing = 0.30;                     ///< share of the width that the exercise's drawing takes
  double gap = 9.0;                          ///< between two bands
  int note_lines = 0;                        ///< for the pupil's own hand
};
inline constexpr double kSmallestBody = 8.5, kLargestBody = 11.0;
inline constexpr double kNoteLine = 19.0;  ///< from one line for the hand to the next

/// Sets itself with its top left corner at (x, y) and says how high it is, the same whether the pen draws.
using Band = std::function<double(Pen& pen, double x, double y, double width)>;

[[nodiscard]] std::vector<Band> pupil_bands(const Matter& matter, const Fit& fit);
[[nodiscard]] std::vector<Band> summary_bands(const Matter& matter, const Fit& fit);

/// The largest letters with which everything fits: roomy down to 9 points, then closely set, then without
/// what may be left out, then down to 8.5 points, then with the plan over the
/// whole width, then without the guide to divots, then without the picture. Fault: not even so.
[[nodiscard]] Result<Fit> fit_of(cairo_t* cairo, const Matter& matter);

void set_page(Pen& pen, const Matter& matter, const Fit& fit);

/// "For home: Jo, Mon 4 May 2026"
[[nodiscard]] std::string title_of(const SheetContent& content, const Words& words);

}  // namespace strikewright
