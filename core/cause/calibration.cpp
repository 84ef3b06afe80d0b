#include "cause/calibration.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <numbers>

#include "bag/generic.hpp"
#include "cause/looks.hpp"
#include "numeric/parallel.hpp"
#include "reading/recovery.hpp"
#include "reading/sites.hpp"
#include "reading/target.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright {
namespace {

using Biases = std::array<double, kKinds>;

double chi_square(int freedom, Draws& draws) {
  double sum = 0.0;
  for (int k = 0; k < freedom; ++k) sum += std::pow(draws.normal(), 2);
  return sum;
}

double between(double low, double high, Draws& draws) { return low + (high - low) * draws.uniform(); }

std::size_t one_of(std::size_t count, Draws& draws) {
  return std::min(count - 1, static_cast<std::size_t>(draws.uniform() * static_cast<double>(count)));
}

/// Scale of the t from swing to swing: the mean of the variance that is stated is within^2 (together.cpp).
Coordinates drawn_scatter(Draws& draws) {
  constexpr double kShare = (kSwingFreedom - 2.0) / kSwingFreedom * (kScatterFreedom - 2.0) / kScatterFreedom;
  Coordinates scale;
  for (int j = 0; j < kUnknowns; ++j) {
    const double within = within_sd()[j];
    const double chi = chi_square(static_cast<int>(kScatterFreedom), draws);
    scale[j] = within * std::sqrt(kShare * kScatterFreedom / chi);
  }
  return scale;
}

Coordinates drawn_swing(const Coordinates& centre, const Coordinates& scale, Draws& draws) {
  const double stretch = std::sqrt(kSwingFreedom / chi_square(static_cast<int>(kSwingFreedom), draws));
  Coordinates z = centre;
  for (int j = 0; j < kUnknowns; ++j) z[j] += stretch * scale[j] * draws.normal();
  return z;
}

/// A player with a club on a surface; the truth may have another club, law or turf than the reading thinks.
struct Stand {
  Setting setting;
  Prior prior;
  PriorReach reach;
};

Setting setting_with(const std::string& club, bool mat) {
  Setting s;
  s.club = *club_named(generic_bag(), club);
  if (s.club.family == Family::driver) s.ground.surface = Surface::tee;
  if (mat) s.ground.surface = Surface::mat;
  return s;
}

Stand stand_with(const std::string& club, Skill skill, bool mat) {
  Stand s;
  s.setting = setting_with(club, mat);
  s.prior = prior_for(s.setting.club, skill, s.setting.ground.surface);
  s.reach = prior_reach(s.setting, s.prior);
  return s;
}

Setting true_setting(Setting s, World world) {
  if (world == World::other_drag) s.day.law = FlightLaw::played;
  if (world == World::dull_face) s.club.restitution0 -= 0.02;
  return s;
}

Pass<double> true_pass(const Prior& prior, const Coordinates& z, World world) {
  Pass<double> pass = pass_at(prior, z);
  if (world == World::strong_turf) pass.turf += std::numbers::ln2;
  return pass;
}

bool of_a_device(Kind kind) {
  using enum Kind;
  return kind == attack || kind == path || kind == face || kind == loft || kind == club_speed ||
         kind == ball_speed || kind == launch_angle || kind == spin || kind == spin_axis;
}

Biases drawn_biases(World world, Draws& draws) {
  Biases biases{};
  for (std::size_t k = 0; k < kKinds; ++k) {
    const double usual = facts_of(static_cast<Kind>(k)).bias * draws.normal();
    const bool judged_by_eye = !of_a_device(static_cast<Kind>(k));
    biases[k] = world == World::biased_eye && judged_by_eye ? (draws.uniform() < 0.5 ? -1.0 : 1.0) : usual;
  }
  return biases;
}

/// What a hand slips to: the wrong sign, ten times too much (or too little, where no lesson's file takes the
/// other), the word on the other side; fat for thin.
void slip(Sighting& s, Draws& draws) {
  const bool sign = draws.uniform() < 0.5;
  if (s.kind == Kind::contact_word) {
    s.word = s.word == 1 ? 2 : s.word == 2 ? 1 : s.word;
  } else if (is_word(s.kind)) {
    s.word = static_cast<int>(words_of(s.kind).size()) - 1 - s.word;
  } else {
    const Facts& facts = facts_of(s.kind);
    const auto taken = [&](double v) { return v >= facts.low && v <= facts.high; };
    const double first = (sign ? -1.0 : 10.0) * s.value, second = (sign ? 10.0 : -1.0) * s.value;
    s.value = taken(first) ? first : taken(second) ? second : 0.1 * s.value;
  }
}

struct Eye {
  std::vector<Kind> kinds;
  Biases biases{};
  Hand hand = Hand::right;
  World world = World::as_thought;
};

/// What is seen of a swing, in the right-hander's frame. A left-hander is seen in the mirror and turned back.
std::vector<Sighting> looked_at(const Shot<double>& shot, const Setting& setting, const Eye& eye,
                                Draws& draws) {
  const bool left = eye.hand == Hand::left;
  const Shot<double> world = left ? mirrored(shot) : shot;
  const Setting around = left ? mirrored(setting) : setting;
  std::vector<Sighting> out;
  for (const Kind kind : eye.kinds) {
    if (!can_be_seen(kind, shot)) continue;
    Sighting s = seen(kind, world, around, draws, eye.biases[static_cast<std::size_t>(kind)]);
    if (eye.world == World::slips && draws.uniform() < 0.1) slip(s, draws);
    out.push_back(left ? mirrored(s) : s);
  }
  return out;
}

struct Evidence {
  std::string name;
  std::vector<Kind> kinds;
  bool mat = false;
};

const std::vector<Evidence>& evidence_sets() {
  static const std::vector<Evidence> sets = [] {
    using enum Kind;
    std::vector<Evidence> out;
    for (const Look& look : looks()) out.push_back({look.name, look.kinds, false});
    out.push_back(
        {"mat", {start_word, curve_word, height_word, contact_word, strike_toe, strike_groove}, true});
    return out;
  }();
  return sets;
}

const std::vector<std::string>& clubs_on(bool mat) {
  static const std::vector<std::string> grass{"7i", "pw", "4i", "driver", "4h"}, mats{"7i", "pw"};
  return mat ? mats : grass;
}

/// All stands that can be drawn: [mat][club][skill].
using Stands = std::array<std::vector<std::vector<Stand>>, 2>;
Stands all_stands() {
  Stands out;
  for (const bool mat : {false, true})
    for (const std::string& club : clubs_on(mat)) {
      std::vector<Stand> one;
      one.reserve(kSkills.size());
      for (const Skill skill : kSkills) one.push_back(stand_with(club, skill, mat));
      out[mat ? 1 : 0].push_back(std::move(one));
    }
  return out;
}

std::size_t drawn_size(Draws& draws) {
  const double u = draws.uniform();
  return u < 0.15 ? 3 : u < 0.50 ? 5 : u < 0.90 ? 10 : 20;
}

/// One pattern with its truths.
struct PatternRead {
  std::array<double, kReported> true_swing{}, true_mean{};
  std::array<Estimate, kReported> swing, mean;
  bool rough = false;
};

PatternRead one_pattern(std::size_t index, const Stands& stands, const CalibrationOptions& options) {
  Draws draws(options.seed, index);
  const Evidence& evidence = evidence_sets()[index % evidence_sets().size()];
  const auto& clubs = stands[evidence.mat ? 1 : 0];
  const auto& skills = clubs[one_of(clubs.size(), draws)];
  const Stand& stand = skills[one_of(skills.size(), draws)];
  Eye eye{evidence.kinds, {}, draws.uniform() < 0.5 ? Hand::left : Hand::right, options.world};
  const std::size_t n = options.size > 0 ? options.size : drawn_size(draws), judged_swing = one_of(n, draws);
  const Setting truth = true_setting(stand.setting, options.world);
  Coordinates centre;
  for (int j = 0; j < kUnknowns; ++j) centre[j] = between_sd()[j] * draws.normal();
  const Coordinates scale = drawn_scatter(draws);
  eye.biases = drawn_biases(options.world, draws);

  PatternRead out;
  std::vector<std::vector<Sighting>> sightings(n);
  std::vector<FitSwing> swings;
  for (std::size_t i = 0; i < n; ++i) {
    const Pass<double> pass = true_pass(stand.prior, drawn_swing(centre, scale, draws), options.world);
    const Shot<double> shot = shot_of(pass, truth);
    if (i == judged_swing) out.true_swing = reported_values(shot);
    sightings[i] = looked_at(shot, stand.setting, eye, draws);
    swings.push_back({sightings[i], &stand.setting, &stand.prior, 0});
  }
  out.true_mean = reported_values(shot_of(true_pass(stand.prior, centre, options.world), truth, false));
  const std::vector<const PriorReach*> reach(n, &stand.reach);
  const std::array<Condition, 1> conditions{Condition::normal};
  FitOptions fit;
  fit.threads = 1;
  const TogetherReading read = read_together(swings, conditions, reach, fit);
  out.swing = read.swings[judged_swing].at;
  out.mean = read.patterns[0].mean;
  out.rough = read.swings[judged_swing].health.rough;
  return out;
}

void add(CalibrationSet& set, const PatternRead& o) {
  ++set.patterns;
  const auto number = [](const Estimate& e) { return std::isfinite(e.mean) && std::isfinite(e.sd); };
  if (!std::all_of(o.swing.begin(), o.swing.end(), number) ||
      !std::all_of(o.mean.begin(), o.mean.end(), number)) {
    ++set.failed;
    return;
  }
  set.rough += o.rough ? 1u : 0u;
  for (std::size_t k = 0; k < kReported; ++k) {
    set.swing[k].add(o.true_swing[k], o.swing[k]);
    set.mean[k].add(o.true_mean[k], o.mean[k]);
  }
}

constexpr std::size_t kLeaders = 5;  // the first causes of the list can be clearly off

struct Pupil {
  Skill skill = Skill::club;
  Stand stand;
  Cause leader = Cause::weight;
  Coordinates centre = Coordinates::Zero(), scale = Coordinates::Ones();
  Eye eye;
};

Pupil drawn_pupil(Draws& draws) {
  using enum Kind;
  Pupil p;
  p.skill = draws.uniform() < 0.5 ? Skill::club : Skill::county;
  p.stand = stand_with(draws.uniform() < 0.5 ? "7i" : "pw", p.skill, false);
  for (int j = 0; j < kUnknowns; ++j) p.centre[j] = 0.5 * between_sd()[j] * draws.normal();
  p.leader = static_cast<Cause>(one_of(kLeaders, draws));
  for (std::size_t k = 0; k < static_cast<std::size_t>(kCauses); ++k) {
    const auto at = place_of(static_cast<Cause>(k));
    double steps = k < kLeaders ? between(-0.4, 0.4, draws) : 0.5 * draws.normal();
    if (static_cast<Cause>(k) == p.leader)
      steps = (draws.uniform() < 0.5 ? -1.0 : 1.0) * between(1.0, 2.5, draws);
    p.centre[at] = steps / steps_in(static_cast<Cause>(k), p.stand.prior);
  }
  p.scale = drawn_scatter(draws);
  p.eye.kinds = {start,       curve,     carry,           height_word, contact_word, divot_word,
                 divot_start, divot_end, divot_direction, strike_toe,  strike_groove};
  p.eye.biases = drawn_biases(World::as_thought, draws);
  p.eye.hand = draws.uniform() < 0.5 ? Hand::left : Hand::right;
  // Done about other causes: seen as this one, and no cause of its own.
  const Coordinates causes = p.centre;
  for (int by = 0; by < kCauses; ++by)
    for (int about = 0; about < kCauses; ++about)
      if (p.stand.prior.felt(by, about) > 0.0)
        p.centre[place_of(static_cast<Cause>(by))] +=
            p.stand.prior.felt(by, about) * draws.normal() * causes[place_of(static_cast<Cause>(about))];
  return p;
}

/// Swings with where each really was, and how its kind scatters.
struct Swung {
  std::vector<SeenSwing> seen;
  std::vector<Coordinates> at, scale;
};

void swing(Swung& out, const Pupil& p, Condition condition, std::size_t n, Draws& draws) {
  const auto effects = effects_of(condition, p.stand.prior);
  Coordinates centre = p.centre;
  for (int j = 0; j < kUnknowns; ++j) {
    const ConditionEffect& e = effects[static_cast<std::size_t>(j)];
    centre[j] = e.keeps * centre[j] + e.shift + e.sd * draws.normal();
  }
  const Coordinates scale = condition == Condition::normal ? p.scale : drawn_scatter(draws);
  for (std::size_t i = 0; i < n; ++i) {
    SeenSwing s;
    s.row = out.seen.size() + 1;
    s.line = s.row + 1;
    s.club = p.stand.setting.club.name;
    s.hand = p.eye.hand;
    s.condition = condition;
    out.at.push_back(drawn_swing(centre, scale, draws));
    out.scale.push_back(scale);
    s.sightings = looked_at(shot_of(pass_at(p.stand.prior, out.at.back()), p.stand.setting), p.stand.setting,
                            p.eye, draws);
    out.seen.push_back(std::move(s));
  }
}

/// What an exact linear reading would have seen of the pupil's usual pattern (formula: calibrate_causes).
/// Unknowns: pattern, a condition's shift, biases; each swing's own place is integrated out.
FitMessage linear_message(const Pupil& p, const Swung& swung, Draws& draws) {
  constexpr Eigen::Index kShift = kUnknowns, kBias = kShift + kUnknowns, kAll = kBias + kKinds;
  const Condition last = swung.seen.back().condition;  // at most one is not normal: the next look
  const auto effects = effects_of(last, p.stand.prior);
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(kAll, kAll);
  for (int j = 0; j < kUnknowns; ++j) {
    const double sd = effects[static_cast<std::size_t>(j)].sd;
    a(kShift + j, kShift + j) = sd > 0.0 ? 1.0 / (sd * sd) : 1.0;  // normal: nothing hangs on it
  }
  for (std::size_t k = 0; k < kKinds; ++k) {
    const double sd = facts_of(static_cast<Kind>(k)).bias;
    const auto at = kBias + static_cast<Eigen::Index>(k);
    a(at, at) = 1.0 / (sd * sd);
  }
  for (std::size_t i = 0; i < swung.seen.size(); ++i) {
    const SeenSwing& s = swung.seen[i];
    const Coordinates q = swung.scale[i].cwiseAbs2().cwiseInverse();
    Eigen::MatrixXd pattern = Eigen::MatrixXd::Zero(kUnknowns, kAll);  // of the swing's middle
    for (int j = 0; j < kUnknowns; ++j) {
      const bool usual = s.condition == Condition::normal;
      pattern(j, j) = usual ? 1.0 : effects[static_cast<std::size_t>(j)].keeps;
      pattern(j, kShift + j) = usual ? 0.0 : 1.0;
    }
    CoordinatesMatrix own = q.asDiagonal();
    Eigen::MatrixXd cross = -(q.asDiagonal() * pattern);
    a += pattern.transpose() * q.asDiagonal() * pattern;
    for (const Site& site :
         sites_over(s.sightings, p.stand.setting, p.stand.prior, std::span(&swung.at[i], 1))) {
      const double w = information_of(site, site.at + site.slope.dot(swung.at[i]));
      own += w * site.slope * site.slope.transpose();
      cross.col(kBias + site.kind) += w * site.bias_slope * site.slope;
      a(kBias + site.kind, kBias + site.kind) += w * site.bias_slope * site.bias_slope;
    }
    a -= cross.transpose() * own.llt().solve(cross);
  }
  constexpr Eigen::Index kRest = kAll - kUnknowns;
  FitMessage m;
  m.precision = a.topLeftCorner(kUnknowns, kUnknowns) -
                a.topRightCorner(kUnknowns, kRest) *
                    a.bottomRightCorner(kRest, kRest).llt().solve(a.bottomLeftCorner(kRest, kUnknowns));
  const Eigen::SelfAdjointEigenSolver<CoordinatesMatrix> parts(m.precision);
  Coordinates noise;
  for (int j = 0; j < kUnknowns; ++j)
    noise[j] = std::sqrt(std::max(0.0, parts.eigenvalues()[j])) * draws.normal();
  m.pull = m.precision * p.centre + parts.eigenvectors() * noise;
  return m;
}

constexpr int kBoundTimes = 4;  // the bound's noise is drawn, for a steadier share

/// One pupil's verdicts, in the order of CauseCalibration::rows.
struct Verdicts {
  std::array<bool, 4> right{}, flagged{};
  std::array<double, 4> bound_right{};
  bool no_next_look = false, condition_look = false;
};

bool cannot_tell(const CauseReading& read, Cause a, Cause b) {
  const auto holds = [](const Confounded& c, Cause cause) {
    return std::find(c.causes.begin(), c.causes.end(), cause) != c.causes.end();
  };
  return std::any_of(read.cannot_tell_apart.begin(), read.cannot_tell_apart.end(),
                     [&](const Confounded& c) { return holds(c, a) && holds(c, b); });
}

/// Reads what was swung, then lets the bound's message be named in its place.
CauseReading judge(std::size_t row, const Pupil& p, const Swung& swung, const NamesCauses& names,
                   Draws& noise, Verdicts& out) {
  LessonOptions options;
  options.bag = generic_bag();
  options.skill = p.skill;
  options.threads = 1;
  Result<LessonReading> lesson = read_lesson(swung.seen, options, "invented");
  ensure(lesson.has_value() && lesson->groups.size() == 1, "an invented lesson can be read");
  Group& group = lesson->groups.front();
  CauseReading read = names(group, swung.seen);
  const Cause first = read.causes.front().cause;
  out.right[row] = first == p.leader;
  out.flagged[row] = !out.right[row] && cannot_tell(read, first, p.leader);
  for (int k = 0; k < kBoundTimes; ++k) {
    group.fit.message = linear_message(p, swung, noise);
    if (names(group, swung.seen).causes.front().cause == p.leader) out.bound_right[row] += 1.0 / kBoundTimes;
  }
  return read;
}

Verdicts one_pupil(std::size_t index, std::uint64_t seed, const NamesCauses& names) {
  Draws draws(seed + 1, index), noise(seed + 2, index);
  Pupil p = drawn_pupil(draws);
  Swung all;
  swing(all, p, Condition::normal, 20, draws);
  const auto first = [&all](std::size_t n) {
    const auto to = static_cast<std::ptrdiff_t>(n);
    return Swung{{all.seen.begin(), all.seen.begin() + to},
                 {all.at.begin(), all.at.begin() + to},
                 {all.scale.begin(), all.scale.begin() + to}};
  };
  Verdicts v;
  (void)judge(0, p, first(5), names, noise, v);
  const CauseReading after10 = judge(1, p, first(10), names, noise, v);
  (void)judge(2, p, all, names, noise, v);
  if (after10.next_look.empty()) {
    v.no_next_look = true;
    v.right[3] = v.right[1];
    v.bound_right[3] = v.bound_right[1];
    v.flagged[3] = v.flagged[1];
    return v;
  }
  const NextLook& look = after10.next_look.front();
  v.condition_look = look.is_condition;
  if (!look.is_condition) p.eye.kinds.push_back(look.kind);
  Swung more = first(10);
  swing(more, p, look.is_condition ? look.condition : Condition::normal, 5, draws);
  (void)judge(3, p, more, names, noise, v);
  return v;
}

}  // namespace

