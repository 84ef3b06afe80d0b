#include "verbs/lesson_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

namespace strikewright {
namespace {

constexpr int kTries = 5;

/// `digits` of the text from `at` as a number; nothing where there are others.
std::optional<int> digits_at(const std::string& text, std::size_t at, std::size_t digits) {
  int out = 0;
  for (std::size_t k = at; k < at + digits; ++k) {
    if (text[k] < '0' || text[k] > '9') return std::nullopt;
    out = 10 * out + (text[k] - '0');
  }
  return out;
}

}  // namespace

Result<LessonFile> lesson_file(Book& book, const Id& id) {
  Result<Lesson> lesson = book.lesson(id);
  for (int k = 0; k < kTries && lesson; ++k) {
    Result<Pupil> pupil = book.pupil(lesson->pupil);
    if (!pupil) return unexpected(pupil.error());
    Result<Settings> settings = book.settings();
    if (!settings) return unexpected(settings.error());
    Result<std::vector<KeptSwing>> swings = book.swings_of(id);
    if (!swings) return unexpected(swings.error());
    const Lesson before = *lesson;
    lesson = book.lesson(id);
    // Somebody enters at the same time: the revision must be that of the swings.
    if (lesson && lesson->revision == before.revision)
      return LessonFile{*std::move(pupil), *std::move(settings), before, *std::move(swings)};
  }
  if (!lesson) return unexpected(lesson.error());
  return unexpected(
      Fault{"lesson " + id, "changes that come faster than they can be read", "a moment's rest"});
}

std::vector<KeptSwing> swings_read(const std::vector<KeptSwing>& swings) {
  std::vector<KeptSwing> out;
  std::copy_if(swings.begin(), swings.end(), std::back_inserter(out),
               [](const KeptSwing& s) { return s.purpose != "exercise" && s.purpose != "after"; });
  return out;
}

ReadingAsked reading_asked(const LessonFile& file, const std::string& units) {
  const std::vector<KeptSwing> swings = swings_read(file.swings);
  ReadingAsked asked{.csv = sightings_csv(file.pupil, file.settings, swings),
                     .name = "lesson",
                     .skill = file.pupil.skill,
                     .bag = file.pupil.bag,
                     .from = file.settings.from,
                     .units = units.empty() ? file.settings.units : units};
  for (const KeptSwing& swing : swings) {
    asked.ids.push_back(swing.id);
    asked.numbers.push_back(swing.number);
  }
  asked.left_out = file.swings.size() - swings.size();
  return asked;
}

Result<void> check_units(const std::string& units) {
  if (units.empty() || units == "metric" || units == "yards") return {};
  return unexpected(Fault{"units", "'" + units + "'", "metric or yards"});
}

UnitSystem units_of(const Settings& settings, const std::string& units) {
  return (units.empty() ? settings.units : units) == "yards" ? UnitSystem::yards : UnitSystem::metric;
}

std::optional<int> day_number(const std::string& time) {
  constexpr std::size_t kDay = 10;  // "2026-11-25"
  if (time.size() < kDay || time[4] != '-' || time[7] != '-') return std::nullopt;
  const auto year = digits_at(time, 0, 4), month = digits_at(time, 5, 2), day = digits_at(time, 8, 2);
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{*year},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return static_cast<int>(std::chrono::sys_days{date}.time_since_epoch().count());
}

std::string day_text(int day) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

Surface surface_of(const std::string& name) {
  for (int k = 0; k <= static_cast<int>(Surface::tee); ++k)
    if (name == name_of(static_cast<Surface>(k))) return static_cast<Surface>(k);
  return Surface::fairway;
}

BodyNotes notes_of(const Pupil& pupil, const std::string& time) {
  const std::optional<int> day = day_number(time);
  std::optional<int> age;
  // The birthday is not known: this is the age reached in that year, at most one too many.
  if (day && pupil.birth_year) age = std::stoi(day_text(*day).substr(0, 4)) - *pupil.birth_year;
  return body_notes_of(pupil.cautions, age);
}

}  // namespace strikewright
