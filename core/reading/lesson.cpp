#include "reading/lesson.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <map>
#include <optional>
#include <tuple>

#include "bag/generic.hpp"
#include "numeric/parallel.hpp"
#include "reading/pool.hpp"

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

std::vector<Pattern> patterns_of(const std::vector<SwingReading>& swings) {
  std::vector<Pattern> patterns;
  std::vector<std::vector<const Reading*>> members;
  for (const SwingReading& s : swings) {
    const auto same = [&](const Pattern& p) {
      return p.club == s.club && p.condition == s.condition && p.hand == s.hand;
    };
    auto at = std::find_if(patterns.begin(), patterns.end(), same);
    if (at == patterns.end()) {
      patterns.push_back({s.club, s.condition, s.hand, 0, {}, {}});
      members.emplace_back();
      at = patterns.end() - 1;
    }
    ++at->n;
    members[static_cast<std::size_t>(at - patterns.begin())].push_back(&s.reading);
  }
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    for (std::size_t k = 0; k < kReported; ++k) {
      std::vector<Estimate> readings;
      for (const Reading* r : members[i]) readings.push_back(r->at[k]);
      const Pooled pooled = pool(readings);
      patterns[i].mean[k] = pooled.mean;
      patterns[i].scatter[k] = pooled.scatter;
    }
  }
  return patterns;
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

Result<LessonReading> read_lesson(const std::vector<SeenSwing>& swings, const LessonOptions& options,
                                  const std::string& file) {
  std::map<Alike, Prepared> prepared;
  for (const SeenSwing& s : swings) {
    if (prepared.contains(alike(s))) continue;
    Result<Setting> setting = setting_of(s, options, file);
    if (!setting) return unexpected(setting.error());
    Prepared p{*std::move(setting), {}, {}};
    p.prior = prior_for(p.setting.club, options.skill, s.surface);
    p.reach = prior_reach(p.setting, p.prior);
    prepared.emplace(alike(s), std::move(p));
  }
  LessonReading lesson;
  lesson.swings.resize(swings.size());
  std::atomic<std::size_t> done{0};
  in_parallel(
      swings.size(), 1,
      [&](std::size_t i, std::size_t) {
        const SeenSwing& s = swings[i];
        const Prepared& p = prepared.at(alike(s));
        lesson.swings[i] = {s.row, p.setting.club.name, s.condition, s.hand,
                            read_swing(s.sightings, p.setting, p.prior, p.reach, options.reading)};
        const std::size_t now = ++done;
        if (options.progress) options.progress(now, swings.size());
      },
      options.threads);
  lesson.patterns = patterns_of(lesson.swings);
  return lesson;
}

}  // namespace strikewright
