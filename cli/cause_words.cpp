#include "cause_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "quantity/angle.hpp"

namespace strikewright {
namespace {

/// How likely a cause must be the one furthest off to be called "most likely", and to be named with a
/// "perhaps".
constexpr double kLikely = 0.6, kPerhaps = 0.35;
/// In steps of kCauseFacts: less is not worth a coach's word.
constexpr double kWorthAWord = 0.5;
/// A swing whose weight in its pattern is below this fell out of it.
constexpr double kFellOut = 0.35;
/// A share of the scatter from which a cause makes "most" of it.
constexpr double kMost = 0.5;
/// With fewer swings their scatter is largely what was taken for likely before: known to about a third then
/// (kScatterFreedom).
constexpr std::size_t kFewSwings = 6;

const CauseFacts& facts_of(Cause cause) { return kCauseFacts[static_cast<std::size_t>(cause)]; }

std::string the(Cause cause) { return "the " + plain_name(cause); }

Ruler ruler_of(const CauseShift& c, UnitSystem units) {
  switch (c.cause) {
    case Cause::weight:
      return ground_ruler(units, c.shift.p90 - c.shift.p10);
    case Cause::height:
      return face_ruler(units);
    case Cause::release:
      return {1e-3, 0, "ms"};
    case Cause::speed:
      return {1e-2, 0, "%"};
    default:
      return kDegrees;
  }
}

bool sided(const CauseShift& c) { return c.shift.p10 * c.shift.p90 > 0.0; }
double steps(const CauseShift& c) { return std::abs(c.shift.mean) / facts_of(c.cause).step; }
std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

/// "the weight, 3 cm further back than usual, 80 % sure between 1 and 5 cm further back".
std::string shifted(const CauseShift& c, Hand hand, const char* than, UnitSystem units) {
  const Ruler ruler = ruler_of(c, units);
  const Sides sides = sides_of(c.cause, hand);
  const std::string sure = between(ruler, c.shift.p10, c.shift.p90, sides.plus, sides.minus);
  if (is_nought(ruler, c.shift.mean))
    return fmt::format("{}, as {} on average, {}", the(c.cause), than, sure);
  return fmt::format("{}, {} than {}, {}", the(c.cause), placed(ruler, c.shift.mean, sides), than, sure);
}

const char* what_it_explains(Cause cause) {
  switch (cause) {
    case Cause::weight:
    case Cause::release:
    case Cause::height:
      return "Why the low point sits there";
    case Cause::handle:
      return "Why the path points there";
    case Cause::face_turn:
      return "Why the face points there";
    default:
      return "What is most out of the ordinary";
  }
}

std::string reference_sentence(const Explained& why) {
  if (why.causes.from == From::best) return "Measured from the pupil's own best swings of this lesson.";
  const std::string usual = fmt::format("'Usual' is the swing of such players (skill: {}) with the {}.",
                                        name_of(why.skill), why.causes.club);
  if (why.causes.from_best_possible) return usual;
  return "Fewer than three swings were seen to be clean and straight: their middle cannot be measured "
         "from. " +
         usual;
}

/// Other causes that are clearly off too.
std::string also_off(const std::vector<CauseShift>& causes, Hand hand, const char* than, UnitSystem units) {
  std::vector<std::string> names;
  for (std::size_t k = 1; k < causes.size(); ++k) {
    if (!sided(causes[k]) || steps(causes[k]) < kWorthAWord ||
        is_nought(ruler_of(causes[k], units), causes[k].shift.mean))
      continue;
    const Sides sides = sides_of(causes[k].cause, hand);
    names.push_back(the(causes[k].cause) + ", " +
                    placed(ruler_of(causes[k], units), causes[k].shift.mean, sides));
  }
  if (names.empty()) return "";
  std::string out = " Probably off as well: ";
  for (std::size_t k = 0; k < names.size(); ++k) out += (k == 0 ? "" : "; ") + names[k];
  return out + fmt::format(" than {}.", than);
}

/// The causes that cannot be told from the first one, and it.
std::vector<const CauseShift*> tied_to_first(const CauseReading& reading) {
  const std::vector<CauseShift>& causes = reading.causes;
  std::vector<const CauseShift*> out{&causes.front()};
  for (const CauseShift& c : causes) {
    const bool tied = std::any_of(reading.cannot_tell_apart.begin(), reading.cannot_tell_apart.end(),
                                  [&](const Confounded& pair) {
                                    const auto holds = [&](Cause cause) {
                                      return std::count(pair.causes.begin(), pair.causes.end(), cause) > 0;
                                    };
                                    return holds(causes.front().cause) && holds(c.cause);
                                  });
    if (tied && c.cause != causes.front().cause) out.push_back(&c);
  }
  return out;
}

/// "the weight, 3 cm further back than usual, or the release, 8 ms later than usual"; "" where one of them is
/// near it.
std::string either(const std::vector<const CauseShift*>& tied, Hand hand, const char* than,
                   UnitSystem units) {
  std::string out;
  for (const CauseShift* c : tied) {
    const Ruler ruler = ruler_of(*c, units);
    if (is_nought(ruler, c->shift.mean)) return "";
    out += (out.empty() ? "" : ", or ") + fmt::format("{}, on average {} than {}", the(c->cause),
                                                      placed(ruler, c->shift.mean, sides_of(c->cause, hand)),
                                                      than);
  }
  return out;
}

/// What all of them explain, or that they explain different things.
const char* what_they_explain(const std::vector<const CauseShift*>& tied) {
  const std::string_view first = what_it_explains(tied.front()->cause);
  const bool same = std::all_of(tied.begin(), tied.end(),
                                [&](const CauseShift* c) { return what_it_explains(c->cause) == first; });
  return what_it_explains(same ? tied.front()->cause : Cause::speed);
}

/// Why, when no cause is clearly off by itself.
std::string unclear(const CauseReading& reading, const char* than, UnitSystem units) {
  const CauseShift& first = reading.causes.front();
  const std::vector<const CauseShift*> tied = tied_to_first(reading);
  double together = 0.0;
  for (const CauseShift* c : tied) together += c->probability_leading;
  const std::string names = either(tied, reading.hand, than, units);
  if (tied.size() > 1 && together >= kLikely && !names.empty())
    return fmt::format("{}: most likely ({}) {}.", what_they_explain(tied), percent(together), names);
  if (steps(first) < kWorthAWord)
    return fmt::format("No cause stands out: none is clearly other than {}.", than);
  return fmt::format("No cause stands out. Nearest to it comes {}; that it is the one furthest off: {}.",
                     shifted(first, reading.hand, than, units), percent(first.probability_leading));
}

std::string why_sentences(const Explained& why, UnitSystem units) {
  const std::vector<CauseShift>& causes = why.causes.causes;
  const char* than = why.causes.from == From::best ? "at best" : "usual";
  const CauseShift& first = causes.front();
  const bool clear = first.probability_leading >= kPerhaps && sided(first) && steps(first) >= kWorthAWord;
  if (!clear) return unclear(why.causes, than, units) + " " + reference_sentence(why);
  return fmt::format("{}: {} ({}) {}.{} {}", what_it_explains(first.cause),
                     first.probability_leading >= kLikely ? "most likely" : "perhaps",
                     percent(first.probability_leading), shifted(first, why.causes.hand, than, units),
                     also_off(causes, why.causes.hand, than, units), reference_sentence(why));
}

constexpr std::array<const char*, kKinds> kPhrases{"where the ball starts",
                                                   "how far it curves",
                                                   "the carry",
                                                   "how high it flies",
                                                   "where the divot begins",
                                                   "where the divot ends",
                                                   "where the divot points",
                                                   "the divot's depth",
                                                   "which side of the divot is deeper",
                                                   "the mark across the face",
                                                   "the mark up the face",
                                                   "the groove of the mark",
                                                   "the shaft lean",
                                                   "the handle lead",
                                                   "the attack angle",
                                                   "the club path",
                                                   "the face angle",
                                                   "the delivered loft",
                                                   "the club speed",
                                                   "the ball speed",
                                                   "the launch angle",
                                                   "the spin",
                                                   "the spin axis",
                                                   "where the ball starts, in a word",
                                                   "how it curves, in a word",
                                                   "how high it flies, in a word",
                                                   "the contact, in a word",
                                                   "how deep the divot is, in a word",
                                                   "where the divot begins, in a word",
                                                   "which side of the divot is deeper, in a word"};

/// "swings with the weight on the lead leg".
std::string swings_in(Condition condition) {
  switch (condition) {
    case Condition::trail_hand:
      return "swings with the trail hand only";
    case Condition::step:
      return "swings stepping into it";
    default:
      return std::string("swings with the ") + phrase_of(condition);
  }
}

std::string look_words(const NextLook& look) {
  const std::string time = fmt::format("about {:.0f} seconds", look.seconds);
  if (look.is_condition) return fmt::format("{} {} ({})", look.swings, swings_in(look.condition), time);
  return fmt::format("{}, {} swings (column {}, {})", kPhrases[static_cast<std::size_t>(look.kind)],
                     look.swings, column_of(look.kind), time);
}

/// `told_by` of a Confounded, in words.
std::string teller(const std::string& told_by) {
  for (int c = 0; c <= static_cast<int>(Condition::step); ++c) {
    const auto condition = static_cast<Condition>(c);
    if (told_by == name_of(condition)) return swings_in(condition);
  }
  for (std::size_t k = 0; k < kKinds; ++k)
    if (told_by == column_of(static_cast<Kind>(k)))
      return fmt::format("{} (column {})", kPhrases[k], told_by);
  return told_by;
}

std::string apart_sentences(const std::vector<Confounded>& pairs) {
  std::string out;
  for (const Confounded& pair : pairs) {
    std::vector<std::string> names;
    for (const Cause cause : pair.causes) names.push_back(the(cause));
    std::string sentence = listed(names) + " cannot be told apart by what was seen";
    sentence.front() = 'T';
    sentence += pair.told_by.empty() ? ", and nothing is known that would tell."
                                     : "; most would be told by " + teller(pair.told_by) + ".";
    out += (out.empty() ? "" : " ") + sentence;
  }
  return out;
}

/// "the low point moves mostly because of the release (62 %)".
std::string main_part(Outcome outcome, const ScatterRow& row) {
  const auto at = std::max_element(row.first.begin(), row.first.end());
  const std::string cause = the(static_cast<Cause>(at - row.first.begin()));
  const std::string what = std::string("the ") + kOutcomeFacts[static_cast<std::size_t>(outcome)].says;
  if (row.rest_first > *at) {
    const char* rest =
        outcome == Outcome::low_point ? "the size of the arc" : "where on the face the ball is met";
    return fmt::format("{} moves {} because of what is no cause, such as {} ({})", what,
                       row.rest_first >= kMost ? "mostly" : "most", rest, percent(row.rest_first));
  }
  if (*at >= kMost) return fmt::format("{} moves mostly because of {} ({})", what, cause, percent(*at));
  return fmt::format("{} for no one cause (first of them {}, {})", what, cause, percent(*at));
}

std::string scatter_sentence(const Explained& why, const Pattern& pattern) {
  if (pattern.n < 2) return "";
  const ScatterRow &low = why.causes.scatter.of(Outcome::low_point),
                   &start = why.causes.scatter.of(Outcome::start);
  if (low.sd == 0.0) return "";
  std::string out = "Why it scatters: " + main_part(Outcome::low_point, low);
  if (start.sd > 0.0) out += ", " + main_part(Outcome::start, start);
  out += '.';
  if (pattern.n < kFewSwings) out += " From so few swings that is largely what is usual.";
  return out;
}

std::string fell_out_sentence(const Group& group, const LessonReading& lesson) {
  std::vector<std::string> rows;
  for (std::size_t k = 0; k < group.swings.size(); ++k)
    if (group.fit.swings[k].belongs < kFellOut)
      rows.push_back(std::to_string(lesson.swings[group.swings[k]].row));
  if (rows.empty()) return "";
  return fmt::format("Swing{} {} fell out of the pattern: seen to be unlike the others, and counted little.",
                     rows.size() == 1 ? "" : "s", listed(rows));
}

std::string conflict_sentences(const Explained& why, const std::vector<SeenSwing>& seen) {
  std::string out;
  for (const Conflict& conflict : why.conflicts) {
    const SeenSwing& swing = seen[conflict.swing];
    out += fmt::format("{}Does not fit, swing {}: {}", out.empty() ? "" : "\n", swing.row,
                       text_of(conflict, swing.sightings, swing.hand));
  }
  return out;
}

std::string next_sentence(const std::vector<NextLook>& looks) {
  constexpr std::size_t kShown = 3;
  if (looks.empty()) return "";
  std::string out = "Next look, the most telling for its time first: ";
  for (std::size_t k = 0; k < std::min(kShown, looks.size()); ++k)
    out += (k == 0 ? "" : "; ") + look_words(looks[k]);
  return out + ".";
}

}  // namespace

const Pattern& pattern_spoken_of(const Group& group, const LessonReading& lesson) {
  const auto normal = std::find(group.conditions.begin(), group.conditions.end(), Condition::normal);
  const auto at = normal == group.conditions.end() ? 0 : normal - group.conditions.begin();
  return lesson.patterns[group.patterns[static_cast<std::size_t>(at)]];
}

std::string plain_name(Cause cause) {
  std::string name = facts_of(cause).name;
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

Sides sides_of(Cause cause, Hand hand) {
  const CauseFacts& facts = facts_of(cause);
  if (cause == Cause::handle && hand == Hand::left) return {facts.minus, facts.plus, ""};
  return {facts.plus, facts.minus, ""};
}

std::string cause_sentences(const Explained& why, const LessonReading& lesson,
                            const std::vector<SeenSwing>& seen, UnitSystem units) {
  std::vector<std::string> parts;
  if (why.anything_seen && !why.causes.causes.empty()) {
    parts = {why_sentences(why, units), apart_sentences(why.causes.cannot_tell_apart),
             scatter_sentence(why, pattern_spoken_of(*why.group, lesson)),
             fell_out_sentence(*why.group, lesson), conflict_sentences(why, seen)};
  } else {
    parts = {"Of causes nothing can be said: nothing was seen."};
  }
  parts.push_back(next_sentence(why.causes.next_look));
  std::string out;
  for (const std::string& part : parts)
    if (!part.empty()) out += (out.empty() ? "" : "\n") + part;
  return out;
}

std::string heading_of(const Group& group) {
  return group.club + (group.hand == Hand::left ? ", left-handed" : "") + ", all of its swings";
}

}  // namespace strikewright
