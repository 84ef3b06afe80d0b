#pragma once
// Who is let in: before any handler sees what was asked.

#include <optional>

#include "serve/desk.hpp"

namespace strikewright {

/// A Host or Origin that is not this server's, or another site behind the question: 403. What is written must
/// say that it is JSON: 415, so that no other site's form can write.
std::optional<Reply> turned_away_at_the_door(const Asked& asked, const Address& address);

/// Not paired: 401; not from this machine: 403. Fills in `who` and `device`.
std::optional<Reply> turned_away_from(const Route* route, Asked& asked, Means& means);

/// The cookie that a paired device shows, and the header that gives it.
std::string token_in(const std::string& cookies);
std::string cookie_with(const std::string& token);
std::string cookie_away();

}  // namespace strikewright
