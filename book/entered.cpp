#include "book/entered.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/faults.hpp"
#include "book/json_text.hpp"
#include "book/moment.hpp"
#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "quantity/utf8.hpp"

namespace strikewright::kept {
namespace {

constexpr std::size_t kLongestId = 40, kLongestCell = 200, kLargestDocument = 8u << 20, kLargestNote = 10'000,
                      kLargestExercise = 1u << 19;

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7f;
}

bool is_column(const std::string& name) {
  const auto good = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  return !name.empty() && name.size() <= kLongestId && std::all_of(name.begin(), name.end(), good);
}

/// "" where the skill is one; the core knows what a handicap may be.
bool is_skill(const std::string& text) {
  static const std::vector<std::string> words{"beginner", "club", "county", "tour"};
  if (std::find(words.begin(), words.end(), text) != words.end()) return true;
  const Result<double> handicap = plain_number(text, "", "skill");
  return handicap && *handicap >= -10.0 && *handicap <= 60.0;
}

Result<void> verdict(const Fields& fields) {
  if (fields.fault()) return unexpected(*fields.fault());
  return {};
}

/// These are members of the swing itself.
bool is_member(const std::string& column) {
  static const std::vector<std::string> members{"club", "condition", "ball", "surface", "hand", "time"};
  return std::find(members.begin(), members.end(), column) != members.end();
}

void fit_seen(Fields& fields, const std::vector<Entered>& seen) {
  for (std::size_t k = 0; k < seen.size(); ++k) {
    const std::string& column = seen[k].column;
    if (!is_column(column) || is_member(column))
      fields.wrong("seen", quoted(column), "a column of the sightings file, such as divot_start_mm");
    fields.line(column.c_str(), seen[k].text, kLongestCell);
    const auto before = seen.begin() + static_cast<std::ptrdiff_t>(k);
    if (std::any_of(seen.begin(), before, [&](const Entered& e) { return e.column == column; }))
      fields.wrong("seen", quoted(column) + " twice", "every column once");
  }
}

/// Which languages and papers there are is not known here.
void fit_sheet(Fields& fields, const std::string& text) {
  for (const char* key : {"language", "paper", "made_at"}) {
    if (text_under(text, key).value_or("").empty())
      fields.wrong("sheet", quoted(text), fmt::format("a text under '{}'", key));
  }
  fields.time("sheet", text_under(text, "made_at").value_or(""));
}

}  // namespace

bool is_id(std::string_view text) {
  const auto good = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  return !text.empty() && text.size() <= kLongestId && std::all_of(text.begin(), text.end(), good);
}

Fields::Fields(const std::string& kind, const Id& id) : record_{called(kind, id)} { this->id("id", id); }

Fields& Fields::wrong(const char* field, std::string found, std::string expected) {
  if (!fault_) fault_ = Fault{std::string(field) + " of " + record_, std::move(found), std::move(expected)};
  return *this;
}

Fields& Fields::id(const char* field, const std::string& text) {
  return is_id(text) ? *this : wrong(field, quoted(text), "1 to 40 of the letters a-z, figures and -");
}

Fields& Fields::maybe_id(const char* field, const std::string& text) {
  return text.empty() ? *this : id(field, text);
}

Fields& Fields::prose(const char* field, const std::string& text, std::size_t most) {
  if (text.size() > most)
    return wrong(field, fmt::format("{} bytes", text.size()), fmt::format("at most {}", most));
  if (!is_utf8(text)) return wrong(field, quoted(text) + ", which is not UTF-8", "text in UTF-8");
  const auto foreign = [](char c) { return is_control(c) && c != '\n' && c != '\r' && c != '\t'; };
  if (std::any_of(text.begin(), text.end(), foreign))
    return wrong(field, quoted(text) + " with control characters", "text that can be shown");
  return *this;
}

Fields& Fields::line(const char* field, const std::string& text, std::size_t most) {
  prose(field, text, most);
  if (std::any_of(text.begin(), text.end(), is_control))
    return wrong(field, quoted(text) + " with a line's end or a tab", "one line");
  return *this;
}

Fields& Fields::word(const char* field, const std::string& text) {
  if (trimmed(text).empty()) return wrong(field, "nothing", "a word");
  return line(field, text, 100);
}

Fields& Fields::time(const char* field, const std::string& text) {
  if (text.empty() || moment_of(text)) return *this;
  return wrong(field, quoted(text), "a time such as 2026-11-25T10:30:00Z");
}

Fields& Fields::day(const char* field, const std::string& text) {
  const std::size_t length = std::string_view("2026-12-03").size();
  if (text.empty() || (text.size() == length && moment_of(text))) return *this;
  return wrong(field, quoted(text), "a day such as 2026-12-03");
}

Fields& Fields::letters(const char* field, const std::string& text, std::size_t least, std::size_t most) {
  const bool good = std::all_of(text.begin(), text.end(), [](char c) { return c >= 'a' && c <= 'z'; });
  if (good && text.size() >= least && text.size() <= most) return *this;
  return wrong(field, quoted(text), fmt::format("{} to {} of the letters a-z", least, most));
}

Fields& Fields::json_object(const char* field, const std::string& text) {
  prose(field, text, kLargestNote);
  if (text.empty() || is_json_object(text)) return *this;
  return wrong(field, quoted(text), "a JSON object { } as a text, or nothing");
}

