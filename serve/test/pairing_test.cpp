// Letting devices in, and keeping the others out.

#include "serve/pairing.hpp"

#include "serve/doorman.hpp"
#include "serve/qr.hpp"
#include "serve/secrets.hpp"
#include "some_desk.hpp"

using namespace strikewright;
using namespace std::chrono_literals;

namespace {

std::string code_of(SomeDesk& d) { return d.good("GET", "/api/pairing")["code"].get<std::string>(); }

Reply try_code(SomeDesk& d, const std::string& code, const std::string& from = "192.0.2.50") {
  Asked asked =
      SomeDesk::from_phone("POST", "/api/pairing", Document{{"code", code}, {"name", "Phone"}}.dump());
  asked.from = from;
  return d.desk.answer(asked);
}

/// The cookie as the phone's browser sends it back.
std::string paired(SomeDesk& d, const std::string& from = "192.0.2.50") {
  const Reply reply = try_code(d, code_of(d), from);
  REQUIRE_MESSAGE(reply.status == 200, reply.body);
  const std::string cookie = header(reply, "Set-Cookie");
  return cookie.substr(0, cookie.find(';'));
}

Reply from_paired(SomeDesk& d, const std::string& cookie, const std::string& method,
                  const std::string& target, const std::string& body = "") {
  Asked asked = SomeDesk::from_phone(method, target, body);
  asked.cookie = "other=1; " + cookie;
  return d.desk.answer(asked);
}

std::string wrong(const std::string& code) { return (code[0] == '1' ? "2" : "1") + code.substr(1); }

}  // namespace

TEST_CASE("an unpaired device gets the page and the pairing, nothing else") {
  SomeDesk d{true};
  d.fill();
  for (const Route& route : d.desk.routes()) {
    CAPTURE(route.pattern);
    std::string target = route.pattern;
    if (const std::size_t at = target.find("{id}"); at != std::string::npos) target.replace(at, 4, "first");
    const Reply reply =
        d.desk.answer(SomeDesk::from_phone(route.method, target, route.takes.empty() ? "" : "{}"));
    const bool open =
        !route.pattern.starts_with("/api") || (route.pattern == "/api/pairing" && route.method == "POST");
    CHECK((reply.status == 401) == !open);
    if (!open) CHECK(reply.body.find("robin") == std::string::npos);
  }
  CHECK(d.desk.answer(SomeDesk::from_phone("GET", "/api/no-such-thing")).status == 401);
  CHECK(d.desk.answer(SomeDesk::from_phone("GET", "/no-such-thing")).status == 404);
}

TEST_CASE("the right code lets a device in, once") {
  SomeDesk d{true};
  const std::string code = code_of(d);
  CHECK(code.size() == 8);
  const Reply reply = try_code(d, code);
  CHECK(reply.status == 200);
  const std::string cookie = header(reply, "Set-Cookie");
  for (const char* part : {"__Host-strikewright=", "; HttpOnly", "; Secure", "; SameSite=Strict", "; Path=/"})
    CHECK(cookie.find(part) != std::string::npos);
  CHECK(try_code(d, code, "192.0.2.51").status == 403);
  CHECK(code_of(d) != code);
  const std::string sent = cookie.substr(0, cookie.find(';'));
  CHECK(from_paired(d, sent, "GET", "/api/about").status == 200);
  CHECK(Document::parse(from_paired(d, sent, "GET", "/api/about").body)["at_home"] == false);
  CHECK(from_paired(d, sent, "PUT", "/api/pupils/wren", R"({"name": "Wren"})").status == 200);
  CHECK(from_paired(d, wrong(sent), "GET", "/api/about").status == 401);
  CHECK(from_paired(d, sent.substr(0, sent.size() - 1) + "!", "GET", "/api/about").status == 401);
}

