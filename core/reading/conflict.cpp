#include "reading/conflict.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <numeric>
#include <optional>
#include <utility>

#include "quantity/angle.hpp"
#include "reading/climb.hpp"
#include "reading/slopes.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"
#include "sighting/predict.hpp"

namespace strikewright {
namespace {

using Slip = Conflict::Slip;
using LatentVector = Eigen::Matrix<double, kMaxLatents, 1>;
using LatentMatrix = Eigen::Matrix<double, kMaxLatents, kMaxLatents>;
using LatentSlopes = Eigen::Matrix<double, kUnknowns, kMaxLatents>;
constexpr double kNever = -std::numeric_limits<double>::infinity();
struct Scene {
  const Setting* setting;
  const Prior* prior;
};

/// A sighting's latents as straight lines: at + slope' (z - where). Those that its kind has not are 0.
struct Line {
  int n = 0;
  LatentVector at = LatentVector::Zero();
  LatentSlopes slope = LatentSlopes::Zero();
};

/// A swing straightened at one place.
struct Straight {
  Coordinates where;
  std::vector<Line> lines;
};

Latents<double> plain(int n, const LatentVector& x) { return {n, {x[0], x[1], x[2]}}; }

Straight straightened(std::span<const Sighting> sightings, const Scene& scene, const Coordinates& z) {
  const Shot<PassSlopes> shot = shot_with_slopes(*scene.prior, z, *scene.setting, needs_flight(sightings));
  const Factor factor = scene.prior->factor_at(z);
  Straight out{z, std::vector<Line>(sightings.size())};
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Latents<PassSlopes> latents = predict(sightings[k], shot, *scene.setting);
    Line& line = out.lines[k];
    line.n = latents.n;
    for (int j = 0; j < latents.n; ++j) {
      const PassSlopes& latent = latents.at[static_cast<std::size_t>(j)];
      line.at[j] = latent.a;
      line.slope.col(j) = along(factor, latent);
    }
  }
  return out;
}

Local local_of(std::span<const Sighting> sightings, const Straight& straight, const Setting& setting,
               const Coordinates& z) {
  Local here;
  here.cost = 0.5 * z.squaredNorm();
  here.gradient = z;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Line& line = straight.lines[k];
    const LatentVector x = line.at + line.slope.transpose() * (z - straight.where);
    const Misfit m = misfit(sightings[k], plain(line.n, x), setting);
    here.cost += m.cost;
    for (int j = 0; j < line.n; ++j) {
      const auto slope = line.slope.col(j);
      here.gradient += m.slope[static_cast<std::size_t>(j)] * slope;
      here.curvature += m.curvature[static_cast<std::size_t>(j)] * slope * slope.transpose();
    }
  }
  return here;
}

/// The most probable place of a straightened swing, by damped Gauss-Newton.
struct Place {
  Coordinates z;
  Local local;
};
Place settled(std::span<const Sighting> sightings, const Straight& straight, const Setting& setting,
              double farthest) {
  Place at{straight.where, local_of(sightings, straight, setting, straight.where)};
  double share = 1.0;
  for (int k = 0; k < 12; ++k) {  // a dozen steps are twice what is needed
    Coordinates step = -share * at.local.curvature.llt().solve(at.local.gradient);
    const Coordinates away = at.z + step - straight.where;
    if (away.norm() > farthest) step = away * (farthest / away.norm()) + straight.where - at.z;
    if (step.norm() < 0.02) break;  // prior standard deviations
    Place next{at.z + step, local_of(sightings, straight, setting, at.z + step)};
    if (next.local.cost < at.local.cost) {
      at = std::move(next);
      share = 1.0;
    } else {
      share *= 0.4;
    }
  }
  return at;
}

/// A swing straightened near its most probable pass.
struct Base {
  Straight straight;
  Place place;
};
Base base_of(std::span<const Sighting> sightings, const Scene& scene) {
  constexpr int kMost = 5;
  constexpr double kNear = 0.35;  // prior standard deviations: so far the lines hold
  double farthest = 2.0;
  Straight here = straightened(sightings, scene, Coordinates::Zero());
  double cost = local_of(sightings, here, *scene.setting, here.where).cost;
  for (int k = 1;; ++k) {
    Place place = settled(sightings, here, *scene.setting, farthest);
    const double moved = (place.z - here.where).norm();
    if (moved < kNear || k == kMost) return {std::move(here), std::move(place)};
    Straight next = straightened(sightings, scene, place.z);
    const double next_cost = local_of(sightings, next, *scene.setting, next.where).cost;
    if (next_cost < cost) {
      here = std::move(next);
      cost = next_cost;
    } else {
      farthest = 0.4 * moved;
    }
  }
}

