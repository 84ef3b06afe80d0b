// Everything that is refused, on every route, in one shape.

#include <algorithm>

#include "some_desk.hpp"

using namespace strikewright;

namespace {

std::string target_of(const Route& route, const std::string& id = "first") {
  std::string target = route.pattern;
  if (const std::size_t at = target.find("{id}"); at != std::string::npos) target.replace(at, 4, id);
  return target;
}

std::vector<Route> writing(const std::vector<Route>& all) {
  std::vector<Route> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out),
               [](const Route& r) { return !r.takes.empty(); });
  return out;
}

}  // namespace

TEST_CASE("malformed JSON is refused at every route that takes some") {
  SomeDesk d;
  const std::vector<std::string> bodies{"{",
                                        "[]",
                                        "3",
                                        "null",
                                        "{\"a\": 1,}",
                                        "{\"name\": \"\xff\"}",
                                        "nul",
                                        "\"",
                                        "{}x",
                                        "{\"name\": \"\\u0000\"}",
                                        "{\"a\": 1, \"a\": 2}",
                                        "{\"a\": 1e999}",
                                        std::string(5000, '['),
                                        std::string(1, '\0')};
  for (const Route& route : writing(d.desk.routes())) {
    for (const std::string& body : bodies) {
      CAPTURE(route.method);
      CAPTURE(route.pattern);
      CAPTURE(body.substr(0, 40));
      const Reply reply = d.ask(route.method, target_of(route), body);
      CHECK(reply.status == 400);
      CHECK(fault_in(reply)["place"].get<std::string>().substr(0, 4) == "body");
    }
  }
  CHECK(d.good("GET", "/api/about")["empty"] == true);
}

TEST_CASE("a member that is not known, or of another type, is refused at every route that takes some") {
  SomeDesk d;
  d.fill();
  const std::vector<std::string> bodies{
      R"({"nmae": "x"})",
      R"({"name": 3, "pupil": 3, "lesson": [], "units": 1, "swings": 1, "text": 1, "erase": 1, "code": 1})"};
  for (const Route& route : writing(d.desk.routes())) {
    for (const std::string& body : bodies) {
      CAPTURE(route.pattern);
      const Reply reply = d.ask(route.method, target_of(route), body);
      CHECK(reply.status >= 400);
      CHECK(reply.status < 500);
      fault_in(reply);
    }
  }
}

TEST_CASE("a method that a path does not have is refused on every path") {
  SomeDesk d;
  for (const Route& route : d.desk.routes()) {
    for (const char* method : {"PATCH", "OPTIONS", "TRACE", "CONNECT", "get", ""}) {
      CAPTURE(route.pattern);
      CAPTURE(method);
      const Reply reply = d.ask(method, target_of(route));
      CHECK(reply.status == 405);
      CHECK_FALSE(header(reply, "Allow").empty());
      fault_in(reply);
    }
  }
}

TEST_CASE("what is not in the book is absent on every route that names it") {
  SomeDesk d;
  for (const Route& route : d.desk.routes()) {
    if (route.method != "GET" || route.pattern.find("{id}") == std::string::npos) continue;
    CAPTURE(route.pattern);
    const Reply reply = d.ask("GET", target_of(route, "nobody"));
    CHECK(reply.status == 404);
    fault_in(reply);
  }
  CHECK(d.ask("PUT", "/api/swings/s-1", R"({"lesson": "nowhere"})").status == 404);
  CHECK(d.ask("PUT", "/api/lessons/first", R"({"pupil": "nobody"})").status == 404);
}

TEST_CASE("a record under another's name is refused") {
  SomeDesk d;
  d.fill();
  CHECK(d.ask("PUT", "/api/pupils/robin", R"({"id": "wren", "name": "Wren"})").status == 400);
  CHECK(d.ask("PUT", "/api/lessons/first", R"({"id": "second", "pupil": "robin"})").status == 400);
  CHECK(
      d.ask("PUT", "/api/lessons/first/swings", R"({"swings": [{"id": "t", "lesson": "second"}]})").status ==
      400);
}

TEST_CASE("a false Host is turned away on every route") {
  SomeDesk d;
  for (const Route& route : d.desk.routes()) {
    for (const char* host :
         {"", "evil.example:7417", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:7417.evil.example",
          "localhost:7417@evil.example", "pad.local:7417", "192.0.2.7:7417", "twice"}) {
      CAPTURE(route.pattern);
      CAPTURE(host);
      Asked asked = SomeDesk::at_home(route.method, target_of(route));
      asked.host = host;
      const Reply reply = d.desk.answer(asked);
      CHECK(reply.status == 403);
      CHECK(fault_in(reply)["place"] == "Host");
    }
  }
}

TEST_CASE("every right name of this machine is let in") {
  SomeDesk d;
  for (const char* host : {"127.0.0.1:7417", "localhost:7417", "LOCALHOST:7417", "[::1]:7417"}) {
    Asked asked = SomeDesk::at_home("GET", "/api/about");
    asked.host = host;
    CHECK(d.desk.answer(asked).status == 200);
  }
}

