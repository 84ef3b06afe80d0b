#include "verbs/cause_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "quantity/angle.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

/// How likely a cause must be the one furthest off to be called "most likely", and to be named with a
/// "perhaps".
constexpr double kLikely = 0.6, kPerhaps = 0.35;
/// A swing whose weight in its pattern is below this fell out of it.
constexpr double kFellOut = 0.35;
/// A share of the scatter from which a cause makes "most" of it.
constexpr double kMostly = 0.5;
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

int whole_percent(double share) { return static_cast<int>(std::lround(100.0 * share)); }

/// "the weight (45 %), on average 3 cm further back than usual; or the release (34 %), ...": each with its
/// own share, so that nobody takes their sum for one of them. "" where one of them is near usual.
std::string either(const std::vector<const CauseShift*>& tied, Hand hand, const char* than,
                   UnitSystem units) {
  std::string out;
  for (const CauseShift* c : tied) {
    const Ruler ruler = ruler_of(*c, units);
    if (is_nought(ruler, c->shift.mean)) return "";
    out += (out.empty() ? "" : "; or ") + fmt::format("{} ({} %), on average {} than {}", the(c->cause),
                                                      whole_percent(c->probability_leading),
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

/// What they are together, as the sum of the figures that are said of each.
int sum_of_percents(const std::vector<const CauseShift*>& tied) {
  int sum = 0;
  for (const CauseShift* c : tied) sum += whole_percent(c->probability_leading);
  return sum;
}

/// Why, when no cause is clearly off by itself; nothing where none stands out at all.
std::optional<std::string> unclear(const CauseReading& reading, const char* than, UnitSystem units) {
  const CauseShift& first = reading.causes.front();
  const std::vector<const CauseShift*> tied = tied_to_first(reading);
  double together = 0.0;
  for (const CauseShift* c : tied) together += c->probability_leading;
  const std::string names = either(tied, reading.hand, than, units);
  if (tied.size() > 1 && together >= kLikely && !names.empty())
    return fmt::format("{}: most likely one of these, {} % together: {}.", what_they_explain(tied),
                       sum_of_percents(tied), names);
  if (steps(first) < kWorthAWord) return std::nullopt;
  return fmt::format("No cause stands out. Nearest to it comes {}; that it is the one furthest off: {}.",
                     shifted(first, reading.hand, than, units), percent(first.probability_leading));
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

}  // namespace

std::string look_in_words(const NextLook& look) {
  const std::string time = fmt::format("about {:.0f} seconds", look.seconds);
  if (look.is_condition) return fmt::format("{} {} ({})", look.swings, swings_in(look.condition), time);
  return fmt::format("{}, {} swings ({})", kPhrases[static_cast<std::size_t>(look.kind)], look.swings, time);
}

namespace {

/// `told_by` of a Confounded, in words.
std::string teller(const std::string& told_by) {
  for (int c = 0; c <= static_cast<int>(Condition::step); ++c) {
    const auto condition = static_cast<Condition>(c);
    if (told_by == name_of(condition)) return swings_in(condition);
  }
  for (std::size_t k = 0; k < kKinds; ++k)
    if (told_by == column_of(static_cast<Kind>(k))) return kPhrases[k];
  return told_by;
}

/// Causes that one and the same look would tell most about, in the order of the reading.
struct Remedy {
  std::string told_by;
  std::vector<Cause> causes;
};

bool holds(const std::vector<Cause>& causes, Cause cause) {
  return std::find(causes.begin(), causes.end(), cause) != causes.end();
}

/// Do they act on the same thing, so that what was seen may look the same?
bool look_alike(const Confounded& pair) {
  return std::all_of(pair.causes.begin(), pair.causes.end(), [&](Cause cause) {
    return std::string_view(what_it_explains(cause)) == what_it_explains(pair.causes.front());
  });
}

/// `causes` in the order in which the reading has them.
std::vector<Cause> likelier_first(const std::vector<Cause>& causes, const CauseReading& reading) {
  std::vector<Cause> out;
  for (const CauseShift& c : reading.causes)
    if (holds(causes, c.cause)) out.push_back(c.cause);
  return out;
}

/// The pairs that look alike, or those that do not, joined where one look would tell.
std::vector<Remedy> remedies_of(const CauseReading& reading, bool alike) {
  std::vector<Remedy> out;
  for (const Confounded& pair : reading.cannot_tell_apart) {
    if (look_alike(pair) != alike) continue;
    auto at =
        std::find_if(out.begin(), out.end(), [&](const Remedy& r) { return r.told_by == pair.told_by; });
    if (at == out.end()) at = out.insert(out.end(), {pair.told_by, {}});
    at->causes.insert(at->causes.end(), pair.causes.begin(), pair.causes.end());
  }
  for (Remedy& remedy : out) remedy.causes = likelier_first(remedy.causes, reading);
  return out;
}

/// "the weight, the release or the handle"; `last` stands before the last one.
std::string named(const std::vector<Cause>& causes, std::string_view last) {
  std::string out;
  for (std::size_t k = 0; k < causes.size(); ++k) {
    if (k > 0) out += k + 1 == causes.size() ? fmt::format(" {} ", last) : ", ";
    out += the(causes[k]);
  }
  return out;
}

std::string told_most(const std::string& told_by) {
  return told_by.empty() ? ", and nothing is known that would tell."
                         : "; most would be told by " + teller(told_by) + ".";
}

constexpr const char* kAlike = "cannot be told apart by what was seen";

/// Where causes act on different things it is open which is furthest off; that they look the same is not
/// said.
std::string open_sentences(const std::vector<Remedy>& open, const Remedy* alike, bool one_remedy,
                           const CauseReading& reading) {
  std::vector<Cause> all;
  for (const Confounded& pair : reading.cannot_tell_apart)
    all.insert(all.end(), pair.causes.begin(), pair.causes.end());
  std::string out = "It is open which is furthest off: " + named(likelier_first(all, reading), "or");
  if (alike != nullptr) out += fmt::format(" ({} {})", named(alike->causes, "and"), kAlike);
  if (one_remedy) return out + told_most(open.front().told_by);
  out += '.';
  for (const Remedy& remedy : open) {
    const std::string about = named(remedy.causes, "and");
    out += remedy.told_by.empty()
               ? fmt::format(" Nothing is known that would tell between {}.", about)
               : fmt::format(" Between {} most would be told by {}.", about, teller(remedy.told_by));
  }
  return out;
}

/// Which of several causes it is, and what would tell: pairs with one remedy are one sentence.
std::string apart_sentences(const CauseReading& reading) {
  const std::vector<Remedy> open = remedies_of(reading, false), alike = remedies_of(reading, true);
  const bool one_remedy = open.size() == 1 && std::all_of(alike.begin(), alike.end(), [&](const Remedy& r) {
                            return r.told_by == open.front().told_by;
                          });
  std::string out;
  if (!open.empty())
    out = open_sentences(open, one_remedy && !alike.empty() ? &alike.front() : nullptr, one_remedy, reading);
  if (one_remedy) return out;
  for (const Remedy& remedy : alike) {
    std::string sentence =
        fmt::format("{} {}{}", named(remedy.causes, "and"), kAlike, told_most(remedy.told_by));
    sentence.front() = 'T';
    out += (out.empty() ? "" : " ") + sentence;
  }
  return out;
}

/// Why, and which of several causes it is. Where none stands out there is nothing to tell apart.
std::vector<std::string> why_paragraphs(const Explained& why, UnitSystem units) {
  const std::vector<CauseShift>& causes = why.causes.causes;
  const char* than = why.causes.from == From::best ? "at best" : "usual";
  const CauseShift& first = causes.front();
  const std::string from = reference_sentence(why), apart = apart_sentences(why.causes);
  if (first.probability_leading >= kPerhaps && sided(first) && steps(first) >= kWorthAWord)
    return {fmt::format("{}: {} ({}) {}.{} {}", what_it_explains(first.cause),
                        first.probability_leading >= kLikely ? "most likely" : "perhaps",
                        percent(first.probability_leading), shifted(first, why.causes.hand, than, units),
                        also_off(causes, why.causes.hand, than, units), from),
            apart};
  if (const auto words = unclear(why.causes, than, units)) return {*words + " " + from, apart};
  return {fmt::format("No cause stands out: none is clearly other than {}. {}", than, from)};
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
                       row.rest_first >= kMostly ? "mostly" : "most", rest, percent(row.rest_first));
  }
  if (*at >= kMostly) return fmt::format("{} moves mostly because of {} ({})", what, cause, percent(*at));
  return fmt::format("{} moves for no one cause (most because of {}, {})", what, cause, percent(*at));
}

std::string scatter_sentence(const Explained& why, const Pattern& pattern) {
  if (pattern.n < 2) return "";
  const ScatterRow &low = why.causes.scatter.of(Outcome::low_point),
                   &start = why.causes.scatter.of(Outcome::start);
  if (low.sd == 0.0) return "";
  // What is usual stands before what was seen to be so: nobody is to take the one for the other.
  const char* caveat = pattern.n < kFewSwings ? ". From so few swings mostly what is usual: " : ": ";
  std::string out = std::string("Why it scatters") + caveat + main_part(Outcome::low_point, low);
  if (start.sd > 0.0) out += ", " + main_part(Outcome::start, start);
  return out + '.';
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

std::string conflict_sentences(const Explained& why, const std::vector<SeenSwing>& seen, UnitSystem units) {
  std::string out;
  for (const Conflict& conflict : why.conflicts) {
    const SeenSwing& swing = seen[conflict.swing];
    out += fmt::format("{}Does not fit, swing {}: {}", out.empty() ? "" : "\n", swing.row,
                       text_of(conflict, swing.sightings, swing.hand, units));
  }
  return out;
}

std::string next_sentence(const std::vector<NextLook>& looks) {
  constexpr std::size_t kShown = 3;
  if (looks.empty()) return "";
  std::string out = "Next look, the most telling for its time first: ";
  for (std::size_t k = 0; k < std::min(kShown, looks.size()); ++k)
    out += (k == 0 ? "" : "; ") + look_in_words(looks[k]);
  return out + ".";
}

}  // namespace

const Pattern& pattern_spoken_of(const Group& group, const LessonReading& lesson) {
  return lesson.patterns[group.patterns[pattern_spoken_of(group)]];
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
    parts = why_paragraphs(why, units);
    for (std::string part : {scatter_sentence(why, pattern_spoken_of(*why.group, lesson)),
                             fell_out_sentence(*why.group, lesson), conflict_sentences(why, seen, units)})
      parts.push_back(std::move(part));
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
