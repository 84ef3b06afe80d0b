#include "sighting/sighting.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "quantity/fault.hpp"
#include "sighting/likelihood.hpp"

namespace strikewright {
namespace {

const char* ending_of(Measure measure) {
  switch (measure) {
    case Measure::angle:
      return "_deg";
    case Measure::small_length:
      return "_mm";
    case Measure::long_length:
      return "_m";
    case Measure::speed:
      return "_mps";
    case Measure::spin:
      return "_rpm";
    case Measure::count:
    case Measure::word:
      break;
  }
  return "";
}

/// A yes-or-no judgement: `yes` when the latent is over the edge.
Term decision(bool yes, double latent, double edge, double soft) {
  const WordScale scale{2, {"no", "yes"}, {edge}, soft};
  return word_cost(scale, yes ? 1 : 0, latent);
}

enum ContactWord { clean, fat, thin, topped, shank };

Misfit contact_misfit(int word, const Latents<double>& x, const Setting& setting) {
  using kind::Contact;
  Misfit out;
  const auto add = [&](std::size_t latent, const Term& term) {
    out.cost += term.cost;
    out.slope[latent] += term.slope;
    out.curvature[latent] += term.curvature;
  };
  add(0, decision(word != shank, x.at[0], Contact::shank_edge(setting), Contact::kShankSoft));
  if (word == shank) return out;
  add(1, decision(word == fat, x.at[1], Contact::kFatEdge, Contact::kFatSoft));
  if (word == fat) return out;
  const WordScale height{3,
                         {"topped", "thin", "clean"},
                         {Contact::topped_edge(setting), Contact::thin_edge(setting)},
                         Contact::kHeightSoft};
  add(2, word_cost(height, word == topped ? 0 : word == thin ? 1 : 2, x.at[2]));
  return out;
}

WordScale scale_of(Kind kind, const Setting& setting) {
  WordScale out;
  detail::visit_kind(kind, [&]<class K>(K) {
    if constexpr (requires { K::scale(setting); }) out = K::scale(setting);
  });
  return out;
}

std::array<std::vector<std::string>, kKinds> all_words() {
  std::array<std::vector<std::string>, kKinds> out;
  for (std::size_t k = 0; k < kKinds; ++k) {
    const WordScale scale = scale_of(static_cast<Kind>(k), Setting{});
    out[k].assign(scale.words.begin(), scale.words.begin() + static_cast<std::ptrdiff_t>(scale.count));
  }
  out[static_cast<std::size_t>(Kind::contact_word)].assign(kind::Contact::words.begin(),
                                                           kind::Contact::words.end());
  return out;
}

int drawn_word(Kind kind, const Latents<double>& latents, const Setting& setting, Draws& draws) {
  const int count = static_cast<int>(words_of(kind).size());
  double left = draws.uniform();
  for (int word = 0; word + 1 < count; ++word) {
    left -= std::exp(-misfit(judged(kind, word), latents, setting).cost);
    if (left < 0.0) return word;
  }
  return count - 1;
}

/// Student-t of unit scale: a normal over the root of a mean of squares.
double drawn_student(Draws& draws) {
  const double z = draws.normal();
  double squares = 0.0;
  for (int k = 0; k < static_cast<int>(kTailFreedom); ++k) {
    const double n = draws.normal();
    squares += n * n;
  }
  return z / std::sqrt(squares / kTailFreedom);
}

}  // namespace

Misfit misfit(const Sighting& s, const Latents<double>& latents, const Setting& setting) {
  if (s.kind == Kind::contact_word) return contact_misfit(s.word, latents, setting);
  const double x = latents.at[0];
  const Term term = is_word(s.kind)
                        ? word_cost(scale_of(s.kind, setting), static_cast<std::size_t>(s.word), x)
                        : student(s.value, x, s.sd, s.share, facts_of(s.kind).model_share);
  Misfit out;
  out.cost = term.cost;
  out.slope[0] = term.slope;
  out.curvature[0] = term.curvature;
  return out;
}

double log_likelihood(const Sighting& s, const Latents<double>& latents, const Setting& setting) {
  if (is_word(s.kind)) return -misfit(s, latents, setting).cost;
  return log_student(s.value, latents.at[0], s.sd, s.share, facts_of(s.kind).model_share);
}

bool can_be_biased(Kind kind) { return kind != Kind::contact_word; }

double scale_of_sighting(const Sighting& s, double latent, const Setting& setting) {
  if (is_word(s.kind)) return scale_of(s.kind, setting).soft;
  return scale_at(latent, s.sd, s.share, facts_of(s.kind).model_share).value;
}

double log_likelihood(const Sighting& s, const Latents<double>& latents, const Setting& setting,
                      double bias) {
  if (bias == 0.0 || !can_be_biased(s.kind)) return log_likelihood(s, latents, setting);
  const double off = bias * scale_of_sighting(s, latents.at[0], setting);
  if (!is_word(s.kind))
    return log_student(s.value - off, latents.at[0], s.sd, s.share, facts_of(s.kind).model_share);
  Latents<double> moved = latents;
  moved.at[0] += off;
  return log_likelihood(s, moved, setting);
}

std::vector<Decision> decisions_of(const Sighting& s, const Setting& setting) {
  constexpr double kNone = std::numeric_limits<double>::infinity();
  if (!is_word(s.kind)) return {};
  if (s.kind == Kind::contact_word) {
    using kind::Contact;
    const double shank_edge = Contact::shank_edge(setting);
    if (s.word == shank) return {{0, -kNone, shank_edge, Contact::kShankSoft}};
    std::vector<Decision> out{{0, shank_edge, kNone, Contact::kShankSoft}};
    if (s.word == fat) {
      out.push_back({1, Contact::kFatEdge, kNone, Contact::kFatSoft});
      return out;
    }
    out.push_back({1, -kNone, Contact::kFatEdge, Contact::kFatSoft});
    const double topped_edge = Contact::topped_edge(setting), thin_edge = Contact::thin_edge(setting);
    if (s.word == topped) out.push_back({2, -kNone, topped_edge, Contact::kHeightSoft});
    if (s.word == thin) out.push_back({2, topped_edge, thin_edge, Contact::kHeightSoft});
    if (s.word == clean) out.push_back({2, thin_edge, kNone, Contact::kHeightSoft});
    return out;
  }
  const WordScale scale = scale_of(s.kind, setting);
  const auto word = static_cast<std::size_t>(s.word);
  return {{0, word == 0 ? -kNone : scale.edges[word - 1], word + 1 == scale.count ? kNone : scale.edges[word],
           scale.soft}};
}

bool needs_flight(Kind kind) { return facts_of(kind).needs == Needs::flight; }
bool needs_flight(std::span<const Sighting> sightings) {
  return std::any_of(sightings.begin(), sightings.end(),
                     [](const Sighting& s) { return needs_flight(s.kind); });
}
bool of_the_mark(Kind kind) {
  using enum Kind;
  return kind == divot_start || kind == divot_end || kind == divot_direction || kind == divot_depth ||
         kind == divot_toe_depth || kind == divot_begins_word || kind == toe_heel_word;
}
bool can_be_seen(Kind kind, const Shot<double>& shot) {
  if (of_the_mark(kind) && !shot.strike.divot.any) return false;
  return !needs_ball(kind) || shot.flew;
}
bool needs_ball(Kind kind) { return facts_of(kind).needs != Needs::nothing; }
bool is_word(Kind kind) { return facts_of(kind).measure == Measure::word; }

Sighting measured(Kind kind, double value, std::optional<double> sure) {
  const Facts& facts = facts_of(kind);
  ensure(!is_word(kind), "a kind judged in words has no measured value");
  if (sure) return {kind, value, std::hypot(*sure, facts.model), 0.0, 0};
  return {kind, value, std::hypot(facts.sd, facts.model), facts.share, 0};
}

Sighting judged(Kind kind, int word) {
  ensure(word >= 0 && static_cast<std::size_t>(word) < words_of(kind).size(),
         "a word has an index within its list");
  return {kind, 0.0, 0.0, 0.0, word};
}

Sighting mirrored(const Sighting& s) {
  if (facts_of(s.kind).mirror == Mirror::no) return s;
  Sighting out = s;
  out.value = -s.value;
  if (is_word(s.kind)) out.word = static_cast<int>(words_of(s.kind).size()) - 1 - s.word;
  return out;
}

Sighting seen(Kind kind, const Shot<double>& shot, const Setting& setting, Draws& draws, double bias) {
  Sighting out{.kind = kind};
  Latents<double> latents = predict(out, shot, setting);
  if (is_word(kind)) {
    if (can_be_biased(kind) && bias != 0.0) latents.at[0] += bias * scale_of(kind, setting).soft;
    return judged(kind, drawn_word(kind, latents, setting, draws));
  }
  out = measured(kind, 0.0);
  const double x = latents.at[0];
  out.value =
      x + scale_at(x, out.sd, out.share, facts_of(kind).model_share).value * (bias + drawn_student(draws));
  return out;
}

const std::vector<std::string>& words_of(Kind kind) {
  static const std::array<std::vector<std::string>, kKinds> words = all_words();
  return words[static_cast<std::size_t>(kind)];
}

std::string column_of(Kind kind) {
  const Facts& facts = facts_of(kind);
  return std::string(facts.column) + ending_of(facts.measure);
}

const char* name_of(Condition condition) {
  switch (condition) {
    case Condition::normal:
      return "normal";
    case Condition::lead_leg:
      return "lead_leg";
    case Condition::trail_leg:
      return "trail_leg";
    case Condition::feet_together:
      return "feet_together";
    case Condition::trail_hand:
      return "trail_hand";
    case Condition::step:
      break;
  }
  return "step";
}

const char* name_of(Surface surface) {
  switch (surface) {
    case Surface::fairway_soft:
      return "fairway_soft";
    case Surface::fairway:
      return "fairway";
    case Surface::fairway_firm:
      return "fairway_firm";
    case Surface::rough:
      return "rough";
    case Surface::sand:
      return "sand";
    case Surface::mat:
      return "mat";
    case Surface::tee:
      break;
  }
  return "tee";
}

}  // namespace strikewright
