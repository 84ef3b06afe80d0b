#pragma once
// Sightings near one place of the coordinates: straight lines in place of the chain, the likelihood as it is.

#include <vector>

#include "reading/prior.hpp"
#include "shot/shot.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// One number that a sighting looks at, in units of its own noise: at + slope . z + bias_slope * bias, seen
/// with Student-t noise (measured) or found within [low, high] with logistic noise (one decision of a word).
struct Site {
  Coordinates slope = Coordinates::Zero();
  double at = 0.0;          ///< at z = 0
  double bias_slope = 0.0;  ///< 0 where no bias is thought of
  int kind = 0;             ///< whose eye's bias
  bool measured = true;
  double value = 0.0;
  double low = 0.0, high = 0.0;
  std::size_t sighting = 0, latent = 0;  ///< which of the swing's sightings, which of its predictions
  double unit = 1.0;                     ///< of its noise, in that prediction's own
};

/// The sites of one swing's sightings, the chain straightened over the places `around` (at least one): slopes
/// are the mean of the slopes there, which for a normal cloud is the line of least squares (C. Stein, Ann.
/// Stat. 9, 1981, 1135-1151).
std::vector<Site> sites_over(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                             std::span<const Coordinates> around);

/// Information of one site about its number `x`, in the site's units: Student-t (nu + 1) / (nu + 3); a word F
/// (1 - F) at each finite edge.
double information_of(const Site& site, double x);

/// Log likelihood of a site at its number `x` (bias included), up to the site's constant.
double log_likelihood(const Site& site, double x);

}  // namespace strikewright
