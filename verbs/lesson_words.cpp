#include "verbs/lesson_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "quantity/angle.hpp"
#include "verbs/show.hpp"

namespace strikewright {

Ruler ground_ruler(UnitSystem units, double width) {
  if (units == UnitSystem::yards) return {kInch, width < 0.05 ? 1 : 0, "in"};
  return {1e-2, width < 0.02 ? 1 : 0, "cm"};
}
Ruler face_ruler(UnitSystem units) {
  return units == UnitSystem::yards ? Ruler{kInch, 1, "in"} : Ruler{1e-3, 0, "mm"};
}

std::string size_on(const Ruler& ruler, double value) {
  return figure(std::abs(value) / ruler.scale, ruler.places);
}

bool is_nought(const Ruler& ruler, double value) {
  return size_on(ruler, value).find_first_of("123456789") == std::string::npos;
}

std::string measured_on(const Ruler& ruler, double value) {
  const std::string size = size_on(ruler, value);
  const bool one = size == "1" && std::string_view(ruler.unit) == kDegrees.unit;
  return size + " " + (one ? "degree" : ruler.unit);
}

std::string placed(const Ruler& ruler, double value, const Sides& sides) {
  if (is_nought(ruler, value)) return sides.at;
  return measured_on(ruler, value) + " " + (value < 0.0 ? sides.minus : sides.plus);
}

std::string between(const Ruler& ruler, double low, double high, const char* plus, const char* minus) {
  const bool one_side = low * high >= 0.0 || is_nought(ruler, low) || is_nought(ruler, high);
  if (!one_side) {
    return fmt::format("80 % sure between {} {} and {} {}", measured_on(ruler, low), minus,
                       measured_on(ruler, high), plus);
  }
  const bool negative = low + high < 0.0;
  if (negative) std::swap(low, high);
  return fmt::format("80 % sure between {} and {} {} {}", size_on(ruler, low), size_on(ruler, high),
                     ruler.unit, negative ? minus : plus);
}

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t k = 0; k < names.size(); ++k) {
    out += (k == 0 ? "" : k + 1 == names.size() ? " and " : ", ") + names[k];
  }
  return out;
}

