// What coaches call a club.

#include <array>
#include <utility>

#include "bag/generic.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

/// Lower case without blanks, '-', '_' and '.'.
std::string plain(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (c == ' ' || c == '\t' || c == '-' || c == '_' || c == '.') continue;
    out += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

constexpr std::array kAliases{
    std::pair{"d", "driver"},         std::pair{"1w", "driver"},      std::pair{"1wood", "driver"},
    std::pair{"pitchingwedge", "pw"}, std::pair{"pitching", "pw"},    std::pair{"wedge", "pw"},
    std::pair{"gapwedge", "gw"},      std::pair{"gap", "gw"},         std::pair{"aw", "gw"},
    std::pair{"approachwedge", "gw"}, std::pair{"attackwedge", "gw"}, std::pair{"sandwedge", "sw"},
    std::pair{"sand", "sw"},          std::pair{"lobwedge", "lw"},    std::pair{"lob", "lw"},
};

constexpr std::array kLetters{
    std::pair{"iron", 'i'},   std::pair{"wood", 'w'},   std::pair{"fairwaywood", 'w'},
    std::pair{"rescue", 'h'}, std::pair{"hybrid", 'h'},
};

/// "7iron", "iron7" -> "7i"; "" if it is not of that shape.
std::string numbered(const std::string& word) {
  for (const auto& [kind, letter] : kLetters) {
    const std::string_view k = kind;
    if (word.size() != k.size() + 1) continue;
    if (word.substr(1) == k) return {word.front(), letter};
    if (word.substr(0, k.size()) == k) return {word.back(), letter};
  }
  return "";
}

}  // namespace

std::string canonical_name(std::string_view name) {
  std::string word = plain(name);
  for (const auto& [alias, canonical] : kAliases) {
    if (word == alias) return canonical;
  }
  if (const std::string number = numbered(word); !number.empty()) word = number;
  for (const Club& club : generic_bag()) {
    if (club.name == word) return word;
  }
  return "";
}

Result<Club> club_named(const std::vector<Club>& bag, std::string_view name, std::string place) {
  for (const Club& club : bag) {
    if (plain(club.name) == plain(name)) return club;
  }
  const std::string canonical = canonical_name(name);
  std::vector<std::string> names;
  std::string list;
  for (const Club& club : bag) {
    if (!canonical.empty() && canonical_name(club.name) == canonical) return club;
    names.push_back(club.name);
    list += (list.empty() ? "" : ", ") + club.name;
  }
  return unexpected(
      Fault{std::move(place), quoted(name), "a club of the bag (" + list + ")" + suggestion(name, names)});
}

Result<Ball> ball_named(std::string_view name, std::string place) {
  const std::string word = plain(name);
  if (word == "standard") return Ball{};
  if (word == "range") {
    // Assumption, no source: a worn hard range ball loses about 3 % of restitution and flies with 8 % more
    // drag.
    Ball ball;
    ball.restitution_scale = 0.97;
    ball.drag_scale = 1.08;
    return ball;
  }
  const std::vector<std::string> names{"standard", "range"};
  return unexpected(Fault{std::move(place), quoted(name), "standard or range" + suggestion(name, names)});
}

}  // namespace strikewright
