#include <algorithm>

#include "sheet/bands.hpp"

namespace strikewright {
namespace {

Band why_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    for (const std::string& sentence : matter.content.why)
      flow.paragraph(sentence, {.size = fit.body + 2.0, .leading = 1.25});
    return flow.height();
  };
}

// What to think of, in the coach's own words: a bar beside large letters.
void set_cue(Flow& flow, const Matter& matter) {
  const std::string& cue = matter.content.exercise->cue;
  if (cue.empty()) return;
  flow.space(4.0);
  Pen& pen = flow.pen();
  const double top = flow.y, indent = 10.0;
  {
    const Tagged tagged(pen, "P");
    flow.y += pen.text(flow.x() + indent, flow.y, flow.width() - indent, matter.words("exercise.cue"),
                       {.size = flow.body() - 1.0, .colour = colour::pale_ink});
    flow.y += pen.text(flow.x() + indent, flow.y, flow.width() - indent, cue,
                       {.size = flow.body() + 1.5, .bold = true});
  }
  pen.line(flow.x() + 2.0, top + 2.0, flow.x() + 2.0, flow.y - 1.0, 3.0, colour::turf);
  flow.space(2.0);
}

// Title and purpose over the whole width; the drawing beside the steps.
Band exercise_band(const Matter& matter, const Fit& fit) {
  const SheetExercise& exercise = *matter.content.exercise;
  return [&matter, &exercise, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    flow.heading(matter.words("exercise.heading"));
    {
      const Tagged tagged(pen, "H3");
      flow.y +=
          pen.text(x, flow.y, width, exercise.title, {.size = fit.body + 6.0, .bold = true, .leading = 1.1});
    }
    flow.paragraph(exercise.purpose, {.size = fit.body, .italic = true});
    flow.space(4.0);
    const double drawing = matter.drawing == nullptr
                               ? 0.0
                               : std::min(fit.drawing * width, 190.0 / matter.drawing->height_over_width());
    const double beside = matter.drawing == nullptr ? 0.0 : drawing + 14.0;
    if (matter.drawing != nullptr) {
      const Tagged tagged(pen, "Figure");
      if (pen.draws()) matter.drawing->draw(pen.cairo(), x, flow.y, drawing, matter.left_handed());
    }
    Flow steps(pen, x + beside, flow.y, width - beside, fit.body);
    steps.list(exercise.steps, Mark::number, colour::clay);
    set_cue(steps, matter);
    steps.led(matter.words("exercise.dose"), exercise.dose);
    const double high = matter.drawing == nullptr ? 0.0 : drawing * matter.drawing->height_over_width();
    flow.y += std::max(steps.height(), high);
    return flow.height();
  };
}

void set_rest_of_exercise(Flow& flow, const Matter& matter, const Fit& fit) {
  const SheetExercise& exercise = *matter.content.exercise;
  const Words& words = matter.words;
  if (!exercise.self_check.empty()) {
    flow.heading(words("exercise.self_check"));
    flow.list(exercise.self_check, Mark::box, colour::ink);
  }
  if (fit.errors && !exercise.errors.empty()) {
    flow.label(words("exercise.errors"));
    flow.list(exercise.errors, Mark::dash, colour::clay);
  }
  if (fit.easier_harder) {
    flow.led(words("exercise.easier"), exercise.regression);
    flow.led(words("exercise.harder"), exercise.progression);
  }
}

// Four rows: how the divot lies, and what that says.
void set_divots(Flow& flow, const Matter& matter) {
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(matter.words("divots.heading"));
  const double wide = 0.24 * flow.width(), high = 2.1 * flow.body();
  for (const DivotKind kind : kDivotKinds) {
    const std::string key = std::string("divots.") + key_of(kind);
    draw_divot(flow.pen(), {flow.x(), flow.y + 1.5, wide, high}, kind, matter.left_handed());
    Flow cell(flow.pen(), flow.x() + wide + 8.0, flow.y, flow.width() - wide - 8.0, flow.body());
    cell.led(matter.words(key), matter.words(key + "_says"));
    flow.y += std::max(cell.height(), high) + 2.5;
  }
}

void set_notes(Flow& flow, const Matter& matter, int lines) {
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(matter.words("notes.heading"));
  for (int k = 0; k < lines; ++k) {
    flow.space(k == 0 ? kNoteLine - 5.0 : kNoteLine);
    flow.pen().line(flow.x(), flow.y, flow.x() + flow.width(), flow.y, 0.5, colour::rule);
  }
}

// The exercise's details beside the plan; note and divots stand where there is more room, and lines for the
// pupil's own hand where much of it is left.
Band practice_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow across(pen, x, y, width, fit.body);
    if (fit.plan_across) {
      set_plan(across, matter, true);
      across.space(fit.gap);
    }
    Sides sides(pen, width, fit);
    sides.add([&](Flow& flow) { set_rest_of_exercise(flow, matter, fit); }, 0);
    const Column plan = [&](Flow& flow) {
      if (!fit.plan_across) set_plan(flow, matter, true);
      set_targets(flow, matter);
    };
    sides.add(plan, 1);
    if (fit.divots) sides.add([&](Flow& flow) { set_divots(flow, matter); });
    sides.add([&](Flow& flow) { set_note(flow, matter, matter.words("head.note")); });
    const int lines = std::min(6, static_cast<int>((sides.difference() - 2.6 * fit.body) / kNoteLine));
    if (lines >= 2 && fit.note_lines == 0) sides.add([&](Flow& flow) { set_notes(flow, matter, lines); });
    return across.height() + sides.set(x, across.y);
  };
}

Band notes_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    set_notes(flow, matter, fit.note_lines);
    return flow.height();
  };
}

}  // namespace

std::vector<Band> pupil_bands(const Matter& matter, const Fit& fit) {
  std::vector<Band> bands{head_band(matter, fit), why_band(matter, fit)};
  if (matter.content.picture && fit.pictured) bands.push_back(picture_band(matter, fit));
  bands.push_back(exercise_band(matter, fit));
  bands.push_back(practice_band(matter, fit));
  bands.push_back(cautions_band(matter, fit));
  if (fit.note_lines > 0) bands.push_back(notes_band(matter, fit));
  return bands;
}

}  // namespace strikewright
