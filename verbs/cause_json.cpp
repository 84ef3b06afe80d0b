#include "verbs/cause_json.hpp"

#include <algorithm>

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

const char* name_of(From from) { return from == From::best ? "best" : "usual"; }
const char* name_of(Hand hand) { return hand == Hand::left ? "left" : "right"; }

Json shift_json(const CauseShift& c) {
  const CauseFacts& facts = kCauseFacts[static_cast<std::size_t>(c.cause)];
  return {{"mean", c.shift.mean / facts.scale},
          {"sd", c.shift.sd / facts.scale},
          {"p10", c.shift.p10 / facts.scale},
          {"p90", c.shift.p90 / facts.scale},
          {"unit", facts.unit}};
}

Json shares_json(const std::array<double, kOutcomes>& share) {
  Json out = Json::object();
  for (std::size_t o = 0; o < kOutcomes; ++o) out[kOutcomeFacts[o].key] = share[o];
  return out;
}

/// Causes are the pupil's, in the normal condition; scatter is that of the pattern named here.
Json cause_json(const CauseShift& c, const Pattern& pattern) {
  return {{"name", name_of(c.cause)},
          {"club", pattern.club},
          {"condition", name_of(pattern.condition)},
          {"hand", name_of(pattern.hand)},
          {"shift", shift_json(c)},
          {"probability_leading", c.probability_leading},
          {"share_of_scatter", shares_json(c.share)},
          {"share_of_scatter_total", shares_json(c.share_total)}};
}

Json causes_json(const Explained& why, const LessonReading& lesson) {
  Json out = Json::array();
  const Pattern& pattern = pattern_spoken_of(*why.group, lesson);
  for (const CauseShift& c : why.causes.causes) out.push_back(cause_json(c, pattern));
  return out;
}

Json apart_json(const CauseReading& causes) {
  Json out = Json::array();
  for (const Confounded& pair : causes.cannot_tell_apart) {
    Json names = Json::array();
    for (const Cause cause : pair.causes) names.push_back(name_of(cause));
    out.push_back(std::move(names));
  }
  return out;
}

Json told_by_json(const CauseReading& causes) {
  Json out = Json::array();
  for (const Confounded& pair : causes.cannot_tell_apart)
    out.push_back(pair.told_by.empty() ? Json(nullptr) : Json(pair.told_by));
  return out;
}

Json next_json(const CauseReading& causes) {
  Json out = Json::array();
  for (const NextLook& look : causes.next_look)
    out.push_back({{"look", look.is_condition ? "condition" : "column"},
                   {"name", look.is_condition ? std::string(name_of(look.condition)) : column_of(look.kind)},
                   {"swings", look.swings},
                   {"seconds", look.seconds},
                   {"gain_nats", look.gain},
                   {"gain_nats_per_minute", look.gain_per_minute()}});
  return out;
}

Json conflict_json(const Conflict& conflict, const SeenSwing& swing, UnitSystem units) {
  Json columns = Json::array();
  for (const std::size_t k : conflict.sightings) columns.push_back(column_of(swing.sightings[k].kind));
  const bool none = conflict.slip == Conflict::Slip::none;
  Json out{{"swing", swing.row},
           {"columns", std::move(columns)},
           {"text", text_of(conflict, swing.sightings, swing.hand, units)},
           {"likelier_slip", none ? Json(nullptr) : Json(name_of(conflict.slip))},
           {"odds", conflict.odds}};
  if (!conflict.other_club.empty()) out["other_club"] = conflict.other_club;
  return out;
}

Json group_json(const Explained& why, const LessonReading& lesson) {
  Json conditions = Json::array();
  for (const Condition condition : why.group->conditions) conditions.push_back(name_of(condition));
  Json rest = Json::object();
  for (std::size_t o = 0; o < kOutcomes; ++o)
    rest[kOutcomeFacts[o].key] = why.causes.scatter.rows[o].rest_first;
  return {{"club", why.group->club},
          {"hand", name_of(why.group->hand)},
          {"conditions", std::move(conditions)},
          {"n", why.group->swings.size()},
          {"from", name_of(why.causes.from)},
          {"from_best_possible", why.causes.from_best_possible},
          {"causes", causes_json(why, lesson)},
          {"no_cause_share_of_scatter", std::move(rest)},
          {"cannot_tell_apart", apart_json(why.causes)},
          {"told_by", told_by_json(why.causes)},
          {"next_look", next_json(why.causes)}};
}

Json spread_json(const MeanAndSd& m, double scale) {
  return {{"mean", m.mean / scale}, {"sd", m.sd / scale}};
}

/// Start and curve are as seen: turned back for a left-hander.
Json way_json(const WaySwung& way, Hand hand) {
  const double seen = hand == Hand::left ? -1.0 : 1.0;
  const auto turned = [seen](const MeanAndSd& m) { return MeanAndSd{seen * m.mean, m.sd}; };
  Json out{{"name", way.name},
           {"lean_given_up_deg", way.lean_given_up / kDegree + 0.0},  // no -0
           {"said", way.said},
           {"swings", way.swings},
           {"arrived", way.arrived},
           {"flew", way.flew},
           {"low_point_mm", spread_json(way.low_point, 1e-3)},
           {"edge_height_mm", spread_json(way.edge_height, 1e-3)}};
  if (way.flew > 0) {
    out["strike_up_mm"] = spread_json(way.strike_up, 1e-3);
    out["start_deg"] = spread_json(turned(way.start), kDegree);
    out["curve_m"] = spread_json(turned(way.curve), 1.0);
    out["carry_m"] = spread_json(way.carry, 1.0);
  }
  out["fat"] = way.fat;
  out["thin"] = way.thin;
  return out;
}

Json ways_json(const Explained& why) {
  Json out{{"club", why.group->club}, {"hand", name_of(why.group->hand)}, {"ways", Json::array()}};
  if (*why.ways) {
    for (const WaySwung& way : **why.ways) out["ways"].push_back(way_json(way, why.group->hand));
  } else {
    out["fault"] = why.ways->error().sentence();
  }
  return out;
}

}  // namespace

void add_causes(const std::vector<Explained>& all, const LessonReading& lesson,
                const std::vector<SeenSwing>& seen, UnitSystem units, Json& into) {
  for (const char* list : {"causes", "cannot_tell_apart", "conflicts", "next_look", "exercises", "groups"})
    into[list] = Json::array();
  const auto main = std::max_element(all.begin(), all.end(), [](const Explained& a, const Explained& b) {
    return a.group->swings.size() < b.group->swings.size();
  });
  if (main != all.end()) {
    into["causes"] = causes_json(*main, lesson);
    into["cannot_tell_apart"] = apart_json(main->causes);
    into["next_look"] = next_json(main->causes);
  }
  std::vector<const Conflict*> conflicts;
  for (const Explained& why : all) {
    into["groups"].push_back(group_json(why, lesson));
    for (const Conflict& conflict : why.conflicts) conflicts.push_back(&conflict);
    if (why.ways) into["compare_swings"].push_back(ways_json(why));
  }
  std::stable_sort(conflicts.begin(), conflicts.end(),
                   [](const Conflict* a, const Conflict* b) { return a->swing < b->swing; });
  for (const Conflict* conflict : conflicts)
    into["conflicts"].push_back(conflict_json(*conflict, seen[conflict->swing], units));
}

}  // namespace strikewright
