#pragma once
// Reads the turf mark off the path that the leading edge took.

#include "strike/strike.hpp"
#include "strike/turf.hpp"

namespace strikewright {

/// The two stretches of the path: up to the ball and from the ball on. A stretch may be missing.
template <class T>
struct TurfPath {
  PathNodes<T> before, after;
  bool has_before = false;
};

namespace detail {

/// Cubic through two nodes with their slopes, at share q of the way.
template <class T>
T height_between(const PathNode<T>& a, const PathNode<T>& b, const T& q) {
  const T h = b.s - a.s;
  const T p = 1.0 - q;
  return p * p * ((1.0 + 2.0 * q) * a.height + q * h * a.slope) +
         q * q * ((3.0 - 2.0 * q) * b.height - p * h * b.slope);
}

/// d(height)/dq of the same cubic.
template <class T>
T slope_between(const PathNode<T>& a, const PathNode<T>& b, const T& q) {
  const T h = b.s - a.s;
  return 6.0 * q * (1.0 - q) * (b.height - a.height) +
         h * ((1.0 - q) * (1.0 - 3.0 * q) * a.slope + q * (3.0 * q - 2.0) * b.slope);
}

/// d2(height)/dq2 of the same cubic.
template <class T>
T bend_between(const PathNode<T>& a, const PathNode<T>& b, const T& q) {
  const T h = b.s - a.s;
  return 6.0 * (1.0 - 2.0 * q) * (b.height - a.height) +
         h * ((6.0 * q - 4.0) * a.slope + (6.0 * q - 2.0) * b.slope);
}

/// Share of the way, within (low, high), where f crosses `level`: Newton kept inside the bracket on plain
/// values, then one step with slopes, which makes the slopes exact.
/// @param f, df   height or slope along the share, and its derivative, for plain and for dual numbers
template <class T, class F, class D>
T crossing(double low, double high, bool falling, const F& f, const D& df, const T& level) {
  const double aim = value_of(level);
  double q = 0.5 * (low + high);
  double slope = 0.0;
  for (int k = 0; k < 60 && high - low > 1e-14; ++k) {
    const double miss = f.plain(q) - aim;
    ((miss > 0.0) == falling ? low : high) = q;
    slope = df(q);
    const double newton = q - miss / slope;
    const double next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (std::abs(next - q) < 1e-13) break;
    q = next;
  }
  if (!(std::abs(slope) > 1e-9)) return T(q);
  return T(q) - (f.full(T(q)) - level) / slope;
}

/// One interval of the path, as plain numbers and with slopes.
template <class T>
struct Cell {
  PathNode<T> a, b;
  PathNode<double> pa, pb;
  Cell(const PathNode<T>& from, const PathNode<T>& to)
      : a{from}, b{to}, pa{plain_node(from)}, pb{plain_node(to)} {}
  static PathNode<double> plain_node(const PathNode<T>& n) {
    return {value_of(n.s), value_of(n.height), value_of(n.slope)};
  }
  /// Where its height crosses `level` between shares low and high.
  [[nodiscard]] T level_at(double low, double high, bool falling, const T& level) const {
    const struct {
      const Cell& c;
      [[nodiscard]] double plain(double q) const { return height_between(c.pa, c.pb, q); }
      [[nodiscard]] T full(const T& q) const { return height_between(c.a, c.b, q); }
    } height{*this};
    return place(crossing(
        low, high, falling, height, [&](double q) { return slope_between(pa, pb, q); }, level));
  }
  /// Share at which it is lowest, given that it falls at its start and rises at its end.
  [[nodiscard]] T lowest_at() const {
    const struct {
      const Cell& c;
      [[nodiscard]] double plain(double q) const { return slope_between(c.pa, c.pb, q); }
      [[nodiscard]] T full(const T& q) const { return slope_between(c.a, c.b, q); }
    } slope{*this};
    return crossing(
        0.0, 1.0, false, slope, [&](double q) { return bend_between(pa, pb, q); }, T(0.0));
  }
  /// Arc length at a share of the way.
  [[nodiscard]] T place(const T& q) const { return a.s + q * (b.s - a.s); }
};

/// The lowest place of one stretch.
template <class T>
struct Lowest {
  std::size_t cell = 0;  ///< index of the interval's first node
  T share{};             ///< of the way through the interval
  T s{}, height{};
};

template <class T>
Lowest<T> lowest_of(const PathNodes<T>& nodes) {
  std::size_t k = 0;
  for (std::size_t j = 1; j < nodes.size(); ++j)
    if (value_of(nodes[j].height) < value_of(nodes[k].height)) k = j;
  const bool right = value_of(nodes[k].slope) < 0.0;
  const std::size_t last = nodes.size() - 1;
  if (right && k == last) return {last - 1, T(1.0), nodes[last].s, nodes[last].height};
  if (!right && k == 0) return {0, T(0.0), nodes[0].s, nodes[0].height};
  const std::size_t cell = right ? k : k - 1;
  const Cell<T> here(nodes[cell], nodes[cell + 1]);
  const T q = here.lowest_at();
  return {cell, q, here.place(q), height_between(here.a, here.b, q)};
}

/// Where the path first falls to `level` within nodes up to its lowest place; false when it starts below.
template <class T>
bool first_fall(const PathNodes<T>& nodes, const Lowest<T>& low, const T& level, T& s) {
  if (value_of(low.height) > value_of(level) || value_of(nodes[0].height) <= value_of(level)) return false;
  for (std::size_t k = 0; k <= low.cell; ++k) {
    const bool here = k == low.cell;
    if (!here && value_of(nodes[k + 1].height) > value_of(level)) continue;
    s = Cell<T>(nodes[k], nodes[k + 1]).level_at(0.0, here ? value_of(low.share) : 1.0, true, level);
    return true;
  }
  return false;
}

/// Where the path last rises through `level` after its lowest place; false when it ends below.
template <class T>
bool last_rise(const PathNodes<T>& nodes, const Lowest<T>& low, const T& level, T& s) {
  if (value_of(low.height) > value_of(level) || value_of(nodes.back().height) <= value_of(level))
    return false;
  for (std::size_t k = nodes.size() - 1; k-- > low.cell;) {
    const bool here = k == low.cell;
    if (!here && value_of(nodes[k].height) > value_of(level)) continue;
    s = Cell<T>(nodes[k], nodes[k + 1]).level_at(here ? value_of(low.share) : 0.0, 1.0, false, level);
    return true;
  }
  return false;
}

}  // namespace detail

/// The mark along the arc [m], still as arc lengths.
template <class T>
struct MarkOnArc {
  T start{}, end{}, deepest{};
  T depth{};  ///< m, deeper +; negative: how far over the surface the leading edge stayed
};

/// Reads start, end and deepest place. The ends lie where the path crosses the height
/// lowest + positive_part(depth): that is the surface for a real mark, and the ends run smoothly into the
/// lowest place as the mark vanishes (no root's infinite slope there).
template <class T>
MarkOnArc<T> mark_of(const TurfPath<T>& path, double unevenness) {
  const detail::Lowest<T> after = detail::lowest_of(path.after);
  detail::Lowest<T> before = after;
  if (path.has_before) before = detail::lowest_of(path.before);
  const detail::Lowest<T>& deepest = value_of(before.height) < value_of(after.height) ? before : after;
  MarkOnArc<T> m{deepest.s, deepest.s, deepest.s, -deepest.height};
  const T level = safe::positive_part(m.depth, unevenness) - m.depth;
  if (value_of(T(level + m.depth)) < 1e-12) return m;
  const bool early = path.has_before && detail::first_fall(path.before, before, level, m.start);
  if (!early && !detail::first_fall(path.after, after, level, m.start)) m.start = path.after[0].s;
  const bool late = detail::last_rise(path.after, after, level, m.end);
  if (!late && !(path.has_before && detail::last_rise(path.before, before, level, m.end)))
    m.end = path.after.back().s;
  return m;
}

}  // namespace strikewright
