#include "quantity/utf8.hpp"

namespace strikewright {

std::size_t utf8_length(std::string_view text) {
  if (text.empty()) return 0;
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(k < text.size() ? text[k] : 0); };
  const auto tail = [&](std::size_t k) { return (byte(k) & 0xc0u) == 0x80u; };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead >= 0xc2 && lead <= 0xdf) return tail(1) ? 2 : 0;
  if (lead >= 0xe0 && lead <= 0xef) {
    const bool overlong = lead == 0xe0 && byte(1) < 0xa0;
    const bool surrogate = lead == 0xed && byte(1) > 0x9f;
    return tail(1) && tail(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (lead >= 0xf0 && lead <= 0xf4) {
    const bool overlong = lead == 0xf0 && byte(1) < 0x90;
    const bool beyond = lead == 0xf4 && byte(1) > 0x8f;
    return tail(1) && tail(2) && tail(3) && !overlong && !beyond ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t n = utf8_length(text);
    if (n == 0) return false;
    text.remove_prefix(n);
  }
  return true;
}

}  // namespace strikewright
