#include "serve/sensible.hpp"

#include <charconv>

#include "bag/generic.hpp"
#include "sighting/table.hpp"
#include "verbs/read_lesson.hpp"

namespace strikewright {
namespace {

constexpr std::string_view kFile = "swings";

/// "swings:3:5, carry_m" -> "carry_m of swing s-2": row k is line k + 2.
std::string place_in_book(const std::string& place, const std::vector<KeptSwing>& swings) {
  const std::string_view text = place;
  if (!text.starts_with(kFile)) return place;
  std::size_t line = 0;
  const char* from = text.data() + std::min(kFile.size() + 1, text.size());
  std::from_chars(from, text.data() + text.size(), line);
  const std::size_t comma = text.find(", ");
  const std::string column = comma == std::string_view::npos ? "a sighting" : place.substr(comma + 2);
  if (line >= 2 && line - 2 < swings.size()) return column + " of swing " + swings[line - 2].id;
  // In the row of names: the swing that has such a column.
  for (const KeptSwing& swing : swings)
    for (const Entered& one : swing.seen)
      if (one.column == column) return column + " of swing " + swing.id;
  return column;
}

std::vector<Fault> faults_of(const std::string& csv, const std::vector<KeptSwing>& swings) {
  TableReader reader{{.file = std::string(kFile)}, [](SeenSwing&&) {}};
  static_cast<void>(reader.feed(csv));
  static_cast<void>(reader.finish());
  std::vector<Fault> out = reader.faults();
  for (Fault& fault : out) fault.place = place_in_book(fault.place, swings);
  return out;
}

}  // namespace

std::vector<Fault> not_readable(const Pupil& pupil, const std::vector<KeptSwing>& swings) {
  std::vector<Fault> out = faults_of(sightings_csv(pupil, Settings{}, swings), swings);
  const Result<LessonOptions> options = options_for({.csv = {}, .skill = pupil.skill, .bag = pupil.bag});
  if (!options || !out.empty()) return out;
  for (const KeptSwing& swing : swings)
    if (const Result<Club> club = club_named(options->bag, swing.club, "club of swing " + swing.id); !club)
      out.push_back(club.error());
  return out;
}

std::vector<Fault> not_readable(const Pupil& pupil) {
  const Result<LessonOptions> options = options_for({.csv = {}, .skill = pupil.skill, .bag = pupil.bag});
  return options ? std::vector<Fault>{} : std::vector<Fault>{options.error()};
}

std::vector<Fault> not_readable(const Settings& settings) {
  std::vector<Fault> out;
  for (const auto& [column, text] : settings.sure) {
    // A figure beside it, so that it belongs to something; whether that figure is likely is not the question.
    const std::string own = "sure_" + column;
    const std::vector<KeptSwing> one{{.id = "eye", .lesson = "eye", .seen = {{own, text}, {column, "10"}}}};
    for (const Fault& fault : faults_of(sightings_csv(Pupil{}, Settings{}, one), one))
      if (fault.place.starts_with(own) || fault.found.find(column) != std::string::npos)
        out.push_back({"sure." + column, fault.found, fault.expected});
  }
  return out;
}

}  // namespace strikewright