Fields& Fields::one_of(const char* field, const std::string& text, const std::vector<std::string>& words) {
  if (std::find(words.begin(), words.end(), text) != words.end()) return *this;
  return wrong(field, quoted(text), fmt::format("{}", fmt::join(words, " or ")) + suggestion(text, words));
}

Fields& Fields::within(const char* field, std::optional<double> number, double low, double high) {
  if (!number || (*number >= low && *number <= high)) return *this;
  return wrong(field, fmt::format("{}", *number), fmt::format("{} to {}", low, high));
}

Result<void> fit(const Settings& settings) {
  Fields fields("settings", "own");
  fields.one_of("units", settings.units, {"metric", "yards"})
      .one_of("from", settings.from, {"usual", "best"})
      .line("place", settings.place)
      .word("surface", settings.surface);
  for (const auto& [column, sd] : settings.sure) {
    if (!is_column(column) || is_member(column))
      fields.wrong("sure", quoted(column), "a column of the sightings file, such as carry_m");
    const Result<double> number = plain_number(sd, "", "sure");
    if (!number || *number <= 0.0)
      fields.wrong("sure", quoted(column) + " with " + quoted(sd), "a standard deviation above 0");
  }
  return verdict(fields);
}

Result<void> fit(const Pupil& pupil) {
  Fields fields("pupil", pupil.id);
  if (trimmed(pupil.name).empty()) fields.wrong("name", "nothing", "a name");
  fields.line("name", pupil.name)
      .one_of("hand", pupil.hand, {"right", "left"})
      .line("skill", pupil.skill, 40)
      .within("height_m", pupil.height_m, 0.5, 2.5)
      .within("birth_year", pupil.birth_year, 1900, 2100)
      .prose("notes", pupil.notes)
      .prose("cautions", pupil.cautions)
      .prose("bag", pupil.bag, 1u << 20)
      .time("made_at", pupil.made_at)
      .letters("language", pupil.language, 2, 8)
      .prose("guardian", pupil.guardian)
      .day("consent_at", pupil.consent_at)
      .within("weekly_balls", pupil.weekly_balls, 0, 2000)
      .day("next_lesson_at", pupil.next_lesson_at);
  if (!is_skill(pupil.skill))
    fields.wrong("skill", quoted(pupil.skill), "beginner, club, county, tour or a handicap such as 18 or +2");
  return verdict(fields);
}

Result<void> fit(const Lesson& lesson) {
  Fields fields("lesson", lesson.id);
  fields.id("pupil", lesson.pupil)
      .time("begun_at", lesson.begun_at)
      .line("place", lesson.place)
      .prose("notes", lesson.notes)
      .word("club", lesson.club)
      .word("condition", lesson.condition)
      .word("surface", lesson.surface);
  return verdict(fields);
}

Result<void> fit(const KeptSwing& swing) {
  Fields fields("swing", swing.id);
  fields.id("lesson", swing.lesson)
      .word("club", swing.club)
      .word("condition", swing.condition)
      .word("surface", swing.surface)
      .time("at", swing.at)
      .maybe_id("given", swing.given);
  if (!swing.purpose.empty())
    fields.one_of("purpose", swing.purpose,
                  {"baseline", "exercise", "after", "retention", "transfer", "pressure"});
  fit_seen(fields, swing.seen);
  return verdict(fields);
}

Result<void> fit(const KeptReading& reading) {
  Fields fields("reading of lesson", reading.lesson);
  fields.one_of("from", reading.from, {"usual", "best"})
      .word("version", reading.version)
      .time("made_at", reading.made_at)
      .prose("document", reading.document, kLargestDocument)
      .prose("summary", reading.summary, kLargestDocument);
  return verdict(fields);
}

Result<void> fit(const Given& given) {
  Fields fields("given", given.id);
  fields.id("pupil", given.pupil)
      .maybe_id("lesson", given.lesson)
      .line("exercise", given.exercise)
      .time("at", given.at)
      .prose("notes", given.notes)
      .json_object("dose", given.dose)
      .line("cause", given.cause, 100)
      .prose("why", given.why)
      .time("ended_at", given.ended_at)
      .json_object("sheet", given.sheet);
  if (!fields.fault() && !given.sheet.empty()) fit_sheet(fields, given.sheet);
  return verdict(fields);
}

Result<void> fit(const OwnExercise& exercise) {
  Fields fields("own exercise", exercise.id);
  fields.prose("document", exercise.document, kLargestExercise).time("made_at", exercise.made_at);
  if (!fields.fault() && !is_json(exercise.document))
    fields.wrong("document", quoted(exercise.document), "JSON");
  return verdict(fields);
}

Result<void> fit(const Book::Device& device) {
  Fields fields("device", device.id);
  fields.line("name", device.name)
      .word("token_hash", device.token_hash)
      .time("paired_at", device.paired_at)
      .time("seen_at", device.seen_at);
  return verdict(fields);
}

Result<void> fit_who(const std::string& who) {
  Fields fields("change", "of-a-record");
  fields.line("who", who);
  return verdict(fields);
}

std::vector<Entered> told(const std::vector<Entered>& seen) {
  std::vector<Entered> out;
  std::copy_if(seen.begin(), seen.end(), std::back_inserter(out),
               [](const Entered& e) { return !trimmed(e.text).empty(); });
  return out;
}

}  // namespace strikewright::kept
