#include "verbs/demo_verb.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "bag/generic.hpp"
#include "verbs/invent.hpp"

namespace strikewright {
namespace {

/// Some swings of one invented lesson, all made in one way. Lengths in mm, angles in degrees.
struct Spell {
  const char* condition;
  std::size_t swings;
  std::uint64_t seed;
  double low_point, plane_direction, shaft_lean;
  const char* purpose = "";  ///< book/book.hpp, KeptSwing
};

struct InventedGiven {
  const char* exercise = "";  ///< name in the catalogue, "" = none
  const char* cause = "";
  const char* ended_at = "";
};

struct InventedLesson {
  const char *id, *date, *club, *surface, *notes;
  std::vector<Spell> spells;
  InventedGiven given;
};

struct InventedPupil {
  Pupil pupil;
  Skill skill;
  std::vector<InventedLesson> lessons;
};

// Nobody here is real. The low points move as a coach hopes; the swings around them are drawn. Of forty seeds
// some were taken in which the strike gets better with the low point, as most would have it.
InventedPupil osk() {
  return {{.id = "demo-osk",
           .name = "Osk Marrable",
           .hand = "right",
           .skill = "club",
           .height_m = 1.81,
           .birth_year = 1979,
           .notes = "Invented. Hits one clean and the next one fat. Plays on Saturdays."},
          Skill::club,
          {{"demo-osk-1",
            "2026-09-05T10:00",
            "7i",
            "fairway",
            "First lesson.",
            {{"normal", 10, 11, -25, -3, -1}, {"lead_leg", 3, 12, 30, -3, 2}},
            {"strike_turf_trail_then_lead", "weight", "2026-09-19T10:00:00Z"}},
           {"demo-osk-2",
            "2026-09-19T10:00",
            "7i",
            "fairway",
            "",
            {{"normal", 10, 17, -45, -2, -1},
             {"lead_leg", 8, 15, 22, -2, 2, "exercise"},
             {"normal", 12, 25, 25, -2, 3, "after"}},
            {"lead_leg_only", "weight", "2026-10-17T10:30:00Z"}},
           {"demo-osk-3",
            "2026-10-17T10:30",
            "7i",
            "fairway_soft",
            "Wet ground.",
            {{"normal", 12, 40, 25, -1, 3, "retention"}},
            {"divot_after_line", "weight", ""}}}};
}

InventedPupil linnet() {
  return {{.id = "demo-linnet",
           .name = "Linnet Voss",
           .hand = "left",
           .skill = "county",
           .height_m = 1.68,
           .birth_year = 1994,
           .notes = "Invented. Left-handed; her ball draws too much.",
           .cautions = "Left knee: no swings on that leg alone."},
          Skill::county,
          {{"demo-linnet-1", "2026-09-26T16:00", "8i", "fairway", "", {{"normal", 10, 21, 28, 4, 5}}, {}},
           {"demo-linnet-2",
            "2026-10-24T16:00",
            "8i",
            "fairway",
            "",
            {{"normal", 9, 22, 36, 2, 5}, {"feet_together", 3, 23, 22, 2, 4}},
            {"handle_lead_side_of_stick", "handle", ""}}}};
}

InventedPupil tam() {
  return {{.id = "demo-tam",
           .name = "Tam Quillery",
           .hand = "right",
           .skill = "beginner",
           .birth_year = 2013,
           .notes = "Invented. Junior, just begun.",
           .guardian = "Wren Quillery, at every practice",
           .consent_at = "2026-11-07",
           .weekly_balls = 60,
           .next_lesson_at = "2026-11-21"},
          Skill::beginner,
          {{"demo-tam-1",
            "2026-11-07T11:00",
            "9i",
            "fairway",
            "Half an hour only.",
            {{"normal", 6, 31, -20, 0, -2}},
            {"chalk_line_no_ball", "weight", ""}}}};
}

std::vector<InventedPupil> invented_pupils() { return {osk(), linnet(), tam()}; }

InventOptions options_of(const InventedPupil& who, const InventedLesson& lesson, const Spell& spell) {
  InventOptions o;
  o.setting.club = *club_named(generic_bag(), lesson.club);
  o.setting.ground.surface =
      std::string_view(lesson.surface) == "fairway" ? Surface::fairway : Surface::fairway_soft;
  o.hand = who.pupil.hand == "left" ? Hand::left : Hand::right;
  o.skill = who.skill;
  o.swings = spell.swings;
  o.seed = spell.seed;
  o.pattern.at[1] = spell.plane_direction * kDegree;
  o.pattern.at[3] = spell.low_point * 1e-3;
  o.pattern.at[5] = spell.shaft_lean * kDegree;
  return o;
}

/// A minute and a half after the other.
std::string time_of(const InventedLesson& lesson, int swing) {
  const std::string date = lesson.date;
  const int from = std::stoi(date.substr(11, 2)) * 3600 + std::stoi(date.substr(14, 2)) * 60;
  const int at = from + 90 * swing;
  return fmt::format("{}T{:02}:{:02}:{:02}Z", date.substr(0, 10), at / 3600, at / 60 % 60, at % 60);
}

Id given_id(const InventedLesson& lesson) { return std::string(lesson.id) + "-given"; }

/// The exercise that a ball belongs to: this lesson's, or for a later look the one of the lesson before.
Id given_for(const InventedPupil& who, const InventedLesson& lesson, const std::string& purpose) {
  const auto here = std::find_if(who.lessons.begin(), who.lessons.end(),
                                 [&](const InventedLesson& l) { return l.id == lesson.id; });
  return given_id(purpose == "retention" ? *(here - 1) : *here);
}

std::vector<KeptSwing> swings_of(const InventedPupil& who, const InventedLesson& lesson) {
  std::vector<KeptSwing> out;
  for (const Spell& spell : lesson.spells) {
    const InventOptions options = options_of(who, lesson, spell);
    for (const InventedSwing& invented : invent(options)) {
      const int number = static_cast<int>(out.size()) + 1;
      KeptSwing swing{.id = fmt::format("{}-{}", lesson.id, number),
                      .lesson = lesson.id,
                      .club = lesson.club,
                      .condition = spell.condition,
                      .surface = lesson.surface,
                      .at = time_of(lesson, number),
                      .purpose = spell.purpose};
      if (!swing.purpose.empty()) swing.given = given_for(who, lesson, swing.purpose);
      for (WrittenSighting& seen : written(invented, options.hand))
        swing.seen.push_back({std::move(seen.column), std::move(seen.text)});
      out.push_back(std::move(swing));
    }
  }
  return out;
}

Result<void> keep_given(Book& book, const InventedPupil& who, const InventedLesson& lesson) {
  if (std::string_view(lesson.given.exercise).empty()) return {};
  const std::string at = time_of(lesson, 12);
  return book.keep(Given{
      .id = given_id(lesson),
      .pupil = who.pupil.id,
      .lesson = lesson.id,
      .exercise = lesson.given.exercise,
      .at = at,
      .notes = "",
      .dose = "",
      .cause = lesson.given.cause,
      .why = "",
      .ended_at = lesson.given.ended_at,
      .sheet = fmt::format(R"({{"language":"{}","paper":"a4","made_at":"{}"}})", who.pupil.language, at)});
}

Result<void> keep_lesson(Book& book, const InventedPupil& who, const InventedLesson& lesson) {
  constexpr const char* kWho = "demo";
  const auto kept = book.keep(Lesson{.id = lesson.id,
                                     .pupil = who.pupil.id,
                                     .begun_at = time_of(lesson, 0),
                                     .place = "Quarry Hollow (invented)",
                                     .notes = lesson.notes,
                                     .club = lesson.club,
                                     .surface = lesson.surface},
                              kWho);
  if (!kept) return unexpected(kept.error());
  // Before the balls that belong to it.
  if (const auto given = keep_given(book, who, lesson); !given) return given;
  const auto swings = book.keep_all(swings_of(who, lesson), kWho);
  if (!swings) return unexpected(swings.error());
  return {};
}

Result<void> keep_pupil(Book& book, const InventedPupil& who) {
  Pupil pupil = who.pupil;
  pupil.made_at = time_of(who.lessons.front(), 0);
  if (const auto kept = book.keep(pupil, "demo"); !kept) return kept;
  for (const InventedLesson& lesson : who.lessons)
    if (const auto kept = keep_lesson(book, who, lesson); !kept) return kept;
  return {};
}

}  // namespace

Result<int> fill_demo(Book& book) {
  const auto there = book.pupils("", 1, 0);
  if (!there) return unexpected(there.error());
  if (!there->empty())
    return unexpected(
        Fault{"book", "a book with pupils", "an empty one: the demo mixes with nobody's records"});
  int count = 0;
  for (const InventedPupil& who : invented_pupils()) {
    if (const auto kept = keep_pupil(book, who); !kept) {
      // All or nothing: what came in before the fault goes again.
      for (const InventedPupil& made : invented_pupils()) (void)book.erase_pupil(made.pupil.id);
      return unexpected(kept.error());
    }
    ++count;
  }
  return count;
}

}  // namespace strikewright
