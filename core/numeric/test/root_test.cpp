#include "numeric/root.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace strikewright;

TEST_CASE("a bracketed root is found to the last digits") {
  // x^3 - x - 2 = 0: Cardano's closed form.
  const double exact = std::cbrt(1.0 + std::sqrt(26.0 / 27.0)) + std::cbrt(1.0 - std::sqrt(26.0 / 27.0));
  const auto cubic = [](double x) { return x * x * x - x - 2.0; };
  CHECK(root_between(cubic, 1.0, 2.0).value() == doctest::Approx(exact).epsilon(1e-15));
  CHECK(root_between(cubic, 2.0, 1.0).value() == doctest::Approx(exact).epsilon(1e-15));
}

TEST_CASE("a root at an end of the bracket is that end") {
  CHECK(root_between([](double x) { return x; }, 0.0, 1.0).value() == 0.0);
  CHECK(root_between([](double x) { return x - 1.0; }, 0.0, 1.0).value() == 1.0);
}

TEST_CASE("no sign change or no number, no root") {
  CHECK_FALSE(root_between([](double x) { return x * x + 1.0; }, -1.0, 1.0).has_value());
  CHECK_FALSE(root_between([](double x) { return std::sqrt(x); }, -1.0, 1.0).has_value());
}

TEST_CASE("the bracket is no narrower than it was asked to be") {
  int asked = 0;
  const auto f = [&asked](double x) { return ++asked, std::exp(x) - 2.0; };
  const double rough = root_between(f, 0.0, 1.0, 1e-3).value();
  const int cheap = asked;
  asked = 0;
  const double fine = root_between(f, 0.0, 1.0).value();
  CHECK(std::fabs(rough - std::log(2.0)) < 1e-3);
  CHECK(std::fabs(fine - std::log(2.0)) < 1e-15);
  CHECK(cheap < asked);
}
