#include "quantity/unit.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

#include "quantity/angle.hpp"
#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "quantity/utf8.hpp"

using namespace strikewright;

namespace {

struct Case {
  const char* text;
  Dimension dimension;
  double si;
};

double parsed(const char* text, Dimension dimension) {
  return parse_quantity(text, dimension, "--it").value();
}

}  // namespace

TEST_CASE("every unit a coach may type is understood") {
  // Factors: international yard and pound agreement 1959 (yd, ft, in, mph exact); 59 F = 15 C; 29.92 inHg is
  // the standard atmosphere 1013.25 hPa to its four digits (ICAO Doc 7488; inch of mercury NIST SP 811).
  const std::array cases{
      Case{"60mps", Dimension::speed, 60},           Case{"134mph", Dimension::speed, 59.90336},
      Case{"96kmh", Dimension::speed, 96 / 3.6},     Case{"4cm", Dimension::length, 0.04},
      Case{"12mm", Dimension::small_length, 0.012},  Case{"1.5m", Dimension::length, 1.5},
      Case{"150yd", Dimension::length, 137.16},      Case{"3ft", Dimension::length, 0.9144},
      Case{"2in", Dimension::length, 0.0508},        Case{"12deg", Dimension::angle, 12 * kDegree},
      Case{"2600rpm", Dimension::spin, 272.2713633}, Case{"15C", Dimension::temperature, 288.15},
      Case{"59F", Dimension::temperature, 288.15},   Case{"101325Pa", Dimension::pressure, 101325},
      Case{"1013hPa", Dimension::pressure, 101300},  Case{"0.5", Dimension::none, 0.5},
      Case{"-4 cm", Dimension::length, -0.04},       Case{" +4CM ", Dimension::length, 0.04},
      Case{".5in", Dimension::length, 0.0127},       Case{"1e2m", Dimension::length, 100},
  };
  for (const Case& c : cases) {
    INFO(c.text);
    CHECK(parsed(c.text, c.dimension) == doctest::Approx(c.si).epsilon(1e-9));
  }
  CHECK(parsed("29.92inHg", Dimension::pressure) == doctest::Approx(101325).epsilon(2e-4));
}

TEST_CASE("a missing unit is refused, and the units that would do are named") {
  const auto got = parse_quantity("60", Dimension::speed, "--ball-speed");
  REQUIRE(!got);
  CHECK(got.error().sentence() == "--ball-speed: found '60', expected a speed with its unit (mps, mph, kmh)");
}

TEST_CASE("what is not a quantity is refused") {
  for (const char* text : {"", " ", "fast", "mph", "--5mps", "+-5mps", "nanmps", "infmps", "0x10mps",
                           "1e999mps", "5mps5", "5 furlongs", "5deg", "3,5mps", "5mps mps"}) {
    INFO(text);
    CHECK(!parse_quantity(text, Dimension::speed, "--v"));
  }
  CHECK(!parse_quantity("0.5m", Dimension::none, "--humidity"));
}

TEST_CASE("a slip in a unit gets the nearest unit offered") {
  CHECK(parse_quantity("5inh", Dimension::pressure, "p").error().expected.find("did you mean 'inHg'?") !=
        std::string::npos);
  CHECK(parse_quantity("3,5mps", Dimension::speed, "v").error().expected.find("point") != std::string::npos);
}

TEST_CASE("an absurd value is refused in the unit it was given in") {
  const auto got = parse_quantity("500mph", Dimension::speed, Range{0, 100}, "--ball-speed");
  REQUIRE(!got);
  CHECK(got.error().expected == "a speed from 0 to 223.69 mph");
  CHECK(parse_quantity("134mph", Dimension::speed, Range{0, 100}, "--ball-speed").has_value());
  const auto cold = parse_quantity("-500F", Dimension::temperature, Range{223.15, 333.15}, "--temperature");
  REQUIRE(!cold);
  CHECK(cold.error().expected == "a temperature from -58 to 140 F");
}

