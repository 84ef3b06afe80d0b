#include "serve/network.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <memory>

namespace strikewright {
namespace {

/// "" where it is no address that others may reach.
std::string address_in(const ifaddrs& entry) {
  if (entry.ifa_addr == nullptr || (entry.ifa_flags & IFF_UP) == 0 || (entry.ifa_flags & IFF_LOOPBACK) != 0)
    return "";
  std::array<char, INET6_ADDRSTRLEN> text{};
  if (entry.ifa_addr->sa_family == AF_INET) {
    const auto* four = reinterpret_cast<const sockaddr_in*>(entry.ifa_addr);
    return inet_ntop(AF_INET, &four->sin_addr, text.data(), text.size()) != nullptr ? text.data() : "";
  }
  if (entry.ifa_addr->sa_family != AF_INET6) return "";
  const auto* six = reinterpret_cast<const sockaddr_in6*>(entry.ifa_addr);
  if (IN6_IS_ADDR_LINKLOCAL(&six->sin6_addr)) return "";
  return inet_ntop(AF_INET6, &six->sin6_addr, text.data(), text.size()) != nullptr ? text.data() : "";
}

int rank_of(const std::string& address) {
  if (address.find(':') != std::string::npos) return 3;
  if (address.starts_with("192.168.")) return 0;
  return address.starts_with("10.") ? 1 : 2;
}

}  // namespace

std::vector<std::string> addresses_of_here() {
  ifaddrs* first = nullptr;
  if (getifaddrs(&first) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&freeifaddrs)> all{first, freeifaddrs};
  std::vector<std::string> out;
  for (const ifaddrs* entry = all.get(); entry != nullptr; entry = entry->ifa_next) {
    const std::string address = address_in(*entry);
    if (!address.empty()) out.push_back(address);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const std::string& a, const std::string& b) { return rank_of(a) < rank_of(b); });
  return out;
}

std::vector<std::string> names_of_here() {
  std::array<char, 256> text{};
  if (gethostname(text.data(), text.size() - 1) != 0) return {};
  std::string name = text.data();
  for (char& c : name) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  const bool plain =
      !name.empty() && name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-.") == std::string::npos;
  if (!plain) return {};
  const std::string first = name.substr(0, name.find('.'));
  return first == name ? std::vector{name, name + ".local"} : std::vector{name, first, first + ".local"};
}

}  // namespace strikewright
