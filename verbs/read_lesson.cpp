#include "verbs/read_lesson.hpp"

#include "bag/generic.hpp"
#include "bag/json.hpp"

namespace strikewright {
namespace {

/// Is there a line below the names that is no remark and not blank?
bool has_rows(std::string_view csv) {
  int lines = 0;
  while (!csv.empty()) {
    const std::size_t end = std::min(csv.find_first_of("\r\n"), csv.size());
    const std::string_view line = csv.substr(0, end);
    if (line.find_first_not_of(" ,\t") != std::string_view::npos && line.front() != '#') ++lines;
    csv.remove_prefix(std::min(end + 1, csv.size()));
  }
  return lines > 1;
}

}  // namespace

Result<LessonOptions> options_for(const ReadingAsked& asked) {
  LessonOptions options;
  options.bag = generic_bag();
  if (!asked.bag.empty()) {
    const Result<std::vector<Club>> own = bag_from_json(asked.bag, "bag");
    if (!own) return unexpected(own.error());
    options.bag = *own;
  }
  const Result<Skill> skill = skill_named(asked.skill, "skill");
  if (!skill) return unexpected(skill.error());
  if (asked.from != "usual" && asked.from != "best")
    return unexpected(Fault{"from", "'" + asked.from + "'", "usual or best"});
  options.skill = *skill;
  options.threads = asked.threads;
  options.fit.memory = asked.memory;
  options.decided_by = asked.skill + ' ' + asked.bag;
  return options;
}

Answer<ReadLesson> lesson_read(const ReadingAsked& asked, const LessonOptions& options) {
  constexpr std::size_t kMost = 2000;
  ReadLesson out;
  if (!has_rows(asked.csv)) return out;
  TableReader reader(TableOptions{.file = asked.name, .most_rows = kMost},
                     [&](SeenSwing&& swing) { out.seen.push_back(std::move(swing)); });
  (void)reader.feed(asked.csv);  // a fault of it comes back from finish()
  if (const Result<std::size_t> rows = reader.finish(); !rows) {
    std::vector<Fault> faults = reader.faults();
    if (faults.empty()) faults.push_back(rows.error());
    return tl::unexpected<std::vector<Fault>>(std::move(faults));
  }
  Result<LessonReading> lesson = read_lesson(out.seen, options, asked.name);
  if (!lesson) return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{lesson.error()});
  out.lesson = std::move(*lesson);
  const From from = asked.from == "best" ? From::best : From::usual;
  for (const Group& group : out.lesson.groups)
    out.all.push_back(explained(group, out.lesson, out.seen, options, from, false));
  return out;
}

}  // namespace strikewright
