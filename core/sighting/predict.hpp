#pragma once
// The dispatch from a kind to what the chain predicts for it. Included by sighting.hpp.

#include <tuple>
#include <utility>

#include "sighting/kind/attack.hpp"
#include "sighting/kind/ball_speed.hpp"
#include "sighting/kind/carry.hpp"
#include "sighting/kind/club_speed.hpp"
#include "sighting/kind/contact.hpp"
#include "sighting/kind/curve.hpp"
#include "sighting/kind/divot_depth.hpp"
#include "sighting/kind/divot_direction.hpp"
#include "sighting/kind/divot_end.hpp"
#include "sighting/kind/divot_start.hpp"
#include "sighting/kind/divot_toe_depth.hpp"
#include "sighting/kind/face.hpp"
#include "sighting/kind/handle_lead.hpp"
#include "sighting/kind/height.hpp"
#include "sighting/kind/launch_angle.hpp"
#include "sighting/kind/loft.hpp"
#include "sighting/kind/path.hpp"
#include "sighting/kind/shaft_lean.hpp"
#include "sighting/kind/spin.hpp"
#include "sighting/kind/spin_axis.hpp"
#include "sighting/kind/start.hpp"
#include "sighting/kind/strike_groove.hpp"
#include "sighting/kind/strike_toe.hpp"
#include "sighting/kind/strike_up.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

/// All kinds in the order of `Kind`.
using AllKinds =
    std::tuple<kind::Start, kind::Curve, kind::Carry, kind::Apex, kind::DivotStart, kind::DivotEnd,
               kind::DivotDirection, kind::DivotDepth, kind::DivotToeDepth, kind::StrikeToe, kind::StrikeUp,
               kind::StrikeGroove, kind::ShaftLean, kind::HandleLead, kind::Attack, kind::Path, kind::Face,
               kind::Loft, kind::ClubSpeed, kind::BallSpeed, kind::LaunchAngle, kind::Spin, kind::SpinAxis,
               kind::StartWord, kind::CurveWord, kind::HeightWord, kind::Contact, kind::DivotWord,
               kind::DivotBeginsWord, kind::ToeHeelWord>;
static_assert(std::tuple_size_v<AllKinds> == kKinds);

namespace detail {

template <std::size_t... I>
constexpr std::array<Facts, kKinds> all_facts(std::index_sequence<I...>) {
  return {std::tuple_element_t<I, AllKinds>::facts...};
}
inline constexpr std::array<Facts, kKinds> kAllFacts = all_facts(std::make_index_sequence<kKinds>{});
constexpr bool facts_in_order() {
  for (std::size_t k = 0; k < kKinds; ++k) {
    if (kAllFacts[k].kind != static_cast<Kind>(k)) return false;
  }
  return true;
}
static_assert(facts_in_order(), "AllKinds must follow the order of Kind");

/// Calls visit(K{}) for the kind's own struct K.
template <class Visit, std::size_t... I>
void visit_kind(Kind kind, const Visit& visit, std::index_sequence<I...>) {
  const auto k = static_cast<std::size_t>(kind);
  (void)((k == I ? (visit(std::tuple_element_t<I, AllKinds>{}), true) : false) || ...);
}
template <class Visit>
void visit_kind(Kind kind, const Visit& visit) {
  visit_kind(kind, visit, std::make_index_sequence<kKinds>{});
}

}  // namespace detail

/// How a kind describes itself.
[[nodiscard]] inline const Facts& facts_of(Kind kind) {
  return detail::kAllFacts[static_cast<std::size_t>(kind)];
}

/// Variance, in units of the square of its own scale, by which a kind is off for a whole lesson beyond what
/// any eye is.
[[nodiscard]] constexpr double beyond_the_eye(Kind kind) {
  const double bias = detail::kAllFacts[static_cast<std::size_t>(kind)].bias;
  return bias * bias - kEyeBias * kEyeBias;
}

template <class T>
Latents<T> predict(const Sighting& sighting, const Shot<T>& shot, const Setting& setting) {
  Latents<T> out;
  detail::visit_kind(sighting.kind, [&]<class K>(K) {
    if constexpr (requires { K::latents(shot, setting); }) {
      out = K::latents(shot, setting);
    } else {
      out.n = 1;
      out.at[0] = K::latent(shot, setting);
    }
  });
  return out;
}

}  // namespace strikewright
