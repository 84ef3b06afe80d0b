#pragma once
// The sheet's own pictures. All of them have the target to the right for a right-hander, to the left for a
// left-hander; words in them are never mirrored.

#include "sheet/pen.hpp"
#include "sheet/sheet.hpp"
#include "sheet/words.hpp"

namespace strikewright {

struct Box {
  double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
};

/// The turf strip from above with divots and low point, beneath it the arc from the side, beside both the
/// handle. `letters`: size of its few words in points.
void draw_picture(Pen& pen, const Box& box, const SheetPicture& picture, bool left_handed, const Words& words,
                  double letters);

enum class DivotKind { behind, at, front, toe };
inline constexpr DivotKind kDivotKinds[] = {DivotKind::behind, DivotKind::at, DivotKind::front,
                                            DivotKind::toe};
/// "behind", "at", "front", "toe": the middle of the keys in sheet/words.
const char* key_of(DivotKind kind);

/// One little drawing of how a divot lies to the ball.
void draw_divot(Pen& pen, const Box& box, DivotKind kind, bool left_handed);

/// The turf line under the page's head, with blades of grass and a ball.
void draw_turf_line(Pen& pen, double x, double y, double width, bool left_handed);

/// The sign beside the cautions.
void draw_caution_sign(Pen& pen, double x, double y, double size);

}  // namespace strikewright
