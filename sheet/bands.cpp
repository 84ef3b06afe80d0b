#include "sheet/bands.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sheet/days.hpp"

namespace strikewright {
namespace {

constexpr double kBetween = 18.0;  // two columns

std::string meta_line(const Matter& matter) {
  const SheetContent& content = matter.content;
  std::string line = day_in_words(content.day, "date.full", matter.words);
  const auto add = [&](const std::string& part) {
    if (!part.empty()) line += "  ·  " + part;
  };
  if (!content.coach.empty()) add(matter.words("head.with", {{"coach", content.coach}}));
  add(content.place);
  add(content.club);
  return line;
}

// Day, coach and place; behind them, or in a line of its own, that all is invented.
void set_meta(Flow& flow, const Matter& matter) {
  const Style plain{.size = flow.body(), .colour = colour::pale_ink};
  Style invented{.size = flow.body() - 0.5, .colour = colour::clay, .italic = true};
  const std::string line = meta_line(matter),
                    said = matter.content.invented ? matter.words("head.invented") : "";
  Pen& pen = flow.pen();
  const double top = flow.y;
  flow.paragraph(line, plain);
  if (pen.width_of(line, plain) + pen.width_of(said, invented) + 14.0 > flow.width()) {
    flow.paragraph(said, invented);
    return;
  }
  invented.align = Align::end;
  const Tagged tagged(pen, "P");
  pen.text(flow.x(), top, flow.width(), said, invented);
}

void set_guardian(Flow& flow, const Matter& matter) {
  const Words& words = matter.words;
  const SheetContent& content = matter.content;
  flow.paragraph(words("head.junior", {{"pupil", content.pupil}}), {.size = flow.body() + 0.5, .bold = true});
  if (!content.guardian.empty()) {
    flow.paragraph(words("head.guardian", {{"guardian", content.guardian}}));
    return;
  }
  flow.space(3.0);
  const Style style{.size = flow.body()};
  const double from = flow.x() + flow.pen().width_of(words("head.guardian_blank"), style) + 6.0;
  const double top = flow.y;
  flow.paragraph(words("head.guardian_blank"), style);
  flow.pen().line(from, top + 1.05 * flow.body(), std::max(from + 40.0, flow.x() + 0.7 * flow.width()),
                  top + 1.05 * flow.body(), 0.7, colour::ink);
}

void set_caution_label(Flow& flow, const std::string& text) {
  Pen& pen = flow.pen();
  const double sign = 1.1 * flow.body();
  draw_caution_sign(pen, flow.x(), flow.y + 1.5, sign);
  const Tagged tagged(pen, "H2");
  flow.y += pen.text(flow.x() + sign + 4.0, flow.y, flow.width() - sign - 4.0, text,
                     {.size = flow.body() + 0.5, .colour = colour::clay, .bold = true});
}

}  // namespace

Band head_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    Flow flow(pen, x, y, width, fit.body);
    const bool pupil = matter.content.kind == SheetKind::pupil;
    if (!pupil) {
      flow.paragraph(matter.words("head.summary"),
                     {.size = fit.body, .colour = colour::turf_deep, .bold = true});
    }
    {
      const Tagged tagged(pen, "H1");
      Style name{.size = pupil ? fit.name : 20.0, .bold = true, .leading = 1.08};
      if (pen.width_of(matter.content.pupil, name) > width) name.size = 15.0;
      flow.y += pen.text(x, flow.y, width, matter.content.pupil, name);
    }
    set_meta(flow, matter);
    flow.space(11.0);
    draw_turf_line(pen, x, flow.y, width, matter.left_handed());
    flow.space(6.0);
    if (pupil && matter.content.junior) set_guardian(flow, matter);
    return flow.height();
  };
}

Band picture_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    const SheetPicture& picture = *matter.content.picture;
    Flow flow(pen, x, y, width, fit.body);
    flow.heading(matter.words("picture.heading"));
    flow.space(2.0);
    const double wide = 0.66 * width, beside = wide + 16.0;
    Flow words(pen, x + beside, flow.y, width - beside, fit.body);
    for (const std::string& sentence : picture_in_words(picture, matter.content.units, matter.words)) {
      if (words.height() > 0.0) words.space(0.25 * fit.body);
      words.paragraph(sentence);
    }
    const double high = std::max(fit.picture, words.height());
    const Tagged tagged(pen, "Figure");
    draw_picture(pen, {x, flow.y, wide, high}, picture, matter.left_handed(), matter.words, fit.body - 1.0);
    flow.space(high);
    return flow.height();
  };
}