/// What all other sightings and the prior say about one sighting's latents: normal.
struct Others {
  int n = 0;
  LatentVector mean;
  LatentMatrix spread;  ///< covariance
  Coordinates z;        ///< the most probable place without it
};

/// One Newton step from the common place to that of the others: the sighting's own curvature is taken out of
/// the whole (Sherman & Morrison, Ann. Math. Stat. 21, 124, 1950; from memory), and its pull with it.
Others others_of(const Sighting& s, const Line& line, const Base& base, const CoordinatesMatrix& inverse,
                 const Setting& setting) {
  const LatentVector x = line.at + line.slope.transpose() * (base.place.z - base.straight.where);
  const Misfit m = misfit(s, plain(line.n, x), setting);
  const LatentVector pull(m.slope.data());
  const LatentMatrix curvature = LatentVector(m.curvature.data()).asDiagonal();
  const LatentSlopes turned = inverse * line.slope;
  const LatentMatrix with = line.slope.transpose() * turned;
  const LatentMatrix spread = (LatentMatrix::Identity() - with * curvature).inverse() * with;
  // (H - A C A')^-1 A g = H^-1 A (1 + C spread) g
  const Coordinates z = base.place.z + turned * (pull + curvature * spread * pull);
  return {line.n, x + spread * pull, spread, z};
}

/// A Student-t as a mixture of normals: shares and precisions, in even steps of the precision's logarithm.
struct SlipMixture {
  static constexpr std::size_t kParts = 16;
  std::array<double, kParts> log_share{}, precision{};
  SlipMixture() {
    constexpr double kFrom = -5.2, kTo = 1.9, half = 0.5 * kTailFreedom;
    double sum = 0.0;
    for (std::size_t i = 0; i < kParts; ++i) {
      const double u = kFrom + (kTo - kFrom) * static_cast<double>(i) / (kParts - 1.0);
      precision[i] = std::exp(u);
      log_share[i] = half * u - half * precision[i];
      sum += std::exp(log_share[i]);
    }
    for (double& share : log_share) share -= std::log(sum);
  }
};

double log_sum(std::span<const double> logs) {
  const double most = *std::max_element(logs.begin(), logs.end());
  if (!std::isfinite(most)) return most;
  double sum = 0.0;
  for (const double l : logs) sum += std::exp(l - most);
  return most + std::log(sum);
}

/// Log density of a measured value: Student-t noise on a normal prediction.
double log_density(const Sighting& s, double mean, double variance) {
  static const SlipMixture mixture;
  const double noise = scale_at(mean, s.sd, s.share, facts_of(s.kind).model_share).value;
  const double away = (s.value - mean) * (s.value - mean);
  std::array<double, SlipMixture::kParts> parts{};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const double v = noise * noise * (1.0 / mixture.precision[i] + beyond_the_eye(s.kind)) + variance;
    parts[i] = mixture.log_share[i] - 0.5 * away / v - 0.5 * std::log(2.0 * std::numbers::pi * v);
  }
  return log_sum(parts);
}

/// Log probability of a word: averaged over an even net of the prediction, +-4 standard deviations each way
/// (three latents: +-2.4).
double log_probability(const Sighting& s, const Others& others, const Setting& setting) {
  const int reach = others.n == 1 ? 10 : 2, side = 2 * reach + 1;
  const double step = others.n == 1 ? 0.4 : 1.2;
  constexpr double kTiny = 1e-24;  // latents that the kind has not
  const LatentMatrix root = (others.spread + kTiny * LatentMatrix::Identity()).llt().matrixL();
  const int count = others.n == 1 ? side : side * side * side;
  double sum = 0.0, all = 0.0;
  for (int i = 0; i < count; ++i) {
    const std::array<int, 3> at{i % side, i / side % side, i / (side * side)};
    LatentVector u(at[0] - reach, 0.0, 0.0);
    if (others.n > 1) u.tail<2>() << at[1] - reach, at[2] - reach;
    u *= step;
    const double weight = std::exp(-0.5 * u.squaredNorm());
    all += weight;
    sum += weight * std::exp(log_likelihood(s, plain(others.n, others.mean + root * u), setting));
  }
  return std::log(sum / all);
}

double log_predictive(const Sighting& s, const Others& others, const Setting& setting) {
  return is_word(s.kind) ? log_probability(s, others, setting)
                         : log_density(s, others.mean[0], others.spread(0, 0));
}

