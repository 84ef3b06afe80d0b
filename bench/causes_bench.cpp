// Is the model worth it? How often the cause that is named first is the right one: causes_of, and a coach's
// rule of thumb on the same invented pupils.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <vector>

#include "cause/calibration.hpp"
#include "cause/looks.hpp"
#include "shot/shot_of.hpp"

namespace {

using namespace strikewright;

/// What a coach adds up in his head about a few swings.
class Impression {
 public:
  explicit Impression(const std::vector<SeenSwing>& seen) : seen_{seen} {}
  /// Mean of a measured kind, SI, or of the word's place in its list; `otherwise` where nothing was seen.
  [[nodiscard]] double mean(Kind kind, double otherwise) const {
    double sum = 0.0, n = 0.0;
    for (const SeenSwing& s : seen_)
      for (const Sighting& k : s.sightings)
        if (k.kind == kind) {
          sum += is_word(kind) ? k.word : k.value;
          n += 1.0;
        }
    return n > 0.0 ? sum / n : otherwise;
  }
  /// Share of the swings called one of these.
  [[nodiscard]] double share(Kind kind, std::initializer_list<int> words) const {
    double said = 0.0;
    for (const SeenSwing& s : seen_)
      for (const Sighting& k : s.sightings)
        if (k.kind == kind && std::find(words.begin(), words.end(), k.word) != words.end()) said += 1.0;
    return said / static_cast<double>(seen_.size());
  }

 private:
  const std::vector<SeenSwing>& seen_;
};

/// The swing that is usual for the club and the band, with one cause so many steps off.
Shot<double> usual_with(const Group& group, Cause cause, double steps) {
  Coordinates z = Coordinates::Zero();
  z[place_of(cause)] = steps / steps_in(cause, group.prior);
  return shot_of(pass_at(group.prior, z), group.setting);
}

/// Steps of a cause that would shift one number of the usual swing by `shift`. The rule is given the model's
/// own sizes: it is judged for how it thinks, not for how well it was tuned.
template <class F>
double steps_for(double shift, const Group& group, Cause cause, F number) {
  const double one = number(usual_with(group, cause, 0.5)) - number(usual_with(group, cause, -0.5));
  return shift / one;
}

/// A coach's rule of thumb (common practice, no source): a divot behind or ahead of the usual is weight, or
/// release when the ball also flies high (low when ahead); fat without a divot behind is too low, thin too
/// high; the direction of divot and start is the handle; a curve that the divot's direction does not explain
/// is the face. The largest in steps comes first. From the sightings alone.
CauseReading rule_of_thumb(const Group& group, const std::vector<SeenSwing>& seen) {
  constexpr double kHigh = 0.4;         // of a word: more often than not on that side
  constexpr double kBehind = 20e-3;     // m: a divot that far off is called behind; a step of weight
  constexpr double kStepOfShare = 0.5;  // fat or thin half of the time: one step of height
  constexpr int kNormal = 1;            // low, normal, high
  constexpr int kFat = 1, kThin = 2, kTopped = 3;
  const Impression saw(seen);
  const Shot<double> usual = usual_with(group, Cause::weight, 0.0);
  const double start = usual.strike.divot.start, curve = usual.flight.curve;
  const double back = saw.mean(Kind::divot_start, start) - start;
  const double high = saw.mean(Kind::height_word, kNormal) - kNormal;
  std::array<double, kCauses> steps{};
  const auto of = [&steps](Cause c) -> double& { return steps[static_cast<std::size_t>(c)]; };
  const bool release = back < 0.0 ? high > kHigh : high < -kHigh;
  const Cause turf = release ? Cause::release : Cause::weight;
  of(turf) = steps_for(back, group, turf, [](const Shot<double>& s) { return s.strike.divot.start; });
  const double fat = back < -kBehind ? 0.0 : saw.share(Kind::contact_word, {kFat});
  of(Cause::height) = (saw.share(Kind::contact_word, {kThin, kTopped}) - fat) / kStepOfShare;
  const auto aim = [](const Shot<double>& s) {
    return 0.5 * (s.strike.divot.direction + s.strike.launch.azimuth);
  };
  const double divot = saw.mean(Kind::divot_direction, usual.strike.divot.direction);
  const double aimed = 0.5 * (divot + saw.mean(Kind::start, usual.strike.launch.azimuth));
  of(Cause::handle) = steps_for(aimed - aim(usual), group, Cause::handle, aim);
  const auto bend = [](const Shot<double>& s) { return s.flight.curve; };
  const double by_handle = bend(usual_with(group, Cause::handle, of(Cause::handle))) - curve;
  of(Cause::face_turn) =
      steps_for(saw.mean(Kind::curve, curve) - curve - by_handle, group, Cause::face_turn, bend);
  CauseReading out;
  for (int k = 0; k < kCauses; ++k) {
    out.causes.emplace_back();
    out.causes.back().cause = static_cast<Cause>(k);
  }
  std::stable_sort(out.causes.begin(), out.causes.end(), [&of](const CauseShift& a, const CauseShift& b) {
    return std::abs(of(a.cause)) > std::abs(of(b.cause));
  });
  return out;
}

CauseReading by_the_model(const Group& group, const std::vector<SeenSwing>& seen) {
  return causes_of(group, seen);
}

CauseRow after_10(std::size_t pupils, const NamesCauses& names) {
  CalibrationOptions options;
  options.threads = 1;
  return calibrate_causes(pupils, options, names).rows[1];
}

void first_cause_right(benchmark::State& state) {
  const auto pupils = static_cast<std::size_t>(state.range(0));
  CauseRow rule, model;
  for (auto _ : state) {
    rule = after_10(pupils, rule_of_thumb);
    model = after_10(pupils, by_the_model);
  }
  if (model.right <= rule.right) state.SkipWithError("the model names causes no better than a rule of thumb");
  state.counters["pupils"] = static_cast<double>(pupils);
  state.counters["rule"] = rule.share();
  state.counters["model"] = model.share();
  state.counters["bound"] = model.bound();  // the same naming given what linear information allows
}
BENCHMARK(first_cause_right)->Arg(40)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
