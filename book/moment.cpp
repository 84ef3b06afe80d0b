#include "book/moment.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <chrono>

#include "quantity/number.hpp"

namespace strikewright::kept {
namespace {

/// Takes what a pattern says from the front of a text: 'd' is a digit, anything else itself.
bool takes(std::string_view& text, std::string_view pattern) {
  if (text.size() < pattern.size()) return false;
  for (std::size_t k = 0; k < pattern.size(); ++k) {
    const bool digit = text[k] >= '0' && text[k] <= '9';
    if (pattern[k] == 'd' ? !digit : text[k] != pattern[k]) return false;
  }
  text.remove_prefix(pattern.size());
  return true;
}

int two(std::string_view text, std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); }

std::optional<double> day_of(std::string_view text) {
  using namespace std::chrono;
  const year_month_day day{year(two(text, 0) * 100 + two(text, 2)),
                           month(static_cast<unsigned>(two(text, 5))),
                           std::chrono::day(static_cast<unsigned>(two(text, 8)))};
  if (!day.ok()) return std::nullopt;
  return 86400.0 * static_cast<double>(sys_days(day).time_since_epoch().count());
}

/// ":SS.fff", if it is there; nothing when it is there and wrong.
std::optional<double> seconds_of(std::string_view& text) {
  const std::string_view begun = text;
  if (!takes(text, ":dd")) return 0.0;
  if (two(begun, 1) > 60) return std::nullopt;
  if (takes(text, ".d")) {
    while (takes(text, "d")) {
    }
  }
  return leading_number(begun.substr(1, begun.size() - text.size() - 1))->value;
}

std::optional<double> zone_of(std::string_view text) {
  if (text.empty() || text == "Z") return 0.0;
  const std::string_view zone = text;
  if ((!takes(text, "+dd:dd") && !takes(text, "-dd:dd")) || !text.empty()) return std::nullopt;
  if (two(zone, 1) > 23 || two(zone, 4) > 59) return std::nullopt;
  const double ahead = 3600.0 * two(zone, 1) + 60.0 * two(zone, 4);
  return zone.front() == '+' ? ahead : -ahead;
}

}  // namespace

std::optional<double> moment_of(std::string_view text) {
  const std::string_view date = text;
  if (!takes(text, "dddd-dd-dd")) return std::nullopt;
  const std::optional<double> day = day_of(date);
  if (!day || text.empty()) return day;
  if (text.front() != 'T' && text.front() != ' ') return std::nullopt;
  text.remove_prefix(1);
  const std::string_view clock = text;
  if (!takes(text, "dd:dd") || two(clock, 0) > 23 || two(clock, 3) > 59) return std::nullopt;
  const std::optional<double> seconds = seconds_of(text);
  const std::optional<double> zone = zone_of(text);
  if (!seconds || !zone) return std::nullopt;
  return *day + 3600.0 * two(clock, 0) + 60.0 * two(clock, 3) + *seconds - *zone;
}

std::string now_text() {
  using namespace std::chrono;
  const auto now = floor<milliseconds>(system_clock::now());
  const auto second = floor<seconds>(now);
  return fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:03}Z", fmt::gmtime(system_clock::to_time_t(second)),
                     (now - second).count());
}

}  // namespace strikewright::kept
