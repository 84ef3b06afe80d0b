#include "sheet/calendar.hpp"

#include <algorithm>
#include <set>

#include "quantity/nearest.hpp"
#include "quantity/utf8.hpp"
#include "sheet/check.hpp"
#include "sheet/days.hpp"
#include "sheet/words.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kLineBytes = 75;  // RFC 5545, 3.1, without the line's end
constexpr int kMinutes = 30;            // of a session that does not say (assumption)

// A value of type TEXT (RFC 5545, 3.3.11); control characters have no place in it.
std::string text_value(std::string_view text) {
  std::string value;
  for (const char sign : text) {
    if (sign == '\n')
      value += "\\n";
    else if (sign == '\\' || sign == ';' || sign == ',')
      value += std::string("\\") + sign;
    else if (static_cast<unsigned char>(sign) >= 0x20 && sign != 0x7f)
      value += sign;
  }
  return value;
}

// One content line, folded: what goes on begins with a blank, and no letter is cut in two.
void add_line(std::string& calendar, std::string_view line) {
  std::size_t used = 0;
  while (!line.empty()) {
    const std::size_t length = utf8_length(line);
    if (used + length > kLineBytes) {
      calendar += "\r\n ";
      used = 1;
    }
    calendar += line.substr(0, length);
    used += length;
    line.remove_prefix(length);
  }
  calendar += "\r\n";
}

std::string basic_day(std::string_view day) {
  std::string basic;
  for (const char sign : day)
    if (sign != '-') basic += sign;
  return basic;
}

std::string day_after(std::string_view day) {
  const std::chrono::year_month_day next{std::chrono::sys_days{*day_from(day)} + std::chrono::days{1}};
  const auto two = [](unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); };
  return std::to_string(int(next.year())) + two(unsigned(next.month())) + two(unsigned(next.day()));
}

// "173000" of "17:30"; "" if it is no time of day.
std::string basic_time(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return "";
  const auto moment = basic_moment("2000-01-01T" + std::string(text) + ":00Z");
  return moment ? moment->substr(9, 6) : "";
}

bool is_id(std::string_view id) {
  return !id.empty() && id.size() <= 100 && std::all_of(id.begin(), id.end(), [](char sign) {
    return (sign >= '0' && sign <= '9') || (sign >= 'a' && sign <= 'z') || (sign >= 'A' && sign <= 'Z') ||
           sign == '-' || sign == '_' || sign == '.';
  });
}

struct Entry {
  std::string id, summary, description;
  std::string begins, lasts;  // whole properties
};

void add_entry(std::string& calendar, const std::string& stamp, const Entry& entry) {
  add_line(calendar, "BEGIN:VEVENT");
  add_line(calendar, "UID:" + entry.id + "@strikewright.invalid");
  add_line(calendar, "DTSTAMP:" + stamp);
  add_line(calendar, entry.begins);
  add_line(calendar, entry.lasts);
  add_line(calendar, "SUMMARY:" + text_value(entry.summary));
  add_line(calendar, "DESCRIPTION:" + text_value(entry.description));
  // Practice makes nobody unreachable.
  add_line(calendar, "TRANSP:TRANSPARENT");
  add_line(calendar, "END:VEVENT");
}

Result<void> check_facts(const CalendarFacts& facts) {
  if (words_of(facts.language) == nullptr)
    return fault("calendar.language", quoted(facts.language), "one of the sheet's languages");
  if (!basic_moment(facts.made_at))
    return fault("calendar.made_at", quoted(facts.made_at), "a moment in UTC, YYYY-MM-DDThh:mm:ssZ");
  if (!facts.at.empty() && basic_time(facts.at).empty())
    return fault("calendar.at", quoted(facts.at), "a time of day, hh:mm, or nothing");
  if (!is_utf8(facts.title)) return fault("calendar.title", quoted(facts.title), "text in UTF-8");
  if (facts.next_lesson.empty()) return {};
  if (!day_from(facts.next_lesson))
    return fault("calendar.next_lesson", quoted(facts.next_lesson), "a day, YYYY-MM-DD, or nothing");
  if (!is_id(facts.lesson)) return fault("calendar.lesson", quoted(facts.lesson), "the id of the lesson");
  return {};
}

Result<void> check_sessions(std::span<const SheetSession> sessions) {
  if (sessions.empty()) return fault("calendar.sessions", "none", "at least one session");
  std::set<std::string_view> ids;
  for (std::size_t k = 0; k < sessions.size(); ++k) {
    const SheetSession& session = sessions[k];
    const std::string place = "calendar.sessions[" + std::to_string(k) + "]";
    if (!is_id(session.id))
      return fault(place + ".id", quoted(session.id), "letters, digits and - _ . only, at most 100");
    if (!ids.insert(session.id).second) return fault(place + ".id", quoted(session.id), "an id of its own");
    if (!day_from(session.day)) return fault(place + ".day", quoted(session.day), "a day, YYYY-MM-DD");
    if (session.minutes < 0 || session.minutes > 600)
      return fault(place + ".minutes", std::to_string(session.minutes), "0 to 600");
    if (!is_utf8(session.what)) return fault(place + ".what", quoted(session.what), "text in UTF-8");
  }
  return {};
}

Entry whole_day(const std::string& day) {
  return {{}, {}, {}, "DTSTART;VALUE=DATE:" + basic_day(day), "DTEND;VALUE=DATE:" + day_after(day)};
}

Entry entry_of(const SheetSession& session, const CalendarFacts& facts, const Words& words) {
  Entry entry = whole_day(session.day);
  if (!facts.at.empty()) {
    // Without a zone: the hour of wherever the pupil is (RFC 5545, 3.3.5, form 1).
    entry.begins = "DTSTART:" + basic_day(session.day) + "T" + basic_time(facts.at);
    entry.lasts = "DURATION:PT" + std::to_string(session.minutes > 0 ? session.minutes : kMinutes) + "M";
  }
  entry.id = session.id;
  entry.summary = facts.title.empty() ? words("calendar.session_plain")
                                      : words("calendar.session", {{"title", facts.title}});
  if (session.self_test) entry.summary = words("plan.test") + ": " + entry.summary;
  entry.description = session.what + (session.what.empty() ? "" : "\n\n") + words("calendar.caution");
  return entry;
}

}  // namespace

Result<std::string> calendar_of(std::span<const SheetSession> sessions, const CalendarFacts& facts) {
  Result<void> sound = check_facts(facts);
  if (sound) sound = check_sessions(sessions);
  if (!sound) return tl::unexpected(sound.error());
  const Words& words = *words_of(facts.language);
  const std::string stamp = *basic_moment(facts.made_at);
  std::string calendar;
  for (const char* line :
       {"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Strikewright//sheet//EN", "CALSCALE:GREGORIAN"})
    add_line(calendar, line);
  for (const SheetSession& session : sessions) add_entry(calendar, stamp, entry_of(session, facts, words));
  if (!facts.next_lesson.empty()) {
    Entry entry = whole_day(facts.next_lesson);
    entry.id = facts.lesson + ".next";
    entry.summary = words("calendar.lesson");
    entry.description = words("calendar.caution");
    add_entry(calendar, stamp, entry);
  }
  add_line(calendar, "END:VCALENDAR");
  return calendar;
}

}  // namespace strikewright
