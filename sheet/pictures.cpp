#include "sheet/pictures.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/angle.hpp"

namespace strikewright {
namespace {

constexpr double kBallRadius =
    21.35;                          // mm; The R&A and USGA, Equipment Rules, 2019: diameter at least 42.67 mm
constexpr double kHalfDash = 11.0;  // mm, a stroke of the low point's cloud
constexpr double kAroundBall = 4.0;                  // points, free above and below the ball together
constexpr double kSmallestBall = 8.0 + kAroundBall;  // points, with what is free around it
constexpr double kGolden = 0.6180339887;

using Points = std::vector<std::pair<double, double>>;

// From the player's millimetres to the page.
struct Scale {
  double zero = 0.0;    // x of the ball's centre
  double per_mm = 1.0;  // points
  double sense = 1.0;   // -1: the target is on the left
  [[nodiscard]] double x(double mm) const { return zero + sense * per_mm * mm; }
};

struct Ends {
  double back, front;
};

// What the strip must show, mm: at least from one hand's breadth behind the ball to two in front of it.
Ends shown(const SheetPicture& picture) {
  double back = std::min(-170.0, picture.low_point_mm.p10 - 40.0);
  double front = std::max(220.0, picture.low_point_mm.p90 + 60.0);
  for (const SheetDivot& divot : picture.divots) {
    if (divot.start_mm) back = std::min(back, *divot.start_mm - 25.0);
    if (divot.end_mm) front = std::max(front, *divot.end_mm + 45.0);
  }
  return {std::max(back, -450.0), std::min(front, 550.0)};
}

// A divot from above, as long as it was: it begins at once and thins out raggedly; y is its middle.
Points divot_outline(const Scale& scale, double start, double end, double direction_deg, double y,
                     double half) {
  constexpr int kSteps = 16;
  const double turn = direction_deg * kDegree, middle = 0.5 * (start + end);
  Points outline;
  const auto add = [&](int k, double side) {
    const double t = double(k) / kSteps;
    const double begins = std::sqrt(std::min(1.0, t / 0.12 + 0.15)),
                 ends = 1.0 - 0.65 * std::max(0.0, (t - 0.7) / 0.3);
    const double ragged = 1.0 + (0.04 + 0.12 * t * t) * std::sin(2.3 * k + 1.7 * side + start);
    const double along = start + t * (end - start) - middle;
    const double across = side * half / scale.per_mm * begins * ends * ragged;
    outline.emplace_back(scale.x(middle + along * std::cos(turn) - across * std::sin(turn)),
                         y + scale.per_mm * (along * std::sin(turn) + across * std::cos(turn)));
  };
  for (int k = 0; k <= kSteps; ++k) add(k, -1.0);
  for (int k = kSteps; k >= 0; --k) add(k, 1.0);
  return outline;
}

void draw_divots(Pen& pen, const Box& strip, const SheetPicture& picture, const Scale& scale) {
  std::vector<const SheetDivot*> divots;
  for (const SheetDivot& divot : picture.divots)
    if (divot.start_mm) divots.push_back(&divot);
  if (divots.empty()) return;
  // Side by side across the strip, in the order in which they were struck: one on the other would be one
  // brown spot.
  const double step = std::min(11.0, (strip.height - 8.0) / double(divots.size()));
  const double top = strip.y + 0.5 * (strip.height - step * double(divots.size() - 1));
  for (std::size_t k = 0; k < divots.size(); ++k) {
    const SheetDivot& divot = *divots[k];
    const double y = top + step * double(k);
    const double direction = divot.direction_deg.value_or(0.0);
    if (divot.end_mm) {
      const Points outline = divot_outline(scale, *divot.start_mm, *divot.end_mm, direction, y, 0.42 * step);
      pen.fill(outline, colour::earth, 0.8);
    }
    // Where it began counts: a bar that grey print keeps.
    pen.line(scale.x(*divot.start_mm), y - 0.45 * step, scale.x(*divot.start_mm), y + 0.45 * step, 1.3,
             colour::ink);
  }
}

void draw_cloud(Pen& pen, const Box& strip, const SheetPicture& picture, const Scale& scale) {
  for (std::size_t k = 0; k < picture.cloud.size(); ++k) {
    const auto& [mm, degrees] = picture.cloud[k];
    // Spread across the strip, so that strokes do not hide one another: where it passed sideways is not
    // known.
    const double y = strip.y + 4.0 + (strip.height - 8.0) * std::fmod(double(k + 1) * kGolden, 1.0);
    const double rise = scale.per_mm * kHalfDash * std::sin(degrees * kDegree);
    const double run = kHalfDash * std::cos(degrees * kDegree);
    pen.line(scale.x(mm - run), y - rise, scale.x(mm + run), y + rise, 0.5, colour::turf_deep);
  }
}

// Dashed from behind the ball to the target, for both hands alike.
void draw_target_line(Pen& pen, const Box& box, double y, double thick, const Scale& scale) {
  const double left = box.x, right = box.x + box.width;
  if (scale.sense > 0)
    pen.line(left, y, right, y, thick, colour::pale_ink, true);
  else
    pen.line(right, y, left, y, thick, colour::pale_ink, true);
}

void draw_strip(Pen& pen, const Box& strip, const SheetPicture& picture, const Scale& scale,
                const Words& words, double letters) {
  pen.rectangle(strip.x, strip.y, strip.width, strip.height, colour::turf_pale);
  pen.clip(strip.x, strip.y, strip.width, strip.height);
  const double middle = strip.y + 0.5 * strip.height;
  // Beneath divots the cloud would say the same once more, and nobody could tell the two apart.
  if (std::none_of(picture.divots.begin(), picture.divots.end(),
                   [](const SheetDivot& divot) { return divot.start_mm; }))
    draw_cloud(pen, strip, picture, scale);
  draw_target_line(pen, strip, middle, 0.6, scale);
  draw_divots(pen, strip, picture, scale);
  if (picture.ball)
    pen.circle(scale.x(0.0), middle, kBallRadius * scale.per_mm, colour::paper, 1.0, colour::ink);
  else
    pen.line(scale.x(0.0), strip.y, scale.x(0.0), strip.y + strip.height, 2.4, colour::paper);
  pen.unclip();
  const double tip = scale.sense > 0 ? strip.x + strip.width - 6.0 : strip.x + 6.0;
  pen.arrow(tip - scale.sense * 30.0, middle, tip, middle, 1.4, colour::ink);
  const double width = 70.0;
  pen.text(scale.sense > 0 ? tip - width : tip, middle - 1.6 * letters, width, words("picture.target"),
           {.size = letters, .align = scale.sense > 0 ? Align::end : Align::start, .lines = 1});
}

// A bracket over [from, to] that opens downward (or upward), with a word on it that stays within the box.
void draw_bracket(Pen& pen, const Box& box, double from, double to, double y, bool opens_down,
                  const std::string& word, double letters, Colour colour) {
  const auto within = [&box](double x) { return std::clamp(x, box.x, box.x + box.width); };
  const double a = std::min(within(from), within(to)), b = std::max(within(from), within(to));
  const double tooth = opens_down ? 4.0 : -4.0;
  pen.path({{a, y + tooth}, {a, y}, {b, y}, {b, y + tooth}}, 1.2, colour);
  const Style style{.size = letters, .colour = colour, .bold = true, .lines = 1};
  const double width = pen.width_of(word, style) + 1.0;
  const double x = std::clamp(0.5 * (a + b) - 0.5 * width, box.x, box.x + box.width - width);
  pen.text(x, opens_down ? y - 1.25 * letters - 1.0 : y + 1.0, width, word, style);
}

void draw_side(Pen& pen, const Box& box, double ground, const SheetPicture& picture, const Scale& scale) {
  pen.rectangle(box.x, ground, box.width, box.y + box.height - ground, colour::earth_pale);
  pen.line(box.x, ground, box.x + box.width, ground, 1.8, colour::turf_deep);
  if (picture.ball)
    pen.circle(scale.x(0.0), ground - kBallRadius * scale.per_mm, kBallRadius * scale.per_mm, colour::paper,
               1.0, colour::ink);
  else
    pen.line(scale.x(0.0), ground, scale.x(0.0), box.y + box.height, 2.4, colour::paper);
  Points arc;
  for (const auto& [x, z] : picture.arc) arc.emplace_back(scale.x(x), ground - scale.per_mm * z);
  pen.clip(box.x, box.y, box.width, box.height);
  pen.path(arc, 2.0, colour::clay);
  pen.unclip();
  // The last piece that is inside, as an arrow: which way the club goes.
  const double edge = scale.sense > 0 ? box.x + box.width - 1.0 : box.x + 1.0;
  for (std::size_t k = 1; k < arc.size(); ++k) {
    const auto& [x, y] = arc[k];
    const bool crosses = (arc[k - 1].first - edge) * (x - edge) <= 0.0;
    const bool ends = k + 1 == arc.size() && scale.sense * (edge - x) > 0.0;
    if (!(crosses || ends) || x == arc[k - 1].first || y < box.y + 6.0) continue;
    const double slope = (y - arc[k - 1].second) / (x - arc[k - 1].first);
    const double tip = crosses ? edge : x, at = y + slope * (tip - x);
    pen.arrow(tip - scale.sense * 14.0, at - scale.sense * slope * 14.0, tip, at, 2.0, colour::clay);
  }
}

void draw_handle(Pen& pen, const Box& box, double ground, const SheetPicture& picture, double sense,
                 const Words& words, double letters) {
  const double height = picture.handle_height_mm;
  const double room = ground - box.y - 1.5 * letters;
  const Scale scale{box.x + 0.5 * box.width, room / (height + 30.0), sense};
  const auto y = [&](double z) { return ground - scale.per_mm * z; };
  pen.rectangle(box.x, ground, box.width, box.y + box.height - ground, colour::earth_pale);
  pen.line(box.x, ground, box.x + box.width, ground, 1.8, colour::turf_deep);
  pen.line(scale.x(0.0), ground, scale.x(0.0), y(height), 0.7, colour::pale_ink, true);
  const double lead =
      std::clamp(*picture.handle_lead_mm, -0.4 * box.width / scale.per_mm, 0.4 * box.width / scale.per_mm);
  pen.path({{scale.x(-20.0), y(14.0)}, {scale.x(lead), y(height)}}, 1.8, colour::ink);
  // The head at the shaft's end, its sole on the turf.
  pen.fill({{scale.x(-46.0), y(2.0)},
            {scale.x(-8.0), y(0.0)},
            {scale.x(-14.0), y(62.0)},
            {scale.x(-22.0), y(62.0)}},
           colour::ink);
  pen.circle(scale.x(0.0), y(kBallRadius), std::max(2.2, kBallRadius * scale.per_mm), colour::paper, 0.9,
             colour::ink);
  pen.circle(scale.x(lead), y(height), 4.0, colour::clay, 0.8, colour::ink);
  pen.text(box.x, box.y - 2.0, box.width, words("picture.hands"),
           {.size = letters, .colour = colour::clay, .bold = true, .align = Align::middle, .lines = 1});
}

}  // namespace

void draw_picture(Pen& pen, const Box& box, const SheetPicture& picture, bool left_handed, const Words& words,
                  double letters) {
  if (!pen.draws()) return;
  const double sense = left_handed ? -1.0 : 1.0;
  const double beside = picture.handle_lead_mm ? std::min(86.0, 0.17 * box.width) : 0.0;
  const double gap = beside > 0.0 ? 12.0 : 0.0;
  const double width = box.width - beside - gap;
  const double left = left_handed ? box.x + beside + gap : box.x;

  // From the top: bracket with its word, strip, aim's bracket, side. The ball has room in the strip and in
  // the side: where the box is too flat for that, more turf is shown, and all of it smaller.
  const double head = 1.25 * letters + 8.0;
  const double between = picture.aim_mm ? 1.25 * letters + 9.0 : 8.0;
  auto [back, front] = shown(picture);
  const double earth = std::max(16.0, 12.0 * width / (front - back) + 10.0);
  const double room = std::max(0.5 * (box.height - head - between - earth), kSmallestBall);
  const double least = std::max(front - back, width * 2.0 * kBallRadius / (room - kAroundBall));
  const double more = 0.5 * (least - (front - back));
  back -= more;
  front += more;
  const double per_mm = width / (front - back);
  const Scale scale{left_handed ? left + per_mm * front : left - per_mm * back, per_mm, sense};
  const double side_height = std::min(2.0 * kBallRadius * per_mm + kAroundBall, room) + earth;
  const Box strip{left, box.y + head, width, box.height - head - between - side_height};
  const Box side{left, strip.y + strip.height + between, width, side_height};
  const double ground = side.y + side.height - earth;
  draw_strip(pen, strip, picture, scale, words, letters);
  draw_side(pen, side, ground, picture, scale);
  const SheetSpan& low = picture.low_point_mm;
  const double low_x = std::clamp(scale.x(low.mean), left + 1.0, left + width - 1.0);
  const double low_y = ground - per_mm * std::clamp(picture.depth_mm.value_or(0.0), -12.0, 12.0);
  pen.line(low_x, strip.y - 5.0, low_x, strip.y + strip.height, 1.8, colour::clay);
  // Not through the word of the aim.
  pen.line(low_x, picture.aim_mm ? side.y : strip.y + strip.height, low_x, low_y, 0.9, colour::clay, true);
  pen.fill({{low_x, low_y + 2.0}, {low_x - 4.0, low_y + 9.0}, {low_x + 4.0, low_y + 9.0}}, colour::clay);
  draw_bracket(pen, strip, scale.x(low.p10), scale.x(low.p90), strip.y - 6.0, true,
               words("picture.low_point"), letters, colour::clay);
  if (picture.aim_mm)
    draw_bracket(pen, strip, scale.x((*picture.aim_mm)[0]), scale.x((*picture.aim_mm)[1]),
                 strip.y + strip.height + 6.0, false, words("picture.aim"), letters, colour::turf_deep);
  if (beside > 0.0)
    draw_handle(pen, {left_handed ? box.x : box.x + width + gap, box.y, beside, box.height}, ground, picture,
                sense, words, letters);
}

const char* key_of(DivotKind kind) {
  switch (kind) {
    case DivotKind::behind:
      return "behind";
    case DivotKind::at:
      return "at";
    case DivotKind::front:
      return "front";
    case DivotKind::toe:
      return "toe";
  }
  return "";
}

void draw_divot(Pen& pen, const Box& box, DivotKind kind, bool left_handed) {
  if (!pen.draws()) return;
  const Scale scale{box.x + 0.5 * box.width - (left_handed ? -1.0 : 1.0) * 0.08 * box.width,
                    box.width / 330.0, left_handed ? -1.0 : 1.0};
  const double middle = box.y + 0.5 * box.height, radius = kBallRadius * scale.per_mm;
  pen.rectangle(box.x, box.y, box.width, box.height, colour::turf_pale);
  draw_target_line(pen, box, middle, 0.5, scale);
  const double start = kind == DivotKind::behind ? -75.0 : kind == DivotKind::at ? 3.0 : 32.0;
  const double half = 0.2 * box.height;
  const Points outline = divot_outline(scale, start, start + 105.0, 0.0, middle, half);
  if (kind != DivotKind::behind) pen.circle(scale.x(0.0), middle, radius, colour::paper, 0.9, colour::ink);
  pen.fill(outline, colour::earth);
  if (kind == DivotKind::behind) pen.circle(scale.x(0.0), middle, radius, colour::paper, 0.9, colour::ink);
  if (kind == DivotKind::toe) {
    // The toe points away from the player, who stands above: the deep side is the lower one, drawn dark and
    // ragged.
    Points deep;
    for (int k = 0; k <= 10; ++k)
      deep.emplace_back(scale.x(start + 8.0 + 9.0 * k), middle + half * (k % 2 ? 0.05 : 0.35));
    deep.emplace_back(scale.x(start + 100.0), middle + 1.25 * half);
    deep.emplace_back(scale.x(start + 4.0), middle + 1.25 * half);
    pen.fill(deep, colour::ink);
  }
  // The bar at which the eye should look.
  pen.line(scale.x(start), middle - 1.5 * half, scale.x(start), middle + 1.5 * half, 1.5, colour::clay);
  const double tip = scale.sense > 0 ? box.x + box.width - 3.0 : box.x + 3.0;
  pen.arrow(tip - scale.sense * 9.0, box.y + 6.0, tip, box.y + 6.0, 0.9, colour::ink);
  if (kind == DivotKind::at || kind == DivotKind::front) {
    const double x = scale.sense > 0 ? box.x + 6.0 : box.x + box.width - 16.0;
    pen.path({{x, box.y + 8.5}, {x + 3.5, box.y + 12.0}, {x + 10.0, box.y + 4.0}}, 1.8, colour::turf_deep);
  }
}

void draw_turf_line(Pen& pen, double x, double y, double width, bool left_handed) {
  if (!pen.draws()) return;
  const double sense = left_handed ? -1.0 : 1.0;
  const auto at = [&](double along) { return left_handed ? x + width - along : x + along; };
  // Blades, leaning with the wind toward the target; none where the divot is.
  const double divot = 0.80 * width, divot_long = 34.0;
  for (int k = 0; 5.0 * k < width; ++k) {
    const double along = 5.0 * k + 2.5 * std::fmod(k * kGolden, 1.0);
    if (along > width - 2.0 || (along > divot - 2.0 && along < divot + divot_long + 2.0)) continue;
    const double tall = 2.4 + 3.4 * std::fmod(k * 0.7548776662, 1.0);
    pen.line(at(along), y, at(along) + sense * 0.35 * tall, y - tall, 0.7, colour::turf);
  }
  pen.line(at(0.0), y, at(divot), y, 1.6, colour::turf_deep);
  pen.line(at(divot + divot_long), y, at(width), y, 1.6, colour::turf_deep);
  Points hollow;
  for (int k = 0; k <= 12; ++k) {
    const double t = k / 12.0;
    hollow.emplace_back(at(divot + divot_long * t), y + 4.6 * std::sin(t * std::numbers::pi));
  }
  pen.path(hollow, 1.4, colour::earth);
  pen.circle(at(divot - 6.5), y - 5.4, 4.9, colour::paper, 1.0, colour::ink);
}

void draw_caution_sign(Pen& pen, double x, double y, double size) {
  if (!pen.draws()) return;
  pen.path({{x + 0.5 * size, y}, {x + size, y + 0.9 * size}, {x, y + 0.9 * size}, {x + 0.5 * size, y}}, 1.4,
           colour::clay);
  pen.line(x + 0.5 * size, y + 0.32 * size, x + 0.5 * size, y + 0.58 * size, 1.6, colour::clay);
  pen.line(x + 0.5 * size, y + 0.74 * size, x + 0.5 * size, y + 0.745 * size, 1.8, colour::clay);
}

}  // namespace strikewright
