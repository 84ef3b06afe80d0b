#pragma once
// Chance that nobody can guess, and hashes that nobody can turn back.

#include <string>
#include <string_view>

namespace strikewright {

/// `bytes` random bytes in hexadecimal.
std::string random_hex(std::size_t bytes);
/// `digits` random decimal digits, every number alike.
std::string random_digits(std::size_t digits);
/// 256 bits of BLAKE2b in hexadecimal.
std::string hash_of(std::string_view text);
/// Takes equally long wherever two texts of one length differ.
bool same_secret(std::string_view a, std::string_view b);

}  // namespace strikewright
