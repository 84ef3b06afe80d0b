#include "cause/looks.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "reading/sites.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright {
namespace {

constexpr int kSwings = 5;  // of a new look: what a coach asks for at once

/// Seconds of the coach's time for one more sighting of a kind [s]; 0 = needs a device. All: assumption.
double seconds_for(Kind kind) {
  switch (kind) {
    case Kind::attack:
    case Kind::path:
    case Kind::face:
    case Kind::loft:
    case Kind::club_speed:
    case Kind::ball_speed:
    case Kind::launch_angle:
    case Kind::spin:
    case Kind::spin_axis:
      return 0.0;
    case Kind::shaft_lean:
    case Kind::handle_lead:
      return 20.0;
    case Kind::divot_start:
    case Kind::divot_end:
    case Kind::divot_depth:
    case Kind::divot_toe_depth:
      return 12.0;
    case Kind::divot_direction:
    case Kind::strike_toe:
    case Kind::strike_up:
      return 8.0;
    case Kind::strike_groove:
      return 6.0;
    default:
      return 3.0;
  }
}
constexpr double kSecondsPerBall = 12.0;    // to hit another one, assumption
constexpr double kSecondsToExplain = 20.0;  // a condition, assumption
constexpr double kSecondsOfLooking =
    20.0;  // at most, at all of a ball: the eye takes much in at once, assumption
constexpr double kSecondsOfDevice = 2.0;  // to read a number off, assumption

/// One sighting of every kind as the middle swing would give it.
std::vector<Sighting> everything(const Group& group, const Shot<double>& shot) {
  std::vector<Sighting> all;
  for (std::size_t k = 0; k < kKinds; ++k) {
    const auto kind = static_cast<Kind>(k);
    if (needs_ball(kind) && !shot.flew) continue;
    if (kind == Kind::contact_word) continue;  // three decisions at once; always seen where a ball is
    if (!is_word(kind)) {
      Sighting s = measured(kind, 0.0);
      s.value = predict(s, shot, group.setting).at[0];
      all.push_back(s);
      continue;
    }
    // The likeliest word.
    int best = 0;
    double most = -1e300;
    for (int w = 0; w < static_cast<int>(words_of(kind).size()); ++w) {
      const Sighting s = judged(kind, w);
      const double p = log_likelihood(s, predict(s, shot, group.setting), group.setting);
      if (p > most) {
        most = p;
        best = w;
      }
    }
    all.push_back(judged(kind, best));
  }
  return all;
}

/// Information of n swings with these sites about the pattern: scatter between swings and so much of the
/// eye's bias taken off.
CoordinatesMatrix information_of(const std::vector<Site>& sites, const Coordinates& middle, int n,
                                 double bias_share) {
  const auto m = static_cast<Eigen::Index>(sites.size());
  if (m == 0) return CoordinatesMatrix::Zero();
  Eigen::Matrix<double, Eigen::Dynamic, kUnknowns> slopes(m, static_cast<Eigen::Index>(kUnknowns));
  Eigen::MatrixXd noise = Eigen::MatrixXd::Zero(m, m);
  for (Eigen::Index k = 0; k < m; ++k) {
    const Site& s = sites[static_cast<std::size_t>(k)];
    const double bias = bias_share * facts_of(static_cast<Kind>(s.kind)).bias * s.bias_slope;
    slopes.row(k) = s.slope.transpose();
    noise(k, k) = 1.0 / (information_of(s, s.at + s.slope.dot(middle)) * n) + bias * bias;
  }
  const Coordinates scatter = within_sd().cwiseAbs2() / n;
  noise += slopes * scatter.asDiagonal() * slopes.transpose();
  return slopes.transpose() * noise.llt().solve(slopes);
}

/// What swings under a condition tell about the usual pattern.
CoordinatesMatrix through(const CoordinatesMatrix& information, Condition condition, const Prior& prior) {
  const auto effects = effects_of(condition, prior);
  Coordinates keeps, shift_precision;
  for (int j = 0; j < kUnknowns; ++j) {
    const ConditionEffect& e = effects[static_cast<std::size_t>(j)];
    keeps[j] = e.keeps;
    shift_precision[j] = 1.0 / (e.sd * e.sd);
  }
  CoordinatesMatrix sum = information;
  sum.diagonal() += shift_precision;
  const CoordinatesMatrix left = information - information * sum.llt().solve(information);
  return keeps.asDiagonal() * left * keeps.asDiagonal();
}

bool was_seen(Kind kind, const Group& group, const std::vector<SeenSwing>& seen) {
  return std::any_of(group.swings.begin(), group.swings.end(), [&](std::size_t i) {
    return std::any_of(seen[i].sightings.begin(), seen[i].sightings.end(),
                       [&](const Sighting& s) { return s.kind == kind; });
  });
}

/// The same thing in words and in numbers counts once.
bool same_thing(Kind a, Kind b) {
  const auto thing = [](Kind k) {
    switch (k) {
      case Kind::start_word:
        return Kind::start;
      case Kind::curve_word:
        return Kind::curve;
      case Kind::height_word:
        return Kind::apex;
      case Kind::divot_word:
        return Kind::divot_depth;
      case Kind::divot_begins_word:
        return Kind::divot_start;
      case Kind::toe_heel_word:
        return Kind::divot_toe_depth;
      case Kind::strike_groove:
        return Kind::strike_up;
      default:
        return k;
    }
  };
  return thing(a) == thing(b);
}

}  // namespace

