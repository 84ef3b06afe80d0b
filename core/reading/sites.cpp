#include "reading/sites.hpp"

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

Site straight(const Slopes& latent, double unit, const Coordinates& z, const Prior& prior) {
  Site site;
  site.slope = prior.factor.transpose() * latent.v / unit;
  site.at = latent.a / unit - site.slope.dot(z);
  return site;
}

}  // namespace

std::vector<Site> sites_at(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                           const Coordinates& z) {
  bool with_flight = false;
  for (const Sighting& s : sightings) with_flight = with_flight || needs_flight(s.kind);
  const Numbers numbers = prior.mean + prior.factor * z;
  PassVector<Slopes> seeded;
  for (int i = 0; i < kPassSize; ++i) seeded[i] = Slopes(numbers[i], i);
  const Shot<Slopes> shot = shot_of(pass_from(prior, seeded), setting, with_flight, FlightOptions::fast());
  std::vector<Site> sites;
  for (const Sighting& s : sightings) {
    const Latents<Slopes> latents = predict(s, shot, setting);
    if (!is_word(s.kind)) {
      const double unit = scale_of_sighting(s, latents.at[0].a, setting);
      Site site = straight(latents.at[0], unit, z, prior);
      site.kind = static_cast<int>(s.kind);
      site.bias_slope = 1.0;
      site.value = s.value / unit;
      sites.push_back(site);
      continue;
    }
    for (const Decision& d : decisions_of(s, setting)) {
      const double unit = d.soft / kLogisticSd;
      Site site = straight(latents.at[static_cast<std::size_t>(d.latent)], unit, z, prior);
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
