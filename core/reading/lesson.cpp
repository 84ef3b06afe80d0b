#include "reading/lesson.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "bag/generic.hpp"

namespace strikewright {

namespace {

/// What a setting depends on: swings alike in these share a prior and its reach.
using Alike = std::tuple<std::string, Hand, bool, Surface>;

struct Prepared {
  Setting setting;
  Prior prior;
  PriorReach reach;
};

Alike alike(const SeenSwing& s) { return {s.club, s.hand, s.ball, s.surface}; }

/// What was seen of a swing, to sort by.
std::vector<std::tuple<int, double, double, int>> contents_of(const SeenSwing& swing) {
  std::vector<std::tuple<int, double, double, int>> out{{-1, static_cast<double>(swing.condition), 0.0, 0}};
  for (const Sighting& s : swing.sightings) out.emplace_back(static_cast<int>(s.kind), s.value, s.sd, s.word);
  return out;
}

bool all_timed(const Group& group, const std::vector<SeenSwing>& swings) {
  return std::all_of(group.swings.begin(), group.swings.end(),
                     [&](std::size_t i) { return swings[i].time.has_value(); });
}

/// Everything of a swing that decides its fit, as text.
std::string key_of(const SeenSwing& s, const std::string& club, const LessonOptions& options) {
  std::string key = fmt::format("{}|{}|{}|{}|{}", options.decided_by, club, static_cast<int>(s.hand), s.ball,
                                static_cast<int>(s.surface));
  for (const Sighting& k : s.sightings)
    key += fmt::format("|{} {:a} {:a} {:a} {}", static_cast<int>(k.kind), k.value, k.sd, k.share, k.word);
  return key;
}

/// Swings of one club and hand, in the order of the file, sorted into conditions.
std::vector<Group> groups_of(const std::vector<SeenSwing>& swings,
                             const std::map<Alike, Prepared>& prepared) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < swings.size(); ++i) {
    const SeenSwing& s = swings[i];
    const Prepared& p = prepared.at(alike(s));
    const std::string& club = p.setting.club.name;
    auto at = std::find_if(groups.begin(), groups.end(),
                           [&](const Group& g) { return g.club == club && g.hand == s.hand; });
    if (at == groups.end()) {
      groups.push_back({club, s.hand, p.setting, p.prior, {}, {}, {}, {}});
      at = groups.end() - 1;
    }
    at->swings.push_back(i);
    if (std::find(at->conditions.begin(), at->conditions.end(), s.condition) == at->conditions.end())
      at->conditions.push_back(s.condition);
  }
  // In an order of their own, so that the file's does not matter to the draws: that of time, where all have
  // one.
  for (Group& g : groups) {
    const bool timed = all_timed(g, swings);
    std::stable_sort(g.swings.begin(), g.swings.end(), [&](std::size_t a, std::size_t b) {
      if (timed && swings[a].time != swings[b].time) return swings[a].time < swings[b].time;
      return contents_of(swings[a]) < contents_of(swings[b]);
    });
    std::sort(g.conditions.begin(), g.conditions.end());
  }
  return groups;
}

/// What the fit of a group needs, kept alive while it runs.
struct Cast {
  std::vector<std::string> keys;
  std::vector<FitSwing> swings;
  std::vector<const PriorReach*> reach;
};

Cast cast_of(const Group& group, const std::vector<SeenSwing>& swings,
             const std::map<Alike, Prepared>& prepared, const LessonOptions& options) {
  Cast cast;
  if (options.fit.memory != nullptr)
    for (const std::size_t i : group.swings) cast.keys.push_back(key_of(swings[i], group.club, options));
  for (const std::size_t i : group.swings) {
    const Prepared& p = prepared.at(alike(swings[i]));
    const auto at = std::find(group.conditions.begin(), group.conditions.end(), swings[i].condition);
    cast.swings.push_back({swings[i].sightings, &p.setting, &p.prior,
                           static_cast<std::size_t>(at - group.conditions.begin()),
                           cast.keys.empty() ? std::string_view() : cast.keys[cast.swings.size()]});
    cast.reach.push_back(&p.reach);
  }
  return cast;
}

void read_group(Group& group, const std::vector<SeenSwing>& swings, const std::map<Alike, Prepared>& prepared,
                const LessonOptions& options, LessonReading& lesson) {
  const Cast cast = cast_of(group, swings, prepared, options);
  FitOptions fit = options.fit;
  fit.threads = options.threads;
  fit.in_turn = !all_timed(group, swings);
  TogetherReading read = read_together(cast.swings, group.conditions, cast.reach, fit);
  for (std::size_t k = 0; k < group.swings.size(); ++k) {
    const SeenSwing& s = swings[group.swings[k]];
    lesson.swings[group.swings[k]] = {s.row, group.club, s.condition, s.hand, std::move(read.swings[k])};
  }
  for (std::size_t p = 0; p < group.conditions.size(); ++p) {
    const auto n = std::count_if(cast.swings.begin(), cast.swings.end(),
                                 [&](const FitSwing& s) { return s.pattern == p; });
    group.patterns.push_back(lesson.patterns.size());
    lesson.patterns.push_back({group.club, group.conditions[p], group.hand, static_cast<std::size_t>(n),
                               read.patterns[p].mean, read.patterns[p].scatter});
  }
  group.fit = std::move(read.fit);
}

}  // namespace

Result<Setting> setting_of(const SeenSwing& swing, const LessonOptions& options, const std::string& file) {
  Result<Club> club = club_named(options.bag, swing.club, fmt::format("{}:{}, club", file, swing.line));
  if (!club) return unexpected(club.error());
  Setting s;
  s.club = *std::move(club);
  s.ball = options.ball;
  s.ground.surface = swing.surface;
  s.day = options.day;
  // Left-handers are computed in the mirror: wind to the right becomes wind to the left.
  if (swing.hand == Hand::left) s.day.wind_across = -s.day.wind_across;
  s.with_ball = swing.ball;
  return s;
}

std::size_t pattern_spoken_of(const Group& group) {
  const auto normal = std::find(group.conditions.begin(), group.conditions.end(), Condition::normal);
  return normal == group.conditions.end() ? 0 : static_cast<std::size_t>(normal - group.conditions.begin());
}

Result<LessonReading> read_lesson(const std::vector<SeenSwing>& swings, const LessonOptions& options,
                                  const std::string& file) {
  std::map<Alike, Prepared> prepared;
  for (const SeenSwing& s : swings) {
    if (prepared.contains(alike(s))) continue;
    Result<Setting> setting = setting_of(s, options, file);
    if (!setting) return unexpected(setting.error());
    Prepared p{*std::move(setting), {}, {}};
    p.prior = prior_for(p.setting.club, options.skill, s.surface);
    p.reach = prior_reach(p.setting, p.prior, options.threads);
    prepared.emplace(alike(s), std::move(p));
  }
  LessonReading lesson;
  lesson.swings.resize(swings.size());
  lesson.groups = groups_of(swings, prepared);
  std::size_t done = 0;
  for (Group& group : lesson.groups) {
    read_group(group, swings, prepared, options, lesson);
    done += group.swings.size();
    if (options.progress) options.progress(done, swings.size());
  }
  return lesson;
}

}  // namespace strikewright
