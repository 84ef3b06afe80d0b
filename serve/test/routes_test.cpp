// What each route does, over a book, without sockets.

#include "some_desk.hpp"

using namespace strikewright;

TEST_CASE("about says which book and who asks") {
  SomeDesk d;
  const Document about = d.good("GET", "/api/about");
  CHECK(about["book"] == "b.strike");
  CHECK(about["empty"] == true);
  CHECK(about["shared"] == false);
  CHECK(about["at_home"] == true);
  CHECK(about["version"].get<std::string>().size() > 2);
  d.fill();
  CHECK(d.good("GET", "/api/about")["empty"] == false);
}

TEST_CASE("words for the page, and with a pupil's own clubs") {
  SomeDesk d;
  d.fill();
  const Document words = d.good("GET", "/api/words");
  for (const char* list : {"clubs", "surfaces", "conditions", "skills", "columns"})
    CHECK_FALSE(words[list].empty());
  CHECK(d.good("GET", "/api/words?pupil=robin")["clubs"] == words["clubs"]);
  CHECK(d.ask("GET", "/api/words?pupil=nobody").status == 404);
}

TEST_CASE("settings are kept and come back") {
  SomeDesk d;
  const Document standard = d.good("GET", "/api/settings");
  CHECK(standard["units"] == "metric");
  const Document kept = d.good("PUT", "/api/settings", R"({"units": "yards", "sure": {"carry_m": "9"}})");
  CHECK(kept["units"] == "yards");
  CHECK(kept["from"] == "usual");
  CHECK(d.good("GET", "/api/settings") == kept);
  CHECK(kept["sure"]["carry_m"] == "9");
}

TEST_CASE("a pupil is added, replaced, listed and found") {
  SomeDesk d;
  const Document one =
      d.good("PUT", "/api/pupils/robin", R"({"name": "Robin Furrow", "height_m": 1.78, "birth_year": 1971})");
  CHECK(one["id"] == "robin");
  CHECK(one["hand"] == "right");
  CHECK(one["birth_year"] == 1971);
  CHECK_FALSE(one["made_at"].get<std::string>().empty());
  // What came out goes in again unchanged.
  CHECK(d.good("PUT", "/api/pupils/robin", one.dump()) == one);
  d.good("PUT", "/api/pupils/wren", R"({"name": "Wren Tern", "birth_year": null})");
  CHECK(d.good("GET", "/api/pupils")["pupils"].size() == 2);
  const Document found = d.good("GET", "/api/pupils?search=FURROW+rob&most=5&skip=0")["pupils"];
  REQUIRE(found.size() == 1);
  CHECK(found[0]["pupil"] == one);
  CHECK(found[0]["lessons"] == 0);
  CHECK(d.good("GET", "/api/pupils?skip=2")["pupils"].empty());
  for (const char* query : {"most=0", "most=501", "most=x", "skip=-1", "most=1e2", "most="})
    CHECK(d.ask("GET", std::string("/api/pupils?") + query).status == 400);
}

TEST_CASE("a lesson comes with its pupil and its swings, by number") {
  SomeDesk d;
  d.fill();
  const Document all = d.good("GET", "/api/lessons/first");
  CHECK(all["pupil"]["name"] == "Robin Furrow");
  CHECK(all["lesson"]["club"] == "7i");
  REQUIRE(all["swings"].size() == 3);
  CHECK(all["swings"][2]["id"] == "s-3");
  CHECK(all["swings"][2]["number"] == 3);
  CHECK(all["swings"][0]["seen"][0]["text"] == "-20");
}

TEST_CASE("a swing sent twice is one swing") {
  SomeDesk d;
  d.fill();
  const std::string swing = R"({"lesson": "first", "seen": [{"column": "carry_m", "text": "140"}]})";
  const auto first = d.good("PUT", "/api/swings/s-9", swing)["revision"].get<int>();
  CHECK(d.good("PUT", "/api/swings/s-9", swing)["revision"] == first);
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 4);
}

TEST_CASE("a swing is corrected, removed, put back, and remembers it") {
  SomeDesk d;
  d.fill();
  d.good("PUT", "/api/swings/s-1",
         R"({"lesson": "first", "seen": [{"column": "divot_start_mm", "text": "10"}]})");
  d.good("DELETE", "/api/swings/s-1");
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 2);
  d.good("DELETE", "/api/swings/s-1");
  d.good("PUT", "/api/swings/s-1",
         R"({"lesson": "first", "seen": [{"column": "divot_start_mm", "text": "10"}]})");
  CHECK(d.good("GET", "/api/lessons/first")["swings"][0]["number"] == 1);
  const Document changes = d.good("GET", "/api/swings/s-1/changes")["changes"];
  REQUIRE(changes.size() == 4);
  CHECK(changes[0]["what"] == "added");
  CHECK(changes[1]["seen"][0]["text"] == "10");
  CHECK(changes[3]["what"] == "put back");
  CHECK(changes[0]["who"] == "this machine");
}