Band columns_band(const Fit& fit, double share, const Column& first, const Column& second) {
  return [=](Pen& pen, double x, double y, double width) {
    const double left = share * (width - kBetween);
    Flow one(pen, x, y, left, fit.body), two(pen, x + left + kBetween, y, width - kBetween - left, fit.body);
    first(one);
    second(two);
    return std::max(one.height(), two.height());
  };
}

void Sides::add(const Column& column, std::size_t side) {
  Pen measuring = pen_.measuring();
  Flow flow(measuring, 0.0, 0.0, 0.5 * (width_ - kBetween), fit_.body);
  flow.y += heights_[side];
  column(flow);
  heights_[side] = flow.height();
  columns_[side].push_back(column);
}

double Sides::difference() const { return std::abs(heights_[0] - heights_[1]); }

double Sides::set(double x, double y) const {
  if (!pen_.draws()) return std::max(heights_[0], heights_[1]);
  const auto all_of = [](const std::vector<Column>& parts) {
    return [&parts](Flow& flow) {
      for (const Column& part : parts) part(flow);
    };
  };
  return columns_band(fit_, 0.5, all_of(columns_[0]), all_of(columns_[1]))(pen_, x, y, width_);
}

namespace {

// The cautions one by one in their order, a heading in one piece with the first of its list.
std::vector<Column> cautions_of(const Matter& matter) {
  std::vector<Column> parts;
  const auto add = [&](const char* key, const std::vector<std::string>& cautions) {
    for (std::size_t k = 0; k < cautions.size(); ++k)
      parts.push_back([&matter, &caution = cautions[k], key, k](Flow& flow) {
        if (k == 0) set_caution_label(flow, matter.words(key));
        flow.list({caution}, Mark::dot, colour::clay);
      });
  };
  if (matter.content.exercise) add("cautions.of_exercise", matter.content.exercise->cautions);
  add("cautions.always", matter.content.cautions);
  return parts;
}

// Two columns, broken where the higher one is lowest; where the second list begins if that costs less than
// two lines.
double set_cautions(Pen& pen, const Matter& matter, const Fit& fit, double x, double y, double width) {
  const std::vector<Column> parts = cautions_of(matter);
  Pen measuring = pen.measuring();
  std::vector<double> heights;
  for (const Column& part : parts) {
    Flow flow(measuring, 0.0, 0.0, 0.5 * (width - kBetween), fit.body);
    part(flow);
    heights.push_back(flow.height());
  }
  const auto higher = [&heights](std::size_t first) {
    const auto middle = heights.begin() + static_cast<std::ptrdiff_t>(first);
    return std::max(std::accumulate(heights.begin(), middle, 0.0),
                    std::accumulate(middle, heights.end(), 0.0));
  };
  std::size_t best = matter.content.exercise ? matter.content.exercise->cautions.size() : parts.size();
  double lowest = higher(best) - 2.0 * fit.leading * fit.body;
  for (std::size_t first = 1; first < parts.size(); ++first)
    if (higher(first) < lowest) {
      lowest = higher(first);
      best = first;
    }
  const auto some_of = [&parts](std::size_t from, std::size_t to) {
    return [&parts, from, to](Flow& flow) {
      for (std::size_t k = from; k < to; ++k) parts[k](flow);
    };
  };
  return pen.draws() ? columns_band(fit, 0.5, some_of(0, best), some_of(best, parts.size()))(pen, x, y, width)
                     : higher(best);
}

}  // namespace

Band cautions_band(const Matter& matter, const Fit& fit) {
  return [&matter, fit](Pen& pen, double x, double y, double width) {
    constexpr double kInside = 8.0;
    const auto set = [&](Pen& with, double top) {
      Flow flow(with, x + kInside, top + 0.6 * kInside, width - 2.0 * kInside, fit.body);
      flow.y += set_cautions(with, matter, fit, flow.x(), flow.y, flow.width());
      flow.space(1.5);
      flow.paragraph(matter.words("foot.defer"), {.size = fit.body, .bold = true});
      return flow.y - top + 0.6 * kInside;
    };
    // The frame lies under its text, so its height must be known first.
    if (!pen.draws()) return set(pen, y);
    Pen measuring = pen.measuring();
    const double height = set(measuring, y);
    pen.rectangle(x, y, width, height, colour::clay_pale);
    pen.frame(x, y, width, height, 1.2, colour::clay);
    set(pen, y);
    return height;
  };
}

