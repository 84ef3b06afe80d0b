#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "quantity/dual.hpp"
#include "sighting/sighting.hpp"
#include "some_shot.hpp"

using namespace strikewright;

namespace {

double latent(Kind kind, const Shot<double>& shot, const Setting& setting) {
  return predict(Sighting{.kind = kind}, shot, setting).at[0];
}

/// Probability of each word of a kind at a shot.
std::vector<double> chances(Kind kind, const Shot<double>& shot, const Setting& setting) {
  std::vector<double> out;
  const auto latents = predict(Sighting{.kind = kind}, shot, setting);
  for (std::size_t w = 0; w < words_of(kind).size(); ++w) {
    out.push_back(std::exp(-misfit(judged(kind, static_cast<int>(w)), latents, setting).cost));
  }
  return out;
}

std::string likeliest(Kind kind, const Shot<double>& shot, const Setting& setting) {
  const auto p = chances(kind, shot, setting);
  return words_of(kind).at(static_cast<std::size_t>(std::max_element(p.begin(), p.end()) - p.begin()));
}

}  // namespace

TEST_CASE("each measured kind looks at its own number of the shot") {
  const Setting s = some_setting();
  const Shot<double> shot = some_shot();
  const auto& l = shot.strike.launch;
  const auto& d = shot.strike.divot;
  CHECK(latent(Kind::start, shot, s) == l.azimuth);
  CHECK(latent(Kind::curve, shot, s) == shot.flight.curve);
  CHECK(latent(Kind::carry, shot, s) == shot.flight.carry);
  CHECK(latent(Kind::apex, shot, s) == shot.flight.apex);
  // Leaf is pressed before turf is cut.
  CHECK(latent(Kind::divot_start, shot, s) == doctest::Approx(d.start + 0.05 * (d.end - d.start)));
  CHECK(latent(Kind::divot_end, shot, s) == d.end);
  CHECK(latent(Kind::divot_direction, shot, s) == d.direction);
  CHECK(latent(Kind::divot_depth, shot, s) == d.depth);
  CHECK(latent(Kind::divot_toe_depth, shot, s) == d.toe_depth);
  CHECK(latent(Kind::strike_toe, shot, s) == shot.strike.strike_toe);
  CHECK(latent(Kind::strike_up, shot, s) == shot.strike.strike_up);
  CHECK(latent(Kind::shaft_lean, shot, s) == shot.delivery.lean);
  CHECK(latent(Kind::handle_lead, shot, s) == shot.delivery.handle_lead);
  CHECK(latent(Kind::attack, shot, s) == shot.delivery.attack);
  CHECK(latent(Kind::path, shot, s) == shot.delivery.path);
  CHECK(latent(Kind::face, shot, s) == shot.delivery.face);
  CHECK(latent(Kind::loft, shot, s) == shot.delivery.loft);
  CHECK(latent(Kind::club_speed, shot, s) == shot.pass.club_speed);
  CHECK(latent(Kind::ball_speed, shot, s) == l.speed);
  CHECK(latent(Kind::launch_angle, shot, s) == l.elevation);
  CHECK(latent(Kind::spin, shot, s) == l.spin);
  CHECK(latent(Kind::spin_axis, shot, s) == l.axis_tilt);
}

TEST_CASE("grooves are a ruler up the face") {
  // Geometry: groove = 1 + (s - 5 mm) / 3.6 mm; 12.82 mm up is groove 3.17, 10.87 mm groove 2.63 (own
  // derivation from the smallest legal pitch, Equipment Rules Part 2, 5c). Tolerance: the two printed
  // decimals.
  const Setting s = some_setting();
  Shot<double> shot = some_shot();
  shot.strike.strike_up = 12.82e-3;
  CHECK(std::abs(latent(Kind::strike_groove, shot, s) - 3.17) < 0.006);
  shot.strike.strike_up = 10.87e-3;
  CHECK(std::abs(latent(Kind::strike_groove, shot, s) - 2.63) < 0.006);
  CHECK(std::isfinite(latent(Kind::strike_groove, shot, some_setting("driver"))));
}

