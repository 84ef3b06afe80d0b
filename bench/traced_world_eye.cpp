#include "traced_world_eye.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/angle.hpp"
#include "sighting/predict.hpp"

namespace traced_world {
namespace {

using strikewright::Kind;
using strikewright::Sighting;

constexpr double kMm = 1e-3;

/// One look at one swing: noise, the eye's constant error, rounding.
class Look {
 public:
  Look(const Eye& eye, Draws& draws, std::vector<Sighting>& out) : eye_{eye}, draws_{draws}, out_{out} {}

  /// A latent as it appears. `sd` is the ordinary error.
  double seen(Kind kind, double truth, double sd) {
    return truth + eye_.care * sd * (draws_.normal() + eye_.bias[static_cast<std::size_t>(kind)]);
  }
  /// Writes a number, `often` as a share of swings, rounded to `to`.
  void number(Kind kind, double truth, double sd, double to, double often) {
    const double value = std::round(seen(kind, truth, sd) / to) * to;
    const bool nothing = kind == Kind::divot_depth && value <= 0.0;  // a mark is never written as 0 deep
    if (draws_.uniform() < often && !nothing) out_.push_back(strikewright::measured(kind, value));
  }
  /// Writes the word whose limits (ascending) hold what appears.
  template <std::size_t N>
  void word(Kind kind, double truth, double sd, const std::array<double, N>& limits, double often) {
    const double value = seen(kind, truth, sd);
    const auto index = std::upper_bound(limits.begin(), limits.end(), value) - limits.begin();
    if (draws_.uniform() < often) out_.push_back(strikewright::judged(kind, static_cast<int>(index)));
  }
  void write(const Sighting& s) { out_.push_back(s); }
  Draws& draws() { return draws_; }
  const Eye& eye() const { return eye_; }