std::string plan_heading(const SheetContent& content, const Words& words) {
  if (content.next_lesson.empty()) return words("plan.heading");
  return words(content.sessions.empty() ? "plan.next" : "plan.heading_day",
               {{"day", day_in_words(content.next_lesson, "date.short", words)}});
}

void set_plan(Flow& flow, const Matter& matter, bool with_boxes) {
  const SheetContent& content = matter.content;
  const Words& words = matter.words;
  if (content.sessions.empty() && content.next_lesson.empty()) return;
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(plan_heading(content, words));
  Pen& pen = flow.pen();
  const double body = flow.body();
  const Style style{.size = body};
  double days = 0.0, minutes = 0.0;
  for (const SheetSession& session : content.sessions) {
    days = std::max(days, pen.width_of(day_in_words(session.day, "date.short", words), style));
    if (session.minutes > 0) minutes = pen.width_of("000 " + words("plan.minutes"), style);
  }
  days += 8.0;
  const double box = with_boxes ? 0.85 * body : 0.0;
  const double what = flow.width() - days - minutes - (with_boxes ? box + 8.0 : 0.0);
  const Tagged tagged(pen, "Table");
  for (const SheetSession& session : content.sessions) {
    const Tagged row(pen, "TR");
    const double y = flow.y + 1.5;
    const auto cell = [&](double x, double width, const std::string& text, Align align) {
      const Tagged data(pen, "TD");
      Style aligned = style;
      aligned.align = align;
      return pen.text(x, y, width, text, aligned);
    };
    const double first = cell(flow.x(), days, day_in_words(session.day, "date.short", words), Align::start);
    std::string says = session.what;
    if (session.self_test) says.insert(0, words("plan.test") + (says.empty() ? "" : ": "));
    const double second = cell(flow.x() + days, what, says, Align::start);
    if (session.minutes > 0)
      cell(flow.x() + days + what, minutes, std::to_string(session.minutes) + " " + words("plan.minutes"),
           Align::end);
    if (with_boxes) pen.frame(flow.x() + flow.width() - box, y + 0.2 * body, box, box, 0.9, colour::ink);
    flow.y += std::max(first, second) + 3.0;
    pen.line(flow.x(), flow.y, flow.x() + flow.width(), flow.y, 0.4, colour::rule);
  }
}

void set_targets(Flow& flow, const Matter& matter) {
  if (matter.content.targets.empty()) return;
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(matter.words("targets.heading"));
  for (const SheetTarget& target : matter.content.targets) {
    flow.paragraph(target.says);
    Pen& pen = flow.pen();
    const double indent = 1.25 * flow.body();
    double x = flow.x() + indent;
    const Style plain{.size = flow.body()}, bold{.size = flow.body(), .bold = true};
    const std::string now = target.now.empty() ? "" : matter.words("targets.now", {{"now", target.now}});
    const std::string goal = target.goal.empty() ? "" : matter.words("targets.goal", {{"goal", target.goal}});
    const double needed = pen.width_of(now, plain) + pen.width_of(goal, bold) + 26.0;
    const bool in_one_line = !now.empty() && !goal.empty() && needed < flow.width() - indent;
    const Tagged tagged(pen, "P");
    double height = pen.text(x, flow.y, flow.width() - indent, now, plain);
    if (in_one_line) {
      x += pen.width_of(now, plain) + 5.0;
      pen.arrow(x, flow.y + 0.68 * flow.body(), x + 14.0, flow.y + 0.68 * flow.body(), 1.0, colour::clay);
      x += 19.0;
    } else {
      flow.y += height;
      height = 0.0;
    }
    height = std::max(height, pen.text(x, flow.y, flow.width() - (x - flow.x()), goal, bold));
    flow.y += height + 2.0;
  }
}

void set_note(Flow& flow, const Matter& matter, std::string_view heading) {
  if (matter.content.note.empty()) return;
  if (flow.height() > 0.0) flow.space(0.8 * flow.body());
  flow.heading(heading);
  flow.paragraph(matter.content.note, {.size = flow.body(), .italic = true});
}

}  // namespace strikewright