TEST_CASE("the book keeps no token, only its hash") {
  SomeDesk d{true};
  const std::string cookie = paired(d);
  const std::string token = token_in(cookie);
  CHECK(token.size() == 64);
  const auto devices = good(d.book->devices());
  REQUIRE(devices.size() == 1);
  CHECK(devices[0].token_hash == hash_of(token));
  CHECK(contents(d.folder / "b.strike").find(token) == std::string::npos);
}

TEST_CASE("five wrong codes from one address wait a minute, others do not") {
  SomeDesk d{true};
  const std::string code = code_of(d);
  for (int k = 0; k < 5; ++k) CHECK(try_code(d, wrong(code)).status == 403);
  const Reply refused = try_code(d, code);
  CHECK(refused.status == 429);
  CHECK(header(refused, "Retry-After") == "60");
  fault_in(refused);
  CHECK(try_code(d, wrong(code), "192.0.2.51").status == 403);
  d.now += 59s;
  CHECK(try_code(d, code).status == 429);
  d.now += 1s;
  CHECK(try_code(d, code).status == 200);
}

TEST_CASE("many wrong codes from many addresses make a new code") {
  SomeDesk d{true};
  const std::string code = code_of(d);
  for (int k = 0; k < Pairing::kWrongByAnybody; ++k)
    CHECK(try_code(d, wrong(code), "192.0.2." + std::to_string(k)).status == 403);
  CHECK(code_of(d) != code);
}

TEST_CASE("a code ends after ten minutes, and whoever shows it is told of the new one") {
  SomeDesk d{true};
  std::vector<std::string> told;
  d.desk.means().pairing.on_code([&](const Pairing::Code& code) { told.push_back(code.digits); });
  const std::string first = code_of(d);
  d.now += 9min;
  CHECK(code_of(d) == first);
  d.now += 1min;
  CHECK(try_code(d, first).status == 403);
  const std::string second = code_of(d);
  CHECK(second != first);
  CHECK(told == std::vector<std::string>{first, second});
}

TEST_CASE("odd codes and names are refused") {
  SomeDesk d{true};
  const auto ask = [&](const Document& body) {
    return d.desk.answer(SomeDesk::from_phone("POST", "/api/pairing", body.dump()));
  };
  CHECK(ask({{"code", ""}, {"name", "x"}}).status == 403);
  CHECK(ask({{"code", code_of(d)}, {"name", ""}}).status == 400);
  CHECK(ask({{"code", code_of(d)}, {"name", std::string(61, 'x')}}).status == 400);
  CHECK(ask({{"code", code_of(d)}, {"name", "two\nlines"}}).status == 400);
  CHECK(ask({{"code", code_of(d)}}).status == 400);
  CHECK(ask({{"code", 12345678}, {"name", "x"}}).status == 400);
  CHECK(good(d.book->devices()).empty());
}

TEST_CASE("a revoked device is out at once, and its stream ends") {
  SomeDesk d{true};
  const std::string cookie = paired(d);
  const std::string id = d.good("GET", "/api/devices")["devices"][0]["id"].get<std::string>();
  const Reply stream = from_paired(d, cookie, "GET", "/api/changes");
  CHECK(stream.streams);
  CHECK(stream.device == id);
  bool ended = false, other_ended = false;
  d.desk.means().watchers.join(
      {.device = id, .tell = [](const std::string&) {}, .end = [&] { ended = true; }});
  d.desk.means().watchers.join(
      {.device = "", .tell = [](const std::string&) {}, .end = [&] { other_ended = true; }});
  CHECK(d.good("DELETE", "/api/devices/" + id).empty());
  CHECK(ended);
  CHECK_FALSE(other_ended);
  CHECK(from_paired(d, cookie, "GET", "/api/about").status == 401);
}

