// Paths, names in them, what stands after the question mark.

#include "serve/router.hpp"

#include "some_desk.hpp"

using namespace strikewright;

namespace {

const Router& router() {
  static const Router one{
      {{.method = "GET", .pattern = "/api/pupils", .says = "", .query = {"search", "most"}},
       {.method = "GET", .pattern = "/api/pupils/{id}", .says = ""},
       {.method = "PUT", .pattern = "/api/pupils/{id}", .says = ""}}};
  return one;
}

Asked asked_for(const std::string& method, const std::string& target) {
  return {.method = method, .target = target};
}

const Route* found(Asked& asked) {
  const auto answer = router().find(asked);
  REQUIRE(std::holds_alternative<const Route*>(answer));
  return std::get<const Route*>(answer);
}

int refused(const std::string& method, const std::string& target) {
  Asked asked = asked_for(method, target);
  const auto answer = router().find(asked);
  REQUIRE_MESSAGE(std::holds_alternative<Reply>(answer), target);
  fault_in(std::get<Reply>(answer));
  return std::get<Reply>(answer).status;
}

}  // namespace

TEST_CASE("a name in the path is handed on") {
  Asked asked = asked_for("PUT", "/api/pupils/anna-2");
  CHECK(found(asked)->method == "PUT");
  CHECK(asked.named.at("id") == "anna-2");
}

TEST_CASE("what stands after the question mark is decoded, once") {
  Asked asked = asked_for("GET", "/api/pupils?search=J%C3%B8rn+the%20%2B%25&most=");
  found(asked);
  CHECK(asked.query.at("search") == "Jørn the +%");
  CHECK(asked.query.at("most").empty());
  Asked twice = asked_for("GET", "/api/pupils?search=%2541");
  found(twice);
  CHECK(twice.query.at("search") == "%41");
}

TEST_CASE("paths that are not ours are not found, however they are written") {
  for (const char* path : {"", "*", "/", "/api", "/api/", "//api/pupils", "/api/pupils/", "/api/pupils/anna/",
                           "/api/pupils/../about", "/../../etc/passwd", "/%2e%2e/etc/passwd", "/api%2Fpupils",
                           "http://elsewhere/api/pupils", "/API/pupils"}) {
    CAPTURE(path);
    const int status = refused("GET", path);
    CHECK((status == 404 || status == 400));
  }
}

TEST_CASE("a name in the path is 1 to 40 of a-z 0-9 -") {
  for (const char* name : {"..", "%2e%2e", "a%2Fb", "Anna", "a_b", "a%00", "a%", "%C3%A9", "a'--", ""}) {
    CAPTURE(name);
    CHECK(refused("GET", std::string("/api/pupils/") + name) == 400);
  }
  CHECK(refused("GET", "/api/pupils/" + std::string(41, 'a')) == 400);
  Asked longest = asked_for("GET", "/api/pupils/" + std::string(40, 'a'));
  CHECK(found(longest)->pattern == "/api/pupils/{id}");
}

TEST_CASE("a method that the path does not have is told which it has") {
  Asked asked = asked_for("DELETE", "/api/pupils/anna");
  const Reply reply = std::get<Reply>(router().find(asked));
  CHECK(reply.status == 405);
  CHECK(header(reply, "Allow") == "GET, PUT");
}

TEST_CASE("an odd query is refused with its place") {
  for (const char* query :
       {"serach=x", "search=a&search=b", "search=%zz", "search=%C3", "search=%00", "&", "=x"}) {
    CAPTURE(query);
    CHECK(refused("GET", std::string("/api/pupils?") + query) == 400);
  }
  Asked asked = asked_for("GET", "/api/pupils?serach=x");
  CHECK(fault_in(std::get<Reply>(router().find(asked)))["expected"] ==
        "a known name, did you mean 'search'?");
}

TEST_CASE("only UTF-8 is decoded") {
  CHECK(decoded("%F0%9F%8F%8C") == "\xF0\x9F\x8F\x8C");
  for (const char* text :
       {"%80", "%C0%AF", "%E0%80%AF", "%ED%A0%80", "%F4%90%80%80", "%F5%80%80%80", "%E2%82", "%", "%4"}) {
    CAPTURE(text);
    CHECK_FALSE(decoded(text).has_value());
  }
}
