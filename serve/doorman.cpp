#include "serve/doorman.hpp"

#include <algorithm>

#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

// The prefix makes browsers insist on Secure, the whole host and the path /.
constexpr std::string_view kCookie = "__Host-strikewright";
constexpr const char* kAttributes = "; Path=/; HttpOnly; Secure; SameSite=Strict";

std::string lower(std::string_view text) {
  std::string out{text};
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

bool is_name_of_here(const std::string& name, const Asked& asked, const Address& address) {
  const std::string here = asked.here.find(':') == std::string::npos ? asked.here : "[" + asked.here + "]";
  if (name == here && !here.empty()) return true;
  if (name == "localhost" || name == "127.0.0.1" || name == "[::1]") return asked.at_home;
  return address.shared && std::find(address.names.begin(), address.names.end(), name) != address.names.end();
}

/// "NAME:PORT"; the port may be left out where it is the usual one.
bool is_this_place(const std::string& host, const Asked& asked, const Address& address) {
  const std::string text = lower(host), port = ":" + std::to_string(address.port);
  if (text.size() > port.size() && text.ends_with(port))
    return is_name_of_here(text.substr(0, text.size() - port.size()), asked, address);
  return address.port == (asked.secure ? 443 : 80) && is_name_of_here(text, asked, address);
}

bool is_json(const std::string& type) {
  const std::string plain = lower(type.substr(0, type.find(';')));
  return plain.substr(0, plain.find_last_not_of(' ') + 1) == "application/json";
}

}  // namespace

std::optional<Reply> turned_away_at_the_door(const Asked& asked, const Address& address) {
  if (!asked.at_home && !asked.secure)
    return faulty(403, Fault{"the connection", "plain HTTP from another machine", "https"});
  if (!is_this_place(asked.host, asked, address))
    return faulty(403, Fault{"Host", strikewright::quoted(asked.host),
                             "this machine's own name or address, with the port"});
  const std::string place = (asked.secure ? "https://" : "http://") + lower(asked.host);
  if (!asked.origin.empty() && lower(asked.origin) != place)
    return faulty(403, Fault{"Origin", strikewright::quoted(asked.origin), "the page that this server sent"});
  // A link on another site may lead to the page itself, but never to what is under /api.
  const bool stranger = !asked.site.empty() && asked.site != "same-origin" && asked.site != "none";
  if (stranger && asked.target.starts_with("/api"))
    return faulty(
        403, Fault{"Sec-Fetch-Site", strikewright::quoted(asked.site), "the page that this server sent"});
  const bool writes = asked.method == "PUT" || asked.method == "POST" || !asked.body.empty();
  if (writes && !is_json(asked.content_type))
    return faulty(415, Fault{"Content-Type", strikewright::quoted(asked.content_type), "application/json"});
  return std::nullopt;
}

std::optional<Reply> turned_away_from(const Route* route, Asked& asked, Means& means) {
  if (asked.at_home) {
    asked.who = "this machine";
    return std::nullopt;
  }
  const auto device = means.pairing.device_of(token_in(asked.cookie));
  if (!device) return faulty(device.error());
  if (*device) {
    asked.who = (*device)->name;
    asked.device = (*device)->id;
  }
  const bool open = route != nullptr ? route->whom == For::anybody : !asked.target.starts_with("/api");
  if (!*device && !open)
    return faulty(401, Fault{"this device", "no pairing", "the code that the coach's machine shows"});
  if (route != nullptr && route->whom == For::this_machine)
    return faulty(403, Fault{"this device", "another machine", "the coach's own machine"});
  return std::nullopt;
}

std::string token_in(const std::string& cookies) {
  std::string_view rest = cookies;
  while (!rest.empty()) {
    const std::size_t end = rest.find(';');
    std::string_view one = rest.substr(0, end);
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    if (one.starts_with(kCookie) && one.substr(kCookie.size()).starts_with('='))
      return std::string(one.substr(kCookie.size() + 1));
    rest = end == std::string_view::npos ? "" : rest.substr(end + 1);
  }
  return "";
}

std::string cookie_with(const std::string& token) {
  constexpr int kYear = 365 * 86400;
  return std::string(kCookie) + "=" + token + kAttributes + "; Max-Age=" + std::to_string(kYear);
}

std::string cookie_away() { return std::string(kCookie) + "=" + kAttributes + "; Max-Age=0"; }

}  // namespace strikewright
