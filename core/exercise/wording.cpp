#include "exercise/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "quantity/nearest.hpp"
#include "quantity/utf8.hpp"

namespace strikewright {
namespace {

constexpr std::array<std::string_view, 17> kSided{
    "left",    "right",  "lefts",   "rights", "links",   "rechts", "linke",   "rechte",   "linken",
    "rechten", "linker", "rechter", "linkes", "rechtes", "linkem", "rechtem", "rightmost"};
constexpr std::array<std::string_view, 11> kSidedBeginnings{
    "leftward",      "rightward", "lefthand", "righthand",     "leftmost",      "clockwise",
    "anticlockwise", "linksh",    "rechtsh",  "uhrzeigersinn", "gegenuhrzeiger"};

bool is_letter(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string lowered(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool sided(std::string_view word) {
  return std::find(kSided.begin(), kSided.end(), word) != kSided.end() ||
         std::any_of(kSidedBeginnings.begin(), kSidedBeginnings.end(),
                     [&](std::string_view b) { return word.substr(0, b.size()) == b; });
}

/// Something that a page could take for more than text; "" if there is none.
std::string markup_in(std::string_view text) {
  const std::string low = lowered(text);
  for (const std::string_view sign :
       {"<", ">", "&", "{", "}", "`", "\\", "http:", "https:", "javascript:", "www."})
    if (low.find(sign) != std::string::npos) return std::string(sign);
  return {};
}

}  // namespace

std::size_t letters_in(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

std::string sided_word(std::string_view text) {
  const std::string low = lowered(text);
  for (std::size_t at = 0; at < low.size();) {
    std::size_t end = at;
    while (end < low.size() && is_letter(low[end])) ++end;
    if (end > at && sided(std::string_view(low).substr(at, end - at)))
      return std::string(text.substr(at, end - at));
    at = std::max(end, at + 1);
  }
  return {};
}

Result<void> fit_text(std::string_view text, std::size_t most, const std::string& place) {
  const auto refuse = [&](std::string found, std::string expected) {
    return unexpected(Fault{place, std::move(found), std::move(expected)});
  };
  if (!is_utf8(text)) return refuse(strikewright::quoted(text), "UTF-8 text");
  if (text.empty()) return refuse("nothing", "a text");
  if (text.front() == ' ' || text.back() == ' ')
    return refuse("a blank at an end of " + strikewright::quoted(text), "none there");
  const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
  if (std::any_of(text.begin(), text.end(), control))
    return refuse(strikewright::quoted(text), "one line of text");
  if (const std::string sign = markup_in(text); !sign.empty())
    return refuse(strikewright::quoted(sign) + " in " + strikewright::quoted(text),
                  "plain text without markup or addresses");
  if (const std::size_t n = letters_in(text); n > most)
    return refuse(fmt::format("{} letters", n), fmt::format("at most {}", most));
  if (const std::string word = sided_word(text); !word.empty())
    return refuse(
        strikewright::quoted(word),
        "words that serve both hands: lead, trail, toward the target, away from it, inside, outside");
  return {};
}

}  // namespace strikewright