TEST_CASE("a shot without ball, divot or flight still has every prediction, with slopes") {
  for (const char* club : {"driver", "3w", "4h", "7i", "lw"}) {
    const Setting s = some_setting(club);
    Shot<Dual<10>> nothing;  // all zero
    for (std::size_t k = 0; k < kKinds; ++k) {
      const auto latents = predict(Sighting{.kind = static_cast<Kind>(k)}, nothing, s);
      for (int i = 0; i < latents.n; ++i) {
        const auto& x = latents.at[static_cast<std::size_t>(i)];
        INFO(club, " ", column_of(static_cast<Kind>(k)));
        CHECK(std::isfinite(x.a));
        CHECK(x.v.allFinite());
      }
    }
  }
}

TEST_CASE("dual numbers predict what plain numbers predict") {
  const Setting s = some_setting();
  const auto plain = some_shot<double>();
  const auto dual = some_shot<Dual<10>>();
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Sighting sighting{.kind = static_cast<Kind>(k)};
    const auto a = predict(sighting, plain, s);
    const auto b = predict(sighting, dual, s);
    REQUIRE(a.n == b.n);
    // Dividing a dual by a number multiplies by its reciprocal: one rounding more.
    for (std::size_t i = 0; i < static_cast<std::size_t>(a.n); ++i) {
      CHECK(a.at[i] == doctest::Approx(b.at[i].a).epsilon(1e-15));
    }
  }
}

TEST_CASE("the words fit what they describe") {
  const Setting s = some_setting();
  Shot<double> shot = some_shot();
  shot.strike.launch.azimuth = 8 * kDegree;
  CHECK(likeliest(Kind::start_word, shot, s) == "far_right");
  shot.strike.launch.azimuth = -3 * kDegree;
  CHECK(likeliest(Kind::start_word, shot, s) == "left");
  shot.flight.curve = 25;
  CHECK(likeliest(Kind::curve_word, shot, s) == "big_right");
  shot.flight.curve = -6;
  CHECK(likeliest(Kind::curve_word, shot, s) == "left");
  shot.strike.divot.depth = -0.01;
  CHECK(likeliest(Kind::divot_word, shot, s) == "none");
  shot.strike.divot.depth = 0.009;
  CHECK(likeliest(Kind::divot_word, shot, s) == "normal");
  shot.strike.divot.depth = 0.025;
  CHECK(likeliest(Kind::divot_word, shot, s) == "deep");
  shot.strike.divot.start = -0.05;
  CHECK(likeliest(Kind::divot_begins_word, shot, s) == "before");
  shot.strike.divot.toe_depth = 0.006;
  CHECK(likeliest(Kind::toe_heel_word, shot, s) == "toe");
}

TEST_CASE("a clean strike, a fat one, a thin one, a top and a shank are told apart") {
  const Setting s = some_setting();
  Shot<double> shot = some_shot();
  shot.strike.turf_before = 0.0;
  CHECK(likeliest(Kind::contact_word, shot, s) == "clean");
  Shot<double> fat = shot;
  fat.strike.divot.start = -0.06;
  fat.strike.turf_before = 4e-4;
  CHECK(likeliest(Kind::contact_word, fat, s) == "fat");
  Shot<double> thin = shot;
  thin.strike.strike_up = 0.003;
  CHECK(likeliest(Kind::contact_word, thin, s) == "thin");
  Shot<double> topped = shot;
  topped.strike.strike_up = -0.02;
  CHECK(likeliest(Kind::contact_word, topped, s) == "topped");
  Shot<double> shank = shot;
  shank.strike.strike_toe = -0.045;
  CHECK(likeliest(Kind::contact_word, shank, s) == "shank");
}

TEST_CASE("a 7-iron is thin under its second groove, a more lofted club lower down") {
  // Common practice, no source: thin is the first or second groove of a middle iron. Second groove: 5 + 3.6
  // mm.
  CHECK(std::abs(kind::Contact::thin_edge(some_setting("7i")) - 8.6e-3) < 0.5e-3);
  CHECK(kind::Contact::thin_edge(some_setting("sw")) < kind::Contact::thin_edge(some_setting("9i")));
  CHECK(kind::Contact::thin_edge(some_setting("lw")) > 0.0);
}

