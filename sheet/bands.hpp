#pragma once
// The bands that the pupil's page and the coach's summary share.

#include "sheet/flow.hpp"
#include "sheet/page.hpp"

namespace strikewright {

/// Name, day, with whom and where; on a junior's page the line for the adult; that all is invented, if it is.
[[nodiscard]] Band head_band(const Matter& matter, const Fit& fit);

/// The strip and the arc with their caption; nothing without a picture.
[[nodiscard]] Band picture_band(const Matter& matter, const Fit& fit);

/// The framed cautions of the exercise and of every practice, and to whom this page defers.
[[nodiscard]] Band cautions_band(const Matter& matter, const Fit& fit);

/// Two columns beside one another, the first taking `share` of the width; as high as the higher one.
using Column = std::function<void(Flow&)>;
[[nodiscard]] Band columns_band(const Fit& fit, double share, const Column& first, const Column& second);

/// Two columns of one width; what is added goes to the shorter one.
class Sides {
 public:
  Sides(Pen& pen, double width, const Fit& fit) : pen_(pen), width_(width), fit_(fit) {}
  void add(const Column& column) { add(column, heights_[0] <= heights_[1] ? 0 : 1); }
  void add(const Column& column, std::size_t side);
  /// By how much one is higher than the other.
  [[nodiscard]] double difference() const;
  /// Sets both; returns the height of the higher one.
  [[nodiscard]] double set(double x, double y) const;

 private:
  Pen& pen_;
  double width_;
  const Fit& fit_;
  std::vector<Column> columns_[2];
  double heights_[2] = {0.0, 0.0};
};

/// "Until the next lesson, Mon 18 May"
[[nodiscard]] std::string plan_heading(const SheetContent& content, const Words& words);

/// Into a column: the practice sessions as a table with boxes to tick, and what to reach.
void set_plan(Flow& flow, const Matter& matter, bool with_boxes);
void set_targets(Flow& flow, const Matter& matter);
/// The coach's own words, if any.
void set_note(Flow& flow, const Matter& matter, std::string_view heading);

}  // namespace strikewright
