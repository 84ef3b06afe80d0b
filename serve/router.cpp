#include "serve/router.hpp"

#include <algorithm>

#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> out;
  for (;;) {
    const std::size_t end = text.find(at);
    out.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return out;
    text.remove_prefix(end + 1);
  }
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

/// How many bytes the character at the front has in UTF-8; 0 = it is none.
std::size_t character(std::string_view text) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(k < text.size() ? text[k] : 0); };
  const auto goes_on = [&](std::size_t k) { return (byte(k) & 0xC0u) == 0x80u; };
  const unsigned char first = byte(0);
  if (first == 0) return 0;
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first < 0xE0) return goes_on(1) ? 2 : 0;
  if (first >= 0xE0 && first < 0xF0) {
    const bool too_long = first == 0xE0 && byte(1) < 0xA0, half_pair = first == 0xED && byte(1) > 0x9F;
    return goes_on(1) && goes_on(2) && !too_long && !half_pair ? 3 : 0;
  }
  const bool outside = (first == 0xF0 && byte(1) < 0x90) || (first == 0xF4 && byte(1) > 0x8F) || first > 0xF4;
  return first >= 0xF0 && goes_on(1) && goes_on(2) && goes_on(3) && !outside ? 4 : 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t size = character(text);
    if (size == 0) return false;
    text.remove_prefix(size);
  }
  return true;
}

bool is_parameter(std::string_view part) { return !part.empty() && part.front() == '{'; }

using Parts = std::vector<std::string_view>;

bool fits(const Parts& pattern, const Parts& path) {
  return std::equal(
      pattern.begin(), pattern.end(), path.begin(), path.end(),
      [](std::string_view want, std::string_view is) { return is_parameter(want) || want == is; });
}

bool is_id(const std::string& text) {
  return !text.empty() && text.size() <= 40 &&
         text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

/// Takes the names out of the path: each is an id.
std::optional<Fault> names_from(const Parts& pattern, const Parts& path, Asked& asked) {
  for (std::size_t k = 0; k < pattern.size(); ++k) {
    if (!is_parameter(pattern[k])) continue;
    const std::string value = decoded(path[k]).value_or("%");
    if (!is_id(value))
      return Fault{"the name in the path", strikewright::quoted(path[k]), "1 to 40 of a-z 0-9 -"};
    asked.named[std::string(pattern[k].substr(1, pattern[k].size() - 2))] = value;
  }
  return std::nullopt;
}

std::optional<Fault> query_from(std::string_view text, const Route& route, Asked& asked) {
  if (text.empty()) return std::nullopt;
  for (const std::string_view pair : split(text, '&')) {
    const std::size_t is = pair.find('=');
    const auto key = decoded(pair.substr(0, is), true);
    const auto value = decoded(is == std::string_view::npos ? "" : pair.substr(is + 1), true);
    if (!key || !value)
      return Fault{"the part after the ?", strikewright::quoted(pair), "UTF-8, with % for what needs it"};
    if (std::find(route.query.begin(), route.query.end(), *key) == route.query.end())
      return Fault{"the part after the ?", strikewright::quoted(*key),
                   "a known name" + suggestion(*key, route.query)};
    if (!asked.query.emplace(*key, *value).second)
      return Fault{"the part after the ?", strikewright::quoted(*key) + " twice", "each name once"};
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> decoded(std::string_view text, bool plus_is_blank) {
  std::string out;
  for (std::size_t k = 0; k < text.size(); ++k) {
    if (text[k] != '%') {
      out += text[k] == '+' && plus_is_blank ? ' ' : text[k];
      continue;
    }
    const int high = k + 2 < text.size() ? digit(text[k + 1]) : -1;
    const int low = k + 2 < text.size() ? digit(text[k + 2]) : -1;
    if (high < 0 || low < 0) return std::nullopt;
    out += static_cast<char>(high * 16 + low);
    k += 2;
  }
  return is_utf8(out) ? std::optional(out) : std::nullopt;
}

Router::Router(std::vector<Route> routes) : routes_{std::move(routes)} {}

std::variant<const Route*, Reply> Router::find(Asked& asked) const {
  const std::string_view target = asked.target;
  const std::size_t mark = target.find('?');
  const std::string_view path = target.substr(0, mark);
  const Parts parts = split(path, '/');
  std::string allowed;
  for (const Route& route : routes_) {
    const Parts pattern = split(route.pattern, '/');
    if (!fits(pattern, parts)) continue;
    if (route.method != asked.method) {
      allowed += (allowed.empty() ? "" : ", ") + route.method;
      continue;
    }
    if (const auto fault = names_from(pattern, parts, asked)) return faulty(400, *fault);
    const std::string_view query = mark == std::string_view::npos ? "" : target.substr(mark + 1);
    if (const auto fault = query_from(query, route, asked)) return faulty(400, *fault);
    return &route;
  }
  if (allowed.empty())
    return faulty(404, Fault{"the path", strikewright::quoted(path), "one that docs/api.md lists"});
  Reply refusal = faulty(405, Fault{"the method", strikewright::quoted(asked.method), allowed});
  refusal.headers.emplace_back("Allow", allowed);
  return refusal;
}

}  // namespace strikewright