Calibration calibrate(const CalibrationOptions& options) {
  const Stands stands = all_stands();
  std::vector<PatternRead> outcomes(options.patterns);
  std::atomic<std::size_t> done{0};
  in_parallel(
      options.patterns, 1,
      [&](std::size_t i, std::size_t) {
        outcomes[i] = one_pattern(i, stands, options);
        const std::size_t now = ++done;
        if (options.progress) options.progress(now);
      },
      options.threads);
  Calibration c;
  c.world = options.world;
  c.patterns = options.patterns;
  c.all.name = "all";
  for (const Evidence& e : evidence_sets()) c.sets.push_back({e.name, 0, 0, 0, {}, {}});
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    add(c.sets[i % c.sets.size()], outcomes[i]);
    add(c.all, outcomes[i]);
  }
  return c;
}

CauseCalibration calibrate_causes(std::size_t pupils, const CalibrationOptions& options,
                                  const NamesCauses& names) {
  std::vector<Verdicts> verdicts(pupils);
  std::atomic<std::size_t> done{0};
  in_parallel(
      pupils, 1,
      [&](std::size_t i, std::size_t) {
        verdicts[i] = one_pupil(i, options.seed, names);
        const std::size_t now = ++done;
        if (options.progress) options.progress(now);
      },
      options.threads);
  CauseCalibration c;
  constexpr std::array kAfter{"5 swings", "10 swings", "20 swings", "10 and the next look"};
  for (std::size_t r = 0; r < c.rows.size(); ++r) c.rows[r].after = kAfter[r];
  for (const Verdicts& v : verdicts) {
    c.no_next_look += v.no_next_look ? 1u : 0u;
    c.condition_looks += v.condition_look ? 1u : 0u;
    for (std::size_t r = 0; r < c.rows.size(); ++r) {
      ++c.rows[r].pupils;
      c.rows[r].right += v.right[r] ? 1u : 0u;
      c.rows[r].bound_right += v.bound_right[r];
      c.rows[r].wrong_flagged += v.flagged[r] ? 1u : 0u;
    }
  }
  return c;
}

InventedPupil invented_pupil(std::size_t index, std::uint64_t seed, std::size_t swings) {
  Draws draws(seed + 1, index), noise(seed + 2, index);
  const Pupil p = drawn_pupil(draws);
  Swung all;
  swing(all, p, Condition::normal, swings, draws);
  const double of_t = std::sqrt(kSwingFreedom / (kSwingFreedom - 2.0));
  std::vector<FitMessage> linear(kBoundTimes);
  for (FitMessage& m : linear) m = linear_message(p, all, noise);
  return {p.skill,  p.stand.setting, p.stand.prior,       p.leader,
          p.centre, of_t * p.scale,  std::move(all.seen), std::move(linear)};
}

}  // namespace strikewright
