#include "reading/sites.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "quantity/dual.hpp"
#include "shot/shot_of.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright {
namespace {

using Slopes = Dual<kPassSize>;

/// Standard deviation of the logistic distribution of unit scale.
const double kLogisticSd = std::numbers::pi / std::sqrt(3.0);

/// One number of a sighting over the places: mean value and mean slope.
struct Line {
  double value = 0.0;
  Coordinates slope = Coordinates::Zero();
  Coordinates place = Coordinates::Zero();  ///< mean of the places that count
  double count = 0.0;
  /// A place on a kink, where there is no slope, does not count.
  void add(const Slopes& latent, const Prior& prior, const Coordinates& z) {
    if (!std::isfinite(latent.a) || !latent.v.allFinite()) return;
    count += 1.0;
    value += (latent.a - value) / count;
    slope += (prior.factor.transpose() * latent.v - slope) / count;
    place += (z - place) / count;
  }
};

Site straight(const Line& line, double unit) {
  Site site;
  site.unit = unit;
  site.slope = line.slope / unit;
  site.at = line.value / unit - site.slope.dot(line.place);
  return site;
}

}  // namespace

std::vector<Site> sites_over(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                             std::span<const Coordinates> around) {
  bool with_flight = false;
  for (const Sighting& s : sightings) with_flight = with_flight || needs_flight(s.kind);
  std::vector<std::array<Line, static_cast<std::size_t>(kMaxLatents)>> lines(sightings.size());
  for (const Coordinates& z : around) {
    const Numbers numbers = prior.mean + prior.factor * z;
    PassVector<Slopes> seeded;
    for (int i = 0; i < kPassSize; ++i) seeded[i] = Slopes(numbers[i], i);
    const Shot<Slopes> shot = shot_of(pass_from(prior, seeded), setting, with_flight, FlightOptions::fast());
    for (std::size_t k = 0; k < sightings.size(); ++k) {
      const Latents<Slopes> latents = predict(sightings[k], shot, setting);
      for (std::size_t l = 0; l < static_cast<std::size_t>(latents.n); ++l)
        lines[k][l].add(latents.at[l], prior, z);
    }
  }
  std::vector<Site> sites;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Sighting& s = sightings[k];
    if (!is_word(s.kind)) {
      const double unit = scale_of_sighting(s, lines[k][0].value, setting);
      Site site = straight(lines[k][0], unit);
      site.sighting = k;
      site.kind = static_cast<int>(s.kind);
      site.bias_slope = 1.0;
      site.value = s.value / unit;
      sites.push_back(site);
      continue;
    }
    for (const Decision& d : decisions_of(s, setting)) {
      const auto l = static_cast<std::size_t>(d.latent);
      const double unit = d.soft / kLogisticSd;
      Site site = straight(lines[k][l], unit);
      site.sighting = k;
      site.latent = d.latent;
      site.kind = static_cast<int>(s.kind);
      site.bias_slope = can_be_biased(s.kind) ? kLogisticSd : 0.0;
      site.measured = false;
      site.low = d.low / unit;
      site.high = d.high / unit;
      sites.push_back(site);
    }
  }
  return sites;
}

double log_likelihood(const Site& site, double x) {
  if (site.measured) {
    const double r = site.value - x;
    return -0.5 * (kTailFreedom + 1.0) * std::log1p(r * r / kTailFreedom);
  }
  // log(F(high - x) - F(low - x)) = log F(high - x) + log F(x - low) + log(1 - exp(low - high))
  double sum = 0.0;
  if (std::isfinite(site.high)) sum -= minus_log_logistic(site.high - x).cost;
  if (std::isfinite(site.low)) sum -= minus_log_logistic(x - site.low).cost;
  if (std::isfinite(site.high) && std::isfinite(site.low)) sum += std::log(-std::expm1(site.low - site.high));
  return sum;
}

}  // namespace strikewright
