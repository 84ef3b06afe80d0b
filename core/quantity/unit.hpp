#pragma once
// Quantities with their units at the doors: "60mps" in, "134.2 mph" out.

#include <string>
#include <string_view>

#include "quantity/fault.hpp"

namespace strikewright {

/// What is measured. `length` is shown in metres or yards, `small_length` in millimetres or inches; both read
/// alike.
enum class Dimension { none, length, small_length, speed, angle, spin, temperature, pressure };

enum class UnitSystem { metric, yards };

/// What a value may be, SI; outside is absurd and refused.
struct Range {
  double low = 0.0, high = 0.0;
};

/// A number with its unit, in SI (m, m/s, rad, rad/s, K, Pa).
///
/// Units: length m cm mm yd ft in; speed mps mph kmh; angle deg; spin rpm; temperature C F; pressure Pa hPa
/// inHg; in capitals or not, with or without a blank before them. A bare number only where there is no unit
/// (Dimension::none); else the Fault names the units. Faults: no number, decimal comma, missing, unknown or
/// wrong unit.
/// @param place  what the Fault names: "--ball-speed"
[[nodiscard]] Result<double> parse_quantity(std::string_view text, Dimension dimension,
                                            const std::string& place);

/// The same, refused outside `range`; the Fault shows the range in the units `text` was given in.
[[nodiscard]] Result<double> parse_quantity(std::string_view text, Dimension dimension, const Range& range,
                                            const std::string& place);

/// "134.2 mph", "60.0 m/s", "40 mm", "1.6 in", "3.5 deg", "2600 rpm", "59.0 F"; never "-0".
[[nodiscard]] std::string show(double value, Dimension dimension, UnitSystem system);

/// The unit that `show` uses: "mph", "m/s".
[[nodiscard]] std::string shown_unit(Dimension dimension, UnitSystem system);

/// SI units in one shown unit (temperature: K in one degree; its zero lies elsewhere).
[[nodiscard]] double shown_scale(Dimension dimension, UnitSystem system);

}  // namespace strikewright
