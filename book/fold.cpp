#include "book/fold.hpp"

#include <algorithm>
#include <array>
#include <sstream>

#include "quantity/utf8.hpp"

namespace strikewright::kept {
namespace {

/// Consecutive characters and the plain letter of each; '.' = not in the row.
struct Row {
  char32_t first;
  std::string_view letters;
};

// The base letters of the canonical and compatibility decompositions in the Unicode Character Database, in
// lower case; strokes through letters taken off, too, because people leave them out when they search.
constexpr std::array kRows{
    Row{0x00c0,
        "aaaaaa.ceeeeiiii.nooooo.ouuuuy..aaaaaa.ceeeeiiii.nooooo.ouuuuy."
        "yaaaaaaccccccccddddeeeeeeeeeegggggggghhhh"
        "iiiiiiiiii..jjkkkllllllllllnnnnnnnnnoooooo..rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs"},
    Row{0x01cd, "aaiioouuuuuuuuuu.aaaa....ggkkoooo..j...gg"},
    Row{0x01f8, "nnaa....aaaaeeeeiiiioooorrrruuuusstt..hh......aaeeooooooooyy"},
    Row{0x1e00,
        "aabbbbbbccddddddddddeeeeeeeeeeffgghhhhhhhhhhiiiikkkkkkllllllllmmmmmmnnnnnnnnoooooooopppprrrrrrrrssss"
        "ssssss"
        "ttttttttuuuuuuuuuuvvvvwwwwwwwwwwxxxxyyzzzzzzhtwy.s....aaaaaaaaaaaaaaaaaaaaaaaaeeeeeeeeeeeeeeeeiiii"
        "oooooooooooooooooooooooouuuuuuuuuuuuuuyyyyyyyy"}};

struct Letter {
  char32_t from;
  std::string_view to;
};

constexpr std::array kLetters{
    Letter{0x00c6, "ae"}, Letter{0x00e6, "ae"}, Letter{0x00d0, "d"},  Letter{0x00f0, "d"},
    Letter{0x00de, "th"}, Letter{0x00fe, "th"}, Letter{0x00df, "ss"}, Letter{0x1e9e, "ss"},
    Letter{0x0132, "ij"}, Letter{0x0133, "ij"}, Letter{0x0152, "oe"}, Letter{0x0153, "oe"},
    Letter{0x0386, "α"},  Letter{0x03ac, "α"},  Letter{0x0388, "ε"},  Letter{0x03ad, "ε"},
    Letter{0x0389, "η"},  Letter{0x03ae, "η"},  Letter{0x038a, "ι"},  Letter{0x03af, "ι"},
    Letter{0x0390, "ι"},  Letter{0x03aa, "ι"},  Letter{0x03ca, "ι"},  Letter{0x038c, "ο"},
    Letter{0x03cc, "ο"},  Letter{0x038e, "υ"},  Letter{0x03cd, "υ"},  Letter{0x03b0, "υ"},
    Letter{0x03ab, "υ"},  Letter{0x03cb, "υ"},  Letter{0x038f, "ω"},  Letter{0x03ce, "ω"},
    Letter{0x03c2, "σ"},  Letter{0x0400, "е"},  Letter{0x0450, "е"},  Letter{0x0401, "е"},
    Letter{0x0451, "е"},  Letter{0x0403, "г"},  Letter{0x0453, "г"},  Letter{0x0407, "і"},
    Letter{0x0457, "і"},  Letter{0x040c, "к"},  Letter{0x045c, "к"},  Letter{0x040d, "и"},
    Letter{0x045d, "и"},  Letter{0x040e, "у"},  Letter{0x045e, "у"},  Letter{0x0419, "и"},
    Letter{0x0439, "и"}};

char32_t decoded(std::string_view one) {
  if (one.size() == 1) return static_cast<unsigned char>(one[0]);
  auto out = static_cast<char32_t>(static_cast<unsigned char>(one[0]) & (0xffu >> (one.size() + 1)));
  for (const char c : one.substr(1)) out = (out << 6u) | (static_cast<unsigned char>(c) & 0x3fu);
  return out;
}

/// Of the two-byte characters only: all that Greek and Cyrillic need.
std::string encoded(char32_t c) {
  return {static_cast<char>(0xc0u | (c >> 6u)), static_cast<char>(0x80u | (c & 0x3fu))};
}

std::string plain(std::string_view one) {
  const char32_t c = decoded(one);
  if (c >= 'A' && c <= 'Z') return {static_cast<char>(c - 'A' + 'a')};
  if (c < 0x80) return std::string(one);
  if (c >= 0x0300 && c <= 0x036f) return "";
  for (const Row& row : kRows) {
    if (c >= row.first && c < row.first + row.letters.size() && row.letters[c - row.first] != '.')
      return {row.letters[c - row.first]};
  }
  for (const Letter& letter : kLetters) {
    if (letter.from == c) return std::string(letter.to);
  }
  const bool greek = c >= 0x0391 && c <= 0x03a9, cyrillic = c >= 0x0410 && c <= 0x042f;
  if (greek || cyrillic) return encoded(c + 0x20);
  if (c >= 0x0400 && c <= 0x040f) return encoded(c + 0x50);
  return std::string(one);
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t bytes = std::max<std::size_t>(1, utf8_length(text));
    out += plain(text.substr(0, bytes));
    text.remove_prefix(bytes);
  }
  return out;
}

std::vector<std::string> words_to_find(std::string_view search) {
  std::istringstream stream(folded(search));
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

}  // namespace strikewright::kept
