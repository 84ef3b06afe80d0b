#include "other_world_eye.hpp"

#include <algorithm>
#include <cmath>

#include "sighting/likelihood.hpp"

namespace other_world {

using strikewright::Kind;
using strikewright::Sighting;

namespace {

constexpr double kUsualBias = 0.5, kStrongBias = 1.0;  // of the eye's own noise: assumption
constexpr double kSlip = 0.05;

/// How far an ordinary look is off (normal): absolute and relative. Assumption.
struct Noise {
  double sd, share;
};
Noise noise_of(Kind kind) {
  using enum Kind;
  switch (kind) {
    case start:
      return {1.4 * kDegree, 0.05};
    case curve:
      return {2.5, 0.2};
    case carry:
      return {2.0, 0.06};
    case height_word:
      return {2.5 * kDegree, 0.0};
    case divot_word:
      return {0.0025, 0.0};
    case divot_start:
      return {0.022, 0.0};
    case divot_end:
      return {0.028, 0.1};
    case divot_direction:
      return {2.8 * kDegree, 0.0};
    case strike_toe:
      return {0.003, 0.0};
    case strike_groove:
      return {0.6, 0.0};
    default:
      return {0.0, 0.0};
  }
}

class Look {
 public:
  Look(const Eye& eye, Draws& draws) : eye_{eye}, draws_{draws} {}

  /// What the eye takes a true value for.
  double taken_for(Kind kind, double truth) {
    const Noise n = noise_of(kind);
    const double spread = std::hypot(n.sd, n.share * truth);
    return truth + spread * (draws_.normal() + eye_.bias[static_cast<std::size_t>(kind)]);
  }
  void number(Kind kind, double truth) {
    double value = taken_for(kind, truth);
    if (slips()) {
      const double u = draws_.uniform();
      value *= u < 0.4 ? -1.0 : u < 0.7 ? 10.0 : 0.1;
    }
    const strikewright::Facts& facts = strikewright::facts_of(kind);
    if (value < facts.low || value > facts.high) return;  // the tool's door would refuse the cell
    seen_.push_back(strikewright::measured(kind, value));
  }
  template <std::size_t n>
  void word(Kind kind, double truth, const std::array<double, n>& edges) {
    const double value = taken_for(kind, truth);
    const auto above = std::count_if(edges.begin(), edges.end(), [&](double e) { return value > e; });
    said(kind, static_cast<int>(above));
  }
  void said(Kind kind, int word) {
    const int last = static_cast<int>(strikewright::words_of(kind).size()) - 1;
    if (slips()) word = kind == Kind::contact_word ? (word == 1 ? 2 : word == 2 ? 1 : word) : last - word;
    seen_.push_back(strikewright::judged(kind, word));
  }
  double off(double sd) { return sd * draws_.normal(); }
  [[nodiscard]] std::vector<Sighting> all() && { return std::move(seen_); }

 private:
  bool slips() { return eye_.looking == Looking::slips && draws_.uniform() < kSlip; }
  const Eye& eye_;
  Draws& draws_;
  std::vector<Sighting> seen_;
};

/// What the strike is called: the meanings of the tool's page on sightings, an own eye.
int contact_said(const Seeable& s, const Base& base, Look& look) {
  constexpr int kClean = 0, kFat = 1, kThin = 2, kTopped = 3, kShank = 4;
  constexpr double kFatSection = 2e-4, kOverTurf = 0.0035, kBallCentre = 0.02135;
  if (s.strike_toe + look.off(0.004) < -base.club.heel_reach) return kShank;
  if (s.mark.before_ball + look.off(0.8e-4) > kFatSection) return kFat;
  const double edge = s.edge_at_contact + look.off(0.0025);
  return edge > kBallCentre ? kTopped : edge > kOverTurf ? kThin : kClean;
}

}  // namespace

Eye eye_of(Looking looking, Draws& draws) {
  Eye eye{looking, {}};
  for (double& b : eye.bias)
    b = looking == Looking::biased ? (draws.uniform() < 0.5 ? -kStrongBias : kStrongBias)
                                   : kUsualBias * draws.normal();
  return eye;
}

std::vector<Sighting> looked_at(const Seeable& s, const Base& base, double side, const Eye& eye,
                                Draws& draws) {
  using enum Kind;
  Look look(eye, draws);
  look.number(start, s.start);
  if (s.flight.flew) {
    look.number(curve, s.flight.curve);
    look.number(carry, s.flight.carry);
  }
  look.word(height_word, s.launch - base.usual_launch, std::array{-4.0 * kDegree, 4.0 * kDegree});
  look.said(contact_word, contact_said(s, base, look));
  look.word(divot_word, s.mark.depth, std::array{0.001, 0.005, 0.015});
  if (s.mark.cut) {
    look.number(divot_start, s.mark.start);
    look.number(divot_end, s.mark.end);
    look.number(divot_direction, s.mark.direction);
  }
  look.number(strike_toe, s.strike_toe);
  look.number(strike_groove, 1.0 + (s.strike_up - base.club.first_groove) / base.club.groove_pitch);
  std::vector<Sighting> out = std::move(look).all();
  if (side < 0.0)
    for (Sighting& one : out) one = strikewright::mirrored(one);
  return out;
}

}  // namespace other_world
