#include "serve/secrets.hpp"

#include <sodium.h>

#include <array>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {
namespace {

void ready() {
  static const int done = sodium_init();
  ensure(done >= 0, "the library for secrets could not begin");
}

std::string hex_of(const unsigned char* bytes, std::size_t count) {
  std::string out(2 * count + 1, '\0');
  sodium_bin2hex(out.data(), out.size(), bytes, count);
  out.pop_back();
  return out;
}

}  // namespace

std::string random_hex(std::size_t bytes) {
  ready();
  std::vector<unsigned char> raw(bytes);
  randombytes_buf(raw.data(), raw.size());
  return hex_of(raw.data(), raw.size());
}

std::string random_digits(std::size_t digits) {
  ready();
  std::string out;
  while (out.size() < digits) out += static_cast<char>('0' + randombytes_uniform(10));
  return out;
}

std::string hash_of(std::string_view text) {
  ready();
  std::array<unsigned char, crypto_generichash_BYTES> hash{};
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(text.data()),
                     text.size(), nullptr, 0);
  return hex_of(hash.data(), hash.size());
}

bool same_secret(std::string_view a, std::string_view b) {
  ready();
  return a.size() == b.size() && sodium_memcmp(a.data(), b.data(), a.size()) == 0;
}

}  // namespace strikewright