TEST_CASE("several swings go in together or not at all") {
  SomeDesk d;
  d.fill();
  const std::string good = R"({"id": "t-1", "seen": [{"column": "carry_m", "text": "140"}]})";
  const std::string bad = R"({"id": "t-2", "seen": [{"column": "carry_m", "text": "far"}]})";
  CHECK(d.ask("PUT", "/api/lessons/first/swings", R"({"swings": [)" + good + "," + bad + "]}").status == 400);
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 3);
  d.good("PUT", "/api/lessons/first/swings", R"({"swings": [)" + good + "]}");
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 4);
  for (const char* body :
       {R"({"swings": []})", R"({})", R"({"swings": {}})", R"({"swings": [3]})", R"({"swings": [{}]})"})
    fault_in(d.ask("PUT", "/api/lessons/first/swings", body));
}

TEST_CASE("a lesson is removed with its swings") {
  SomeDesk d;
  d.fill();
  CHECK(d.good("DELETE", "/api/lessons/first").empty());
  CHECK(d.ask("GET", "/api/lessons/first").status == 404);
  CHECK(d.good("GET", "/api/pupils/robin")["lessons"].empty());
}

TEST_CASE("a pupil is erased only by name, and twice is once") {
  SomeDesk d;
  d.fill();
  const Document refused = fault_in(d.ask("DELETE", "/api/pupils/robin", R"({"erase": "robin furrow"})"));
  CHECK(refused["place"] == "erase");
  CHECK(d.ask("DELETE", "/api/pupils/robin").status == 400);
  const Document gone = d.good("DELETE", "/api/pupils/robin", R"({"erase": "Robin Furrow"})");
  CHECK(gone["lessons"] == 1);
  CHECK(gone["swings"] == 3);
  CHECK(d.good("DELETE", "/api/pupils/robin", R"({"erase": "Robin Furrow"})")["lessons"] == 0);
  CHECK(d.ask("GET", "/api/pupils/robin").status == 404);
}

TEST_CASE("somebody else's table is previewed, and taken over twice is there once") {
  SomeDesk d;
  d.fill();
  const std::string table =
      R"text({"text": "Club,Carry (m)\n7i,140\n7i,133\n", "columns": {"Carry (m)": "carry_m"}})text";
  const Document preview = d.good("POST", "/api/lessons/first/preview", table);
  CHECK(preview["faults"].empty());
  REQUIRE(preview["swings"].size() == 2);
  const std::string swings = Document{{"swings", preview["swings"]}}.dump();
  const Document first = d.good("PUT", "/api/lessons/first/swings", swings);
  CHECK(d.good("POST", "/api/lessons/first/preview", table)["swings"] == preview["swings"]);
  CHECK(d.good("PUT", "/api/lessons/first/swings", swings) == first);
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 5);
  CHECK(d.ask("POST", "/api/lessons/first/preview", R"({"text": "", "columns": 3})").status == 400);
}

TEST_CASE("the reading says which swings it is of, and the timeline shows the little of it") {
  SomeDesk d;
  d.fill();
  CHECK(d.good("GET", "/api/pupils/robin")["lessons"][0]["reading"].is_null());
  const Document reading = d.good("GET", "/api/lessons/first/reading");
  CHECK(reading["lesson"] == "first");
  CHECK(reading["n"] == 3);
  CHECK(reading["ids"] == Document{"s-1", "s-2", "s-3"});
  CHECK(reading["revision"] == d.good("GET", "/api/lessons/first")["lesson"]["revision"]);
  CHECK_FALSE(reading["words"].empty());
  const Document shown = d.good("GET", "/api/pupils/robin")["lessons"][0]["reading"];
  CHECK(shown["revision"] == reading["revision"]);
  REQUIRE(shown["patterns"].size() == 1);
  CHECK(shown["patterns"][0].contains("low_point_mm"));
  CHECK(d.good("GET", "/api/lessons/first/reading?units=yards")["units"] == "yards");
  CHECK(d.ask("GET", "/api/lessons/first/reading?units=ells").status == 400);
}

TEST_CASE("a lesson without swings has a reading that says so") {
  SomeDesk d;
  d.fill();
  for (const char* id : {"s-1", "s-2", "s-3"}) d.good("DELETE", std::string("/api/swings/") + id);
  const Document reading = d.good("GET", "/api/lessons/first/reading");
  CHECK(reading["n"] == 0);
  CHECK(reading["words"].size() == 1);
}

