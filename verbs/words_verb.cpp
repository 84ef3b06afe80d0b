#include "verbs/words_verb.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "bag/family.hpp"
#include "bag/generic.hpp"
#include "bag/json.hpp"
#include "quantity/angle.hpp"
#include "reading/prior.hpp"
#include "sighting/columns.hpp"
#include "verbs/lesson_words.hpp"
#include "verbs/pictures.hpp"

namespace strikewright {
namespace {

Document clubs_of(const std::vector<Club>& bag) {
  Document out = Document::array();
  for (const Club& club : bag)
    out.push_back({{"name", club.name},
                   {"says", club.name},
                   {"family", name_of(club.family)},
                   {"loft_deg", rounded(club.loft / kDegree, 0.1)},
                   {"blade", blade_of(club)}});
  return out;
}

Document conditions() {
  Document out = Document::array();
  for (int k = 0; k <= static_cast<int>(Condition::step); ++k) {
    const auto condition = static_cast<Condition>(k);
    out.push_back({{"name", name_of(condition)}, {"says", phrase_of(condition)}});
  }
  return out;
}

Document surfaces() {
  Document out = Document::array();
  for (int k = 0; k <= static_cast<int>(Surface::tee); ++k) out.push_back(name_of(static_cast<Surface>(k)));
  return out;
}

const char* dimension_of(const Column& column) {
  switch (facts_of(column.kind).measure) {
    case Measure::angle:
      return "angle";
    case Measure::small_length:
      return "small_length";
    case Measure::long_length:
      return "length";
    case Measure::speed:
      return "speed";
    case Measure::spin:
      return "spin";
    case Measure::count:
      return "count";
    case Measure::word:
      break;
  }
  return "word";
}

/// "divot_start_mm" -> "divot start".
std::string plain(const Column& column) {
  std::string out = facts_of(column.kind).column;
  if (column.role == Role::word) out = column.name;
  for (char& c : out)
    if (c == '_') c = ' ';
  return out;
}

Document columns() {
  Document out = Document::array();
  for (const Column& column : known_columns()) {
    if (column.role != Role::measured && column.role != Role::word) continue;
    const Facts& facts = facts_of(column.kind);
    Document one{{"name", column.name},
                 {"main", column.name == column_of(column.kind)},
                 {"dimension", dimension_of(column)},
                 {"unit", column.unit},
                 {"says", plain(column)}};
    if (column.role == Role::word) {
      one["words"] = words_of(column.kind);
    } else {
      one["low"] = std::ceil(facts.low / column.scale * 100.0) / 100.0 + 0.0;  // inwards, and no -0
      one["high"] = std::floor(facts.high / column.scale * 100.0) / 100.0;
      one["sure"] = rounded(facts.sd / column.scale, 0.001);
      if (facts.share > 0.0) one["share"] = facts.share;
    }
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

Answer<Document> entry_words(const std::string& bag) {
  std::vector<Club> clubs = generic_bag();
  if (!bag.empty()) {
    Result<std::vector<Club>> own = bag_from_json(bag, "bag");
    if (!own) return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{own.error()});
    clubs = std::move(*own);
  }
  Document skills = Document::array();
  for (const Skill skill : kSkills) skills.push_back(name_of(skill));
  return Document{{"clubs", clubs_of(clubs)},
                  {"surfaces", surfaces()},
                  {"conditions", conditions()},
                  {"skills", std::move(skills)},
                  {"columns", columns()}};
}

}  // namespace strikewright