TEST_CASE("a mat hides a fat strike unless it took much of the speed") {
  Setting mat = some_setting();
  mat.ground.surface = Surface::mat;
  Shot<double> shot = some_shot();
  shot.strike.speed_left = 0.98;
  CHECK(likeliest(Kind::contact_word, shot, mat) == "clean");
  shot.strike.speed_left = 0.7;
  CHECK(likeliest(Kind::contact_word, shot, mat) == "fat");
}

TEST_CASE("no divot on a mat says nothing about the club") {
  Setting mat = some_setting();
  mat.ground.surface = Surface::mat;
  Shot<double> shot = some_shot();
  for (const double depth : {-0.05, 0.0, 0.01, 0.05}) {
    shot.strike.divot.depth = depth;
    const auto latents = predict(judged(Kind::divot_word, 0), shot, mat);
    const Misfit m = misfit(judged(Kind::divot_word, 0), latents, mat);
    CHECK(m.cost < 1e-12);
    CHECK(std::abs(m.slope[0]) < 1e-9);
  }
}

TEST_CASE("no divot on grass says that the club stayed over the turf") {
  const Setting s = some_setting();
  Shot<double> shot = some_shot();
  const auto cost = [&](double depth) {
    shot.strike.divot.depth = depth;
    return misfit(judged(Kind::divot_word, 0), predict(judged(Kind::divot_word, 0), shot, s), s).cost;
  };
  CHECK(cost(-0.01) < 0.01);
  CHECK(cost(0.01) > 3.0);
}

TEST_CASE("a normal height is higher with more loft, and lies between attack and loft") {
  double last = 0.0;
  for (const char* club : {"driver", "3w", "4h", "5i", "7i", "9i", "pw", "sw", "lw"}) {
    const double launch = kind::normal_launch(some_setting(club));
    CHECK(launch > last);
    CHECK(launch < some_setting(club).club.loft);
    last = launch;
  }
}

TEST_CASE("the normal height is the planar impact's launch") {
  // Check value: M 0.270 kg, e 0.78, e_t 0.2, obliquity 30 deg: 0.2358 of the obliquity goes to the path
  // (planar free-body impact, A. R. Penner, Am. J. Phys. 69, 563, 2001, equations; row computed
  // independently). Loft 31, lean 4, attack -3: launch 27 - 0.2358 * 30 = 19.926 deg. Tolerance: the row's
  // last digit times 30.
  Setting s = some_setting();
  s.club.loft = 31 * kDegree;
  s.club.head_mass = 0.270;
  s.club.restitution0 = 0.78;
  s.club.restitution_slope = 0.0;
  s.club.tangential_restitution = 0.2;
  CHECK(std::abs(kind::normal_launch(s) / kDegree - 19.926) < 0.0016);
}

TEST_CASE("a mirrored sighting mirrored again is itself") {
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Kind kind = static_cast<Kind>(k);
    const Sighting s = is_word(kind) ? judged(kind, 0) : measured(kind, 0.1);
    CHECK(mirrored(mirrored(s)) == s);
  }
  CHECK(mirrored(judged(Kind::start_word, 0)).word == 4);
  CHECK(mirrored(measured(Kind::path, 0.1)).value == 0.1);
  CHECK(mirrored(measured(Kind::divot_direction, 0.1)).value == -0.1);
}

TEST_CASE("what needs the ball in the air, a ball, or neither") {
  CHECK(needs_flight(Kind::carry));
  CHECK(needs_flight(Kind::curve_word));
  CHECK(!needs_flight(Kind::start));
  CHECK(needs_ball(Kind::start));
  CHECK(needs_ball(Kind::contact_word));
  CHECK(!needs_ball(Kind::divot_start));
  CHECK(!needs_ball(Kind::attack));
}

TEST_CASE("every kind has a default spread, a range that holds it, and says where it comes from") {
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Facts& f = facts_of(static_cast<Kind>(k));
    INFO(f.column);
    CHECK(std::string_view(f.source).find("assumption") != std::string_view::npos);
    if (is_word(f.kind)) continue;
    CHECK(f.sd > 0.0);
    CHECK(f.high - f.low > 2 * f.sd);
  }
}