 private:
  const Eye& eye_;
  Draws& draws_;
  std::vector<Sighting>& out_;
};

/// Heard and felt as much as seen: clean fat thin topped shank.
void contact(Look& look, const Seeable& s) {
  enum Word { clean, fat, thin, topped, shank };
  constexpr double kThin = 0.007, kFatNoise = 0.010, kThinNoise = 0.0015;  // m
  const double turf = s.turf_before + look.eye().care * kFatNoise * look.draws().normal();
  const double up = s.up + look.eye().care * kThinNoise * look.draws().normal();
  Word w = clean;
  if (turf > look.eye().fat_from)
    w = fat;
  else if (up < kThin)
    w = thin;
  if (s.topped) w = topped;
  if (s.shank) w = shank;
  look.write(strikewright::judged(Kind::contact_word, w));
}

/// A tape or a finger's breadth, from where the ball is remembered to have lain.
void mark(Look& look, const Seeable& s) {
  constexpr double kBallRemembered = 6 * kMm;
  const Eye& eye = look.eye();
  const double forgot = eye.care * look.draws().normal(0.0, kBallRemembered);
  double first = 1e9, last = -1e9;
  for (std::size_t k = 0; k < s.mark.at.size(); ++k)
    if (s.mark.deep[k] >= eye.least_depth) {
      first = std::min(first, s.mark.at[k] + forgot);
      last = std::max(last, s.mark.at[k] + forgot);
    }
  const double depth = first < last ? s.mark.depth : 0.0;
  look.word(Kind::divot_word, depth, 2 * kMm, std::array{1 * kMm, 4 * kMm, 13 * kMm},
            depth > 0.0 ? 0.6 : 0.9);
  if (depth <= 0.0) return;
  if (eye.marks_in_numbers) {
    look.number(Kind::divot_start, first, 10 * kMm, 10 * kMm, 0.85);
    look.number(Kind::divot_end, last, 18 * kMm, 10 * kMm, 0.35);
    look.number(Kind::divot_depth, depth, 2.5 * kMm, 2 * kMm, 0.35);
  } else {
    look.word(Kind::divot_begins_word, first, 10 * kMm, std::array{-eye.at_ball, eye.at_ball}, 0.85);
  }
  look.number(Kind::divot_direction, s.mark.direction, 2.5 * kDegree, kDegree, 0.6);
  look.word(Kind::toe_heel_word, s.mark.toe_depth, 1.8 * kMm, std::array{-eye.even, eye.even}, 0.5);
}

/// The mark on the face, where he has looked at it.
void strike(Look& look, const Seeable& s, const Club& club) {
  constexpr double kOften = 0.7;
  if (s.topped || s.shank || look.draws().uniform() > kOften) return;
  look.number(Kind::strike_toe, s.toe, 3 * kMm, 2 * kMm, 0.95);
  if (look.eye().counts_grooves)
    look.number(Kind::strike_groove, 1.0 + (s.up - club.first_groove) / club.groove_pitch, 0.7, 0.5, 0.9);
  else
    look.number(Kind::strike_up, s.up, 2.5 * kMm, 2 * kMm, 0.9);
}

void flight(Look& look, const Seeable& s, const Base& base) {
  const Eye& eye = look.eye();
  if (s.topped || s.shank) {
    look.word(Kind::start_word, s.start, 1.5 * kDegree,
              std::array{-eye.far, -eye.straight, eye.straight, eye.far}, 0.9);
    return;
  }
  if (eye.flight_in_numbers) {
    look.number(Kind::start, s.start, 1.4 * kDegree, kDegree, 0.95);
    look.number(Kind::curve, s.flight.curve, 2.5, 1.0, 0.85);
    look.number(Kind::carry, s.flight.carry, 5.0, 5.0, 0.4);
  } else {
    look.word(Kind::start_word, s.start, 1.4 * kDegree,
              std::array{-eye.far, -eye.straight, eye.straight, eye.far}, 0.95);
    look.word(Kind::curve_word, s.flight.curve, 2.5,
              std::array{-eye.big_curve, -eye.no_curve, eye.no_curve, eye.big_curve}, 0.85);
  }
  look.word(Kind::height_word, std::log(s.flight.apex / base.apex), 0.12, std::array{-0.22, 0.20}, 0.8);
}

/// Slow-motion clip of the hands and a portable measuring device.
void instruments(Look& look, const Seeable& s) {
  constexpr double kClip = 0.7, kDevice = 0.9;  // shares of swings
  const Delivered& d = s.club;
  if (look.draws().uniform() < kClip) {
    look.number(Kind::shaft_lean, d.lean, 2.2 * kDegree, kDegree, 1.0);
    look.number(Kind::handle_lead, d.handle_lead, 14 * kMm, 5 * kMm, 1.0);
  }
  if (look.draws().uniform() > kDevice) return;
  look.number(Kind::attack, d.attack, 1.0 * kDegree, 0.1 * kDegree, 1.0);
  look.number(Kind::path, d.path, 1.1 * kDegree, 0.1 * kDegree, 1.0);
  look.number(Kind::face, d.face, 1.0 * kDegree, 0.1 * kDegree, 1.0);
  look.number(Kind::loft, d.loft, 1.3 * kDegree, 0.1 * kDegree, 1.0);
  look.number(Kind::club_speed, d.speed, 0.7, 0.1, 1.0);
  if (s.topped || s.shank) return;
  look.number(Kind::ball_speed, s.ball_speed, 0.5, 0.1, 1.0);
  look.number(Kind::launch_angle, s.launch, 0.7 * kDegree, 0.1 * kDegree, 1.0);
  look.number(Kind::spin, s.spin, 250 * strikewright::kRpm, 10 * strikewright::kRpm, 1.0);
  look.number(Kind::spin_axis, s.spin_axis, 2.0 * kDegree, 0.1 * kDegree, 1.0);
}

bool has_sides(Kind k) {
  switch (k) {
    case Kind::start:
    case Kind::curve:
    case Kind::divot_start:
    case Kind::divot_direction:
    case Kind::strike_toe:
    case Kind::shaft_lean:
    case Kind::handle_lead:
    case Kind::attack:
    case Kind::path:
    case Kind::face:
    case Kind::spin_axis:
      return true;
    default:
      return false;
  }
}

/// A gross slip: the wrong side, centimetres for millimetres, or the line above.
void slip(Sighting& s, const std::vector<Sighting>& before, Draws& draws) {
  const double which = draws.uniform();
  const bool word = strikewright::is_word(s.kind);
  if (word && s.kind != Kind::contact_word && which < 0.5) {
    s.word = static_cast<int>(strikewright::words_of(s.kind).size()) - 1 - s.word;
    return;
  }
  if (!word && has_sides(s.kind) && which < 0.4) {
    s.value = -s.value;
    return;
  }
  if (!word && strikewright::facts_of(s.kind).measure == strikewright::Measure::small_length && which < 0.7) {
    s.value *= 0.1;
    return;
  }
  for (const Sighting& other : before)
    if (other.kind == s.kind) s = other;
}

}  // namespace

Eye eye_of(Looking looking, Draws& draws) {
  Eye e;
  e.care = std::exp(draws.normal(0.0, 0.25));
  e.marks_in_numbers = draws.uniform() < 0.7;
  e.flight_in_numbers = draws.uniform() < 0.55;
  e.counts_grooves = draws.uniform() < 0.5;
  e.least_depth = std::max(0.3 * kMm, draws.normal(1 * kMm, 0.4 * kMm));
  e.straight = std::max(1.0, draws.normal(2.0, 0.4)) * kDegree;
  e.far = std::max(4.0, draws.normal(7.0, 1.0)) * kDegree;
  e.no_curve = std::max(1.0, draws.normal(3.0, 0.8));
  e.big_curve = std::max(7.0, draws.normal(12.0, 2.0));
  e.even = std::max(1 * kMm, draws.normal(2 * kMm, 0.5 * kMm));
  e.at_ball = std::max(6 * kMm, draws.normal(15 * kMm, 4 * kMm));
  e.fat_from = std::max(12 * kMm, draws.normal(30 * kMm, 6 * kMm));
  for (double& b : e.bias) {
    const double sign = draws.uniform() < 0.5 ? -1.0 : 1.0;
    if (looking == Looking::biased) b = sign;
  }
  if (looking == Looking::slips) e.slips = 0.05;
  return e;
}

std::vector<Sighting> looked_at(const Seeable& shot, const Base& base, double side, const Eye& eye, bool full,
                                const std::vector<Sighting>& before, Draws& draws) {
  std::vector<Sighting> out;
  Look look(eye, draws, out);
  contact(look, shot);
  mark(look, shot);
  strike(look, shot, base.club);
  flight(look, shot, base);
  if (full) instruments(look, shot);
  for (Sighting& s : out) {
    if (side < 0.0) s = strikewright::mirrored(s);
    if (draws.uniform() < eye.slips) slip(s, before, draws);
  }
  return out;
}

}  // namespace traced_world
