#pragma once
// Why the pattern sits where it sits: the flail inverted.

#include <string>
#include <vector>

#include "cause/scatter.hpp"
#include "delivery/cause_slopes.hpp"
#include "reading/lesson.hpp"

namespace strikewright {

/// What a shift is measured from.
enum class From {
  usual,  ///< the default swing of the skill band with that club
  best    ///< the pupil's own best swings of this lesson: clean and nearest the target line
};

/// One cause of one player with one club.
struct CauseShift {
  Cause cause = Cause::weight;
  Estimate shift;  ///< SI; player's terms
  double probability_leading =
      0.0;  ///< that of all causes this one is the most steps away (CauseFacts::step); plane tilt and speed
            ///< only where they are clearly off
  std::array<double, kOutcomes> share{};  ///< of the scatter's variance, first order, in the order of Outcome
  std::array<double, kOutcomes> share_total{};  ///< with what it does together with others
  double told =
      0.0;  ///< 0..1, what the sightings say of it: 1 - posterior over prior variance, one wide normal
};

/// Two or more causes that what was seen cannot tell apart, and what would.
struct Confounded {
  std::vector<Cause> causes;  ///< the likelier first
  std::string told_by;        ///< a condition or a column that would tell most; "" = nothing known
};

/// One thing to look at next.
struct NextLook {
  bool is_condition = false;
  Condition condition = Condition::normal;
  Kind kind = Kind::start;
  int swings = 0;        ///< so many swings of it
  double seconds = 0.0;  ///< of the coach's time, assumption
  double gain = 0.0;     ///< nats: expected loss of entropy about the leading cause against its rival
  [[nodiscard]] double gain_per_minute() const { return 60.0 * gain / seconds; }
};

struct CauseReading {
  std::string club;
  Hand hand = Hand::right;
  From from = From::usual;
  bool from_best_possible = true;  ///< false: asked for `best`, too few good swings seen; `usual` was taken
  std::vector<CauseShift> causes;  ///< all of them, likeliest leader first
  std::vector<Confounded> cannot_tell_apart;
  std::vector<NextLook> next_look;  ///< most gain per second first; those that tell next to nothing left out
  ScatterShares scatter;
  /// Joint draws of the pupil's usual pattern (all coordinates, prior units) from which the shifts are taken;
  /// sets of causes in turn, so that every n-th draw is a fair sample.
  std::vector<Coordinates> draws;
};

/// Such draws given what the sightings say: a message of zeros gives the prior's.
/// @param from  where each cause's prior is centred, prior units
std::vector<Coordinates> pattern_draws(const FitMessage& message, const Prior& prior, const Coordinates& from,
                                       std::uint64_t seed);

/// Posterior of the causes given what the sightings say about the pupil's usual pattern (Fit::message).
/// Prior: each cause is, independently, either near its reference (sd 0.25 steps; plane tilt and speed 0.6)
/// or clearly off (sd 1.8 steps, probability 0.3; plane tilt and speed 0.1): all assumption; all 2^7 sets are
/// summed. What a golfer may do about one cause by another (Prior::felt) is no cause. Habits and
/// circumstances (toe, lie, closing, sit, turf, arc, lean) as in the pattern's prior. Shares of scatter by
/// shares_linear at the pattern's middle.
CauseReading causes_of(const Group& group, const std::vector<SeenSwing>& seen, From from = From::usual,
                       std::uint64_t seed = 20261125);

}  // namespace strikewright
