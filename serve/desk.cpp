#include "serve/desk.hpp"

#include <algorithm>
#include <filesystem>

#include "serve/doorman.hpp"
#include "serve/routes.hpp"

namespace strikewright {
namespace {

template <class T>
void append(std::vector<T>& to, std::vector<T> more) {
  for (T& one : more) to.push_back(std::move(one));
}

}  // namespace

std::vector<Route> all_routes() {
  std::vector<Route> all = book_routes();
  append(all, pupils_routes());
  append(all, lessons_routes());
  append(all, swings_routes());
  append(all, given_routes());
  append(all, exercises_routes());
  append(all, reading_routes());
  append(all, practice_routes());
  append(all, pairing_routes());
  append(all, page_routes());
  all.push_back({.method = "GET",
                 .pattern = "/api/openapi.json",
                 .says = "this description",
                 .gives = "Description",
                 .handle = [](Means&, const Asked&) { return reply(description()); }});
  return all;
}

Document description() { return described(all_routes(), STRIKEWRIGHT_VERSION); }

Desk::Desk(Book& book, const std::string& file, Clock clock)
    : means_{.book = book,
             .book_name = std::filesystem::path(file).filename().string(),
             .version = STRIKEWRIGHT_VERSION,
             .readings = Readings{book, STRIKEWRIGHT_VERSION},
             .pairing = Pairing{book, std::move(clock)}},
      router_{all_routes()} {
  book.on_change([this](const Changed& changed) { means_.watchers.tell(changed); });
}

Desk::~Desk() { means_.book.on_change({}); }

bool Desk::is_slow(const Asked& asked) const {
  Asked copy{.method = asked.method, .target = asked.target};
  const auto found = router_.find(copy);
  return std::holds_alternative<const Route*>(found) && std::get<const Route*>(found)->slow;
}

Reply Desk::let_in_and_answer(Asked& asked) {
  if (auto refusal = turned_away_at_the_door(asked, means_.address)) return *refusal;
  const auto found = router_.find(asked);
  const Route* route = std::holds_alternative<const Route*>(found) ? std::get<const Route*>(found) : nullptr;
  if (auto refusal = turned_away_from(route, asked, means_)) return *refusal;
  return route != nullptr ? route->handle(means_, asked) : std::get<Reply>(found);
}

Reply Desk::answer(Asked asked) {
  const bool head = asked.method == "HEAD";
  if (head) asked.method = "GET";
  Reply out;
  try {
    out = let_in_and_answer(asked);
  } catch (const std::exception&) {
    // What went wrong inside is our own; it is nobody's business outside.
    out = faulty(500, Fault{"the server", "a mistake of its own", "an answer"});
  }
  if (head) out.streams = false;
  add_common_headers(asked, out);
  return out;
}

void add_common_headers(const Asked& asked, Reply& reply) {
  const auto add = [&](const char* name, const char* value) { reply.headers.emplace_back(name, value); };
  // A sheet, which carries its own style and nothing that runs, says so itself.
  const bool has_policy = std::any_of(reply.headers.begin(), reply.headers.end(), [](const auto& header) {
    return header.first == "Content-Security-Policy";
  });
  if (!has_policy)
    add("Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Cache-Control", asked.target.starts_with("/api") || reply.status >= 400 ? "no-store" : "no-cache");
}

}  // namespace strikewright