/// A slip that may have been made.
struct Suspect {
  std::size_t cell = 0;
  Slip slip = Slip::none;
  std::optional<Sighting> undone;  ///< empty: the cell says nothing
  double log_prior = 0.0;          ///< log odds before anything is seen; density of a nonsense value in it
  double log_odds = kNever;
  Coordinates start = Coordinates::Zero();  ///< where the swing probably is without the cell
};

/// How often slips are made: assumption. Those in a cell are shared out over the swing's cells, so that a
/// swing of many cells is not suspected more often.
constexpr double kCellSlip = 1.0 / 25.0, kNonsense = 1.0 / 125.0, kWrongClub = 1.0 / 150.0;  // a swing
constexpr std::array kWithSides{Kind::start_word, Kind::curve_word, Kind::toe_heel_word,
                                Kind::divot_begins_word};
/// Who looks at one mark does not see it end so far [m] before it begins: so much likelier [nats] is a slip.
constexpr double kBackwards = 3.0, kFarBack = 0.05;
/// Does a mark end far before it begins, with `value` in the cell of one of its ends?
bool backwards(std::span<const Sighting> sightings, std::size_t cell, double value) {
  const bool begins = sightings[cell].kind == Kind::divot_start;
  if (!begins && sightings[cell].kind != Kind::divot_end) return false;
  const auto at = std::ranges::find(sightings, begins ? Kind::divot_end : Kind::divot_start, &Sighting::kind);
  return at != sightings.end() && (begins ? value - at->value : at->value - value) > kFarBack;
}

/// Every slip that can be thought of in one cell.
std::vector<Suspect> suspects_in(std::size_t cell, std::span<const Sighting> sightings) {
  const Sighting& s = sightings[cell];
  const double cells = static_cast<double>(sightings.size()), slip_here = kCellSlip / cells;
  const Facts& facts = facts_of(s.kind);
  const int words = static_cast<int>(words_of(s.kind).size());
  const double flat = 1.0 / (is_word(s.kind) ? words : facts.high - facts.low);
  std::vector<Suspect> out{{cell, Slip::none, std::nullopt, std::log(kNonsense / cells * flat)}};
  const auto add = [&](Slip slip, double value, double density) {
    if (value < facts.low || value > facts.high || value == s.value) return;
    out.push_back({cell, slip, s, std::log(slip_here * density)});
    out.back().undone->value = value;
    if (backwards(sightings, cell, s.value) && !backwards(sightings, cell, value))
      out.back().log_prior += kBackwards;
  };
  if (s.kind == Kind::contact_word) {
    constexpr int kFat = 1, kThin = 2;
    constexpr double kSeldom = 0.2;  // of other slips: the words mean opposite things
    if (s.word != kFat && s.word != kThin) return out;
    out.push_back({cell, Slip::fat_for_thin, s, std::log(kSeldom * slip_here)});
    out.back().undone->word = kFat + kThin - s.word;
    return out;
  }
  if (is_word(s.kind)) {
    const int other = words - 1 - s.word;
    if (std::find(kWithSides.begin(), kWithSides.end(), s.kind) == kWithSides.end() || other == s.word)
      return out;
    out.push_back({cell, Slip::side, s, std::log(slip_here)});
    out.back().undone->word = other;
    return out;
  }
  if (facts.low < 0.0) add(Slip::sign, -s.value, 1.0);
  if (facts.measure == Measure::small_length || facts.measure == Measure::long_length) {
    add(Slip::factor_ten, 0.1 * s.value, 0.1);
    add(Slip::factor_ten, 10.0 * s.value, 10.0);
  }
  return out;
}

/// Posterior log odds of a slip against the cell as written: the others' odds on the two values.
double log_odds(const Suspect& s, const Sighting& written, const Others& others, const Setting& setting) {
  return s.log_prior - log_predictive(written, others, setting) +
         (s.undone ? log_predictive(*s.undone, others, setting) : 0.0);
}

