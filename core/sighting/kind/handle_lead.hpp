#pragma once
// How far the hands are ahead of the ball at contact.

#include "sighting/facts.hpp"

namespace strikewright::kind {

struct HandleLead {
  static constexpr Facts facts{.kind = Kind::handle_lead,
                               .column = "handle_lead",
                               .measure = Measure::small_length,
                               .sd = 0.025,
                               .low = -0.6,
                               .high = 0.6,
                               .source = "assumption: 25 mm"};
  template <class T>
  static T latent(const Shot<T>& shot, const Setting&) {
    return shot.delivery.handle_lead;
  }
};

}  // namespace strikewright::kind
