#include "verbs/lesson_json.hpp"

#include <algorithm>
#include <cmath>

#include "verbs/cause_json.hpp"
#include "verbs/lesson_words.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

Json quantity_json(const Estimate& e, double scale) {
  return {{"mean", e.mean / scale}, {"sd", e.sd / scale}, {"p10", e.p10 / scale}, {"p90", e.p90 / scale}};
}

void add_quantities(const std::array<Estimate, kReported>& at, bool owed, Json& into) {
  for (std::size_t k = 0; k < kReported; ++k) {
    Json quantity = quantity_json(at[k], kReportedFields[k].scale);
    if (owed) quantity["owed_to_prior"] = at[k].owed_to_prior;
    into[kReportedFields[k].key] = std::move(quantity);
  }
}

const char* hand_name(Hand hand) { return hand == Hand::left ? "left" : "right"; }

Json pattern_json(const Pattern& pattern) {
  Json out{{"club", pattern.club},
           {"condition", name_of(pattern.condition)},
           {"hand", hand_name(pattern.hand)},
           {"n", pattern.n},
           {"mean", Json::object()},
           {"scatter", Json::object()}};
  add_quantities(pattern.mean, true, out["mean"]);
  add_quantities(pattern.scatter, false, out["scatter"]);
  return out;
}

/// Weight of each swing in its pattern: well below 1, it fell out.
std::vector<double> weights_of(const LessonReading& lesson) {
  std::vector<double> out(lesson.swings.size(), 1.0);
  for (const Group& group : lesson.groups)
    for (std::size_t k = 0; k < group.swings.size(); ++k) out[group.swings[k]] = group.fit.swings[k].belongs;
  return out;
}

Json swing_json(const SwingReading& swing, double belongs) {
  Json out{{"swing", swing.row},
           {"club", swing.club},
           {"condition", name_of(swing.condition)},
           {"hand", hand_name(swing.hand)}};
  add_quantities(swing.reading.at, true, out);
  out["health"] = {{"pareto_k", swing.reading.health.pareto_k},
                   {"effective_draws", swing.reading.health.effective_draws},
                   {"humps", swing.reading.health.humps},
                   {"belongs", belongs},
                   {"rough", swing.reading.health.rough}};
  return out;
}

Json health_json(const LessonReading& lesson) {
  double worst = 0.0;
  Json rough = Json::array();
  for (const SwingReading& swing : lesson.swings) {
    worst = std::max(worst, swing.reading.health.pareto_k);
    if (swing.reading.health.rough) rough.push_back(swing.row);
  }
  const std::string says = health_sentence(lesson);
  return {{"worst_pareto_k", worst}, {"rough_swings", rough}, {"says", says.empty() ? "good" : says}};
}

}  // namespace

Json lesson_document(const LessonReading& lesson, const std::vector<Explained>& all,
                     const std::vector<SeenSwing>& seen, UnitSystem units) {
  Json out;
  out["patterns"] = Json::array();
  for (const Pattern& pattern : lesson.patterns) out["patterns"].push_back(pattern_json(pattern));
  out["swings"] = Json::array();
  const std::vector<double> weights = weights_of(lesson);
  for (std::size_t i = 0; i < lesson.swings.size(); ++i)
    out["swings"].push_back(swing_json(lesson.swings[i], weights[i]));
  add_causes(all, lesson, seen, units, out);
  out["health"] = health_json(lesson);
  return out;
}

}  // namespace strikewright
