#include <doctest/doctest.h>

#include <map>
#include <set>

#include "quantity/utf8.hpp"
#include "sheet/calendar.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;

namespace {

CalendarFacts facts(const std::string& language = "en") {
  return {.made_at = "2026-05-04T08:00:00Z",
          .language = language,
          .title = "Stand on the lead leg",
          .next_lesson = "2026-05-18",
          .lesson = "lesson-7"};
}

std::string made(const std::vector<SheetSession>& sessions, const CalendarFacts& with) {
  const Result<std::string> calendar = calendar_of(sessions, with);
  REQUIRE_MESSAGE(calendar.has_value(), (calendar ? "" : calendar.error().sentence()));
  return *calendar;
}

// The content lines, each checked against RFC 5545, 3.1, and unfolded.
std::vector<std::string> lines_of(const std::string& calendar) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < calendar.size()) {
    const std::size_t end = calendar.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    const std::string line = calendar.substr(at, end - at);
    CHECK(line.size() <= 75);
    CHECK(line.find_first_of("\r\n") == std::string::npos);
    CHECK(is_utf8(line));
    for (const char sign : line) CHECK((static_cast<unsigned char>(sign) >= 0x20 && sign != 0x7f));
    if (!line.empty() && line[0] == ' ')
      lines.back() += line.substr(1);
    else
      lines.push_back(line);
    at = end + 2;
  }
  return lines;
}

// Name with parameters to value; an entry has every property once (RFC 5545, 3.6.1).
using Entry = std::map<std::string, std::string>;

std::vector<Entry> entries_of(const std::vector<std::string>& lines) {
  std::vector<Entry> entries;
  bool within = false;
  for (const std::string& line : lines) {
    const std::size_t colon = line.find(':');
    REQUIRE(colon != std::string::npos);
    const std::string name = line.substr(0, colon), value = line.substr(colon + 1);
    if (line == "BEGIN:VEVENT") {
      CHECK_FALSE(within);
      within = true;
      entries.emplace_back();
    } else if (line == "END:VEVENT") {
      CHECK(within);
      within = false;
    } else if (within) {
      CHECK_MESSAGE(entries.back().emplace(name, value).second, name);
    }
  }
  CHECK_FALSE(within);
  return entries;
}

}  // namespace

TEST_CASE("the plan comes out as a calendar whose every line keeps the rules") {
  for (const std::string language : {"en", "de"}) {
    const std::vector<SheetSession> sessions = some::sessions(language);
    const std::vector<std::string> lines = lines_of(made(sessions, facts(language)));
    CHECK(lines.front() == "BEGIN:VCALENDAR");
    CHECK(lines[1] == "VERSION:2.0");
    CHECK(lines[2].rfind("PRODID:", 0) == 0);
    CHECK(lines.back() == "END:VCALENDAR");
    const std::vector<Entry> entries = entries_of(lines);
    REQUIRE(entries.size() == sessions.size() + 1);
    const std::set<std::string> known{
        "UID", "DTSTAMP", "DTSTART;VALUE=DATE", "DTEND;VALUE=DATE", "SUMMARY", "DESCRIPTION", "TRANSP"};
    std::set<std::string> ids;
    for (const Entry& entry : entries) {
      for (const auto& [name, value] : entry) CHECK_MESSAGE(known.count(name) == 1, name);
      CHECK(entry.size() == known.size());
      CHECK(entry.at("DTSTAMP") == "20260504T080000Z");
      CHECK(ids.insert(entry.at("UID")).second);
    }
    CHECK(entries[0].at("UID") == "s-1@strikewright.invalid");
    CHECK(entries[0].at("DTSTART;VALUE=DATE") == "20260505");
    CHECK(entries[0].at("DTEND;VALUE=DATE") == "20260506");
    CHECK(entries.back().at("UID") == "lesson-7.next@strikewright.invalid");
    CHECK(entries.back().at("DTSTART;VALUE=DATE") == "20260518");
  }
}

TEST_CASE("every entry of the calendar carries the short caution") {
  for (const Entry& entry : entries_of(lines_of(made(some::sessions("en"), facts()))))
    CHECK(entry.at("DESCRIPTION").find("stop if anything hurts") != std::string::npos);
  for (const Entry& entry : entries_of(lines_of(made(some::sessions("de"), facts("de")))))
    CHECK(entry.at("DESCRIPTION").find("bei Schmerzen aufhören") != std::string::npos);
}

