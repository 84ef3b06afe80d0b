#pragma once
// This machine as the network sees it.

#include <string>
#include <vector>

namespace strikewright {

/// Addresses of this machine that another one may reach, the likeliest first: IPv4 in the house, others,
/// IPv6.
std::vector<std::string> addresses_of_here();

/// The machine's name, alone and with ".local", in small letters; none where it has none that may stand in an
/// address.
std::vector<std::string> names_of_here();

}  // namespace strikewright
