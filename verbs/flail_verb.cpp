#include "verbs/flail_verb.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <optional>

#include "bag/generic.hpp"
#include "cause/another_swing.hpp"
#include "reading/prior.hpp"
#include "reading/reading.hpp"
#include "shot/shot_of.hpp"
#include "verbs/json_door.hpp"
#include "verbs/pass_json.hpp"
#include "verbs/pictures.hpp"

namespace strikewright {
namespace {

/// One slider.
struct Slider {
  const char* key;
  double scale;  ///< SI value of one shown unit
  double most;   ///< shown unit, to either side: as far as a flail of such players goes
};
constexpr std::array<Slider, 7> kSliders{{{"weight_mm", 1e-3, 80.0},
                                          {"release_ms", 1e-3, 30.0},
                                          {"height_mm", 1e-3, 20.0},
                                          {"handle_deg", kDegree, 10.0},
                                          {"face_turn_deg", kDegree, 10.0},
                                          {"plane_tilt_deg", kDegree, 6.0},
                                          {"speed_mps", 1.0, 6.0}}};
enum SliderAt : std::size_t { kWeight, kRelease, kHeight, kHandle, kFaceTurn, kPlaneTilt, kSpeed };
using Moved = std::array<double, kSliders.size()>;  ///< SI

struct FlailAsked {
  Hand hand = Hand::right;
  Skill skill = Skill::club;
  Setting setting;
  Pass<double> pass;
  Moved moved{};
  double noise = 1.0;
};

using Faults = std::vector<Fault>;

Moved moved_from(JsonDoor door) {
  Moved out{};
  for (std::size_t k = 0; k < kSliders.size(); ++k) {
    const Slider& s = kSliders[k];
    const double value = door.number_or(s.key, 0.0);
    if (std::abs(value) > s.most)
      door.wrong(s.key, fmt::format("{}", value), fmt::format("{} to {}", -s.most, s.most));
    out[k] = value * s.scale;
  }
  door.done();
  return out;
}

/// Words that are looked up: a fault where there is none like it.
Result<FlailAsked> with_words(FlailAsked out, const std::string& hand, const std::string& skill,
                              const std::string& club, double noise) {
  if (hand != "right" && hand != "left") return unexpected(Fault{"hand", "'" + hand + "'", "right or left"});
  const Result<Skill> known = skill_named(skill, "skill");
  if (!known) return unexpected(known.error());
  const Result<Club> swung = club_named(generic_bag(), club, "club");
  if (!swung) return unexpected(swung.error());
  if (noise <= 0.0 || noise > 5.0)
    return unexpected(Fault{"noise", fmt::format("{}", noise), "above 0, to 5"});
  out.hand = hand == "left" ? Hand::left : Hand::right;
  out.skill = *known;
  out.setting.club = *swung;
  out.noise = noise;
  return out;
}

Result<FlailAsked> asked_from(const Document& document) {
  if (!document.is_object()) return unexpected(Fault{"body", "no object", "a JSON object"});
  std::optional<Fault> fault;
  JsonDoor door(document, "", fault);
  const std::string hand = door.text_or("hand", "right"), skill = door.text_or("skill", "club");
  const std::string club = door.text_or("club", "7i"), units = door.text_or("units", "metric");
  const double noise = door.number_or("noise", 1.0);
  FlailAsked out;
  if (door.has("moved")) out.moved = moved_from(door.object("moved"));
  const bool given = door.has("pass") && !door.is_null("pass");
  if (given) out.pass = pass_from(door.object("pass"));
  door.done();
  if (units != "metric" && units != "yards") door.wrong("units", "'" + units + "'", "metric or yards");
  if (fault) return unexpected(*fault);
  Result<FlailAsked> known = with_words(std::move(out), hand, skill, club, noise);
  if (known && !given) known->pass = usual_pass(known->setting.club, static_cast<SwingBand>(known->skill));
  return known;
}

double lift_of(const FlailAsked& asked) {
  return ball_lift_on(asked.setting.ground.surface, asked.setting.club.family) + asked.pass.ball_sits;
}

/// A flail that was found for a pass, and where it lets go.
struct Base {
  Swing<double> swing;
  Passing<double> passing;
};

Result<Base> base_of(const FlailAsked& asked) {
  const SwingManner manner = usual_manner(static_cast<SwingBand>(asked.skill));
  auto swing = swing_for(asked.pass, manner, asked.setting.club, asked.setting.ball, lift_of(asked));
  if (!swing) return unexpected(swing.error());
  auto passing = passing_of(*swing, asked.setting.club, asked.setting.ball, lift_of(asked));
  if (!passing) return unexpected(passing.error());
  return Base{std::move(*swing), std::move(*passing)};
}

Swing<double> moved_swing(const Base& base, const Moved& moved) {
  Swing<double> s = base.swing;
  const Moment<double>& release = base.passing.run.release;
  const double later = std::max(moved[kRelease], -release.time);
  s.flail.wrist.release.value += later * (release.arm_rate + 0.5 * later * release.arm_gain);
  s.flail.hub.shift.size += moved[kWeight];
  s.stance.hub_up += moved[kHeight];
  s.stance.plane_direction += moved[kHandle];
  s.stance.face.contact += moved[kFaceTurn];
  s.flail.plane_tilt += moved[kPlaneTilt];
  return s;
}

/// What the moved flail does at the ball, with the ground and the ball of the pass it came from.
Pass<double> pass_of(const Base& base, const Passing<double>& at, const FlailAsked& asked) {
  Pass<double> pass = at.pass;
  pass.club_speed = std::max(1.0, pass.club_speed + asked.moved[kSpeed]);
  take_circumstances(asked.pass, pass);
  pass.arc = asked.pass.arc + std::log(at.arc_radius / base.passing.arc_radius);
  return pass;
}

/// A point of the plane as it is seen face-on: along the target line, and up [m].
Document face_on(const Swing<double>& s, const Vec2<double>& p) {
  const auto axes = detail::plane_axes<double>(s.flail.plane_tilt, s.stance.plane_direction);
  const Vec3<double> world = p[0] * axes.along + p[1] * axes.slope;
  return {rounded(world.x(), kMillimetre), rounded(world.z(), kMillimetre)};
}

/// From the top to well past the ball.
Result<Document> frames_of(const Swing<double>& s, double contact) {
  constexpr double kAfter = 0.11, kEvery = 5e-3;  // s
  RunOptions options;
  options.end = End::at_time;
  options.end_time = contact + kAfter;
  options.trace_every = kEvery;
  const auto run = run_flail(s.flail, options);
  if (!run) return unexpected(run.error());
  const Vec2<double> hub(s.stance.hub_along, s.stance.hub_up);
  Document out = Document::array();
  for (const Sample& sample : run->trace) {
    Moment<double> m;
    m.arm = sample.arm;
    m.club = sample.club;
    m.hub = hub_at(s.flail.hub, sample.time, sample.time);
    out.push_back({{"t_ms", rounded((sample.time - contact) * 1e3, 0.1)},
                   {"hub", face_on(s, hub + m.hub.p)},
                   {"hands", face_on(s, hub + point_at(s.flail, m, 0.0).p)},
                   {"head", face_on(s, hub + point_at(s.flail, m, s.flail.club.length).p)}});
  }
  return out;
}

Document moved_document(const Moved& moved) {
  Document out = Document::object();
  for (std::size_t k = 0; k < kSliders.size(); ++k) out[kSliders[k].key] = moved[k] / kSliders[k].scale;
  return out;
}

Document reach_document() {
  Document out = Document::object();
  for (const Slider& s : kSliders) out[s.key] = {-s.most, s.most};
  return out;
}

void add_ball(const Shot<double>& shot, Hand hand, Document& out) {
  const double seen = hand == Hand::left ? -1.0 : 1.0;
  out["ball"] = nullptr;
  out["missed"] = nullptr;
  if (!shot.flew) {
    out["missed"] = "the club passes over the ball";
    return;
  }
  out["ball"] = {{"carry_m", shot.flight.carry},
                 {"start_deg", seen * shot.strike.launch.azimuth / kDegree},
                 {"curve_m", seen * shot.flight.curve},
                 {"side_m", seen * shot.flight.side},
                 {"apex_m", shot.flight.apex}};
}

/// What struck first, in the coach's words.
Document says_of(const Reported& r, const Shot<double>& shot) {
  Document out = Document::array();
  if (shot.strike.missed)
    out.push_back("The club passes over the ball.");
  else if (shot.strike.bladed)
    out.push_back("The leading edge meets the ball: topped or bladed.");
  else if (shot.strike.turf_before > 0.0)
    out.push_back("Turf first, then the ball.");
  else
    out.push_back(r.low_point > 0.0 ? "Ball first, then turf." : "The club is already rising at the ball.");
  if (shot.strike.off_face) out.push_back("The ball meets the club outside its face.");
  return out;
}

/// The same as the whole reading has it, right-hander's frame = player's terms.
Document contact_of(const Reported& r) {
  Document out = Document::object();
  for (const auto& field : kReportedFields) out[field.key] = rounded(r.*field.at / field.scale, 1e-3);
  return out;
}

Result<Document> picture_of(const FlailAsked& asked) {
  const Result<Base> base = base_of(asked);
  if (!base) return unexpected(base.error());
  const Swing<double> swing = moved_swing(*base, asked.moved);
  const auto at = passing_of(swing, asked.setting.club, asked.setting.ball, lift_of(asked));
  if (!at) return unexpected(at.error());
  const Result<Document> frames = frames_of(swing, at->run.contact.time);
  if (!frames) return unexpected(frames.error());
  const Pass<double> pass = pass_of(*base, *at, asked);
  Setting here = asked.setting;
  here.club.turn_radius = at->turn_radius;
  const Shot<double> shot = shot_of(pass, here, true, FlightOptions::fast());
  const Reported r = reported_of(shot);
  Document out{{"frames", *frames},
               {"release_ms", rounded((at->run.release.time - at->run.contact.time) * 1e3, 0.1)},
               {"arc", arc_points(pass, here.club.arc_radius)},
               {"contact", contact_of(r)},
               {"plan",
                {{"path_deg", r.path / kDegree},
                 {"face_deg", r.face / kDegree},
                 {"plane_direction_deg", r.plane_direction / kDegree}}}};
  add_ball(shot, asked.hand, out);
  out["pass"] = pass_document(pass);
  out["moved"] = moved_document(asked.moved);
  out["reach"] = reach_document();
  out["says"] = says_of(r, shot);
  return out;
}

Noise noise_of(double times) {
  Noise n;
  for (double* sd : {&n.release, &n.weight, &n.height, &n.handle, &n.face_turn, &n.plane_tilt, &n.speed})
    *sd *= times;
  return n;
}

Document way_document(const WaySwung& way, Hand hand) {
  const double seen = hand == Hand::left ? -1.0 : 1.0;
  Document strip = Document::array(), face = Document::array(), flight = Document::array();
  for (const NoisySwing& s : way.each) {
    if (!s.arrived) continue;
    strip.push_back({rounded(s.low_point / kMillimetre, 0.1), rounded(s.plane_direction / kDegree, 0.01)});
    if (!s.flew) continue;
    face.push_back({rounded(s.strike_toe / kMillimetre, 0.1), rounded(s.strike_up / kMillimetre, 0.1)});
    flight.push_back({rounded(s.carry, 0.1), rounded(seen * s.side, 0.1)});
  }
  return {{"way", way.name == std::string_view("handle-led") ? "handle_led" : "wrist_driven"},
          {"says", way.said},
          {"n", way.swings},
          {"sd",
           {{"low_point_mm", way.low_point.sd / kMillimetre},
            {"strike_up_mm", way.strike_up.sd / kMillimetre},
            {"start_deg", way.start.sd / kDegree},
            {"curve_m", way.curve.sd},
            {"carry_m", way.carry.sd}}},
          {"fat", way.fat},
          {"thin", way.thin},
          {"strip", std::move(strip)},
          {"face", std::move(face)},
          {"flight", std::move(flight)}};
}

Result<Document> scatter_of(const FlailAsked& asked) {
  constexpr std::size_t kSwings = 200;
  constexpr std::uint64_t kSeed = 1;
  const Result<Base> base = base_of(asked);
  if (!base) return unexpected(base.error());
  const auto at =
      passing_of(moved_swing(*base, asked.moved), asked.setting.club, asked.setting.ball, lift_of(asked));
  if (!at) return unexpected(at.error());
  const auto ways = ways_of(pass_of(*base, *at, asked), static_cast<SwingBand>(asked.skill), asked.setting,
                            noise_of(asked.noise), kSwings, kSeed);
  if (!ways) return unexpected(ways.error());
  Document out{{"ways", Document::array()}};
  for (const WaySwung& way : *ways) out["ways"].push_back(way_document(way, asked.hand));
  return out;
}

Answer<Document> answered(Result<Document> result) {
  if (!result) return refused(result.error());
  return std::move(*result);
}

}  // namespace

Answer<Document> flail_picture(const Document& asked) {
  const Result<FlailAsked> known = asked_from(asked);
  return known ? answered(picture_of(*known)) : refused(known.error());
}

Answer<Document> flail_scatter(const Document& asked) {
  const Result<FlailAsked> known = asked_from(asked);
  return known ? answered(scatter_of(*known)) : refused(known.error());
}

}  // namespace strikewright
