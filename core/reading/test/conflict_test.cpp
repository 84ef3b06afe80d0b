// Are slips found, and sound swings left alone?

#include "reading/conflict.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "bag/generic.hpp"
#include "reading/climb.hpp"
#include "reading/recovery.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"

using namespace strikewright;

namespace {

using Slip = Conflict::Slip;

Setting with_club(const char* name) {
  Setting s;
  s.club = *club_named(generic_bag(), name);
  return s;
}

std::vector<Conflict> conflicts(const std::vector<Sighting>& sightings,
                                const std::vector<Club>& bag = generic_bag()) {
  const Setting setting = with_club("7i");
  return conflicts_in(0, sightings, setting, prior_for(setting.club, Skill::club), bag);
}

/// A sound 7-iron seen with everything: what the usual pass of the club band gives, looked at without error.
std::vector<Sighting> sound_swing(const std::vector<Kind>& kinds) {
  const Setting setting = with_club("7i");
  const Prior prior = prior_for(setting.club, Skill::club);
  const Shot<double> shot = shot_of(pass_at(prior, Coordinates::Zero()), setting);
  std::vector<Sighting> out;
  for (const Kind kind : kinds) {
    Sighting s{.kind = kind};
    if (!is_word(kind)) s = measured(kind, predict(s, shot, setting).at[0]);
    out.push_back(s);
  }
  return out;
}

std::size_t cell_of(const std::vector<Sighting>& sightings, Kind kind) {
  for (std::size_t k = 0; k < sightings.size(); ++k)
    if (sightings[k].kind == kind) return k;
  REQUIRE_MESSAGE(false, "no such cell");
  return 0;
}

const std::vector<Kind> kDivotAndClip{Kind::start,       Kind::curve,      Kind::carry,
                                      Kind::divot_start, Kind::divot_end,  Kind::divot_depth,
                                      Kind::strike_up,   Kind::shaft_lean, Kind::attack};

}  // namespace

TEST_CASE("a sound swing is left alone") { CHECK(conflicts(sound_swing(kDivotAndClip)).empty()); }

TEST_CASE("a divot end with the wrong sign is found, with what speaks against it") {
  std::vector<Sighting> swing = sound_swing(kDivotAndClip);
  const std::size_t cell = cell_of(swing, Kind::divot_end);
  swing[cell].value = -swing[cell].value;
  const std::vector<Conflict> found = conflicts(swing);
  REQUIRE(found.size() == 1);
  CHECK(found[0].slip == Slip::sign);
  CHECK(found[0].sightings.front() == cell);
  CHECK(found[0].odds > 1.0);
  const std::string text = text_of(found[0], swing, Hand::right, UnitSystem::metric);
  INFO(text);
  CHECK(text.find("divot_end says ") == 0);
  CHECK(text.find(" mm behind, but ") != std::string::npos);
  CHECK(text.find("wrong sign?") != std::string::npos);
  const std::string inches = text_of(found[0], swing, Hand::right, UnitSystem::yards);
  INFO(inches);
  CHECK(inches.find(" in behind, but ") != std::string::npos);
  CHECK(inches.find("mm") == std::string::npos);
}

TEST_CASE("a carry written ten times too short is found") {
  std::vector<Sighting> swing = sound_swing(kDivotAndClip);
  const std::size_t cell = cell_of(swing, Kind::carry);
  swing[cell].value *= 0.1;
  const std::vector<Conflict> found = conflicts(swing);
  REQUIRE(found.size() == 1);
  CHECK(found[0].slip == Slip::factor_ten);
  CHECK(found[0].sightings.front() == cell);
}

TEST_CASE("a ball said to start far left when face and path were far right is on the wrong side") {
  std::vector<Sighting> swing{measured(Kind::face, 7.0 * kDegree), measured(Kind::path, 6.0 * kDegree),
                              measured(Kind::divot_direction, 5.0 * kDegree), judged(Kind::start_word, 0)};
  const std::vector<Conflict> found = conflicts(swing);
  REQUIRE(found.size() == 1);
  CHECK(found[0].slip == Slip::side);
  CHECK(found[0].sightings.front() == 3);
  REQUIRE(found[0].sightings.size() == 2);
  CHECK(found[0].sightings[1] == 0);  // the face decides the start
  CHECK(text_of(found[0], swing, Hand::right, UnitSystem::metric).find("start says far_left") == 0);
  CHECK(text_of(found[0], swing, Hand::left, UnitSystem::metric).find("start says far_right") == 0);
}

