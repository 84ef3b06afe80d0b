// The proof in words.

#include <fmt/format.h>

#include <cmath>

#include "verbs/lesson_words.hpp"
#include "verbs/proof_verb.hpp"
#include "verbs/proved_ruler.hpp"

namespace strikewright {
namespace {

/// Never quite sure.
std::string sure_percent(double share) {
  if (share > 0.99) return "over 99 %";
  return share < 0.01 ? "under 1 %" : fmt::format("{:.0f} %", 100.0 * share);
}

/// "the low point lies 2 cm further ahead on average, 80 % sure between 1 and 3 cm".
std::string changed(const GivenFile& file, const Change& change, UnitSystem units) {
  const Proved& proved = *file.proved;
  const Ruler ruler = ruler_of(proved, units);
  const Posterior& c = change.change;
  const char* way = c.mean < 0.0 ? proved.less : proved.more;
  const double sign = c.mean < 0.0 ? -1.0 : 1.0;
  const double low = std::min(sign * c.p10, sign * c.p90), high = std::max(sign * c.p10, sign * c.p90);
  const std::string from =
      low < 0.0 && !is_nought(ruler, low)
          ? fmt::format("{} {}", measured_on(ruler, low), c.mean < 0.0 ? proved.more : proved.less)
          : size_on(ruler, std::max(low, 0.0));
  if (is_nought(ruler, c.mean))
    return fmt::format("the {} is where it was on average, 80 % sure between {} {} and {} {}", proved.says,
                       measured_on(ruler, c.p10), proved.less, measured_on(ruler, c.p90), proved.more);
  return fmt::format("the {} moved {} {} on average, 80 % sure between {} and {}{}", proved.says,
                     measured_on(ruler, c.mean), way, from, measured_on(ruler, high),
                     low < 0.0 ? std::string(" ") + way : "");
}

std::string still_to_come(const Change& change) {
  if (change.before_balls < kBaselineForYes)
    return fmt::format("at least {} balls before the exercise are needed, {} can be used", kBaselineForYes,
                       change.before_balls);
  if (change.after_balls == 0) return "no ball after the exercise yet";
  if (!change.forecast) return "";
  if (change.forecast->beyond) return "even 60 more balls may not tell";
  return fmt::format("{} more ball{} would probably tell", change.forecast->balls,
                     change.forecast->balls == 1 ? "" : "s");
}

std::string sentence_of(const GivenFile& file, const Change& change, UnitSystem units) {
  const std::string more = still_to_come(change);
  switch (change.verdict) {
    case Verdict::not_yet:
      if (change.before_balls == 0 || change.after_balls == 0) return "Not yet: " + more + ".";
      return fmt::format("Not yet{}; so far {}.", more.empty() ? "" : ": " + more,
                         changed(file, change, units));
    case Verdict::no_change_seen:
      return fmt::format("No change worth having is seen: {}.", changed(file, change, units));
    case Verdict::probably:
      return fmt::format("Probably ({}): {}{}.", sure_percent(change.p_worth), changed(file, change, units),
                         more.empty() ? "" : "; " + more);
    case Verdict::yes:
      return fmt::format("Yes: {}; worth having with {}.", changed(file, change, units),
                         sure_percent(change.p_worth));
    case Verdict::worse:
      break;
  }
  return fmt::format("Worse: {}. Stop this exercise.", changed(file, change, units));
}

std::string scatter_sentence(const Change& change) {
  if (change.before_balls < kBaselineForYes || change.after_balls < kAfterForYes) return "";
  constexpr double kSure = 0.9;
  const bool steadier = change.p_steadier > kSure;
  if (!steadier && change.p_steadier > 1.0 - kSure) return "";
  return fmt::format(
      "Its scatter from ball to ball {} by a factor of {:.1f} (80 % sure between {:.1f} and {:.1f}).",
      steadier ? "shrank" : "grew", change.scatter_ratio.mean, change.scatter_ratio.p10,
      change.scatter_ratio.p90);
}

std::string days_in_words(int days) {
  if (days == 1) return "a day";
  if (days == 7) return "a week";
  return days % 7 == 0 ? fmt::format("{} weeks", days / 7) : fmt::format("{} days", days);
}

std::string held_sentence(const Later& later, const char* what) {
  switch (later.held) {
    case Held::nothing_to_hold:
      return "";
    case Held::not_yet:
      return fmt::format("Whether it held {}: not yet to be told.", what);
    case Held::probably:
      return fmt::format("It probably held {} ({}).", what, sure_percent(later.change.p_worth));
    case Held::yes:
      return fmt::format("It held {}.", what);
    case Held::lost:
      break;
  }
  return fmt::format("It did not hold {}.", what);
}

void add(std::vector<std::string>& to, std::string sentence) {
  if (!sentence.empty()) to.push_back(std::move(sentence));
}

bool is_bad(const std::string& contact) {
  return contact == "fat" || contact == "thin" || contact == "topped";
}

}  // namespace

std::string bad_strikes_sentence(const GivenFile& file) {
  int before = 0, bad_before = 0, after = 0, bad_after = 0;
  for (const GivenBall& b : file.balls) {
    if (b.contact.empty() || b.other_club) continue;
    if (b.phase == Phase::baseline) ++before, bad_before += is_bad(b.contact) ? 1 : 0;
    if (b.phase == Phase::after) ++after, bad_after += is_bad(b.contact) ? 1 : 0;
  }
  if (before == 0 || after == 0) return "";
  const RateChange rate = rate_change(bad_before, before, bad_after, after);
  return fmt::format("Fat, thin or topped: {} of {} before, {} of {} after; that there are fewer now: {}.",
                     bad_before, before, bad_after, after, sure_percent(rate.probability_fell));
}

std::vector<std::string> proof_sentences(const GivenFile& file, const Proof& proof, UnitSystem units) {
  std::vector<std::string> out{sentence_of(file, proof.session, units)};
  add(out, scatter_sentence(proof.session));
  add(out, bad_strikes_sentence(file));
  if (proof.retention)
    add(out, held_sentence(*proof.retention, (days_in_words(proof.retention->days) + " later").c_str()));
  if (proof.transfer) add(out, held_sentence(*proof.transfer, "with another club"));
  if (proof.pressure) add(out, held_sentence(*proof.pressure, "under pressure"));
  return out;
}

}  // namespace strikewright