double steps_in(Cause cause, const Prior& prior) {
  return prior.unit_sd[place_of(cause)] / kCauseFacts[static_cast<std::size_t>(cause)].step;
}

Looks::Looks(const Group& group, const std::vector<SeenSwing>& seen, const Coordinates& middle) {
  const Shot<double> shot = shot_of(pass_at(group.prior, middle), group.setting, true, FlightOptions::fast());
  const std::vector<Sighting> all = everything(group, shot);
  const std::vector<Site> sites = sites_over(all, group.setting, group.prior, std::span(&middle, 1));
  bool device = false;
  for (const Sighting& s : all)
    device = device || (seconds_for(s.kind) == 0.0 && was_seen(s.kind, group, seen));
  std::vector<Site> usual;
  const bool mat = group.setting.ground.surface == Surface::mat;
  for (const Site& site : sites) {
    const auto kind = static_cast<Kind>(site.kind);
    if (was_seen(kind, group, seen)) usual.push_back(site);
    const bool done = std::any_of(all.begin(), all.end(), [&](const Sighting& s) {
      return same_thing(s.kind, kind) && was_seen(s.kind, group, seen) &&
             !(is_word(s.kind) && !is_word(kind));
    });
    if (done || (mat && (of_the_mark(kind) || kind == Kind::divot_word)) ||
        (seconds_for(kind) == 0.0 && !device))
      continue;
    Look look;
    look.what.kind = kind;
    look.what.swings = kSwings;
    const double each = seconds_for(kind) == 0.0 ? kSecondsOfDevice : seconds_for(kind);
    look.what.seconds = kSwings * (kSecondsPerBall + each);
    look.information = information_of({site}, middle, kSwings, 1.0);
    looks_.push_back(look);
  }
  for (int c = 1; c <= static_cast<int>(Condition::step); ++c) {
    const auto condition = static_cast<Condition>(c);
    if (std::find(group.conditions.begin(), group.conditions.end(), condition) != group.conditions.end())
      continue;
    Look look;
    look.what.is_condition = true;
    look.what.condition = condition;
    look.what.swings = kSwings;
    look.what.seconds = kSecondsToExplain + kSwings * kSecondsPerBall;
    double looking = 0.0;
    for (const Site& s : usual) looking += std::max(seconds_for(static_cast<Kind>(s.kind)), kSecondsOfDevice);
    look.what.seconds += kSwings * std::min(looking, kSecondsOfLooking);
    look.information = through(information_of(usual, middle, kSwings, 0.5), condition, group.prior);
    looks_.push_back(look);
  }
}

std::vector<NextLook> Looks::ranked(const CoordinatesMatrix& precision, const Contrast& contrast) const {
  const auto variance = [&](const CoordinatesMatrix& p) {
    return contrast.left + contrast.along.dot(p.llt().solve(contrast.along));
  };
  const double before = variance(precision);
  std::vector<NextLook> out;
  constexpr double kNothing = 0.02;  // nats: not worth a coach's minute
  for (const Look& look : looks_) {
    NextLook next = look.what;
    next.gain = 0.5 * std::log(before / variance(precision + look.information));
    if (next.gain > kNothing) out.push_back(next);
  }
  std::stable_sort(out.begin(), out.end(), [](const NextLook& a, const NextLook& b) {
    return a.gain_per_minute() > b.gain_per_minute();
  });
  std::vector<NextLook> once;
  for (const NextLook& look : out) {
    const auto asks_it = [&](const NextLook& other) {
      return !other.is_condition && !look.is_condition && same_thing(other.kind, look.kind);
    };
    if (std::none_of(once.begin(), once.end(), asks_it)) once.push_back(look);
  }
  return once;
}

}  // namespace strikewright
