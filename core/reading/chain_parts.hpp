#pragma once
// What one Markov chain of fit_together is made of: its draws, and what it knows of each swing.

#include <Eigen/Cholesky>
#include <array>
#include <cmath>
#include <vector>

#include "numeric/draws.hpp"
#include "reading/sites.hpp"
#include "reading/together.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright::detail {

using Big = Eigen::MatrixXd;
using Long = Eigen::VectorXd;
using ByNumber = Eigen::Matrix<double, kUnknowns, Eigen::Dynamic>;  ///< by the number that is seen
using Sides = Eigen::Matrix<double, kUnknowns, Eigen::Dynamic, 0, kUnknowns, kKinds + 1>;

inline constexpr double kLogisticFreedom =
    7.3;  // t that looks like a logistic: S. O'Brien & D. Dunson, Biometrics 60, 2004, from memory
inline const double kLogisticSquare = kLogisticSd * kLogisticSd * (kLogisticFreedom - 2.0) / kLogisticFreedom;

/// Gamma of shape a >= 1 and rate 1 (G. Marsaglia & W. Tsang, ACM Trans. Math. Softw. 26, 2000, 363-372).
inline double gamma(double shape, Draws& draws) {
  const double d = shape - 1.0 / 3.0, c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = draws.normal();
    const double v = std::pow(1.0 + c * x, 3);
    if (v > 0.0 && std::log(draws.uniform()) < 0.5 * x * x + d - d * v + d * std::log(v)) return d * v;
  }
}

/// Logistic of unit scale about `middle`, within [low, high].
inline double logistic_within(double middle, double low, double high, Draws& draws) {
  const auto below = [&](double x) { return 1.0 / (1.0 + std::exp(middle - x)); };
  const auto above = [&](double x) { return 1.0 / (1.0 + std::exp(x - middle)); };
  const double u = draws.uniform();
  // On the side where the tail is thin, so that nothing cancels.
  if (low > middle) {
    const double a = above(high), b = above(low), p = a + u * (b - a);
    return middle + std::log1p(-p) - std::log(p);
  }
  const double a = below(low), b = below(high), p = a + u * (b - a);
  return middle + std::log(p) - std::log1p(-p);
}

struct Seen {
  Site site;
  int bias = -1;  ///< column among the biases
  double precision = 1.0, value = 0.0;
};

struct OneSwing {
  std::vector<Seen> seen;
  std::vector<int> biases;          ///< columns, one a kind
  std::vector<Coordinates> places;  ///< where the chain is straightened
  Coordinates z = Coordinates::Zero();
  Coordinates mirror =
      Coordinates::Zero();  ///< the sweep's other draw, on the other side of everything's middle
  Coordinates tilt = Coordinates::Zero();  ///< what the straightened chain leaves out, to first order
  double belongs = 1.0;
  bool with_flight = false;
};

/// Draws of one swing in pairs, mirror images about the middle that their sweep knew: what is even about it
/// falls out of the difference of two.
struct Pairs {
  std::vector<Coordinates> at;    ///< one of each pair
  std::vector<Coordinates> half;  ///< half the way from the other
  std::vector<double> log_half;   ///< half the difference of their log weights
};

/// How far the real chain's numbers of one swing are off the straight ones, as the sums of least squares:
/// slopes from mirrored pairs, in which what is even about the middle falls out, and the height from all.
struct OffLine {
  explicit OffLine(std::size_t numbers)
      : lean{ByNumber::Zero(kUnknowns, static_cast<Eigen::Index>(numbers))},
        off{Long::Zero(static_cast<Eigen::Index>(numbers))} {}
  double pairs = 0.0;
  CoordinatesMatrix square = CoordinatesMatrix::Zero();  ///< of half the way between the two
  Coordinates middle = Coordinates::Zero();              ///< of the two
  ByNumber lean;                                         ///< half the way x half the difference, by number
  Long off;                                              ///< mean of the two, by number
  void add(const OffLine& other) {
    pairs += other.pairs;
    square += other.square;
    middle += other.middle;
    lean += other.lean;
    off += other.off;
  }
};

/// What one sweep makes of a swing with its own coordinates integrated out.
struct Told {
  Eigen::LLT<CoordinatesMatrix> root;
  Coordinates pull = Coordinates::Zero();
  Sides cross;  ///< coordinates x biases
};

/// What a swing's numbers say about (coordinates, biases | pull) with its own coordinates integrated out:
/// rows whose outer products add up to it. At most so many numbers are seen of one swing: `contact` has
/// three.
inline constexpr int kMostNumbers = static_cast<int>(kKinds) + 2;
inline constexpr int kMostColumns = kUnknowns + static_cast<int>(kKinds) + 1;
using Rows =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor, kMostNumbers, kMostColumns>;
using Square =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor, kMostNumbers, kMostNumbers>;
using Products = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostColumns, kMostColumns>;

struct Shape {
  std::vector<Condition> conditions;
  std::vector<std::array<ConditionEffect, kUnknowns>> effects;
  std::vector<Coordinates> keeps;  ///< of each pattern's effects
  std::vector<int> shift_at;       ///< where a pattern's shifts begin among the unknowns, -1 = none
  std::vector<double> bias_sd;     ///< one a column of the biases
  int biases = 0, size = 0;
  [[nodiscard]] int bias_at() const { return size - biases; }
};

}  // namespace strikewright::detail