TEST_CASE("a device sees and revokes itself, never another, and never the code") {
  SomeDesk d{true};
  const std::string one = paired(d, "192.0.2.50"), two = paired(d, "192.0.2.51");
  const Document all = d.good("GET", "/api/devices")["devices"];
  CHECK(all.size() == 2);
  const Document own = Document::parse(from_paired(d, two, "GET", "/api/devices").body)["devices"];
  REQUIRE(own.size() == 1);
  CHECK(own[0]["this"] == true);
  const std::string own_id = own[0]["id"].get<std::string>();
  const std::string other = (all[0]["id"] == own_id ? all[1] : all[0])["id"].get<std::string>();
  CHECK(from_paired(d, two, "DELETE", "/api/devices/" + other).status == 403);
  CHECK(from_paired(d, two, "GET", "/api/pairing").status == 403);
  const Reply away = from_paired(d, two, "DELETE", "/api/devices/" + own_id);
  CHECK(away.status == 200);
  CHECK(header(away, "Set-Cookie").find("Max-Age=0") != std::string::npos);
  CHECK(from_paired(d, two, "GET", "/api/about").status == 401);
  CHECK(from_paired(d, one, "GET", "/api/about").status == 200);
}

TEST_CASE("the book notes who changed a swing, and when a device was seen") {
  SomeDesk d{true};
  d.fill();
  const std::string cookie = paired(d);
  from_paired(d, cookie, "PUT", "/api/swings/s-1", R"({"lesson": "first", "club": "pw"})");
  CHECK(d.good("GET", "/api/swings/s-1/changes")["changes"][1]["who"] == "Phone");
  d.now += 11min;
  from_paired(d, cookie, "GET", "/api/about");
  CHECK(d.good("GET", "/api/devices")["devices"][0]["seen_at"] == "2026-11-25T09:11:00Z");
  CHECK(d.good("GET", "/api/devices")["devices"][0]["paired_at"] == "2026-11-25T09:00:00Z");
}

TEST_CASE("a phone needs https and one of this machine's names") {
  SomeDesk d{true};
  const std::string cookie = paired(d);
  Asked asked = SomeDesk::from_phone("GET", "/api/about");
  asked.cookie = cookie;
  asked.secure = false;
  CHECK(d.desk.answer(asked).status == 403);
  asked.secure = true;
  for (const char* host :
       {"192.0.2.8:7417", "localhost:7417", "127.0.0.1:7417", "192.0.2.7", "evil.example:7417"}) {
    asked.host = host;
    CHECK(d.desk.answer(asked).status == 403);
  }
  asked.host = "PAD.local:7417";
  asked.origin = "https://pad.local:7417";
  CHECK(d.desk.answer(asked).status == 200);
}

TEST_CASE("nothing is to be paired with where nothing is shared") {
  SomeDesk d;
  CHECK(d.good("GET", "/api/pairing") == Document{{"shared", false}});
  CHECK(d.ask("POST", "/api/pairing", R"({"code": "1", "name": "x"})").status == 400);
}

TEST_CASE("codes and tokens differ, and digits are digits") {
  CHECK(random_hex(32) != random_hex(32));
  CHECK(random_hex(32).size() == 64);
  const std::string digits = random_digits(1000);
  CHECK(digits.find_first_not_of("0123456789") == std::string::npos);
  for (char c = '0'; c <= '9'; ++c) CHECK(std::count(digits.begin(), digits.end(), c) > 30);
  CHECK(hash_of("") == "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
  CHECK(same_secret("abc", "abc"));
  CHECK_FALSE(same_secret("abc", "abd"));
  CHECK_FALSE(same_secret("abc", "ab"));
}

TEST_CASE("a square for the camera is square and has its three corners") {
  const auto rows = good(qr_rows("https://192.0.2.7:7417/"));
  CHECK(rows.size() >= 21);
  for (const std::string& row : rows) CHECK(row.size() == rows.size());
  const std::string corner = "1111111";
  CHECK(rows[0].substr(0, 7) == corner);
  CHECK(rows[0].substr(rows.size() - 7) == corner);
  CHECK(rows.back().substr(0, 7) == corner);
  CHECK(rows.back().substr(rows.size() - 7) != corner);
  CHECK_FALSE(qr_rows(std::string(5000, 'x')).has_value());
}
