#include "quantity/nearest.hpp"

#include <algorithm>
#include <vector>

#include "quantity/utf8.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kLongest = 64;  // a longer word is no misspelling of ours

std::string folded(std::string_view word) {
  std::string out;
  for (const char c : word.substr(0, kLongest)) {
    if (c == '-' || c == '_' || c == ' ') continue;
    out += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0u : 1u);
      row[j] = std::min({change, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before = last;
    last = row;
  }
  return last[b.size()];
}

}  // namespace

std::string nearest_name(std::string_view word, std::span<const std::string> candidates) {
  const std::string wanted = folded(word);
  std::string best;
  std::size_t fewest = kLongest;
  for (const std::string& candidate : candidates) {
    const std::string other = folded(candidate);
    const std::size_t allowed = std::max<std::size_t>(2, std::max(wanted.size(), other.size()) / 3);
    const std::size_t d = distance(wanted, other);
    // A word of two letters is two changes from any other: the whole must not be replaced.
    const bool near = d <= allowed && d < std::max(wanted.size(), other.size());
    if (near && d < fewest) {
      fewest = d;
      best = candidate;
    }
  }
  return best;
}

std::string suggestion(std::string_view word, std::span<const std::string> candidates) {
  const std::string near = nearest_name(word, candidates);
  return near.empty() ? "" : ", did you mean '" + near + "'?";
}

std::string quoted(std::string_view text) {
  constexpr std::size_t kShown = 40;
  std::string out = "'";
  std::size_t shown = 0;
  for (; !text.empty() && shown < kShown; ++shown) {
    const std::size_t length = utf8_length(text);
    const auto byte = static_cast<unsigned char>(text.front());
    const bool late_control = length == 2 && byte == 0xc2 && static_cast<unsigned char>(text[1]) < 0xa0;
    const bool printable = length > 0 && byte >= 0x20 && byte != 0x7f && !late_control;
    out += printable ? std::string(text.substr(0, length)) : "?";
    text.remove_prefix(length > 0 ? length : 1);
  }
  return out + (text.empty() ? "'" : "...'");
}

}  // namespace strikewright
