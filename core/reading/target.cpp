#include "reading/target.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "reading/slopes.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {

Target::Target(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior)
    : sightings_{sightings}, setting_{&setting}, prior_{&prior} {
  with_flight_ = needs_flight(sightings);
}

bool Target::may_have_two_humps() const {
  constexpr double kLowMark = 0.009, kLowGroove = 2.0;  // m up the face, groove from the bottom
  return std::any_of(sightings_.begin(), sightings_.end(), [](const Sighting& s) {
    return (s.kind == Kind::contact_word && s.word != 0) || (s.kind == Kind::divot_word && s.word < 2) ||
           (s.kind == Kind::strike_up && s.value < kLowMark) ||
           (s.kind == Kind::strike_groove && s.value < kLowGroove);
  });
}

double Target::cost(const Coordinates& z) const {
  Shot<double> shot;
  return cost(z, shot);
}

double Target::cost(const Coordinates& z, Shot<double>& shot) const {
  shot = shot_of(pass_at(*prior_, z), *setting_, with_flight_, FlightOptions::fast());
  double sum = 0.5 * z.squaredNorm();
  for (const Sighting& s : sightings_) sum += misfit(s, predict(s, shot, *setting_), *setting_).cost;
  return std::isfinite(sum) ? sum : std::numeric_limits<double>::infinity();
}

Local Target::local(const Coordinates& z) const {
  const Shot<PassSlopes> shot = shot_with_slopes(*prior_, z, *setting_, with_flight_);
  const Factor factor = prior_->factor_at(z);
  Local here;
  here.cost = 0.5 * z.squaredNorm();
  here.gradient = z;
  for (const Sighting& s : sightings_) {
    const Latents<PassSlopes> latents = predict(s, shot, *setting_);
    Latents<double> plain;
    plain.n = latents.n;
    for (std::size_t k = 0; k < static_cast<std::size_t>(latents.n); ++k) plain.at[k] = latents.at[k].a;
    const Misfit m = misfit(s, plain, *setting_);
    here.cost += m.cost;
    for (std::size_t k = 0; k < static_cast<std::size_t>(latents.n); ++k) {
      const Coordinates slope = along(factor, latents.at[k]);
      here.gradient += m.slope[k] * slope;
      here.curvature += m.curvature[k] * slope * slope.transpose();
    }
  }
  return here;
}

}  // namespace strikewright
