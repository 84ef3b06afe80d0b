#include "verbs/ranking_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/angle.hpp"
#include "verbs/show.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

/// Less than this is not worth a word [m], and so few of a hundred swings.
constexpr double kWorthMetres = 0.05, kWorthShare = 0.005;

const Exercise& exercise_of(const std::vector<Exercise>& known, const std::string& name) {
  const auto at = std::find_if(known.begin(), known.end(), [&](const Exercise& e) { return e.name == name; });
  ensure(at != known.end(), "a ranked exercise is one of those that were given to rank");
  return *at;
}

std::string title_of(const std::vector<Exercise>& known, const std::string& name, Language language) {
  return exercise_of(known, name).words.title(language);
}

Ruler flight_ruler(UnitSystem units) {
  return units == UnitSystem::yards ? Ruler{kYard, 1, "yd"} : Ruler{1.0, 1, "m"};
}

/// "1.4 m nearer the target on average (80 % sure between 0.2 and 2.6 m nearer), 6 fewer fat or thin in
/// 100, through the weight".
std::string gains(const RankedExercise& one, UnitSystem units) {
  std::string out;
  if (std::abs(one.gain.mean) >= kWorthMetres) {
    const Ruler ruler = flight_ruler(units);
    out = fmt::format("{} {} the target on average ({})", measured_on(ruler, one.gain.mean),
                      one.gain.mean > 0.0 ? "nearer" : "farther from",
                      between(ruler, one.gain.p10, one.gain.p90, "nearer", "farther"));
  }
  if (std::abs(one.fewer_bad.mean) >= kWorthShare) {
    out += fmt::format("{}{:.0f} {} fat or thin in 100", out.empty() ? "" : ", ",
                       100.0 * std::abs(one.fewer_bad.mean), one.fewer_bad.mean > 0.0 ? "fewer" : "more");
  }
  if (out.empty()) return "hardly any gain to be expected";
  return out + ", through " + (one.by == Cause::speed ? "the speed" : "the " + plain_name(one.by));
}

Ruler ruler_of(Cause cause, UnitSystem units) {
  const CauseFacts& facts = kCauseFacts[static_cast<std::size_t>(cause)];
  if (cause == Cause::weight) return ground_ruler(units, 0.0);
  if (cause == Cause::height) return face_ruler(units);
  return std::string_view(facts.unit) == "deg" ? kDegrees : Ruler{facts.scale, 0, facts.unit};
}

/// "3 cm further back than usual", "as usual".
std::string shift_in_words(Cause cause, double value, Hand hand, const Ruler& ruler) {
  if (is_nought(ruler, value)) return "as usual";
  return placed(ruler, value, sides_of(cause, hand)) + " than usual";
}

std::string turn_sentence(const Turn& turn, const Ranking& ranking, const std::vector<Exercise>& known,
                          Hand hand, UnitSystem units) {
  const std::string first = title_of(known, ranking.ranked[0].name, Language::en);
  const std::string second = title_of(known, ranking.ranked[1].name, Language::en);
  if (turn.what == Turn::What::cause) {
    if (!turn.needed)
      return fmt::format("No thinkable {} would put \"{}\" first.", plain_name(turn.cause), second);
    // One figure "instead of" the same one would say nothing: as many places as tell the two apart.
    Ruler ruler = ruler_of(turn.cause, units);
    const auto said = [&](double value) { return shift_in_words(turn.cause, value, hand, ruler); };
    for (int finer = 0; finer < 2 && said(*turn.needed) == said(turn.now); ++finer) ++ruler.places;
    return fmt::format("\"{}\" would come first if the {} were {} instead of {}.", second,
                       plain_name(turn.cause), said(*turn.needed), said(turn.now));
  }
  const bool of_first = turn.what == Turn::What::first_effect;
  const std::string& whose = of_first ? first : second;
  if (!turn.needed)
    return fmt::format("However {} \"{}\" works, \"{}\" stays first.", of_first ? "little" : "well", whose,
                       first);
  return fmt::format("\"{}\" would come first if one dose of \"{}\" went {} of the way instead of {}.",
                     second, whose, percent(*turn.needed), percent(turn.now));
}