TEST_CASE("a driver written down as a 7-iron is found, and named") {
  const Setting driver = with_club("driver");
  const Shot<double> shot =
      shot_of(pass_at(prior_for(driver.club, Skill::club), Coordinates::Zero()), driver);
  std::vector<Sighting> swing;
  for (const Kind kind : {Kind::carry, Kind::launch_angle, Kind::spin, Kind::ball_speed, Kind::club_speed})
    swing.push_back(measured(kind, predict(Sighting{.kind = kind}, shot, driver).at[0]));
  const std::vector<Conflict> found = conflicts(swing);
  REQUIRE(found.size() == 1);
  CHECK(found[0].slip == Slip::wrong_club);
  CHECK(found[0].other_club == "driver");
  CHECK(text_of(found[0], swing, Hand::right, UnitSystem::metric).find("was it the driver?") !=
        std::string::npos);
  for (const Conflict& c : conflicts(swing, {})) CHECK(c.slip != Slip::wrong_club);
}

TEST_CASE("a wild value that no slip explains is named as such") {
  std::vector<Sighting> swing = sound_swing(
      {Kind::ball_speed, Kind::club_speed, Kind::launch_angle, Kind::spin, Kind::carry, Kind::apex});
  const std::size_t cell = cell_of(swing, Kind::ball_speed);
  swing[cell].value *= 0.5;
  const std::vector<Conflict> found = conflicts(swing);
  REQUIRE(found.size() == 1);
  CHECK(found[0].slip == Slip::none);
  CHECK(found[0].sightings.front() == cell);
  CHECK(text_of(found[0], swing, Hand::right, UnitSystem::metric).find("both can hardly be true") !=
        std::string::npos);
}

TEST_CASE("nothing seen, or one thing, cannot conflict") {
  CHECK(conflicts({}).empty());
  for (std::size_t k = 0; k < kKinds; ++k) {
    const auto kind = static_cast<Kind>(k);
    if (is_word(kind)) {
      for (int w = 0; w < static_cast<int>(words_of(kind).size()); ++w)
        CHECK(conflicts({judged(kind, w)}).empty());
    } else {
      CHECK(conflicts({measured(kind, facts_of(kind).high)}).empty());
    }
  }
}

TEST_CASE("absurd and empty numbers give no odds that are not numbers") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double wild : {nan, 1e30, -1e30, 0.0}) {
    for (const Kind kind : {Kind::carry, Kind::divot_start, Kind::spin}) {
      std::vector<Sighting> swing = sound_swing(kDivotAndClip);
      swing.push_back(measured(kind, wild));
      for (const Conflict& c : conflicts(swing)) {
        CHECK(std::isfinite(c.odds));
        CHECK(c.odds > 1.0);
        for (const std::size_t cell : c.sightings) CHECK(cell < swing.size());
      }
    }
  }
}

