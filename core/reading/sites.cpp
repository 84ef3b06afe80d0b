#include "reading/sites.hpp"

#include <array>
#include <cmath>

#include "reading/slopes.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright {
namespace {

/// One number of a sighting over the places: mean value and mean slope.
struct Slope {
  double value = 0.0;
  Coordinates slope = Coordinates::Zero();
  Coordinates place = Coordinates::Zero();  ///< mean of the places that count
  double count = 0.0;
  /// A place on a kink, where there is no slope, does not count.
  void add(const PassSlopes& latent, const Factor& factor, const Coordinates& z) {
    if (!std::isfinite(latent.a) || !latent.v.allFinite()) return;
    count += 1.0;
    value += (latent.a - value) / count;
    slope += (along(factor, latent) - slope) / count;
    place += (z - place) / count;
  }
};

Site straight(const Slope& line, double unit, std::size_t sighting, std::size_t latent) {
  Site site;
  site.sighting = sighting;
  site.latent = latent;
  site.unit = unit;
  site.slope = line.slope / unit;
  site.at = line.value / unit - site.slope.dot(line.place);
  return site;
}

}  // namespace

std::vector<Site> sites_over(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                             std::span<const Coordinates> around) {
  const bool with_flight = needs_flight(sightings);
  std::vector<std::array<Slope, static_cast<std::size_t>(kMaxLatents)>> lines(sightings.size());
  for (const Coordinates& z : around) {
    const Shot<PassSlopes> shot = shot_with_slopes(prior, z, setting, with_flight);
    const Factor factor = prior.factor_at(z);
    for (std::size_t k = 0; k < sightings.size(); ++k) {
      const Latents<PassSlopes> latents = predict(sightings[k], shot, setting);
      for (std::size_t l = 0; l < static_cast<std::size_t>(latents.n); ++l)
        lines[k][l].add(latents.at[l], factor, z);
    }
  }
  std::vector<Site> sites;
  for (std::size_t k = 0; k < sightings.size(); ++k) {
    const Sighting& s = sightings[k];
    if (!is_word(s.kind)) {
      const double unit = scale_of_sighting(s, lines[k][0].value, setting);
      Site site = straight(lines[k][0], unit, k, 0);
      site.kind = static_cast<int>(s.kind);
      site.bias_slope = 1.0;
      site.value = s.value / unit;
      sites.push_back(site);
      continue;
    }
    for (const Decision& d : decisions_of(s, setting)) {
      const auto l = static_cast<std::size_t>(d.latent);
      const double unit = d.soft / kLogisticSd;
      Site site = straight(lines[k][l], unit, k, l);
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

double information_of(const Site& site, double x) {
  if (site.measured) return (kTailFreedom + 1.0) / (kTailFreedom + 3.0);
  const auto at_edge = [x](double edge) {
    const double f = 1.0 / (1.0 + std::exp(std::abs(edge - x)));
    return std::isfinite(edge) ? f * (1.0 - f) : 0.0;
  };
  return at_edge(site.low) + at_edge(site.high);
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