TEST_CASE("a value is shown in metres or in yards") {
  CHECK(show(137.16, Dimension::length, UnitSystem::yards) == "150.0 yd");
  CHECK(show(137.16, Dimension::length, UnitSystem::metric) == "137.2 m");
  CHECK(show(-0.04, Dimension::small_length, UnitSystem::metric) == "-40 mm");
  CHECK(show(0.0508, Dimension::small_length, UnitSystem::yards) == "2.0 in");
  CHECK(show(60, Dimension::speed, UnitSystem::yards) == "134.2 mph");
  CHECK(show(60, Dimension::speed, UnitSystem::metric) == "60.0 m/s");
  CHECK(show(-5 * kDegree, Dimension::angle, UnitSystem::yards) == "-5.0 deg");
  CHECK(show(288.15, Dimension::temperature, UnitSystem::yards) == "59.0 F");
  CHECK(show(288.15, Dimension::temperature, UnitSystem::metric) == "15.0 C");
  CHECK(show(101325, Dimension::pressure, UnitSystem::metric) == "1013 hPa");
  CHECK(show(101325, Dimension::pressure, UnitSystem::yards) == "29.92 inHg");
  CHECK(show(-1e-9, Dimension::angle, UnitSystem::metric) == "0.0 deg");
}

TEST_CASE("what is shown in inches is what was typed in inches") {
  for (int tenths = -100; tenths <= 100; ++tenths) {
    const std::string text = show(tenths * 0.1 * kInch, Dimension::small_length, UnitSystem::yards);
    CHECK(parsed(text.c_str(), Dimension::small_length) ==
          doctest::Approx(tenths * 0.1 * kInch).epsilon(1e-12));
  }
  CHECK(shown_unit(Dimension::speed, UnitSystem::yards) == "mph");
  CHECK(shown_scale(Dimension::speed, UnitSystem::yards) == kMph);
}

TEST_CASE("the nearest name is offered for a slip of the finger, and none for another word") {
  const std::array<std::string, 4> columns{"carry_m", "curve_m", "divot_start_mm", "7i"};
  CHECK(nearest_name("cary_m", columns) == "carry_m");
  CHECK(nearest_name("Carry M", columns) == "carry_m");
  CHECK(nearest_name("crary_m", columns) == "carry_m");
  CHECK(nearest_name("divot_strat_mm", columns) == "divot_start_mm");
  CHECK(nearest_name("weather", columns).empty());
  CHECK(nearest_name("xy", columns).empty());
  CHECK(nearest_name("", columns).empty());
  CHECK(nearest_name(std::string(100000, 'a'), columns).empty());
  CHECK(suggestion("weather", columns).empty());
}

TEST_CASE("a plain number says what was wrong with it") {
  const auto expected = [](const char* text) { return plain_number(text, "mm", "x").error().expected; };
  CHECK(plain_number(" -3.5 ", "mm", "x").value() == -3.5);
  CHECK(expected("3,5") == "a point for the decimals: write 3.5");
  CHECK(expected("6,400") == "a point for the decimals, nothing between thousands: write 6.400 or 6400");
  CHECK(expected("35mm") == "a bare number in mm: write 35 (the unit stands in the column's name)");
  CHECK(expected("\xe2\x88\x92"
                 "5") == "a plain minus sign: write -5");
  CHECK(expected("fast") == "a number in mm");
  CHECK(expected("nan") == "a number in mm");
}

TEST_CASE("what stood in a cell is shown as it was, unless it could upset a terminal") {
  CHECK(quoted("M\xc3\xa4rz") == "'M\xc3\xa4rz'");
  CHECK(quoted("a\tb\x1b[0m\x7f") == "'a?b?[0m?'");
  CHECK(quoted("M\xe4rz") == "'M?rz'");
  CHECK(quoted("\xc2\x9b"
               "5") == "'?5'");
  CHECK(quoted(std::string(41, 'x')) == "'" + std::string(40, 'x') + "...'");
}

TEST_CASE("text is told from bytes that are none") {
  for (const char* good : {"", "7i", "\xc3\xa4", "\xe2\x88\x92", "\xf0\x9f\x8f\x8c"}) CHECK(is_utf8(good));
  for (const char* bad :
       {"\x80", "\xc3", "\xc0\xaf", "\xe0\x80\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xf5"}) {
    CHECK(!is_utf8(bad));
  }
}