namespace {

constexpr std::size_t kSwings = 10;
constexpr double kWithin = 0.45;  // of the prior's spread, between the swings of one player

struct Played {
  Setting setting;
  Prior prior;
};

Played played_with(const char* club) {
  const Setting setting = with_club(club);
  return {setting, prior_for(setting.club, Skill::club)};
}

struct SeenFile {
  std::vector<std::vector<Sighting>> sightings;
  std::vector<Shot<double>> truth;
  std::vector<Coordinates> at;
  Prior tight;  ///< what the player's other swings leave
};

/// What a coach writes down: no mark of a divot that is not there, no ball that was missed, nothing absurd.
bool written(const Sighting& s, const Shot<double>& truth) {
  const bool of_the_mark = s.kind == Kind::divot_start || s.kind == Kind::divot_end ||
                           s.kind == Kind::divot_direction || s.kind == Kind::divot_toe_depth;
  if (of_the_mark && !truth.strike.divot.any) return false;
  const Facts& facts = facts_of(s.kind);
  if (!is_word(s.kind) && (s.value < facts.low || s.value > facts.high)) return false;
  return !needs_ball(s.kind) || truth.flew;
}

/// Ten swings of one player with the club `as_written`; swing `other_at` was hit with another.
SeenFile drawn_file(const Look& look, Draws& draws, const Played& as_written, std::size_t other_at = kSwings,
                    const Played* other = nullptr) {
  SeenFile file;
  Coordinates player, off;
  for (int j = 0; j < kUnknowns; ++j) player[j] = std::sqrt(1.0 - kWithin * kWithin) * draws.normal();
  for (int j = 0; j < kUnknowns; ++j) off[j] = 0.3 * draws.normal();
  file.tight = as_written.prior.by(player + off, 0.5 * CoordinatesMatrix::Identity());
  // What nobody knows for a whole lesson, beyond any eye's bias, is no slip.
  std::array<double, kKinds> lasting{};
  for (std::size_t k = 0; k < kKinds; ++k)
    lasting[k] = std::sqrt(beyond_the_eye(static_cast<Kind>(k))) * draws.normal();
  for (std::size_t i = 0; i < kSwings; ++i) {
    Coordinates z = player;
    for (int j = 0; j < kUnknowns; ++j) z[j] += kWithin * draws.normal();
    const Played& hit = i == other_at ? *other : as_written;
    file.at.push_back(z);
    file.truth.push_back(shot_of(pass_at(hit.prior, z), hit.setting));
    file.sightings.emplace_back();
    for (const Kind kind : look.kinds) {
      const Sighting s =
          seen(kind, file.truth.back(), hit.setting, draws, lasting[static_cast<std::size_t>(kind)]);
      if (written(s, file.truth.back())) file.sightings.back().push_back(s);
    }
  }
  return file;
}

/// One slip that could be made in a cell.
struct Planted {
  std::size_t swing = 0, cell = 0;
  Sighting as_written;
  double moved = 0.0;  ///< SI, or the word's latent
};

/// How far apart the middles of a word and its mirror image are (open ends: from the edge); 0 for no side
/// word.
double apart(const Sighting& s, const Setting& setting) {
  if (s.kind != Kind::start_word && s.kind != Kind::curve_word) return 0.0;
  const std::vector<Decision> edges = decisions_of(s, setting);
  const double low = edges[0].low, high = edges[0].high;
  return 2.0 * std::abs(std::isinf(low) ? high : std::isinf(high) ? low : 0.5 * (low + high));
}

double own_sd(const Sighting& s, double latent, const Setting& setting) {
  const double scale = scale_of_sighting(s, latent, setting);
  return is_word(s.kind) ? scale : scale * std::sqrt(kTailFreedom / (kTailFreedom - 2.0));
}

constexpr double kGross = 4.0;  // standard deviations of the sighting

/// Every gross slip of one sort that could be made in a file.
std::vector<Planted> gross_slips(const SeenFile& file, Slip slip, const Setting& setting) {
  std::vector<Planted> out;
  for (std::size_t i = 0; i < file.sightings.size(); ++i) {
    for (std::size_t k = 0; k < file.sightings[i].size(); ++k) {
      const Sighting& s = file.sightings[i][k];
      const Facts& facts = facts_of(s.kind);
      const double latent = predict(s, file.truth[i], setting).at[0], sd = own_sd(s, latent, setting);
      const auto add = [&](Sighting wrong, double moved) {
        if (moved > kGross * sd) out.push_back({i, k, wrong, moved});
      };
      if (slip == Slip::side && is_word(s.kind)) add(mirrored(s), apart(s, setting));
      if (is_word(s.kind)) continue;
      const auto write = [&](double value) {
        Sighting wrong = s;
        wrong.value = value;
        if (value >= facts.low && value <= facts.high) add(wrong, std::abs(value - s.value));
      };
      const bool length = facts.measure == Measure::small_length || facts.measure == Measure::long_length;
      if (slip == Slip::sign && facts.low < 0.0 && std::abs(latent) > 2.5 * s.sd) write(-s.value);
      if (slip == Slip::factor_ten && length) write(0.1 * s.value);
      if (slip == Slip::factor_ten && length) write(10.0 * s.value);
    }
  }
  return out;
}

/// Standard deviation of what can be known about a cell from the other cells and the prior, own noise
/// included, and what lasts a lesson: by differences at the most probable place of the swing without the
/// cell.
double foreseen_sd(const std::vector<Sighting>& sightings, std::size_t cell, const Setting& setting,
                   const Prior& prior) {
  std::vector<Sighting> rest = sightings;
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(cell));
  const Hump hump = climb(Target(rest, setting, prior), Coordinates::Zero());
  const auto latent = [&](const Coordinates& z) {
    return predict(sightings[cell], shot_of(pass_at(prior, z), setting), setting).at[0];
  };
  Coordinates slope;
  for (int j = 0; j < kUnknowns; ++j) {
    constexpr double kStep = 1e-3;
    slope[j] =
        (latent(hump.at + kStep * Coordinates::Unit(j)) - latent(hump.at - kStep * Coordinates::Unit(j))) /
        (2.0 * kStep);
  }
  const double own = own_sd(sightings[cell], latent(hump.at), setting);
  const double scale = scale_of_sighting(sightings[cell], latent(hump.at), setting);
  const double lasting = scale * scale * beyond_the_eye(sightings[cell].kind);
  return std::sqrt(own * own + lasting + slope.dot(hump.curvature.llt().solve(slope)));
}