std::string learned_sentence(const LearnedEffect& effect) {
  return fmt::format(
      "Given {} time{} to {} pupil{}: one dose goes {} of the way on average, 80 % sure between {} and {}.",
      effect.times, effect.times == 1 ? "" : "s", effect.pupils, effect.pupils == 1 ? "" : "s",
      percent(effect.mean), percent(effect.p10), percent(effect.p90));
}

Json learned_json(const LearnedEffect& effect) {
  Json out{{"times", effect.times},
           {"pupils", effect.pupils},
           {"effect", {{"mean", effect.mean}, {"sd", effect.sd}, {"p10", effect.p10}, {"p90", effect.p90}}},
           {"probability_works", effect.probability_works},
           {"says", learned_sentence(effect)}};
  return out;
}

Json one_json(const RankedExercise& one, const Exercise& exercise, const BookEffects* learned,
              UnitSystem units, const BodyNotes& notes, Language language) {
  Json out{{"name", one.name},
           {"title", exercise.words.title(language)},
           {"purpose", exercise.words.purpose(language)},
           {"permission", name_of(one.permission.permit)},
           {"reasons", one.permission.reasons},
           {"by", name_of(one.by)},
           {"by_says", plain_name(one.by)},
           {"gain_m", spread_json(one.gain)},
           {"fewer_bad", spread_json(one.fewer_bad)},
           {"score_m", spread_json(one.score)},
           {"probability_gain", one.probability_gain},
           {"probability_best", one.probability_best},
           {"says", gains(one, units)},
           {"cautions", cautions_of(exercise, language, notes)}};
  if (learned == nullptr) return out;
  const LearnedEffect* effect = learned->of(one.name);
  out["learned"] = effect != nullptr && effect->times > 0 ? learned_json(*effect) : Json(nullptr);
  return out;
}

}  // namespace

std::vector<std::string> second_first_sentences(const Ranking& ranking, const std::vector<Exercise>& known,
                                                Hand hand, UnitSystem units) {
  std::vector<std::string> out;
  for (const Turn& turn : ranking.what_would_make_second_first)
    out.push_back(turn_sentence(turn, ranking, known, hand, units));
  return out;
}

std::vector<std::string> ranking_sentences(const Ranking& ranking, const std::vector<Exercise>& known,
                                           Hand hand, bool ball, UnitSystem units, std::size_t most) {
  std::vector<std::string> out;
  if (ranking.ranked.empty()) {
    out.emplace_back("No exercise of the catalogue fits this club, this ground and this pupil.");
    return out;
  }
  if (ranking.rests_on_prior)
    out.emplace_back("Too little was seen to choose by: this order rests on what such players usually need.");
  out.push_back(fmt::format("{} end {} from the target on average, and {:.0f} in 100 {} fat or thin.",
                            ball ? "As it is, the balls" : "With a ball, these swings would",
                            measured_on(flight_ruler(units), ranking.now.distance.mean),
                            100.0 * ranking.now.bad_share.mean, ball ? "are" : "would be"));
  for (std::size_t k = 0; k < std::min(most, ranking.ranked.size()); ++k) {
    const RankedExercise& one = ranking.ranked[k];
    std::string says = fmt::format("{} \"{}\": {}; the best of all with {}.", k == 0 ? "First" : "Then",
                                   title_of(known, one.name, Language::en), gains(one, units),
                                   percent(one.probability_best));
    for (const std::string& reason : one.permission.reasons) says += " " + reason;
    out.push_back(std::move(says));
  }
  if (ranking.ranked.size() > 1 && !ranking.what_would_make_second_first.empty())
    out.push_back(second_first_sentences(ranking, known, hand, units).front());
  return out;
}

nlohmann::ordered_json ranked_json(const Ranking& ranking, const std::vector<Exercise>& known,
                                   const BookEffects* learned, UnitSystem units, const BodyNotes& notes,
                                   Language language) {
  Json out = Json::array();
  for (const RankedExercise& one : ranking.ranked)
    out.push_back(one_json(one, exercise_of(known, one.name), learned, units, notes, language));
  return out;
}

nlohmann::ordered_json spread_json(const Spread& spread) {
  return {{"mean", spread.mean}, {"sd", spread.sd}, {"p10", spread.p10}, {"p90", spread.p90}};
}

}  // namespace strikewright
