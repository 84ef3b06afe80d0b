#pragma once
// From the sightings of one swing to what the club did, with uncertainty.

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "quantity/field.hpp"
#include "reading/prior.hpp"
#include "shot/shot.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// What a reading reports. Player's terms: the same signs for left- and right-handers.
struct Reported {
  double low_point = 0.0, low_point_depth = 0.0, shaft_lean = 0.0, attack = 0.0, path = 0.0, face = 0.0,
         face_to_path = 0.0, loft = 0.0, plane_direction = 0.0, strike_toe = 0.0, strike_up = 0.0,
         club_speed = 0.0, divot_start = 0.0, face_turn = 0.0, exposed_bounce = 0.0, handle_lead = 0.0;
};

inline constexpr std::size_t kReported = 16;
/// Written once: the JSON keys, the table and the docs are read off this list.
inline constexpr std::array<Field<Reported>, kReported> kReportedFields{{
    {1, "low_point_mm", "mm", 1e-3, "low point, ahead of the ball +", &Reported::low_point},
    {2, "low_point_depth_mm", "mm", 1e-3, "low point depth, above the turf +", &Reported::low_point_depth},
    {3, "shaft_lean_deg", "deg", kDegree, "shaft lean, forward +", &Reported::shaft_lean},
    {4, "attack_deg", "deg", kDegree, "attack angle, up +", &Reported::attack},
    {5, "path_deg", "deg", kDegree, "club path, in to out +", &Reported::path},
    {6, "face_deg", "deg", kDegree, "face angle, open +", &Reported::face},
    {7, "face_to_path_deg", "deg", kDegree, "face to path, open +", &Reported::face_to_path},
    {8, "delivered_loft_deg", "deg", kDegree, "delivered loft", &Reported::loft},
    {9, "plane_direction_deg", "deg", kDegree, "plane direction, out +", &Reported::plane_direction},
    {10, "strike_toe_mm", "mm", 1e-3, "strike point, toe +", &Reported::strike_toe},
    {11, "strike_up_mm", "mm", 1e-3, "strike point up the face", &Reported::strike_up},
    {12, "club_speed_mps", "m/s", 1.0, "club speed", &Reported::club_speed},
    {13, "divot_start_mm", "mm", 1e-3, "divot start, ahead of the ball +", &Reported::divot_start},
    {14, "face_turn_deg", "deg", kDegree, "face turn, closing +", &Reported::face_turn},
    {15, "exposed_bounce_deg", "deg", kDegree, "exposed bounce", &Reported::exposed_bounce},
    {16, "handle_lead_mm", "mm", 1e-3, "handle lead, ahead of the ball +", &Reported::handle_lead},
}};

/// What a shot means in the reported terms.
Reported reported_of(const Shot<double>& shot);
/// The same numbers in the order of kReportedFields, by name.
Reported reported_of(const std::array<double, kReported>& values);

/// One number with its uncertainty, SI.
struct Estimate {
  double mean = 0.0, sd = 0.0;
  double p2_5 = 0.0, p10 = 0.0, p25 = 0.0, p50 = 0.0, p75 = 0.0, p90 = 0.0, p97_5 = 0.0;
  double prior_mean = 0.0, prior_sd = 0.0;
  double owed_to_prior =
      1.0;  ///< posterior variance over prior variance, 0..1: 1 = the sightings say nothing
};

struct ReadingHealth {
  double pareto_k = 0.0;  ///< tail index of the importance weights; above 0.7 they cannot be trusted
  double effective_draws = 0.0;
  double belongs =
      1.0;             ///< of a swing read with others: its weight in the pattern, well below 1 = it fell out
  int humps = 1;       ///< separate maxima that carried weight
  int steps = 0;       ///< damped Gauss-Newton steps of the best start
  bool rough = false;  ///< the sampled fallback had to be used
  bool converged = true;
  std::string sentence;  ///< in plain words
};

struct ReadingOptions {
  std::size_t draws = 256;  ///< importance samples kept
  std::uint64_t seed = 20261125;
};

/// What the sightings of one swing say.
struct Reading {
  std::array<Estimate, kReported> at;  ///< in the order of kReportedFields
  ReadingHealth health;
  std::vector<Reported> draws;       ///< joint posterior samples, equally weighted
  std::vector<Pass<double>> passes;  ///< the same samples as passes, for pictures and patterns
  Pass<double> best;                 ///< maximum a posteriori
  double cost = 0.0;                 ///< -log posterior at `best`, up to a constant
  [[nodiscard]] const Estimate& of(double Reported::*member) const;
};

/// Mean and standard deviation of what is reported before anything is seen, SI, in the order of
/// kReportedFields.
struct PriorReach {
  std::array<double, kReported> mean{}, sd{};
};
/// @param threads  0 = all cores; the answer is the same for any number
PriorReach prior_reach(const Setting& setting, const Prior& prior, unsigned threads = 1);

/// Maximum a posteriori by damped Gauss-Newton with slopes from dual numbers through turf, impact and flight;
/// posterior from the local curvature; importance samples re-weight it (docs/models.md, reading). The
/// sightings are in the right-hander's frame (the sighting room mirrors at its door). Never fails: with no
/// sightings it returns the prior.
Reading read_swing(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                   const ReadingOptions& options = {});

/// The same with the prior's reach worked out before: for many swings of one setting.
Reading read_swing(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                   const PriorReach& reach, const ReadingOptions& options);

}  // namespace strikewright