/// How far a cell is from what the club as written would have given in the same player's hands; a word: from
/// the nearer end of what it means.
double off_by(const Sighting& s, const Shot<double>& expected, const Setting& setting) {
  const double latent = predict(s, expected, setting).at[0];
  if (!is_word(s.kind)) return std::abs(s.value - latent);
  if (s.kind == Kind::contact_word) return 0.0;
  const std::vector<Decision> edges = decisions_of(s, setting);
  return std::max({0.0, edges[0].low - latent, latent - edges[0].high});
}

struct Count {
  double of = 0.0, found = 0.0, named = 0.0;
  void add(bool was_found, bool was_named) {
    of += 1.0;
    found += was_found ? 1.0 : 0.0;
    named += was_named ? 1.0 : 0.0;
  }
  [[nodiscard]] double share() const { return of > 0.0 ? found / of : 0.0; }
};

constexpr std::array kSlips{Slip::sign, Slip::side, Slip::factor_ten, Slip::wrong_club};

/// Counts of one look (or all) under one prior: false alarms a file; slips of more than four of the
/// sighting's own standard deviations; those that are as gross beside what can be foreseen of it at all.
struct Tally {
  Count alarms;
  std::array<Count, kSlips.size()> own, foreseen;
  void operator+=(const Tally& other) {
    const auto sum = [](Count& a, const Count& b) {
      a.of += b.of;
      a.found += b.found;
      a.named += b.named;
    };
    sum(alarms, other.alarms);
    for (std::size_t k = 0; k < kSlips.size(); ++k) {
      sum(own[k], other.own[k]);
      sum(foreseen[k], other.foreseen[k]);
    }
  }
};

Count all_of(const std::array<Count, kSlips.size()>& counts) {
  Count out;
  for (const Count& c : counts) {
    out.of += c.of;
    out.found += c.found;
    out.named += c.named;
  }
  return out;
}

std::string text_of(const std::string& name, const Tally& t) {
  std::string out =
      fmt::format("{:<24} alarms {:4.1f} % of {:4.0f} files", name, 100.0 * t.alarms.share(), t.alarms.of);
  const auto add = [&](const char* what, const std::array<Count, kSlips.size()>& counts) {
    const Count all = all_of(counts);
    out += fmt::format(" | {}: found {:3.0f} % of {:3.0f} (named {:3.0f} %", what, 100.0 * all.share(),
                       all.of, 100.0 * all.named / std::max(all.of, 1.0));
    for (std::size_t k = 0; k < kSlips.size(); ++k)
      out += counts[k].of > 0.0 ? fmt::format(", {} {:.0f} %", name_of(kSlips[k]), 100.0 * counts[k].share())
                                : "";
    out += ")";
  };
  add("own", t.own);
  add("foreseen", t.foreseen);
  return out;
}

/// Both tallies, with the general and with the tight prior.
using Tallies = std::array<Tally, 2>;

struct World {
  const Look& look;
  Played seven = played_with("7i"), driver = played_with("driver"), wedge = played_with("pw");
  [[nodiscard]] const Prior& prior(const SeenFile& file, std::size_t tight) const {
    return tight == 1 ? file.tight : seven.prior;
  }
  [[nodiscard]] std::vector<Conflict> conflicts(const SeenFile& file, std::size_t i,
                                                std::size_t tight) const {
    return conflicts_in(i, file.sightings[i], seven.setting, prior(file, tight), generic_bag());
  }
};