namespace {

using Member = double Reported::*;

constexpr std::string_view kBall = "the ball";

std::size_t index_of(Member member) {
  for (std::size_t k = 0; k < kReported; ++k) {
    if (kReportedFields[k].at == member) return k;
  }
  ensure(false, "a reported quantity without a field");
  return 0;
}

const Estimate& mean_in(const Pattern& p, Member member) { return p.mean[index_of(member)]; }

std::string spread(const Pattern& p, Member member, const Ruler& ruler) {
  return size_on(ruler, p.scatter[index_of(member)].mean) + " " + ruler.unit;
}

std::string low_point_sentences(const Pattern& p, UnitSystem units) {
  const Estimate& e = mean_in(p, &Reported::low_point);
  const Ruler ruler = ground_ruler(units, e.p90 - e.p10);
  std::string out = fmt::format(
      "Low point {}, {}.", placed(ruler, e.mean, {"ahead of the ball", "behind the ball", "at the ball"}),
      between(ruler, e.p10, e.p90, "ahead", "behind"));
  if (p.n > 1)
    out += fmt::format(" It moves by about {} from swing to swing.",
                       spread(p, &Reported::low_point, ground_ruler(units, 0.0)));
  const Estimate& depth = mean_in(p, &Reported::low_point_depth);
  const Estimate& divot = mean_in(p, &Reported::divot_start);
  // Turf is no plane: an arc a few millimetres over it still touches (strike room: uneven by 2 mm).
  constexpr double kClear = 0.004;
  if (depth.p10 > kClear) return out + " The arc stays over the turf.";
  const Ruler turf = ground_ruler(units, divot.p90 - divot.p10);
  return out + fmt::format(" The club meets the turf {}, {}.",
                           placed(turf, divot.mean, {"ahead of the ball", "behind the ball", "at the ball"}),
                           between(turf, divot.p10, divot.p90, "ahead", "behind"));
}

std::string lean_sentences(const Pattern& p, const Club& club) {
  const Estimate& lean = mean_in(p, &Reported::shaft_lean);
  const Estimate& loft = mean_in(p, &Reported::loft);
  const Estimate& attack = mean_in(p, &Reported::attack);
  std::string out = "Shaft " + (is_nought(kDegrees, lean.mean)
                                    ? std::string("upright")
                                    : "leaning " + placed(kDegrees, lean.mean, {"forward", "backward", ""}));
  out += fmt::format(" at the ball, {}.", between(kDegrees, lean.p10, lean.p90, "forward", "backward"));
  out += fmt::format(" Delivered loft {} degrees ({} to {}); the club's own is {}.",
                     size_on(kDegrees, loft.mean), size_on(kDegrees, loft.p10), size_on(kDegrees, loft.p90),
                     size_on(kDegrees, club.loft));
  return out + fmt::format(" The clubhead is travelling {}, {}.",
                           placed(kDegrees, attack.mean, {"up", "down", "level"}),
                           between(kDegrees, attack.p10, attack.p90, "up", "down"));
}

std::string curve_sentence(const Estimate& face_to_path) {
  if (face_to_path.p10 > 0.0) return " The face is open to the path: the ball tends to fade.";
  if (face_to_path.p90 < 0.0) return " The face is closed to the path: the ball tends to draw.";
  return " Whether the face is open or closed to the path is not settled.";
}

std::string path_sentences(const Pattern& p, bool ball) {
  const Estimate& path = mean_in(p, &Reported::path);
  const Estimate& face = mean_in(p, &Reported::face);
  return fmt::format("Club path {}, {}. Face {}, {}.{}",
                     placed(kDegrees, path.mean, {"in to out", "out to in", "along the target line"}),
                     between(kDegrees, path.p10, path.p90, "in to out", "out to in"),
                     placed(kDegrees, face.mean, {"open", "closed", "square"}),
                     between(kDegrees, face.p10, face.p90, "open", "closed"),
                     ball ? curve_sentence(mean_in(p, &Reported::face_to_path)) : "");
}

std::string strike_sentences(const Pattern& p, UnitSystem units) {
  const Ruler ruler = face_ruler(units);
  const Estimate& toe = mean_in(p, &Reported::strike_toe);
  const Estimate& up = mean_in(p, &Reported::strike_up);
  std::string out =
      fmt::format("Struck {}, {}; {}, {}.",
                  placed(ruler, toe.mean, {"toward the toe", "toward the heel", "in the middle"}),
                  between(ruler, toe.p10, toe.p90, "toward the toe", "toward the heel"),
                  placed(ruler, up.mean, {"up the face", "under the edge", "on the leading edge"}),
                  between(ruler, up.p10, up.p90, "up", "under the edge"));
  if (p.n > 1) {
    out += fmt::format(" From swing to swing it moves by about {} across and {} up and down.",
                       spread(p, &Reported::strike_toe, ruler), spread(p, &Reported::strike_up, ruler));
  }
  return out;
}

/// "low point, ahead of the ball +" -> "low point".
std::string plain_name(std::size_t k) {
  if (kReportedFields[k].at == &Reported::strike_toe) return "strike point across the face";
  const std::string says = kReportedFields[k].says;
  return says.substr(0, says.find(','));
}

std::string sure_sentence(const Pattern& p) {
  std::vector<std::string> assumed;
  for (std::size_t k = 0; k < kReported; ++k) {
    if (p.mean[k].owed_to_prior > 0.5) assumed.push_back(plain_name(k));
  }
  if (assumed.empty()) return "All of this rests mostly on what was seen.";
  if (assumed.size() > kReported - 3)
    return "Next to nothing was seen: this is what such players usually do.";
  return "Still mostly what such players usually do, not what was seen: " + listed(assumed) +
         ". The rest comes mostly from what was seen.";
}

}  // namespace

std::string sentences_of(const Pattern& pattern, const Club& club, bool ball, UnitSystem units) {
  std::string out = low_point_sentences(pattern, units) + "\n" + lean_sentences(pattern, club) + "\n" +
                    path_sentences(pattern, ball);
  if (ball) return out + "\n" + strike_sentences(pattern, units) + "\n" + sure_sentence(pattern);
  for (std::size_t at = out.find(kBall); at != std::string::npos; at = out.find(kBall, at)) {
    out.replace(at, kBall.size(), "the chalk line");
  }
  return out + "\n" + sure_sentence(pattern);
}

const char* phrase_of(Condition condition) {
  switch (condition) {
    case Condition::normal:
      break;
    case Condition::lead_leg:
      return "weight on the lead leg";
    case Condition::trail_leg:
      return "weight on the trail leg";
    case Condition::feet_together:
      return "feet together";
    case Condition::trail_hand:
      return "trail hand only";
    case Condition::step:
      return "stepping into it";
  }
  return "as usual";
}

std::string heading_of(const Pattern& pattern) {
  std::string out = pattern.club;
  if (pattern.hand == Hand::left) out += ", left-handed";
  if (pattern.condition != Condition::normal) out += std::string(", ") + phrase_of(pattern.condition);
  return out + fmt::format(", {} swing{}", pattern.n, pattern.n == 1 ? "" : "s");
}

std::string health_sentence(const LessonReading& lesson) {
  std::string rows;
  std::size_t rough = 0;
  for (const SwingReading& s : lesson.swings) {
    if (!s.reading.health.rough) continue;
    ++rough;
    if (rough <= 8) rows += (rows.empty() ? "" : ", ") + std::to_string(s.row);
  }
  if (rough == 0) return "";
  if (rough > 8) rows += fmt::format(" and {} more", rough - 8);
  return fmt::format(
      "Rough: swing{} {}. What was seen there fits together badly or in more than one way; take {} "
      "with care.",
      rough == 1 ? "" : "s", rows, rough == 1 ? "it" : "them");
}

}  // namespace strikewright
