#include "wrap.hpp"

#include <algorithm>

namespace strikewright {

std::size_t shown_width(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
  std::vector<std::string> lines{""};
  std::string word;
  const auto put = [&] {
    if (word.empty()) return;
    std::string& line = lines.back();
    if (!line.empty() && shown_width(line) + 1 + shown_width(word) > width) {
      lines.push_back(word);
    } else {
      line += (line.empty() ? "" : " ") + word;
    }
    word.clear();
  };
  for (const char c : text) {
    if (c == ' ' || c == '\n') {
      put();
      if (c == '\n') lines.emplace_back();
    } else {
      word += c;
    }
  }
  put();
  return lines;
}

std::string padded(const std::string& text, std::size_t width, bool right) {
  const std::size_t shown = shown_width(text);
  const std::string blanks(shown < width ? width - shown : 0, ' ');
  return right ? blanks + text : text + blanks;
}

std::string table(const std::vector<std::string>& head, const std::vector<std::vector<std::string>>& rows,
                  std::size_t indent) {
  std::vector<std::size_t> widths;
  const auto widen = [&](const std::vector<std::string>& row) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t k = 0; k < row.size(); ++k) widths[k] = std::max(widths[k], shown_width(row[k]));
  };
  widen(head);
  for (const auto& row : rows) widen(row);
  std::string out;
  const auto draw = [&](const std::vector<std::string>& row) {
    std::string line(indent, ' ');
    for (std::size_t k = 0; k < row.size(); ++k)
      line += (k == 0 ? "" : "  ") + padded(row[k], widths[k], k > 0);
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + '\n';
  };
  if (!head.empty()) draw(head);
  for (const auto& row : rows) draw(row);
  return out;
}

}  // namespace strikewright
