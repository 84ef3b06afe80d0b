#include "quantity/unit.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "quantity/angle.hpp"
#include "quantity/nearest.hpp"
#include "quantity/number.hpp"

namespace strikewright {
namespace {

constexpr double kZeroCelsius = 273.15;             // K (exact by definition)
constexpr double kInchOfMercury = 3386.389;         // Pa, conventional, 0 C (NIST SP 811, B.8)
constexpr double kZeroFahrenheit = 459.67 * 5 / 9;  // K

/// SI = zero + value * scale.
struct Unit {
  Dimension dimension;
  const char* name;
  double scale, zero;
};

constexpr std::array kUnits{
    Unit{Dimension::length, "m", 1, 0},
    Unit{Dimension::length, "cm", 0.01, 0},
    Unit{Dimension::length, "mm", 0.001, 0},
    Unit{Dimension::length, "yd", kYard, 0},
    Unit{Dimension::length, "ft", kFoot, 0},
    Unit{Dimension::length, "in", kInch, 0},
    Unit{Dimension::speed, "mps", 1, 0},
    Unit{Dimension::speed, "mph", kMph, 0},
    Unit{Dimension::speed, "kmh", kKmh, 0},
    Unit{Dimension::angle, "deg", kDegree, 0},
    Unit{Dimension::spin, "rpm", kRpm, 0},
    Unit{Dimension::temperature, "C", 1, kZeroCelsius},
    Unit{Dimension::temperature, "F", 5.0 / 9.0, kZeroFahrenheit},
    Unit{Dimension::pressure, "Pa", 1, 0},
    Unit{Dimension::pressure, "hPa", 100, 0},
    Unit{Dimension::pressure, "inHg", kInchOfMercury, 0},
};

constexpr Unit kNoUnit{Dimension::none, "", 1, 0};

Dimension read_as(Dimension d) { return d == Dimension::small_length ? Dimension::length : d; }

const char* name_of(Dimension dimension) {
  switch (read_as(dimension)) {
    case Dimension::length:
      return "a length";
    case Dimension::speed:
      return "a speed";
    case Dimension::angle:
      return "an angle";
    case Dimension::spin:
      return "a spin";
    case Dimension::temperature:
      return "a temperature";
    case Dimension::pressure:
      return "a pressure";
    default:
      return "a number without unit";
  }
}

bool same_letters(std::string_view a, std::string_view b) {
  const auto low = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    if (low(a[k]) != low(b[k])) return false;
  }
  return true;
}

std::string expected_units(Dimension dimension) {
  std::string list;
  for (const Unit& unit : kUnits) {
    if (unit.dimension == read_as(dimension)) list += (list.empty() ? "" : ", ") + std::string(unit.name);
  }
  return list.empty() ? name_of(dimension) : fmt::format("{} with its unit ({})", name_of(dimension), list);
}

struct Read {
  double si = 0.0;
  Unit unit = kNoUnit;
};

Result<Read> read(std::string_view text, Dimension dimension, const std::string& place) {
  const std::string_view cell = trimmed(text);
  const auto wrong = [&](const std::string& more) {
    return unexpected(Fault{place, quoted(cell), expected_units(dimension) + more});
  };
  const auto number = leading_number(cell);
  if (!number) return wrong("");
  const std::string_view name = trimmed(number->rest);
  if (!name.empty() && name.front() == ',') return wrong(", decimals after a point");
  if (name.empty()) {
    if (dimension == Dimension::none) return Read{number->value, kNoUnit};
    return wrong("");
  }
  std::vector<std::string> names;
  for (const Unit& unit : kUnits) {
    if (unit.dimension != read_as(dimension)) continue;
    if (same_letters(unit.name, name)) return Read{unit.zero + number->value * unit.scale, unit};
    names.emplace_back(unit.name);
  }
  return wrong(suggestion(name, names));
}

struct Shown {
  const char* unit;
  double scale, zero;
  int decimals;
};

Shown shown(Dimension dimension, UnitSystem system) {
  const bool yards = system == UnitSystem::yards;
  switch (dimension) {
    case Dimension::length:
      return yards ? Shown{"yd", kYard, 0, 1} : Shown{"m", 1, 0, 1};
    case Dimension::small_length:
      return yards ? Shown{"in", kInch, 0, 1} : Shown{"mm", 1e-3, 0, 0};
    case Dimension::speed:
      return yards ? Shown{"mph", kMph, 0, 1} : Shown{"m/s", 1, 0, 1};
    case Dimension::angle:
      return {"deg", kDegree, 0, 1};
    case Dimension::spin:
      return {"rpm", kRpm, 0, 0};
    case Dimension::temperature:
      return yards ? Shown{"F", 5.0 / 9.0, kZeroFahrenheit, 1} : Shown{"C", 1, kZeroCelsius, 1};
    case Dimension::pressure:
      return yards ? Shown{"inHg", kInchOfMercury, 0, 2} : Shown{"hPa", 100, 0, 0};
    case Dimension::none:
      break;
  }
  return {"", 1, 0, 2};
}

}  // namespace

Result<double> parse_quantity(std::string_view text, Dimension dimension, const std::string& place) {
  return read(text, dimension, place).map([](const Read& r) { return r.si; });
}

Result<double> parse_quantity(std::string_view text, Dimension dimension, const Range& range,
                              const std::string& place) {
  const auto got = read(text, dimension, place);
  if (!got) return unexpected(got.error());
  if (got->si >= range.low && got->si <= range.high) return got->si;
  const auto in_unit = [&](double si) { return (si - got->unit.zero) / got->unit.scale; };
  return unexpected(Fault{place, quoted(trimmed(text)),
                          fmt::format("{} from {:.5g} to {:.5g} {}", name_of(dimension), in_unit(range.low),
                                      in_unit(range.high), got->unit.name)});
}

std::string show(double value, Dimension dimension, UnitSystem system) {
  const Shown s = shown(dimension, system);
  const double step = std::pow(10.0, s.decimals);
  double rounded = std::round((value - s.zero) / s.scale * step) / step;
  if (rounded == 0.0) rounded = std::abs(rounded);  // minus nothing is nothing
  const std::string number = fmt::format("{:.{}f}", rounded, s.decimals);
  return *s.unit == '\0' ? number : number + " " + s.unit;
}

std::string shown_unit(Dimension dimension, UnitSystem system) { return shown(dimension, system).unit; }

double shown_scale(Dimension dimension, UnitSystem system) { return shown(dimension, system).scale; }

}  // namespace strikewright