/// Cells' slips whose odds by straight lines are worth a closer look, likeliest first.
std::vector<Suspect> suspects_of(std::span<const Sighting> sightings, const Base& base,
                                 const Setting& setting) {
  constexpr double kWorthALook = -3.0;  // log odds
  constexpr std::size_t kMost = 6;
  const CoordinatesMatrix inverse = base.place.local.curvature.llt().solve(CoordinatesMatrix::Identity());
  std::vector<Suspect> out;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Others others = others_of(sightings[k], base.straight.lines[k], base, inverse, setting);
    for (Suspect& s : suspects_in(k, sightings)) {
      s.log_odds = log_odds(s, sightings[k], others, setting);
      s.start = others.z;
      if (s.log_odds > kWorthALook) out.push_back(std::move(s));
    }
  }
  std::ranges::sort(out, std::greater{}, &Suspect::log_odds);
  out.resize(std::min(out.size(), kMost));
  return out;
}

std::vector<Sighting> without(std::span<const Sighting> sightings, std::size_t cell) {
  std::vector<Sighting> out(sightings.begin(), sightings.end());
  out.erase(out.begin() + static_cast<std::ptrdiff_t>(cell));
  return out;
}

Hump climbed(std::span<const Sighting> sightings, const Scene& scene, const Coordinates& start) {
  ClimbOptions options;
  options.small_step = 0.1;  // prior standard deviations; a look at a mass needs no more
  return climb(Target(sightings, *scene.setting, *scene.prior), start, {}, options);
}

/// What the others say about a cell, from their own most probable place through the whole chain.
Others others_apart(std::span<const Sighting> sightings, const Scene& scene, std::size_t cell,
                    const Coordinates& start) {
  const Hump hump = climbed(without(sightings, cell), scene, start);
  const Straight straight = straightened(sightings.subspan(cell, 1), scene, hump.at);
  const Line& line = straight.lines.front();
  return {line.n, line.at, line.slope.transpose() * hump.curvature.llt().solve(line.slope), hump.at};
}

/// The likeliest slip in a cell.
std::optional<Suspect> best_suspect(std::span<const Sighting> sightings, const Scene& scene,
                                    const Base& base) {
  std::optional<Suspect> best;
  for (Suspect& s : suspects_of(sightings, base, *scene.setting)) {
    const Others others = others_apart(sightings, scene, s.cell, s.start);
    s.log_odds = log_odds(s, sightings[s.cell], others, *scene.setting);
    if (!best || s.log_odds > best->log_odds) best = std::move(s);
  }
  return best;
}

/// The other cell without which the culprit would clash least; none when even that is no relief.
std::optional<std::size_t> partner_of(std::size_t culprit, std::span<const Sighting> sightings,
                                      const Base& base, const Setting& setting) {
  constexpr double kRelief = 2.0;  // nats
  const auto says = [&](std::size_t left_out) {
    std::vector<Sighting> rest;
    Straight straight{base.straight.where, {}};
    for (std::size_t k = 0; k < sightings.size(); ++k) {
      if (k == culprit || k == left_out) continue;
      rest.push_back(sightings[k]);
      straight.lines.push_back(base.straight.lines[k]);
    }
    const Place place = settled(rest, straight, setting, 4.0);
    const Line& line = base.straight.lines[culprit];
    const LatentMatrix spread = line.slope.transpose() * place.local.curvature.llt().solve(line.slope);
    const LatentVector mean = line.at + line.slope.transpose() * (place.z - base.straight.where);
    return log_predictive(sightings[culprit], {line.n, mean, spread, place.z}, setting);
  };
  std::optional<std::size_t> best;
  double most = says(culprit) + kRelief;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    if (k == culprit) continue;
    if (const double now = says(k); now > most) {
      most = now;
      best = k;
    }
  }
  return best;
}

/// The cells that speak most for the other of two places, at most three; one at least.
std::vector<std::size_t> speaking(std::span<const Sighting> sightings, const Scene& scene,
                                  const Coordinates& z, const Scene& other, const Coordinates& other_z) {
  constexpr std::size_t kMost = 3;
  constexpr double kHeard = 0.5;  // nats
  const auto shot = shot_of(pass_at(*scene.prior, z), *scene.setting);
  const auto other_shot = shot_of(pass_at(*other.prior, other_z), *other.setting);
  std::vector<std::pair<double, std::size_t>> gains;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Sighting& s = sightings[k];
    gains.emplace_back(misfit(s, predict(s, other_shot, *other.setting), *other.setting).cost -
                           misfit(s, predict(s, shot, *scene.setting), *scene.setting).cost,
                       k);
  }
  std::sort(gains.begin(), gains.end());
  std::vector<std::size_t> cells;
  for (const auto& [cost, k] : gains)
    if (cells.empty() || (cells.size() < kMost && cost < -kHeard)) cells.push_back(k);
  return cells;
}

