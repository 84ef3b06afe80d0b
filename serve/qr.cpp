#include "serve/qr.hpp"

#include <qrencode.h>

#include <memory>

namespace strikewright {

Result<std::vector<std::string>> qr_rows(const std::string& text) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code{
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), QRcode_free};
  if (!code)
    return unexpected(
        Fault{"the address", std::to_string(text.size()) + " bytes", "what fits into a square"});
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::string> rows(width, std::string(width, '0'));
  for (std::size_t y = 0; y < width; ++y)
    for (std::size_t x = 0; x < width; ++x) rows[y][x] = (code->data[y * width + x] & 1u) != 0 ? '1' : '0';
  return rows;
}

std::string qr_text(const std::vector<std::string>& rows) {
  constexpr int kMargin = 4;
  const int width = static_cast<int>(rows.size());
  const auto dark = [&](int y, int x) {
    return y >= 0 && x >= 0 && y < width && x < width &&
           rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] == '1';
  };
  // Black on white whatever the terminal's own colours are: cameras want it that way round.
  std::string out;
  for (int y = -kMargin; y < width + kMargin; y += 2) {
    out += "\x1b[30;107m";
    for (int x = -kMargin; x < width + kMargin; ++x) {
      const bool up = dark(y, x), down = dark(y + 1, x);
      out += up && down ? "█" : up ? "▀" : down ? "▄" : " ";
    }
    out += "\x1b[0m\n";
  }
  return out;
}

}  // namespace strikewright
