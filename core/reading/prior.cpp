#include "reading/prior.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "delivery/pose.hpp"
#include "quantity/angle.hpp"

namespace strikewright {

const std::array<PriorRow, kNumbers> kPriorRows{{
    {"club_speed_mps", "m/s", 1.0, "club speed"},
    {"plane_direction_deg", "deg", kDegree, "plane direction, out +"},
    {"plane_tilt_deg", "deg", kDegree, "plane tilt"},
    {"low_point_mm", "mm", 1e-3, "low point, ahead of the ball +"},
    {"edge_at_ball_mm", "mm", 1e-3, "leading edge over the turf at the ball"},
    {"shaft_lean_deg", "deg", kDegree, "shaft lean, forward +"},
    {"face_turn_deg", "deg", kDegree, "face turn, closing +"},
    {"strike_toe_mm", "mm", 1e-3, "strike point, toe +"},
    {"lie_offset_deg", "deg", kDegree, "tilt of the shaft over tilt of the arc"},
    {"closing_rate_degps", "deg/s", kDegree, "closing rate"},
    {"ball_sits_mm", "mm", 1e-3, "ball higher than usual for the surface"},
    {"turf_log", "", 1.0, "logarithm of the turf's resistance over its usual"},
    {"turf_lift_log", "", 1.0, "logarithm of the turf under the sole over its usual: it lifts"},
    {"shaft_time_log", "", 1.0, "logarithm of the time in which the head comes back over its usual"},
    {"arc_log", "", 1.0, "logarithm of the arc's radius over the club's usual"},
}};

namespace {

/// One row a skill band: beginner, club, county, tour.
using Band = std::array<double, 4>;

/// Centres and widths that depend on the kind of club. Millimetres and degrees as a coach says them.
struct FamilyRow {
  Band low_point, low_point_sd;  // mm
  Band edge, edge_sd;            // mm, leading edge over the turf at the ball
  Band lean, lean_sd;            // deg
};

// Low point of irons, skilled 30 to 100 mm ahead, beginners at or behind the ball; shaft lean, skilled 6 to
// 10 and unskilled -2 to 4 deg: trade knowledge from memory. Edge at the ball: what puts a sound strike 15 to
// 20 mm up an iron's face, in the middle of a driver's; it and all widths: assumptions, wide on purpose: to
// how the players of a band differ comes what brings one to a coach, most of a step (kCauseFacts) of any
// cause.
constexpr FamilyRow kIron{{5, 35, 65, 90},  {55, 47, 38, 34}, {0, 0, -0.5, -1},
                          {8, 6, 5.2, 4.8}, {0, 3, 6, 8},     {5.5, 4.5, 3.8, 3.5}};
constexpr FamilyRow kWedge{{5, 30, 60, 80},  {50, 44, 37, 33}, {-1.5, -2.5, -3, -3},
                           {8, 6, 5.2, 4.8}, {1, 4, 6, 7},     {5.5, 4.5, 3.8, 3.5}};
constexpr FamilyRow kHybrid{{0, 20, 45, 60},  {55, 47, 39, 35}, {-1, -1.5, -2, -2.5},
                            {8, 6, 5.2, 4.8}, {0, 1.5, 3, 4},   {5, 4, 3.5, 3.5}};
constexpr FamilyRow kWood{{0, 5, 20, 30},   {60, 51, 43, 37}, {0, 0, -0.5, -1},
                          {8, 6, 5.2, 4.8}, {-1, 0, 1, 2},    {4.5, 4, 3.5, 3.5}};
constexpr FamilyRow kDriver{{-20, -40, -50, -55}, {70, 60, 45, 38}, {18, 18, 18, 18},
                            {13, 10, 7.5, 6},     {-1, 0, 0, 1},    {4.5, 4, 3, 3}};

const FamilyRow& row_of(Family family) {
  switch (family) {
    case Family::driver:
      return kDriver;
    case Family::wood:
      return kWood;
    case Family::hybrid:
      return kHybrid;
    case Family::wedge:
      return kWedge;
    case Family::iron:
      break;
  }
  return kIron;
}

constexpr Band kDriverSpeed{37, 42, 46.5,
                            50};  // m/s; skilled men 44-50 (trade knowledge, from memory), rest assumption
constexpr double kSpeedSpread = 0.10;       // of the logarithm: players of one band differ; assumption
constexpr Band kDirectionSd{6, 5, 4, 3.6};  // deg, assumption
constexpr Band kFace{2, 1, 0.3, 0};         // deg open on average, assumption
constexpr Band kFaceSd{5, 4, 3.2,
                       2.8};  // deg; within-player driver sd 1.8 to 3.6 (from memory) plus between players
constexpr Band kToeSd{15, 11, 8, 6};  // mm; within-player driver sd 9 to 16 (from memory)
constexpr Band kToe{-3, -1, 0, 0};    // mm, assumption

/// Club speed [m/s]: 81 % of the driver's at 0.94 m, in proportion to length between; from memory, rounded.
double typical_speed(const Club& club, std::size_t band) {
  return kDriverSpeed[band] * (0.81 + 0.19 * (club.length - 0.94) / (1.149 - 0.94));
}

/// Plane tilt [deg]: about 48 for a driver, 58 for a 5-iron, 63 for a wedge (values from memory; that it
/// depends on the club: Y. H. Kwon et al., Sports Biomechanics 11, 127-148, 2012). Linear in the shaft's
/// design lie over that range.
double typical_tilt(const Club& club) {
  return 58.0 + (club.lie / kDegree - 61.0) * (club.lie / kDegree > 61.0 ? 5.0 / 3.0 : 4.0);
}

/// Long irons are leant less: from 60 % of the mid-iron lean at 20 deg of loft to all of it at 34 deg;
/// assumption.
double lean_share(const Club& club) {
  if (club.family != Family::iron) return 1.0;
  return 0.6 + 0.4 * std::clamp((club.loft / kDegree - 20.0) / 14.0, 0.0, 1.0);
}

/// Shaft lean [rad] of the band's usual swing.
double usual_lean(const Club& club, std::size_t band) {
  return row_of(club.family).lean[band] * lean_share(club) * kDegree;
}

/// How high a ball sits over the height that the surface gives it, and how that varies [m]: mown grass
/// carries a ball a little over the soil, rough does as it likes; assumption.
double usual_sit(Surface surface) {
  const bool grass =
      surface == Surface::fairway || surface == Surface::fairway_soft || surface == Surface::fairway_firm;
  return grass ? 0.001 : 0.0;
}
double sit_sd(Surface surface) {
  switch (surface) {
    case Surface::rough:
      return 0.006;
    case Surface::sand:
      return 0.004;
    case Surface::mat:
      return 0.0005;
    case Surface::tee:
      return 0.004;
    default:
      return 0.002;
  }
}

struct FaceSlopes {
  double turn, per_lean, per_direction;  // face turn that squares the face; slopes that keep it square
};

/// The face turn that puts the face at `face` [rad], and how much turn one radian of lean or direction asks
/// for.
FaceSlopes squaring(const Club& club, double tilt, double lean, double face) {
  const auto azimuth = [&](double turn, double shaft_lean, double direction) {
    return middle_azimuth(club, tilt, turn, shaft_lean, direction);
  };
  constexpr double step = 1e-4;
  double turn = 0.0;
  for (int k = 0; k < 20; ++k) {
    const double slope = (azimuth(turn + step, lean, 0.0) - azimuth(turn - step, lean, 0.0)) / (2.0 * step);
    turn -= (azimuth(turn, lean, 0.0) - face) / slope;
  }
  const double by_turn = (azimuth(turn + step, lean, 0.0) - azimuth(turn - step, lean, 0.0)) / (2.0 * step);
  const double by_lean = (azimuth(turn, lean + step, 0.0) - azimuth(turn, lean - step, 0.0)) / (2.0 * step);
  return {turn, -by_lean / by_turn, -1.0 / by_turn};
}

/// Arc radius over the club's usual, logarithm: the flail's own radius is the least that a golfer's can be,
/// since a trunk that turns and tilts makes it longer; assumption.
constexpr double kArc = 0.05, kArcSd = 0.10;
/// Turf under the sole and the time in which the head comes back over the usual, logarithms: that usual, 0
/// both, is taken for near the least (2.5 times the bare momentum; hands as a clamp). Assumption.
constexpr double kTurfLift = 1.0, kShaftTimeLog = 0.6;
/// Lean that is habit or shaft (bend, grip, where the hands are held), beyond what weight and release do
/// [rad]; assumption.
constexpr double kHabitLeast = 1.0 * kDegree, kHabitMost = 2.0 * kDegree;
/// Share of what lean does to the face that a player squares: of a lean that is his habit nearly all, of one
/// that weight or release bring about some, no two players alike; assumption.
constexpr double kSquaredHabit = 0.8, kSquaredLean = 0.3, kSquaredLeanSd = 0.3;
/// Share of the plane direction that the face follows less, no two players alike; assumption.
constexpr double kSquaredDirection = 0.25, kSquaredDirectionSd = 0.3;

/// How much of what release does to the leading edge's height at the ball is left in a golfer: who lets go
/// earlier or later feels for the ground and gives or takes height, no two alike. Assumption.
constexpr double kEdgeLeft = 0.4, kEdgeLeftSd = 0.3;

/// Who moves his weight also gives or takes height, one way or the other: share of the one by the other,
/// standard deviation. Assumption.
constexpr double kHeightByWeight = 0.05;

/// What one SI unit of a cause does to the numbers of kPriorRows.
struct Causing {
  Numbers numbers;
  [[nodiscard]] double low_point() const { return numbers[3]; }
  [[nodiscard]] double edge() const { return numbers[4]; }
  [[nodiscard]] double lean() const { return numbers[5]; }
};

Causing causing(const CauseSlopes& slopes, Cause cause, const Prior& prior, double turn_per_lean) {
  Causing c{slopes.col(static_cast<int>(cause))};
  c.numbers[0] /= std::exp(prior.mean[0]);
  // From the depth to the edge's height at the ball.
  c.numbers[4] +=
      (prior.mean[3] - detail::kEdgeAtContact) * std::sin(prior.mean[2]) / prior.arc_radius * c.numbers[3];
  c.numbers[6] += kSquaredLean * turn_per_lean * c.numbers[5];
  if (cause == Cause::release) c.numbers[4] *= kEdgeLeft;
  return c;
}

/// What weight and release do to the numbers beyond the straight line. Of what a bend does to the edge by a
/// release as little is left as of the slope.
void add_bends(Prior& p, const CauseBends& bends, double turn_per_lean) {
  const auto along = [](Cause cause) {
    Along a;
    a.along[place_of(cause)] = 1.0;
    return a;
  };
  const auto unit = [&](Cause cause) { return p.unit_sd[place_of(cause)]; };
  constexpr int kLowPoint = 3, kEdge = 4, kLean = 5, kFaceTurn = 6;
  const double rise = std::sin(p.mean[2]) / p.arc_radius;
  const auto bend = [&](Cause a, Cause b, const PassVector<double>& size) {
    Bend out{along(a), along(b), unit(a) * unit(b) * size};
    const double low = p.factor(kLowPoint, place_of(a)) * p.factor(kLowPoint, place_of(b));
    Numbers& by = out.size;
    by[0] /= std::exp(p.mean[0]);
    // From the depth to the edge's height at the ball, to second order.
    by[kEdge] +=
        rise * ((p.mean[kLowPoint] - detail::kEdgeAtContact) * by[kLowPoint] + (a == b ? 0.5 : 1.0) * low);
    if (b == Cause::release) by[kEdge] *= kEdgeLeft;
    by[kFaceTurn] += kSquaredLean * turn_per_lean * by[kLean];
    return out;
  };
  p.bends = {bend(Cause::release, Cause::release, bends.release),
             bend(Cause::weight, Cause::weight, bends.weight),
             bend(Cause::weight, Cause::release, bends.both)};
}

/// What is left of a spread when a part of it is explained, but at least a share of it.
double rest(double whole, double part, double least) {
  return std::sqrt(std::max(whole * whole - part * part, least * least * whole * whole));
}

/// The part of the prior that weight, release, height and the lean that is none of theirs make.
void add_causes(Prior& p, const CauseSlopes& slopes, const FamilyRow& row, std::size_t band,
                const FaceSlopes& face) {
  const auto column = [&](Unknown u) { return p.factor.col(static_cast<int>(u)); };
  const auto unit = [&](Unknown u) -> double& { return p.unit_sd[static_cast<int>(u)]; };
  const Causing weight = causing(slopes, Cause::weight, p, face.per_lean);
  const Causing release = causing(slopes, Cause::release, p, face.per_lean);
  const Causing height = causing(slopes, Cause::height, p, face.per_lean);
  const double low_sd = row.low_point_sd[band] * 1e-3, edge_sd = row.edge_sd[band] * 1e-3;
  // Release takes a share of how low points differ, but no more than the edge's height at the ball allows:
  // who lets go that unevenly would miss the ball. Weight takes the rest; height what is left of the edge's,
  // the height that is given or taken for a release among it.
  constexpr double kReleaseShare = 0.55, kEdgeShare = 0.8, kLeastShare = 0.5;
  unit(Unknown::release) = std::min(kReleaseShare * low_sd / std::abs(release.low_point()),
                                    kEdgeShare * edge_sd / std::max(std::abs(release.edge()), 1e-6));
  const double release_sd = unit(Unknown::release);
  unit(Unknown::weight) = rest(low_sd, release_sd * release.low_point(), kLeastShare) / weight.low_point();
  const double weight_sd = unit(Unknown::weight);
  unit(Unknown::height) =
      rest(edge_sd, std::hypot(release_sd * release.edge(), weight_sd * weight.edge()), kLeastShare) /
      height.edge();
  const double habit = rest(row.lean_sd[band] * kDegree,
                            std::hypot(release_sd * release.lean(), weight_sd * weight.lean()), 0.0);
  unit(Unknown::lean_habit) = std::clamp(habit, kHabitLeast, kHabitMost);
  column(Unknown::weight) = weight_sd * weight.numbers;
  column(Unknown::release) = release_sd * release.numbers;
  column(Unknown::height) = unit(Unknown::height) * height.numbers;
  p.felt_by(Cause::height, Cause::release) = kEdgeLeftSd / kEdgeLeft * std::abs(release_sd * release.edge()) /
                                             (unit(Unknown::height) * height.edge());
  p.felt_by(Cause::height, Cause::weight) = kHeightByWeight * weight_sd / unit(Unknown::height);
  for (const auto& [cause, of] : {std::pair{Cause::weight, weight}, std::pair{Cause::release, release}})
    p.felt_by(Cause::face_turn, cause) = std::abs(kSquaredLeanSd * face.per_lean * of.lean()) *
                                         p.unit_sd[place_of(cause)] / unit(Unknown::face_turn);
}

/// The sizes of everything else.
void add_sizes(Prior& p, std::size_t band, const FaceSlopes& face, Surface surface) {
  const auto unit = [&](Unknown u) -> double& { return p.unit_sd[static_cast<int>(u)]; };
  unit(Unknown::speed) = kSpeedSpread;
  unit(Unknown::handle) = kDirectionSd[band] * kDegree;
  unit(Unknown::plane_tilt) = 3.5 * kDegree;
  unit(Unknown::face_turn) = std::abs(face.per_direction) * kFaceSd[band] * kDegree;
  unit(Unknown::strike_toe) = kToeSd[band] * 1e-3;
  unit(Unknown::lie) = 1.5 * kDegree;
  unit(Unknown::closing) = 600.0 * kDegree;
  unit(Unknown::ball_sits) = sit_sd(surface);
  unit(Unknown::turf) = 0.7;
  unit(Unknown::turf_lift) = 0.8;
  unit(Unknown::shaft_time) = 0.8;
  unit(Unknown::arc) = kArcSd;
}

/// Whatever moves one number alone, and what a player squares.
void add_columns(Prior& p, const FaceSlopes& face) {
  const auto unit = [&](Unknown u) { return p.unit_sd[static_cast<int>(u)]; };
  const auto alone = [&](Unknown u, int number) { p.factor(number, static_cast<int>(u)) = unit(u); };
  alone(Unknown::speed, 0);
  alone(Unknown::handle, 1);
  p.factor(6, static_cast<int>(Unknown::handle)) =
      kSquaredDirection * face.per_direction * unit(Unknown::handle);
  p.felt_by(Cause::face_turn, Cause::handle) =
      std::abs(kSquaredDirectionSd * face.per_direction) * unit(Unknown::handle) / unit(Unknown::face_turn);
  alone(Unknown::plane_tilt, 2);
  p.factor(8, static_cast<int>(Unknown::plane_tilt)) =
      -0.4 *
      unit(Unknown::plane_tilt);  // a flatter plane comes with a shaft a little steeper than it, assumption
  alone(Unknown::face_turn, 6);
  alone(Unknown::strike_toe, 7);
  alone(Unknown::lie, 8);
  alone(Unknown::closing, 9);
  alone(Unknown::ball_sits, 10);
  alone(Unknown::turf, 11);
  alone(Unknown::turf_lift, 12);
  alone(Unknown::shaft_time, 13);
  alone(Unknown::arc, 14);
  alone(Unknown::lean_habit, 5);
  p.factor(6, static_cast<int>(Unknown::lean_habit)) =
      kSquaredHabit * face.per_lean * unit(Unknown::lean_habit);
}

const std::array<std::string, kNumbers> kSources{
    "skilled driver speed 44-50 m/s and share of it by length: trade knowledge, from memory; width: "
    "assumption",
    "assumption",
    "Kwon et al. 2012 (that it depends on the club), values from memory; width: assumption",
    "skilled irons 30-100 mm ahead: trade knowledge, from memory; moved by weight and release as the flail "
    "moves it; rest and widths: assumption",
    "assumption",
    "skilled 6-10, unskilled -2 to 4 deg forward: trade knowledge, from memory; widths: assumption",
    "squares the face at the typical lean; within-player face sd 1.8-3.6 deg from memory; rest: assumption",
    "within-player sd 9-16 mm (driver): from memory; rest: assumption",
    "sole flat on average; width: assumption",
    "2000-3000 deg/s with the plane's share taken off: from memory; width: assumption",
    "assumption",
    "no force in turf was ever published: within a factor of 2 either way; assumption",
    "nor how much turf goes under the sole: within a factor of 2 either way; assumption",
    "nor how stiffly hands and shaft hold the head: within a factor of 2 either way; assumption",
    "between the flail's own radius and a fifth more; assumption"};

}  // namespace

Numbers prior_centre(const Club& club, Skill skill, Surface surface) {
  const auto band = static_cast<std::size_t>(skill);
  const FamilyRow& row = row_of(club.family);
  const double tilt = typical_tilt(club) * kDegree, lean = usual_lean(club, band);
  // The player lets the sole lie flat on average: the shaft stands at the design lie.
  const double lie_offset = club.lie - tilt;
  Numbers mean;
  mean << std::log(typical_speed(club, band)), 0.0, tilt, row.low_point[band] * 1e-3, row.edge[band] * 1e-3,
      lean, squaring(club, club.lie, lean, kFace[band] * kDegree).turn, kToe[band] * 1e-3, lie_offset,
      1500.0 * kDegree, usual_sit(surface), 0.0, kTurfLift, kShaftTimeLog, kArc;
  return mean;
}

Prior prior_for(const Club& club, Skill skill, Surface surface) {
  const auto band = static_cast<std::size_t>(skill);
  const FaceSlopes face = squaring(club, club.lie, usual_lean(club, band), kFace[band] * kDegree);
  Prior p;
  p.skill = skill;
  p.surface = surface;
  p.arc_radius = club.arc_radius;
  p.mean = prior_centre(club, skill, surface);
  const CauseEffects effects = usual_cause_effects(club, static_cast<SwingBand>(band));
  add_sizes(p, band, face, surface);
  add_causes(p, effects.slopes, row_of(club.family), band, face);
  add_columns(p, face);
  add_bends(p, effects.bends, face.per_lean);
  p.source = kSources;
  return p;
}

Numbers Prior::numbers_at(const Coordinates& z) const {
  Numbers out = mean + factor * z;
  for (const Bend& b : bends) out += b.first(z) * b.second(z) * b.size;
  return out;
}

Factor Prior::factor_at(const Coordinates& z) const {
  Factor out = factor;
  for (const Bend& b : bends)
    out += b.size * (b.second(z) * b.first.along + b.first(z) * b.second.along).transpose();
  return out;
}

Prior Prior::by(const Coordinates& middle, const CoordinatesMatrix& root) const {
  Prior out = *this;
  out.mean = mean + factor * middle;
  out.factor = factor * root;
  for (Bend& b : out.bends)
    for (Along* one : {&b.first, &b.second}) *one = {root.transpose() * one->along, (*one)(middle)};
  return out;
}

Coordinates coordinates_of(const Prior& prior, const Pass<double>& pass) {
  Numbers x = vector_of(pass);
  x[0] = std::log(x[0]);
  x[4] += detail::rise_at_ball(prior.arc_radius, pass.plane_tilt, pass.low_point);
  // Of all that lead to it the shortest, straightened again until it stands still.
  Coordinates z = Coordinates::Zero();
  constexpr int kRounds = 60;
  for (int k = 0; k < kRounds; ++k) {
    const Factor slopes = prior.factor_at(z);
    const NumbersMatrix covariance = slopes * slopes.transpose();
    const Numbers left = x - prior.numbers_at(z) + slopes * z;
    const Coordinates next = slopes.transpose() * covariance.ldlt().solve(left);
    const double moved = (next - z).norm();
    z = next;
    if (moved < 1e-12) break;
  }
  return z;
}

const char* name_of(Skill skill) {
  switch (skill) {
    case Skill::beginner:
      return "beginner";
    case Skill::club:
      return "club";
    case Skill::county:
      return "county";
    case Skill::tour:
      break;
  }
  return "tour";
}

Result<Skill> skill_named(std::string_view text, std::string place) {
  for (const Skill s : kSkills)
    if (text == name_of(s)) return s;
  const bool plus = !text.empty() && text.front() == '+';
  const std::string_view digits = plus ? text.substr(1) : text;
  double handicap = 0.0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), handicap);
  if (digits.empty() || error != std::errc{} || end != digits.data() + digits.size() || handicap < 0.0 ||
      handicap > 54.0)
    return unexpected(Fault{std::move(place), "'" + std::string(text) + "'",
                            "beginner, club, county, tour, or a handicap from +10 to 54"});
  if (plus || handicap == 0.0) return Skill::tour;
  if (handicap < 10.0) return Skill::county;
  return handicap <= 24.0 ? Skill::club : Skill::beginner;
}

}  // namespace strikewright