TEST_CASE("another site cannot write, and cannot read either") {
  SomeDesk d;
  for (const Route& route : d.desk.routes()) {
    CAPTURE(route.pattern);
    for (const char* origin : {"http://evil.example", "null", "https://127.0.0.1:7417",
                               "http://127.0.0.1:7418", "http://localhost:7417"}) {
      Asked asked = SomeDesk::at_home(route.method, target_of(route), "{}");
      asked.origin = origin;
      const Reply reply = d.desk.answer(asked);
      CHECK(reply.status == 403);
      CHECK(fault_in(reply)["place"] == "Origin");
    }
    Asked sent = SomeDesk::at_home(route.method, target_of(route));
    sent.site = "cross-site";
    if (route.pattern.starts_with("/api")) CHECK(d.desk.answer(sent).status == 403);
  }
  Asked own = SomeDesk::at_home("GET", "/api/about");
  own.origin = "http://127.0.0.1:7417";
  own.site = "same-origin";
  const Reply reply = d.desk.answer(own);
  CHECK(reply.status == 200);
  for (const auto& [name, value] : reply.headers) CHECK(name.find("Access-Control") == std::string::npos);
}

TEST_CASE("what is written must say that it is JSON") {
  SomeDesk d;
  for (const Route& route : writing(d.desk.routes())) {
    for (const char* type :
         {"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
          "application/jsonp", "text/plain; application/json"}) {
      CAPTURE(route.pattern);
      Asked asked = SomeDesk::at_home(route.method, target_of(route), "{}");
      asked.content_type = type;
      const Reply reply = d.desk.answer(asked);
      CHECK(reply.status == 415);
      fault_in(reply);
    }
  }
  Asked asked = SomeDesk::at_home("PUT", "/api/settings", "{}");
  asked.content_type = "Application/JSON; charset=utf-8";
  CHECK(d.desk.answer(asked).status == 200);
}

TEST_CASE("every answer has the headers that keep others out") {
  SomeDesk d;
  for (const Route& route : d.desk.routes()) {
    CAPTURE(route.pattern);
    const Reply reply = d.ask(route.method, target_of(route));
    CHECK(header(reply, "Content-Security-Policy").find("default-src 'none'; script-src 'self'") == 0);
    CHECK(header(reply, "Content-Security-Policy").find("unsafe") == std::string::npos);
    CHECK(header(reply, "X-Content-Type-Options") == "nosniff");
    CHECK(header(reply, "Referrer-Policy") == "no-referrer");
    CHECK(header(reply, "Cross-Origin-Opener-Policy") == "same-origin");
    CHECK(header(reply, "Cross-Origin-Resource-Policy") == "same-origin");
    if (route.pattern.starts_with("/api")) CHECK(header(reply, "Cache-Control") == "no-store");
  }
}

TEST_CASE("SQL and script in a text are a text") {
  SomeDesk d;
  const std::vector<std::string> texts{"'); DROP TABLE pupils; --",
                                       "<script>alert(1)</script>",
                                       "\" onload=\"x",
                                       "%' OR '1'='1",
                                       "${7*7} {{7*7}}",
                                       "line\nbreak\ttab \\ / é 日本 🏌"};
  int k = 0;
  for (const std::string& text : texts) {
    CAPTURE(text);
    const std::string id = "p-" + std::to_string(++k), lesson = "l-" + std::to_string(k);
    const Document pupil{{"name", text == texts.back() ? "Line" : text}, {"notes", text}, {"cautions", text}};
    CHECK(d.good("PUT", "/api/pupils/" + id, pupil.dump())["notes"] == text);
    const std::string line = text == texts.back() ? "Line" : text;
    const Document given{{"pupil", id}, {"place", line}, {"notes", text}};
    const Document kept = d.good("PUT", "/api/lessons/" + lesson, given.dump());
    CHECK(kept["place"] == line);
    CHECK(d.good("GET", "/api/lessons/" + lesson)["lesson"]["notes"] == text);
    const Document exercise{{"pupil", id},   {"lesson", lesson},  {"exercise", "brush_the_grass"},
                            {"notes", text}, {"cause", "weight"}, {"why", text}};
    // What has words of its own takes no others.
    for (const char* member : {"exercise", "cause", "dose"}) {
      Document wrong = exercise;
      wrong[member] = text;
      CHECK(d.ask("PUT", "/api/given/g-" + std::to_string(k), wrong.dump()).status == 400);
    }
    d.good("PUT", "/api/given/g-" + std::to_string(k), exercise.dump());
    const Document of_pupil = d.good("GET", "/api/pupils/" + id + "/given")["given"];
    REQUIRE(of_pupil.size() == 1);
    for (const auto& [member, value] : exercise.items()) CHECK(of_pupil[0][member] == value);
    // No exercise, so it stays out whatever is in it.
    const Document own{{"document", Document{{"name", text}}.dump()}};
    CHECK(d.ask("PUT", "/api/exercises/own/o", own.dump()).status == 400);
  }
  CHECK(d.good("GET", "/api/exercises/own")["exercises"].empty());
  CHECK(d.good("GET", "/api/pupils")["pupils"].size() == texts.size());
  CHECK(d.good("GET", "/api/pupils?search=%25%27+OR")["pupils"].size() == 1);
  CHECK(d.good("GET", "/api/pupils?search=%25")["pupils"].size() == 1);
}

TEST_CASE("a fault of our own says nothing of what is inside") {
  SomeDesk d;
  d.fill();
  Readings broken{*d.book, "0",
                  [](const ReadingAsked&) -> Answer<Document> { throw std::runtime_error("secret"); }};
  CHECK_THROWS(broken.of("first", ""));
  // The next one is not left waiting for the one that broke.
  CHECK_THROWS(broken.of("first", ""));
}