TEST_CASE("a session at an hour begins then wherever the pupil is, and lasts as long as it says") {
  CalendarFacts at = facts();
  at.at = "17:30";
  std::vector<SheetSession> sessions = some::sessions("en");
  sessions[1].minutes = 0;
  const std::vector<Entry> entries = entries_of(lines_of(made(sessions, at)));
  CHECK(entries[0].at("DTSTART") == "20260505T173000");
  CHECK(entries[0].at("DURATION") == "PT25M");
  CHECK(entries[1].at("DURATION") == "PT30M");
  CHECK(entries[0].count("DTEND;VALUE=DATE") == 0);
  CHECK(entries.back().at("DTSTART;VALUE=DATE") == "20260518");
}

TEST_CASE("days end where months and years end") {
  const std::pair<const char*, const char*> ends[] = {{"2026-12-31", "20270101"},
                                                      {"2026-04-30", "20260501"},
                                                      {"2028-02-28", "20280229"},
                                                      {"2026-02-28", "20260301"}};
  for (const auto& [day, next] : ends)
    CHECK(entries_of(lines_of(made({{"s", day, "rows", 0, false}}, facts())))[0].at("DTEND;VALUE=DATE") ==
          next);
}

TEST_CASE("commas, semicolons, backslashes, line ends and long letters keep their meaning") {
  std::vector<SheetSession> sessions{{"s", "2026-05-05", "a, b; c\\d\ne", 10, true}};
  CHECK(entries_of(lines_of(made(sessions, facts())))[0]
            .at("DESCRIPTION")
            .rfind("a\\, b\\; c\\\\d\\ne\\n\\n", 0) == 0);
  CHECK(entries_of(lines_of(made(sessions, facts())))[0].at("SUMMARY") ==
        "Test: Practice: Stand on the lead leg");
  // Letters of one to four bytes at every place where a line may be folded.
  for (std::size_t before = 0; before < 90; ++before) {
    std::string what(before, 'x');
    for (int k = 0; k < 30; ++k) what += "ä€𝄞ß";
    sessions[0].what = what;
    const std::vector<Entry> entries = entries_of(lines_of(made(sessions, facts())));
    CHECK(entries[0].at("DESCRIPTION").rfind(what, 0) == 0);
  }
}

TEST_CASE("a changed plan changes its entries and adds none") {
  std::vector<SheetSession> sessions = some::sessions("en");
  const std::vector<Entry> before = entries_of(lines_of(made(sessions, facts())));
  sessions[2].day = "2026-05-11";
  sessions[2].what = "something else";
  CalendarFacts later = facts();
  later.made_at = "2026-05-06T10:20:30.5Z";
  const std::vector<Entry> after = entries_of(lines_of(made(sessions, later)));
  REQUIRE(before.size() == after.size());
  for (std::size_t k = 0; k < before.size(); ++k) CHECK(before[k].at("UID") == after[k].at("UID"));
  CHECK(after[2].at("DTSTART;VALUE=DATE") == "20260511");
  CHECK(after[2].at("DTSTAMP") == "20260506T102030Z");
}

TEST_CASE("what is no plan is refused by name") {
  const auto place = [](const std::vector<SheetSession>& sessions, const CalendarFacts& with) {
    const Result<std::string> calendar = calendar_of(sessions, with);
    return calendar ? std::string("fine") : calendar.error().place;
  };
  const std::vector<SheetSession> good = some::sessions("en");
  CHECK(place(good, facts()) == "fine");
  CHECK(place({}, facts()) == "calendar.sessions");
  const auto with = [&](auto change) {
    std::vector<SheetSession> sessions = good;
    change(sessions[1]);
    return place(sessions, facts());
  };
  CHECK(with([](SheetSession& session) { session.id = ""; }) == "calendar.sessions[1].id");
  CHECK(with([](SheetSession& session) { session.id = "s-1"; }) == "calendar.sessions[1].id");
  CHECK(with([](SheetSession& session) { session.id = "a\r\nATTACH:x"; }) == "calendar.sessions[1].id");
  CHECK(with([](SheetSession& session) { session.day = "2026-02-29"; }) == "calendar.sessions[1].day");
  CHECK(with([](SheetSession& session) { session.minutes = -1; }) == "calendar.sessions[1].minutes");
  CHECK(with([](SheetSession& session) { session.what = "\xff"; }) == "calendar.sessions[1].what");
  const auto but = [&](auto change) {
    CalendarFacts changed = facts();
    change(changed);
    return place(good, changed);
  };
  CHECK(but([](CalendarFacts& changed) { changed.language = "xx"; }) == "calendar.language");
  CHECK(but([](CalendarFacts& changed) { changed.made_at = "yesterday"; }) == "calendar.made_at");
  CHECK(but([](CalendarFacts& changed) { changed.at = "25:00"; }) == "calendar.at");
  CHECK(but([](CalendarFacts& changed) { changed.next_lesson = "soon"; }) == "calendar.next_lesson");
  CHECK(but([](CalendarFacts& changed) { changed.lesson = ""; }) == "calendar.lesson");
}
