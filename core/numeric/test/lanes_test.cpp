#include "numeric/lanes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <vector>

#include "numeric/draws.hpp"

using namespace strikewright;

namespace {

template <int N>
Lanes<N> filled(const double* x) {
  Lanes<N> out;
  for (int i = 0; i < N; ++i) out.set(i, x[i]);
  return out;
}

/// Numbers spread evenly in value or in magnitude.
std::vector<double> spread(double low, double high, bool by_magnitude, int count = 40000) {
  Draws draws{7};
  std::vector<double> out;
  for (int i = 0; i < count; ++i) {
    const double u = draws.uniform();
    out.push_back(by_magnitude ? low * std::pow(high / low, u) : low + (high - low) * u);
  }
  return out;
}

double ulp(double x) {
  return std::nextafter(std::abs(x), std::numeric_limits<double>::infinity()) - std::abs(x);
}

/// Largest error against long double, in units of the last place of the result.
template <class Ours, class Exact>
double worst_ulp(const std::vector<double>& xs, Ours ours, Exact exact) {
  double worst = 0.0;
  for (std::size_t i = 0; i + 4 <= xs.size(); i += 4) {
    const Lanes<4> y = ours(filled<4>(&xs[i]));
    for (int k = 0; k < 4; ++k) {
      const long double want = exact(static_cast<long double>(xs[i + static_cast<std::size_t>(k)]));
      worst = std::max(worst, static_cast<double>(std::abs(y.at(k) - want)) / ulp(static_cast<double>(want)));
    }
  }
  return worst;
}
template <class Ours, class Exact>
double worst_absolute(const std::vector<double>& xs, Ours ours, Exact exact) {
  double worst = 0.0;
  for (std::size_t i = 0; i + 4 <= xs.size(); i += 4) {
    const Lanes<4> y = ours(filled<4>(&xs[i]));
    for (int k = 0; k < 4; ++k) {
      const long double want = exact(static_cast<long double>(xs[i + static_cast<std::size_t>(k)]));
      worst = std::max(worst, static_cast<double>(std::abs(y.at(k) - want)));
    }
  }
  return worst;
}

/// Something of everything, as one scalar.
template <class T>
T mixture(const T& x, const T& y) {
  using std::cos;
  using std::exp;
  using std::log;
  using std::sin;
  using std::sqrt;
  T z = sqrt(x * x + y * y) / (T(1.0) + exp(T(0.0) - x)) - log(y) * sin(x);
  z += select(x < y, cos(y), x - y);
  return z;
}

}  // namespace

TEST_CASE("four operations and the root are those of double, bit for bit") {
  const auto xs = spread(1e-3, 1e3, true, 400);
  for (std::size_t i = 0; i + 8 <= xs.size(); i += 8) {
    const auto a = filled<4>(&xs[i]);
    const auto b = filled<4>(&xs[i + 4]);
    for (int k = 0; k < 4; ++k) {
      CHECK((a + b).at(k) == a.at(k) + b.at(k));
      CHECK((a - b).at(k) == a.at(k) - b.at(k));
      CHECK((a * b).at(k) == a.at(k) * b.at(k));
      CHECK((a / b).at(k) == a.at(k) / b.at(k));
      CHECK(sqrt(a).at(k) == std::sqrt(a.at(k)));
      CHECK((a < b).at(k) == (a.at(k) < b.at(k)));
      CHECK(select(a < b, a, b).at(k) == std::min(a.at(k), b.at(k)));
      CHECK(abs(-a).at(k) == a.at(k));
    }
  }
}

TEST_CASE("exponential and logarithm are good to two units in the last place") {
  const auto e = [](const Lanes<4>& x) { return exp(x); };
  const auto l = [](const Lanes<4>& x) { return log(x); };
  const auto exact_e = [](long double x) { return std::exp(x); };
  const auto exact_l = [](long double x) { return std::log(x); };
  CHECK(worst_ulp(spread(-700.0, 700.0, false), e, exact_e) < 2.0);
  CHECK(worst_ulp(spread(-1.0, 1.0, false), e, exact_e) < 2.0);
  CHECK(worst_ulp(spread(1e-300, 1e300, true), l, exact_l) < 2.0);
  CHECK(worst_ulp(spread(0.5, 2.0, false), l, exact_l) < 2.0);
}

TEST_CASE("sine and cosine are good to 2.5e-16 up to a hundred thousand radians") {
  const auto s = [](const Lanes<4>& x) { return sin(x); };
  const auto c = [](const Lanes<4>& x) { return cos(x); };
  for (const double reach : {3.2, 100.0, 1e5}) {
    const auto xs = spread(-reach, reach, false);
    CHECK(worst_absolute(xs, s, [](long double x) { return std::sin(x); }) < 2.5e-16);
    CHECK(worst_absolute(xs, c, [](long double x) { return std::cos(x); }) < 2.5e-16);
  }
}

TEST_CASE("the edges of the exponential are 0 and infinity, never NaN") {
  const double ends[4] = {-1000.0, -708.5, 0.0, 800.0};
  const auto y = exp(filled<4>(ends));
  CHECK(y.at(0) == 0.0);
  CHECK(y.at(1) == 0.0);
  CHECK(y.at(2) == 1.0);
  CHECK(y.at(3) == std::numeric_limits<double>::infinity());
  CHECK(log(Lanes<4>(1.0)).at(0) == 0.0);
  CHECK(sin(Lanes<4>(0.0)).at(0) == 0.0);
  CHECK(cos(Lanes<4>(0.0)).at(0) == 1.0);
}

TEST_CASE("a lane's bits depend neither on its neighbours nor on how many there are") {
  const auto xs = spread(0.1, 50.0, false, 64);
  for (std::size_t i = 0; i + 16 <= xs.size(); i += 16) {
    const auto wide = mixture(filled<8>(&xs[i]), filled<8>(&xs[i + 8]));
    for (int k = 0; k < 8; ++k) {
      const auto at = static_cast<std::size_t>(k);
      const auto lone = mixture(Lanes<2>(xs[i + at]), Lanes<2>(xs[i + 8 + at]));
      CHECK(wide.at(k) == lone.at(0));
      // Against the standard library's functions: a few units in the last place of terms up to 50.
      CHECK(wide.at(k) == doctest::Approx(mixture(xs[i + at], xs[i + 8 + at])).epsilon(1e-13));
    }
  }
}

TEST_CASE("any() sees a single lane") {
  Lanes<8> x(1.0);
  CHECK_FALSE(any(x < Lanes<8>(0.0)));
  x.set(6, -1.0);
  CHECK(any(x < Lanes<8>(0.0)));
  CHECK_FALSE(any(!(x < Lanes<8>(2.0))));
}
