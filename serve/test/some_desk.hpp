#pragma once
// A desk over a book of its own, asked without sockets, with a clock that the test sets.

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "book/test/some_book.hpp"
#include "serve/desk.hpp"

namespace strikewright {

inline constexpr unsigned short kPort = 7417;

struct SomeDesk {
  Folder folder{};
  std::unique_ptr<Book> book = opened(folder / "b.strike");
  WallTime now{std::chrono::sys_days{std::chrono::year{2026} / 11 / 25} + std::chrono::hours(9)};
  Desk desk{*book, folder / "b.strike", [this] { return now; }};

  explicit SomeDesk(bool shared = false) {
    desk.is_at({.port = kPort,
                .shared = shared,
                .url = shared ? "https://192.0.2.7:7417/" : "",
                .fingerprint = "AB:CD",
                .names = {"pad.local"}});
  }

  /// From this machine's own browser.
  Reply ask(const std::string& method, const std::string& target, const std::string& body = "") {
    return desk.answer(at_home(method, target, body));
  }
  static Asked at_home(const std::string& method, const std::string& target, const std::string& body = "") {
    return {.method = method,
            .target = target,
            .body = body,
            .host = "127.0.0.1:7417",
            .content_type = body.empty() ? "" : "application/json",
            .from = "127.0.0.1",
            .here = "127.0.0.1"};
  }
  /// From a phone on the same network, by HTTPS.
  static Asked from_phone(const std::string& method, const std::string& target,
                          const std::string& body = "") {
    Asked asked = at_home(method, target, body);
    asked.host = "192.0.2.7:7417";
    asked.from = "192.0.2.50";
    asked.here = "192.0.2.7";
    asked.at_home = false;
    asked.secure = true;
    return asked;
  }

  /// What must be answered.
  Document good(const std::string& method, const std::string& target, const std::string& body = "") {
    const Reply reply = ask(method, target, body);
    REQUIRE_MESSAGE(reply.status == 200, method << ' ' << target << ": " << reply.body);
    return Document::parse(reply.body);
  }

  /// One pupil, one lesson, three swings, one exercise given.
  void fill() {
    good("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "hand": "left"})");
    good("PUT", "/api/lessons/first", R"({"pupil": "robin", "begun_at": "2026-11-20T10:00:00Z"})");
    for (const char* id : {"s-1", "s-2", "s-3"})
      good("PUT", std::string("/api/swings/") + id,
           R"({"lesson": "first", "seen": [{"column": "divot_start_mm", "text": "-20"}]})");
    good("PUT", "/api/given/g-1",
         R"({"pupil": "robin", "lesson": "first", "exercise": "brush_the_grass", "cause": "weight"})");
  }
};

inline std::string header(const Reply& reply, const std::string& name) {
  for (const auto& [key, value] : reply.headers)
    if (key == name) return value;
  return "";
}

/// The one shape of a fault, or a test that fails.
inline Document fault_in(const Reply& reply) {
  CHECK(reply.status >= 400);
  CHECK(reply.type == "application/json");
  const Document document = Document::parse(reply.body, nullptr, false);
  REQUIRE_MESSAGE(document.is_object(), reply.body);
  REQUIRE(document.contains("error"));
  for (const char* member : {"place", "found", "expected"}) REQUIRE(document["error"][member].is_string());
  for (const auto& [key, value] : document.items()) CHECK_MESSAGE((key == "error" || key == "more"), key);
  return document["error"];
}

}  // namespace strikewright