TEST_CASE("the flail moves when it is pushed") {
  SomeDesk d;
  const Document still = d.good("POST", "/api/flail", "{}");
  const Document moved = d.good("POST", "/api/flail", R"({"moved": {"weight_mm": 40}})");
  CHECK(still["frames"].size() > 10);
  CHECK(still["frames"] != moved["frames"]);
  CHECK(d.good("POST", "/api/flail/scatter", "{}")["ways"].size() == 2);
  CHECK(d.ask("POST", "/api/flail", R"({"moved": {"weight_mm": "far"}})").status == 400);
}

TEST_CASE("the demo goes into an empty book only") {
  SomeDesk d;
  CHECK(d.ask("POST", "/api/demo", R"({"more": 1})").status == 400);
  const auto pupils = d.good("POST", "/api/demo", "{}")["pupils"].get<std::size_t>();
  CHECK(d.good("GET", "/api/pupils")["pupils"].size() == pupils);
  CHECK(d.ask("POST", "/api/demo", "{}").status == 409);
}

TEST_CASE("the whole book goes out as one document") {
  SomeDesk d;
  d.fill();
  const Reply reply = d.ask("GET", "/api/book/export");
  CHECK(reply.body == good(d.book->export_json()));
  CHECK(header(reply, "Content-Disposition").find("attachment") == 0);
}

TEST_CASE("open screens hear of every change, and of nothing when nothing changed") {
  SomeDesk d;
  std::string heard;
  const int number = d.desk.means().watchers.join(
      {.device = "", .tell = [&](const std::string& event) { heard += event; }, .end = [] {}});
  d.fill();
  CHECK(heard.find("event: changed\ndata: {\"pupil\":\"robin\",\"lesson\":\"first\",\"revision\":") !=
        std::string::npos);
  heard.clear();
  d.good("PUT", "/api/swings/s-1",
         R"({"lesson": "first", "seen": [{"column": "divot_start_mm", "text": "-20"}]})");
  CHECK(heard.empty());
  d.desk.means().watchers.leave(number);
  d.good("DELETE", "/api/swings/s-1");
  CHECK(heard.empty());
  CHECK(d.ask("GET", "/api/changes").streams);
}

TEST_CASE("the page's files are packed, and sent once") {
  SomeDesk d;
  for (const char* path : {"/", "/app.js", "/app.css"}) {
    CAPTURE(path);
    const Reply reply = d.ask("GET", path);
    CHECK(reply.status == 200);
    CHECK(header(reply, "Content-Encoding") == "gzip");
    CHECK(reply.body.substr(0, 2) == "\x1f\x8b");
    Asked again = SomeDesk::at_home("GET", path);
    again.if_none_match = header(reply, "ETag");
    CHECK(d.desk.answer(again).status == 304);
    CHECK(d.desk.answer(again).body.empty());
  }
}

TEST_CASE("what no reading would understand is refused with its place") {
  SomeDesk d;
  d.fill();
  const auto refused = [&](const std::string& target, const std::string& body) {
    const Document fault = fault_in(d.ask("PUT", target, body));
    return fault["place"].get<std::string>() + ": " + fault["found"].get<std::string>();
  };
  const std::string swing = R"({"lesson": "first", "seen": [{"column": ")";
  CHECK(refused("/api/swings/t", swing + R"(carry_m", "text": "far"}]})") == "carry_m of swing t: 'far'");
  CHECK(refused("/api/swings/t", swing + R"(carrry_m", "text": "1"}]})").find("carrry_m of swing t") == 0);
  CHECK(refused("/api/swings/t", R"({"lesson": "first", "club": "spoon"})") == "club of swing t: 'spoon'");
  CHECK(refused("/api/swings/t", R"({"lesson": "first", "surface": "moss"})") ==
        "surface of swing t: 'moss'");
  CHECK(refused("/api/lessons/first/swings",
                R"({"swings": [{"id": "a"}, {"id": "b", "condition": "asleep"}]})") ==
        "condition of swing b: 'asleep'");
  CHECK(refused("/api/pupils/wren", R"({"name": "Wren", "skill": "splendid"})").find("'splendid'") !=
        std::string::npos);
  CHECK(refused("/api/pupils/wren", R"({"name": "Wren", "bag": "{"})").find(": ") != std::string::npos);
  for (const char* column :
       {"carry_m", "divot_start_mm", "club_speed_mps", "spin_rpm", "strike_groove", "start_deg"}) {
    CAPTURE(column);
    const std::string far = R"({"sure": {")" + std::string(column) + R"(": "far"}})";
    CHECK(refused("/api/settings", far) == "sure." + std::string(column) + ": 'far'");
    d.good("PUT", "/api/settings", R"({"sure": {")" + std::string(column) + R"(": "2.5"}})");
  }
  CHECK(refused("/api/settings", R"({"sure": {"moon": "1"}})").find("sure.moon") == 0);
  CHECK(d.good("GET", "/api/lessons/first")["swings"].size() == 3);
}
