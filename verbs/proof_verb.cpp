#include "verbs/proof_verb.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "proof/single_case.hpp"
#include "verbs/proved_ruler.hpp"

namespace strikewright {
namespace {

constexpr const char* kPhaseNames[] = {"baseline", "exercise", "after", "retention", "transfer", "pressure"};
constexpr const char* kVerdicts[] = {"not_yet", "no_change_seen", "probably", "yes", "worse"};
constexpr const char* kHeld[] = {"nothing_to_hold", "not_yet", "probably", "yes", "lost"};

const char* name_of(Phase phase) { return kPhaseNames[static_cast<std::size_t>(phase)]; }

Document spread(const Posterior& p, double scale) {
  return {{"mean", p.mean / scale}, {"sd", p.sd / scale}, {"p10", p.p10 / scale}, {"p90", p.p90 / scale}};
}

Document change_json(const Change& c, double scale) {
  return {{"verdict", kVerdicts[static_cast<std::size_t>(c.verdict)]},
          {"before_balls", c.before_balls},
          {"after_balls", c.after_balls},
          {"before", spread(c.before, scale)},
          {"change", spread(c.change, scale)},
          {"improvement", spread(c.improvement, scale)},
          {"p_improved", c.p_improved},
          {"p_worth", c.p_worth},
          {"p_worse", c.p_worse},
          {"evidence", c.evidence},
          {"scatter_ratio", spread(c.scatter_ratio, 1.0)},
          {"p_steadier", c.p_steadier},
          {"forecast", c.forecast ? Document{{"balls", c.forecast->balls}, {"beyond", c.forecast->beyond}}
                                  : Document(nullptr)}};
}

Document later_json(const std::optional<Later>& later, double scale) {
  if (!later) return nullptr;
  return {{"held", kHeld[static_cast<std::size_t>(later->held)]},
          {"days", later->days},
          {"own_baseline", later->own_baseline},
          {"change", change_json(later->change, scale)}};
}

/// For those who want them: from the balls' values as points. Nothing with fewer than three on a side.
Document single_case_json(const GivenFile& file) {
  constexpr std::size_t kLeast = 3;
  std::vector<double> before, after;
  for (const GivenBall& b : file.balls) {
    if (!b.value || b.other_club) continue;
    if (b.phase == Phase::baseline) before.push_back(*b.value);
    if (b.phase == Phase::after) after.push_back(*b.value);
  }
  if (before.size() < kLeast || after.size() < kLeast) return nullptr;
  const Overlap o = overlap_of(before, after, proof_options(file).wish);
  return {{"nap", o.nap},
          {"nap_low", o.nap_low},
          {"nap_high", o.nap_high},
          {"tau", o.tau},
          {"tau_u", o.tau_u},
          {"tau_bc", o.tau_bc},
          {"pnd", o.pnd},
          {"pand", o.pand},
          {"pem", o.pem},
          {"ird", o.ird},
          {"says",
           "These take the balls as independent of each other, which balls of one bucket are not: a "
           "description, not the verdict."}};
}

Document counted_json(const GivenFile& file) {
  Document out = Document::object();
  for (int k = 0; k <= static_cast<int>(Phase::pressure); ++k)
    out[kPhaseNames[k]] = file.count(static_cast<Phase>(k));
  return out;
}

Document points_json(const GivenFile& file, double scale) {
  Document out = Document::array();
  for (const GivenBall& b : file.balls)
    out.push_back({{"swing", b.swing.id},
                   {"number", b.swing.number},
                   {"lesson", b.swing.lesson},
                   {"day", b.day},
                   {"phase", name_of(b.phase)},
                   {"other_club", b.other_club},
                   {"value", b.value ? Document(*b.value / scale) : Document(nullptr)},
                   {"sd", b.value ? Document(b.sd / scale) : Document(nullptr)}});
  return out;
}

}  // namespace

Answer<Document> proof_document(Book& book, const Id& given, const std::string& units_text,
                                unsigned threads) {
  if (const auto good = check_units(units_text); !good) return refused(good.error());
  const Answer<GivenFile> file = given_file(book, given, true, threads);
  if (!file) return tl::unexpected<std::vector<Fault>>(file.error());
  const UnitSystem units = units_of(file->settings, units_text);
  const ProofOptions options = proof_options(*file);
  const Series series = series_of(*file);
  if (auto fault = series_fault(series, options)) return tl::unexpected<std::vector<Fault>>({*fault});
  const Proof proof = proof_of(series, options);
  const Ruler ruler = ruler_of(*file->proved, units);
  const bool degrees = ruler.scale == kDegrees.scale;
  return Document{
      {"given", given},
      {"exercise", file->given.exercise},
      {"title", file->exercise ? file->exercise->words.title(Language::en) : file->given.exercise},
      {"club", file->club},
      {"quantity", file->proved->says},
      {"unit", degrees ? "°" : ruler.unit},
      {"plus", file->proved->plus},
      {"minus", file->proved->minus},
      {"wish", {{"from", options.wish.from / ruler.scale}, {"to", options.wish.to / ruler.scale}}},
      {"smallest_worth", options.smallest_worth / ruler.scale},
      {"dose_balls", file->exercise ? Document(file->exercise->dose.balls) : Document(nullptr)},
      {"counted", counted_json(*file)},
      {"says", proof_sentences(*file, proof, units)},
      {"session", change_json(proof.session, ruler.scale)},
      {"retention", later_json(proof.retention, ruler.scale)},
      {"transfer", later_json(proof.transfer, ruler.scale)},
      {"pressure", later_json(proof.pressure, ruler.scale)},
      {"points", points_json(*file, ruler.scale)},
      {"single_case", single_case_json(*file)}};
}

}  // namespace strikewright