void count_alarms(const World& world, std::uint64_t seed, Tallies& tallies) {
  Draws draws(seed, 1);
  const SeenFile file = drawn_file(world.look, draws, world.seven);
  for (std::size_t tight = 0; tight < 2; ++tight) {
    bool any = false;
    for (std::size_t i = 0; i < kSwings; ++i) any = any || !world.conflicts(file, i, tight).empty();
    tallies[tight].alarms.add(any, any);
  }
}

void count_cell(const World& world, std::uint64_t seed, std::size_t slip, Tallies& tallies) {
  Draws draws(seed, 2 + slip);
  SeenFile file = drawn_file(world.look, draws, world.seven);
  const std::vector<Planted> planted = gross_slips(file, kSlips[slip], world.seven.setting);
  if (planted.empty()) return;
  const Planted& p = planted[static_cast<std::size_t>(draws.uniform() * static_cast<double>(planted.size()))];
  for (std::size_t tight = 0; tight < 2; ++tight) {
    const double foreseen =
        foreseen_sd(file.sightings[p.swing], p.cell, world.seven.setting, world.prior(file, tight));
    SeenFile wrong = file;
    wrong.sightings[p.swing][p.cell] = p.as_written;
    bool found = false, named = false;
    for (const Conflict& c : world.conflicts(wrong, p.swing, tight)) {
      found = found || std::find(c.sightings.begin(), c.sightings.end(), p.cell) != c.sightings.end();
      named = named || (c.sightings.front() == p.cell && c.slip == kSlips[slip]);
    }
    tallies[tight].own[slip].add(found, named);
    if (p.moved > kGross * foreseen) tallies[tight].foreseen[slip].add(found, named);
  }
}

void count_club(const World& world, std::uint64_t seed, Tallies& tallies) {
  Draws draws(seed, 2 + 3);
  const auto at = static_cast<std::size_t>(draws.uniform() * static_cast<double>(kSwings));
  const Played& hit = draws.uniform() < 0.5 ? world.driver : world.wedge;
  const SeenFile file = drawn_file(world.look, draws, world.seven, at, &hit);
  const Setting& setting = world.seven.setting;
  const Shot<double> expected = shot_of(pass_at(world.seven.prior, file.at[at]), setting);
  const std::vector<Sighting>& cells = file.sightings[at];
  for (std::size_t tight = 0; tight < 2; ++tight) {
    bool own = false, foreseen = false;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const double off = off_by(cells[k], expected, setting);
      const double latent = predict(cells[k], expected, setting).at[0];
      if (!(off > kGross * own_sd(cells[k], latent, setting))) continue;
      own = true;
      foreseen = foreseen || off > kGross * foreseen_sd(cells, k, setting, world.prior(file, tight));
    }
    bool found = false, named = false;
    for (const Conflict& c : world.conflicts(file, at, tight)) {
      found = found || c.slip == Slip::wrong_club;
      named = named || c.other_club == hit.setting.club.name;
    }
    if (own) tallies[tight].own[3].add(found, named);
    if (foreseen) tallies[tight].foreseen[3].add(found, named);
  }
}

}  // namespace

TEST_CASE("gross slips are found and sound files left alone, by count") {
  constexpr std::uint64_t kSound = 200, kSlipped = 50;  // files, of each look; slipped: of each sort of slip
  Tallies all;
  for (const Look& look : looks()) {
    const World world{look};
    Tallies here;
    for (std::uint64_t i = 0; i < kSound; ++i) count_alarms(world, 40'000 + i, here);
    for (std::uint64_t i = 0; i < kSlipped; ++i) {
      for (std::size_t slip = 0; slip < 3; ++slip) count_cell(world, 50'000 + i, slip, here);
      count_club(world, 60'000 + i, here);
    }
    for (std::size_t tight = 0; tight < 2; ++tight) {
      MESSAGE(text_of(look.name + (tight == 1 ? ", tight" : ", general"), here[tight]));
      all[tight] += here[tight];
    }
  }
  MESSAGE(text_of("all, general", all[0]));
  MESSAGE(text_of("all, tight", all[1]));
  for (const Tally& t : all) CHECK(t.alarms.share() <= 0.05);
  // Gross beside what can be foreseen. Slips that are gross by the eye's own spread alone are found less
  // often (the messages above): a start said to be right instead of left is no contradiction where nothing
  // else was seen.
  CHECK(all_of(all[1].foreseen).share() >= 0.80);
  CHECK(all_of(all[0].foreseen).share() >= 0.75);  // with the general prior: measured 76 %
}
