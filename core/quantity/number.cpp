#include "quantity/number.hpp"

#include <charconv>
#include <cmath>

#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "3,5" -> "3.5"; "" if it is not a number with a decimal comma.
std::string with_point(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos || text.find('.') != std::string_view::npos) return "";
  std::string out{text};
  out[comma] = '.';
  const auto number = leading_number(out);
  return number && number->rest.empty() ? out : "";
}

std::string hint(std::string_view text, std::string_view unit) {
  constexpr std::string_view kMinus = "\xe2\x88\x92";  // U+2212
  if (const std::string point = with_point(text); !point.empty()) {
    constexpr std::size_t kThousand = 4;  // the comma and three digits
    const std::size_t comma = text.find(',');
    if (text.size() - comma != kThousand) return "a point for the decimals: write " + point;
    std::string joined{text};
    joined.erase(comma, 1);
    return "a point for the decimals, nothing between thousands: write " + point + " or " + joined;
  }
  const std::string in_unit = unit.empty() ? "" : " in " + std::string(unit);
  if (text.substr(0, kMinus.size()) == kMinus && leading_number(text.substr(kMinus.size()))) {
    return "a plain minus sign: write -" + std::string(text.substr(kMinus.size()));
  }
  if (const auto number = leading_number(text)) {
    const auto bare = trimmed(text.substr(0, text.size() - number->rest.size()));
    return "a bare number" + in_unit + ": write " + std::string(bare) +
           " (the unit stands in the column's name)";
  }
  return "a number" + in_unit;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t";
  const auto first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::optional<LeadingNumber> leading_number(std::string_view text) {
  std::string_view digits = text;
  if (!digits.empty() && digits.front() == '+') digits.remove_prefix(1);
  const std::string_view unsigned_part = digits.substr(!digits.empty() && digits.front() == '-' ? 1 : 0);
  const bool signed_twice = unsigned_part.size() < digits.size() && digits.size() < text.size();
  const bool starts = !unsigned_part.empty() &&
                      (is_digit(unsigned_part[0]) ||
                       (unsigned_part.size() > 1 && unsigned_part[0] == '.' && is_digit(unsigned_part[1])));
  if (!starts || signed_twice) return std::nullopt;  // also keeps "inf" and "nan" out
  LeadingNumber out;
  const char* const end = digits.data() + digits.size();
  const auto [stop, error] = std::from_chars(digits.data(), end, out.value);
  if (error != std::errc{} || !std::isfinite(out.value)) return std::nullopt;
  out.rest = digits.substr(static_cast<std::size_t>(stop - digits.data()));
  return out;
}

Result<double> plain_number(std::string_view text, std::string_view unit, std::string place) {
  const std::string_view cell = trimmed(text);
  const auto number = leading_number(cell);
  if (number && number->rest.empty()) return number->value;
  return unexpected(Fault{std::move(place), quoted(cell), hint(cell, unit)});
}

}  // namespace strikewright
