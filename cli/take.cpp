#include "take.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/nearest.hpp"
#include "quantity/number.hpp"

namespace strikewright {
namespace {

const char* placeholder(Dimension what) {
  switch (what) {
    case Dimension::speed:
      return "SPEED";
    case Dimension::angle:
      return "ANGLE";
    case Dimension::spin:
      return "SPIN";
    case Dimension::temperature:
      return "TEMPERATURE";
    case Dimension::pressure:
      return "PRESSURE";
    default:
      return "LENGTH";
  }
}

/// An angle is in degrees and a spin in turns a minute, said or not: there is no other unit to mistake it
/// for.
std::string with_only_unit(const std::string& text, Dimension what) {
  const auto number = leading_number(trimmed(text));
  if (!number || !trimmed(number->rest).empty()) return text;
  if (what == Dimension::angle) return text + "deg";
  if (what == Dimension::spin) return text + "rpm";
  return text;
}

std::string joined(const std::vector<std::string>& words, const char* between) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : between) + word;
  return out;
}

}  // namespace

Option quantity(const std::string& name, Dimension what, const Into& si, Range within, std::string says,
                std::string standard) {
  Option option{
      .name = name, .value = placeholder(what), .says = std::move(says), .standard = std::move(standard)};
  option.take = [name, what, si, within](const std::string& text) -> Result<void> {
    const Result<double> got = parse_quantity(with_only_unit(text, what), what, within, name);
    if (!got) return unexpected(got.error());
    si(*got);
    return {};
  };
  return option;
}

Option number(const std::string& name, const Into& value, Range within, std::string says,
              std::string standard) {
  Option option{.name = name, .value = "NUMBER", .says = std::move(says), .standard = std::move(standard)};
  option.take = [name, value, within](const std::string& text) -> Result<void> {
    const std::string expected = fmt::format("a number from {:g} to {:g}", within.low, within.high);
    const auto got = leading_number(trimmed(text));
    const std::string_view rest = got ? trimmed(got->rest) : std::string_view{};
    if (!got || (!rest.empty() && rest != "%"))
      return unexpected(Fault{name, strikewright::quoted(text), expected});
    const double x = rest == "%" ? got->value / 100.0 : got->value;
    if (!(x >= within.low && x <= within.high))
      return unexpected(Fault{name, strikewright::quoted(text), expected});
    value(x);
    return {};
  };
  return option;
}

Option count(const std::string& name, const std::shared_ptr<std::uint64_t>& value, std::uint64_t low,
             std::uint64_t high, std::string says, std::string standard) {
  Option option{.name = name, .value = "COUNT", .says = std::move(says), .standard = std::move(standard)};
  option.take = [name, value, low, high](const std::string& text) -> Result<void> {
    const bool digits = text.size() < 16 && text.find_first_not_of("0123456789") == std::string::npos;
    const std::uint64_t x = digits ? std::stoull(text) : 0;
    if (!digits || x < low || x > high) {
      return unexpected(
          Fault{name, strikewright::quoted(text), fmt::format("a whole number from {} to {}", low, high)});
    }
    *value = x;
    return {};
  };
  return option;
}

Option choice(const std::string& name, const std::shared_ptr<std::size_t>& index,
              const std::vector<std::string>& words, std::string says, std::string standard) {
  Option option{
      .name = name, .value = joined(words, "|"), .says = std::move(says), .standard = std::move(standard)};
  option.words = words;
  option.take = [index, words](const std::string& text) -> Result<void> {
    *index = static_cast<std::size_t>(std::find(words.begin(), words.end(), text) - words.begin());
    return {};
  };
  return option;
}

Option text(std::string name, std::string value, const std::shared_ptr<std::string>& into, std::string says,
            std::string standard) {
  Option option{.name = std::move(name),
                .value = std::move(value),
                .says = std::move(says),
                .standard = std::move(standard)};
  option.take = [into](const std::string& given) -> Result<void> {
    *into = given;
    return {};
  };
  return option;
}

Option toggle(std::string name, const std::shared_ptr<bool>& into, std::string says) {
  Option option{.name = std::move(name), .says = std::move(says)};
  option.take = [into](const std::string&) -> Result<void> {
    *into = true;
    return {};
  };
  return option;
}

}  // namespace strikewright
