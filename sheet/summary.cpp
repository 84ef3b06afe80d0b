#include <algorithm>
#include <cmath>

#include "sheet/bands.hpp"

namespace strikewright {
namespace {

Band reading_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    flow.heading(matter.words("summary.reading"));
    flow.list(matter.content.reading, Mark::dash, colour::turf_deep);
    return flow.height();
  };
}

// Cause, figure, a bar for how likely it comes first, and what it does to the scatter.
void set_cause(Flow& flow, const SheetCause& cause) {
  Pen& pen = flow.pen();
  const Style style{.size = flow.body()};
  const double width = flow.width(), y = flow.y + 2.0;
  const Tagged row(pen, "TR");
  const auto cell = [&](double from, double to, const std::string& text, bool bold) {
    const Tagged data(pen, "TD");
    Style own = style;
    own.bold = bold;
    return pen.text(flow.x() + from * width, y, (to - from) * width - 8.0, text, own);
  };
  double height = cell(0.0, 0.25, cause.says, true);
  height = std::max(height, cell(0.25, 0.57, cause.figure, false));
  const std::string percent = std::to_string(std::lround(100.0 * cause.leading)) + " %";
  const double bar = flow.x() + 0.57 * width, bar_width = 0.10 * width;
  pen.rectangle(bar, y + 0.3 * flow.body(), bar_width, 0.65 * flow.body(), colour::turf_pale);
  pen.rectangle(bar, y + 0.3 * flow.body(), bar_width * cause.leading, 0.65 * flow.body(), colour::turf_deep);
  height = std::max(height, cell(0.68, 0.76, percent, false));
  height = std::max(height, cell(0.76, 1.0, cause.scatter, false));
  flow.y += height + 4.0;
  pen.line(flow.x(), flow.y, flow.x() + width, flow.y, 0.4, colour::rule);
}

Band causes_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    flow.heading(matter.words("summary.causes"));
    const Style small{.size = fit.body - 1.5, .colour = colour::pale_ink};
    const Tagged tagged(pen, "Table");
    {
      const Tagged row(pen, "TR");
      double height = 0.0;
      for (const auto& [from, to, key] :
           {std::tuple{0.0, 0.25, "summary.cause"}, std::tuple{0.25, 0.57, "summary.figure"},
            std::tuple{0.57, 0.76, "summary.leading"}, std::tuple{0.76, 1.0, "summary.scatter"}}) {
        const Tagged head(pen, "TH");
        height = std::max(
            height, pen.text(x + from * width, flow.y, (to - from) * width - 8.0, matter.words(key), small));
      }
      flow.space(height);
    }
    for (const SheetCause& cause : matter.content.causes) set_cause(flow, cause);
    return flow.height();
  };
}

void set_given(Flow& flow, const Matter& matter, const Fit& fit) {
  if (!matter.content.exercise) return;
  const SheetExercise& exercise = *matter.content.exercise;
  flow.heading(matter.words("summary.exercise"));
  flow.paragraph(exercise.title, {.size = fit.body + 2.0, .bold = true});
  flow.paragraph(exercise.purpose, {.size = fit.body, .italic = true});
  flow.led(matter.words("exercise.cue"), exercise.cue);
  flow.led(matter.words("exercise.dose"), exercise.dose);
}

void set_outcome(Flow& flow, const Matter& matter) {
  if (!matter.content.proof.empty()) {
    flow.heading(matter.words("summary.proof"));
    flow.paragraph(matter.content.proof);
  }
  if (matter.content.next_look.empty()) return;
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(matter.words("summary.next_look"));
  flow.list(matter.content.next_look, Mark::dash, colour::turf_deep);
}

// What was given beside what came of it; plan, targets and note stand where there is more room.
Band given_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Sides sides(pen, width, fit);
    sides.add([&](Flow& flow) { set_given(flow, matter, fit); }, 0);
    sides.add([&](Flow& flow) { set_outcome(flow, matter); }, 1);
    sides.add([&](Flow& flow) { set_plan(flow, matter, false); });
    sides.add([&](Flow& flow) { set_targets(flow, matter); });
    sides.add([&](Flow& flow) { set_note(flow, matter, matter.words("summary.note")); });
    return sides.set(x, y);
  };
}

}  // namespace

std::vector<Band> summary_bands(const Matter& matter, const Fit& fit) {
  std::vector<Band> bands{head_band(matter, fit)};
  if (!matter.content.reading.empty()) bands.push_back(reading_band(matter, fit));
  if (matter.content.picture) bands.push_back(picture_band(matter, fit));
  if (!matter.content.causes.empty()) bands.push_back(causes_band(matter, fit));
  bands.push_back(given_band(matter, fit));
  bands.push_back(cautions_band(matter, fit));
  return bands;
}

}  // namespace strikewright
