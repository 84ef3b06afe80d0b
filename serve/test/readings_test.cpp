// Readings: made once, kept, and made again when anything that decides has changed.

#include "serve/readings.hpp"

#include <atomic>
#include <thread>

#include "some_desk.hpp"

using namespace strikewright;

namespace {

/// Counts how often a reading is made; makes little of it.
struct Counted {
  std::atomic<int> made{0};
  Answer<Document> operator()(const ReadingAsked& asked) {
    ++made;
    return Document{{"units", asked.units}, {"n", asked.ids.size()}, {"patterns", Document::array()}};
  }
};

struct Some {
  SomeDesk d{};
  Counted counted{};
  Readings readings{*d.book, "1.0", [this](const ReadingAsked& asked) { return counted(asked); }};
  Some() { d.fill(); }
  Document of(const std::string& units = "") { return Document::parse(*readings.of("first", units)); }
};

}  // namespace

TEST_CASE("the same reading is made once, for one thread or many") {
  Some s;
  std::vector<std::thread> all;
  for (int k = 0; k < 8; ++k) all.emplace_back([&] { static_cast<void>(s.readings.of("first", "")); });
  for (std::thread& one : all) one.join();
  CHECK(s.counted.made == 1);
  CHECK(s.of()["n"] == 3);
  CHECK(s.counted.made == 1);
}

TEST_CASE("a reading is made again when a swing, the pupil, or the coach's settings change") {
  Some s;
  s.of();
  auto again = [&, before = 1](const char* method, const char* target, const char* body) mutable {
    s.d.good(method, target, body);
    s.of();
    CHECK(s.counted.made == before + 1);
    before = s.counted.made;
  };
  again("DELETE", "/api/swings/s-3", "");
  again("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "hand": "right"})");
  again("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "hand": "right", "skill": "tour"})");
  again("PUT", "/api/settings", R"({"from": "best"})");
  again("PUT", "/api/settings", R"({"from": "best", "sure": {"divot_start_mm": "40"}})");
  again("PUT", "/api/settings", R"({"from": "best", "units": "yards", "sure": {"divot_start_mm": "40"}})");
  s.d.good("PUT", "/api/settings",
           R"({"from": "best", "units": "yards", "place": "elsewhere", "sure": {"divot_start_mm": "40"}})");
  s.of();
  CHECK(s.counted.made == 7);
}

TEST_CASE("what no reading depends on changes its revision only") {
  Some s;
  Document before = s.of();
  s.d.good("PUT", "/api/lessons/first", R"({"pupil": "robin", "club": "pw", "notes": "windy"})");
  const Document after = s.of();
  CHECK(s.counted.made == 1);
  CHECK(after["revision"] == s.d.good("GET", "/api/lessons/first")["lesson"]["revision"]);
  CHECK(after["revision"] > before["revision"]);
  before["revision"] = after["revision"];
  CHECK(after == before);
}

TEST_CASE("a kept reading outlives the server, but not its version") {
  Some s;
  const Document first = s.of();
  Readings next{*s.d.book, "1.0", [&](const ReadingAsked& asked) { return s.counted(asked); }};
  CHECK(Document::parse(*next.of("first", "")) == first);
  CHECK(s.counted.made == 1);
  Readings newer{*s.d.book, "1.1", [&](const ReadingAsked& asked) { return s.counted(asked); }};
  CHECK(Document::parse(*newer.of("first", ""))["version"] == "1.1");
  CHECK(s.counted.made == 2);
  CHECK(good(s.d.book->reading_of("first"))->version == "1.1");
}

TEST_CASE("a fault of a reading is told and not kept") {
  SomeDesk d;
  d.fill();
  Readings readings{*d.book, "1.0", [](const ReadingAsked&) -> Answer<Document> {
                      return tl::unexpected<std::vector<Fault>>({{"lesson:2:1", "'x'", "y"}});
                    }};
  CHECK(readings.of("first", "").error()[0].found == "'x'");
  CHECK_FALSE(good(d.book->reading_of("first")).has_value());
  CHECK(is_absent(readings.of("nowhere", "").error()[0]));
}
