#pragma once
// Options that take a quantity with its unit, a plain number, a whole number or a word.

#include <cstdint>
#include <memory>
#include <string>

#include "command.hpp"
#include "quantity/unit.hpp"

namespace strikewright {

/// Where a number goes.
using Into = std::function<void(double)>;

/// Into a member (a double or an optional one) of a struct that lives as long as the option.
template <class Owner, class Number>
Into into(const std::shared_ptr<Owner>& owner, Number& number) {
  return [owner, &number](double value) { number = value; };
}

/// `--ball-speed SPEED`. The unit must be written where there is more than one ("60mps"); a bare number is
/// taken for an angle (deg) and for a spin (rpm). Outside `within` is a fault that shows the range in the
/// text's unit.
Option quantity(const std::string& name, Dimension what, const Into& si, Range within, std::string says,
                std::string standard = "");

/// A number without unit; "50%" is 0.5.
Option number(const std::string& name, const Into& value, Range within, std::string says,
              std::string standard = "");

/// A whole number from `low` on.
Option count(const std::string& name, const std::shared_ptr<std::uint64_t>& value, std::uint64_t low,
             std::uint64_t high, std::string says, std::string standard = "");

/// One of `words`; its place in them is the value.
Option choice(const std::string& name, const std::shared_ptr<std::size_t>& index,
              const std::vector<std::string>& words, std::string says, std::string standard = "");

/// Any text.
Option text(std::string name, std::string value, const std::shared_ptr<std::string>& into, std::string says,
            std::string standard = "");

/// A switch.
Option toggle(std::string name, const std::shared_ptr<bool>& into, std::string says);

inline Option needed(Option option) {
  option.needed = true;
  return option;
}
inline Option under(std::string group, Option option) {
  option.group = std::move(group);
  return option;
}

/// A member of a shared struct as a shared pointer of its own.
template <class Owner, class Member>
std::shared_ptr<Member> member(const std::shared_ptr<Owner>& owner, Member& of) {
  return {owner, &of};
}

}  // namespace strikewright