/// What is known of the player, said for another club: the centre moved by what the two clubs' usual swings
/// differ in.
Prior known_for(const Club& to, const Prior& known, const Club& from) {
  Prior out = known;
  out.mean += prior_centre(to, known.skill, known.surface) - prior_centre(from, known.skill, known.surface);
  out.arc_radius = to.arc_radius;
  return out;
}

/// The other club that the sightings speak for.
struct OtherClub {
  const Club* club = nullptr;
  double log_odds = kNever;  ///< of any other club
  std::vector<std::size_t> cells;
};

/// By the masses of the humps as written and with each other club (Laplace). Only to the side, more loft or
/// less, where a step that way fits better than the club as written.
OtherClub other_club_of(std::span<const Sighting> sightings, const Scene& scene, const Base& base,
                        std::span<const Club> bag) {
  const Club& as_written = scene.setting->club;
  const Hump written = climbed(sightings, scene, base.place.z);
  OtherClub out;
  double most = kNever;
  const auto gain = [&](const Club& club) {
    Setting setting = *scene.setting;
    setting.club = club;
    const Prior prior = known_for(club, *scene.prior, as_written);
    const Scene there{&setting, &prior};
    const Hump hump = climbed(sightings, there, Coordinates::Zero());
    const double gained = hump.log_mass() - written.log_mass();
    if (gained > most) {
      most = gained;
      out.club = &club;
      out.cells = speaking(sightings, scene, written.at, there, hump.at);
    }
    return gained;
  };
  std::vector<double> gains;
  for (const auto& steps : {std::array{-8.0, -30.0}, std::array{8.0, 16.0}}) {  // deg of loft
    std::vector<const Club*> side;
    for (const Club& club : bag)
      if ((club.loft - as_written.loft) * steps[0] > 0.0) side.push_back(&club);
    const auto promising = [&](double step) {
      const auto off = [&](const Club* c) { return std::abs(c->loft - as_written.loft - step * kDegree); };
      const auto nearest = std::ranges::min_element(side, {}, off);
      return nearest != side.end() && gain(**nearest) > 0.0;
    };
    if (std::ranges::any_of(steps, promising))
      for (const Club* club : side) gains.push_back(gain(*club));
  }
  if (!gains.empty() && out.club != nullptr)
    out.log_odds = log_sum(gains) + std::log(kWrongClub / static_cast<double>(bag.size()));
  return out;
}

/// A conflict is named when the slip is likelier than not (log odds); test/conflict_test.cpp counts the
/// errors.
constexpr double kNamed = 0.0;
/// Another club is thought of where the cost at the best place is over this: few sound swings' is.
constexpr double kUsualCost = 0.65, kClubWorthALook = 5.5;  // nats, a cell and on top

double odds_of(double log_odds) { return std::exp(std::min(log_odds, 700.0)); }  // finite

}  // namespace

std::vector<Conflict> conflicts_in(std::size_t swing, std::span<const Sighting> sightings,
                                   const Setting& setting, const Prior& prior, std::span<const Club> bag) {
  constexpr int kMost = 3;
  const Scene scene{&setting, &prior};
  std::vector<Sighting> left(sightings.begin(), sightings.end());
  std::vector<std::size_t> index(left.size());
  std::iota(index.begin(), index.end(), std::size_t{0});
  std::vector<Conflict> out;
  for (int round = 0; round < kMost && left.size() > 1; ++round) {
    const Base base = base_of(left, scene);
    const std::optional<Suspect> cell = best_suspect(left, scene, base);
    const double odds = cell ? cell->log_odds : kNever;
    const double usual = kUsualCost * static_cast<double>(left.size());
    if (!bag.empty() && round == 0 && base.place.local.cost > usual + kClubWorthALook) {
      const OtherClub other = other_club_of(left, scene, base, bag);
      if (other.log_odds > std::max(odds, kNamed)) {
        out.push_back({swing, other.cells, Slip::wrong_club, odds_of(other.log_odds), other.club->name});
        return out;
      }
    }
    if (!(odds > kNamed)) break;
    Conflict conflict{swing, {index[cell->cell]}, cell->slip, odds_of(odds), ""};
    if (const auto partner = partner_of(cell->cell, left, base, setting))
      conflict.sightings.push_back(index[*partner]);
    out.push_back(std::move(conflict));
    if (cell->undone) {
      left[cell->cell] = *cell->undone;
    } else {
      left = without(left, cell->cell);
      index.erase(index.begin() + static_cast<std::ptrdiff_t>(cell->cell));
    }
  }
  return out;
}

}  // namespace strikewright
