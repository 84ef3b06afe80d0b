#include "sheet/days.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "quantity/angle.hpp"

namespace strikewright {
namespace {

// `count` digits at the front of `text`, -1 if there are not.
int digits(std::string_view text, std::size_t at, std::size_t count) {
  if (text.size() < at + count) return -1;
  int value = 0;
  for (const char sign : text.substr(at, count)) {
    if (sign < '0' || sign > '9') return -1;
    value = 10 * value + (sign - '0');
  }
  return value;
}

std::string decimal(double value, int places, const Words& words) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  std::string said = text;
  std::replace(said.begin(), said.end(), '.', words("number.decimal")[0]);
  return said;
}

}  // namespace

std::optional<std::chrono::year_month_day> day_from(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const int year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
  if (year < 1900 || year > 2199 || month < 1 || day < 1) return std::nullopt;
  const std::chrono::year_month_day found{std::chrono::year{year}, std::chrono::month{unsigned(month)},
                                          std::chrono::day{unsigned(day)}};
  return found.ok() ? std::optional(found) : std::nullopt;
}

std::optional<std::string> basic_moment(std::string_view text) {
  if (text.size() < 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text.back() != 'Z')
    return std::nullopt;
  const int hour = digits(text, 11, 2), minute = digits(text, 14, 2), second = digits(text, 17, 2);
  if (!day_from(text.substr(0, 10)) || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 ||
      second > 59)
    return std::nullopt;
  const std::string_view fraction = text.substr(19, text.size() - 20);
  if (!fraction.empty() && (fraction.size() < 2 || fraction[0] != '.' ||
                            fraction.find_first_not_of("0123456789", 1) != std::string_view::npos))
    return std::nullopt;
  std::string basic;
  for (const char sign : text.substr(0, 19))
    if (sign != '-' && sign != ':') basic += sign;
  return basic + "Z";
}

std::string day_in_words(std::string_view day, std::string_view key, const Words& words) {
  const auto date = day_from(day);
  ensure(date.has_value(), "a day was checked before it is written");
  const std::chrono::weekday weekday{std::chrono::sys_days{*date}};
  return words(key, {{"weekday", words("weekday." + std::to_string(weekday.iso_encoding()))},
                     {"day", std::to_string(unsigned(date->day()))},
                     {"month", words("month." + std::to_string(unsigned(date->month())))},
                     {"year", std::to_string(int(date->year()))}});
}

std::string length_in_words(double mm, UnitSystem units, const Words& words) {
  const bool metric = units == UnitSystem::metric;
  const double shown = std::abs(mm) / (metric ? 10.0 : 1000.0 * kInch);
  // The narrow blank that does not break keeps figure and unit in one piece.
  return decimal(shown, shown < 9.95 ? 1 : 0, words) + "\u00a0" + (metric ? "cm" : words("unit.inch"));
}

std::string place_in_words(double mm, bool ball, UnitSystem units, const Words& words) {
  const std::string of = ball ? "" : "_line";
  // Half a millimetre (assumption): nearer nobody sees, and it would be written as "0.0 cm".
  if (std::abs(mm) < (units == UnitSystem::metric ? 0.5 : 1.27)) return words("place.level" + of);
  return words((mm > 0 ? "place.ahead" : "place.behind") + of,
               {{"length", length_in_words(mm, units, words)}});
}

std::vector<std::string> picture_in_words(const SheetPicture& picture, UnitSystem units, const Words& words) {
  const auto place = [&](double mm) { return place_in_words(mm, picture.ball, units, words); };
  const SheetSpan& low = picture.low_point_mm;
  std::vector<std::string> said{
      words("picture.low", {{"mean", place(low.mean)}, {"p10", place(low.p10)}, {"p90", place(low.p90)}})};
  if (picture.aim_mm) {
    const auto& [from, to] = *picture.aim_mm;
    said.push_back(words("picture.aim_says", {{"from", place(from)}, {"to", place(to)}}));
  }
  if (picture.handle_lead_mm)
    said.push_back(words("picture.hands_says", {{"lead", place(*picture.handle_lead_mm)}}));
  if (picture.shaft_lean_deg) {
    const double lean = picture.shaft_lean_deg->mean;
    const std::string angle = decimal(std::abs(lean), 0, words);
    const std::string way = angle == "0" ? words("lean.upright")
                                         : words(lean > 0 ? "lean.forward" : "lean.back", {{"angle", angle}});
    said.push_back(words("picture.lean_says", {{"lean", way}}));
  }
  return said;
}

std::string picture_alt(const SheetPicture& picture, const Words& words) {
  const auto drawn = std::count_if(picture.divots.begin(), picture.divots.end(),
                                   [](const SheetDivot& divot) { return divot.start_mm && divot.end_mm; });
  return words("picture.alt", {{"divots", std::to_string(drawn)}});
}

}  // namespace strikewright
