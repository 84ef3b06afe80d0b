#pragma once
// Reading a plain number from text, the same in every locale.

#include <optional>
#include <string>
#include <string_view>

#include "quantity/fault.hpp"

namespace strikewright {

/// The text without blanks and tabs at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// The finite decimal number at the front of `text` ("+3.5", "-1e3"; no hexadecimal, no "inf") and what
/// follows it.
struct LeadingNumber {
  double value = 0.0;
  std::string_view rest;
};
[[nodiscard]] std::optional<LeadingNumber> leading_number(std::string_view text);

/// A number and nothing else, blanks around it aside. The Fault tells a decimal comma, a unit behind the
/// number and a typographic minus sign from mere text. `unit` is what the number counts: "mm", "" = nothing.
[[nodiscard]] Result<double> plain_number(std::string_view text, std::string_view unit, std::string place);

}  // namespace strikewright
