#pragma once
// `strikewright swing`: the JSON document and its answer. Contract: docs/commands.md, swing.

#include <string>
#include <string_view>
#include <vector>

#include "delivery/from_swing.hpp"
#include "shot/shot.hpp"

namespace strikewright {

/// A swing that someone asked for.
struct SwingAsked {
  Swing<double> swing;
  End end = End::club_vertical;
  Club club;  ///< only for End::contact
  Ball ball;
  double ball_lift = 0.0;  ///< m
};

/// Keys as in docs/commands.md. A club named in `bag` gives the lever where its figures are not given.
Result<SwingAsked> swing_from_json(std::string_view text, const std::string& name,
                                   const std::vector<Club>& bag);

/// The document that asks for this swing.
std::string json_text(const SwingAsked& asked);

/// What came out of it.
struct SwingAnswer {
  FlailRun<double> run;
  PlanePoint<double> head, hands;  ///< at the end
  std::optional<Passing<double>> passing;
};
Result<SwingAnswer> swing_of(const SwingAsked& asked);

/// The club at the ball, for an answer that came to contact: the delivery of the pass that the flail came to;
/// attack, path and the radius of the arc are the flail's own.
Shot<double> delivered(const SwingAsked& asked, const SwingAnswer& answer);

std::string json_text(const SwingAsked& asked, const SwingAnswer& answer);

}  // namespace strikewright
