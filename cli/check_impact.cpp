// Club meets ball against worked strikes and published ones.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "check_groups.hpp"
#include "numeric/draws.hpp"
#include "numeric/root.hpp"
#include "quantity/angle.hpp"
#include "strike/impulse.hpp"

namespace strikewright {
namespace {

constexpr const char* kImpactGroup = "impact";
using Head = HeadInRigidMotion<double>;

/// A head struck at its centre of mass, moving with `attack` up, face square with `loft`.
Head point_head(double mass, double speed, double attack, double loft, double restitution, double tangential,
                double friction) {
  Head head;
  head.mass = mass;
  head.inertia_W = Mat3<double>::Identity() * 2e-4;
  head.v_WH_W = speed * direction(0.0, attack);
  head.w_WH_W.setZero();
  head.normal_W = direction(0.0, loft);
  head.p_HC_W.setZero();
  head.restitution = restitution;
  head.tangential_restitution = tangential;
  head.friction = friction;
  return head;
}

Launch<double> launch_from(const Head& head) { return launch_of(impact_of(head, Ball{}).ball); }

/// The synthetic heads of impact_vectors: mass [kg] and inertia [kg m2] about x, y, z.
std::pair<double, Vec3<double>> synthetic_head(const std::string& name) {
  if (name == "DRV") return {0.200, Vec3<double>(2500e-7, 3000e-7, 5000e-7)};
  if (name == "IRN") return {0.270, Vec3<double>(2300e-7, 600e-7, 2500e-7)};
  return {0.300, Vec3<double>(2600e-7, 800e-7, 2700e-7)};
}

Head head_of(const ReferenceRow& row) {
  const auto [mass, inertia] = synthetic_head(row.text("head"));
  const double face = row.number("face") * kDegree;
  Head head = point_head(mass, 1.0, 0.0, 0.0, row.number("e"), row.number("et"), row.number("mu"));
  head.inertia_W = inertia.asDiagonal();
  head.v_WH_W = row.number("V") * direction(row.number("path") * kDegree, row.number("att") * kDegree);
  head.w_WH_W.z() = row.number("Omz");
  head.normal_W = direction(face, row.number("delivered_loft") * kDegree);
  const Vec3<double> toe(-std::sin(face), -std::cos(face), 0.0);
  head.p_HC_W = 1e-3 * (row.number("D_mm") * head.normal_W + row.number("toe_mm") * toe +
                        row.number("up_mm") * toe.cross(head.normal_W));
  return head;
}

void vector_rows(CheckReport& report) {
  CheckTable table(report, kImpactGroup, "impact_vectors");
  for (const ReferenceRow& row : table.rows()) {
    const Impact<double> impact = impact_of(head_of(row), Ball{});
    const Launch<double> l = launch_of(impact.ball);
    const std::string name = row.text("id") + ": ";
    table.compare(name + "slides to the end (1) or sticks (0)", "",
                  impact.regime == Regime::slide ? 1.0 : 0.0, row.text("regime") == "slide" ? 1.0 : 0.0, 0.0);
    table.printed(name + "ball speed", "m/s", l.speed, row, "ball_v");
    table.printed(name + "launch angle", "deg", l.elevation / kDegree, row, "launch_el");
    table.printed(name + "start direction", "deg", l.azimuth / kDegree, row, "launch_az");
    table.printed(name + "spin", "rpm", l.spin / kRpm, row, "spin_tot");
    table.printed(name + "backspin", "rpm", std::cos(l.axis_tilt) * l.spin / kRpm, row, "backspin");
    table.printed(name + "upspin", "rpm", -std::sin(l.axis_tilt) * l.spin / kRpm, row, "upspin");
    table.printed(name + "spin axis tilt", "deg", l.axis_tilt / kDegree, row, "spin_axis_tilt");
    table.printed(name + "head speed after", "m/s", impact.v_WH_W.norm(), row, "head_v_after");
    table.printed(name + "head elevation after", "deg", elevation_of(impact.v_WH_W) / kDegree, row,
                  "head_el_after");
    table.printed(name + "head direction after", "deg", azimuth_of(impact.v_WH_W) / kDegree, row,
                  "head_az_after");
  }
}

/// Obliquity at which the contact stops sticking [rad].
double slide_limit(const ReferenceRow& row) {
  const auto sticks = [&](double phi) {
    const Head head =
        point_head(row.number("M_kg"), 30.0, 0.0, phi, row.number("e"), row.number("e_t"), row.number("mu"));
    return impact_of(head, Ball{}).regime == Regime::stick;
  };
  double low = 0.0, high = 89.0 * kDegree;
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (sticks(middle) ? low : high) = middle;
  }
  return low;
}

void planar_rows(CheckReport& report) {
  CheckTable limit(report, kImpactGroup, "impact_slide_limit");
  for (const ReferenceRow& row : limit.rows())
    limit.printed(fmt::format("head {} kg, friction {}, e_t {}: slides from", row.text("M_kg"),
                              row.text("mu"), row.text("e_t")),
                  "deg", slide_limit(row) / kDegree, row, "phi_crit_deg");
  CheckTable share(report, kImpactGroup, "impact_path_share");
  for (const ReferenceRow& row : share.rows())
    for (int phi = 10; phi <= 50; phi += 10) {
      const double loft = phi * kDegree;
      const Launch<double> l = launch_from(
          point_head(row.number("M_kg"), 30.0, 0.0, loft, row.number("e"), row.number("e_t"), 10.0));
      share.printed(fmt::format("head {} kg, e_t {}, obliquity {}: path's share", row.text("M_kg"),
                                row.text("e_t"), phi),
                    "", (loft - l.elevation) / loft, row, fmt::format("phi{}", phi));
    }
  CheckTable ratio(report, kImpactGroup, "impact_speed_ratio");
  for (const ReferenceRow& row : ratio.rows())
    for (int phi = 0; phi <= 60; phi += 10) {
      const Launch<double> l =
          launch_from(point_head(row.number("M_kg"), 30.0, 0.0, phi * kDegree, row.number("e"), 0.0, 10.0));
      ratio.printed(fmt::format("head {} kg, e {}, obliquity {}: ball over club speed", row.text("M_kg"),
                                row.text("e"), phi),
                    "", l.speed / 30.0, row, fmt::format("phi{}", phi));
    }
}

void law_rows(CheckReport& report) {
  CheckTable planar(report, kImpactGroup, "impact_planar");
  for (const ReferenceRow& row : planar.rows()) {
    const double V = row.number("V_ms"), loft = row.number("loft_deg") * kDegree;
    // Penner's law on the normal speed, exact and not as rounded in the table.
    const double e = 0.86 - 0.0029 * V * std::cos(loft);
    const Launch<double> l = launch_from(point_head(0.200, V, 0.0, loft, e, 0.0, 0.4));
    const std::string name = fmt::format("{} m/s, loft {}: ", row.text("V_ms"), row.text("loft_deg"));
    planar.printed(name + "restitution", "", e, row, "e");
    planar.printed(name + "ball speed", "m/s", l.speed, row, "ball_ms");
    planar.printed(name + "launch angle", "deg", l.elevation / kDegree, row, "launch_deg");
    planar.printed(name + "spin", "rpm", l.spin / kRpm, row, "spin_rpm");
  }
  CheckTable after(report, kImpactGroup, "impact_head_after");
  for (const ReferenceRow& row : after.rows()) {
    const Impact<double> impact =
        impact_of(point_head(row.number("M_kg"), row.number("V"), row.number("attack") * kDegree,
                             row.number("delivered_loft") * kDegree, row.number("e"), 0.0, 0.4),
                  Ball{});
    const Launch<double> l = launch_of(impact.ball);
    const std::string name = row.text("club") + ": ";
    after.printed(name + "ball speed", "m/s", l.speed, row, "ball_v");
    after.printed(name + "launch angle", "deg", l.elevation / kDegree, row, "launch");
    after.printed(name + "spin", "rpm", l.spin / kRpm, row, "spin_rpm");
    after.printed(name + "head speed after", "m/s", impact.v_WH_W.norm(), row, "head_V_after");
    after.printed(name + "attack after the ball", "deg", elevation_of(impact.v_WH_W) / kDegree, row,
                  "attack_after_deg");
  }
  CheckTable tilt(report, kImpactGroup, "impact_axis_tilt");
  for (const ReferenceRow& row : tilt.rows()) {
    Head head = point_head(0.25, 40.0, 0.0, 0.0, 0.8, 0.0, 0.5);
    head.v_WH_W = 40.0 * direction(row.number("path") * kDegree, row.number("attack") * kDegree);
    head.normal_W = direction(row.number("face") * kDegree, row.number("delivered_loft") * kDegree);
    const Vec3<double> w = impact_of(head, Ball{}).ball.w_WB_W;
    tilt.printed(fmt::format("path {}, attack {}, face {}, loft {}: spin axis tilt", row.text("path"),
                             row.text("attack"), row.text("face"), row.text("delivered_loft")),
                 "deg", std::atan2(-w.z(), std::hypot(w.x(), w.y())) / kDegree, row, "tilt_exact_deg");
  }
}

void off_centre_rows(CheckReport& report) {
  CheckTable table(report, kImpactGroup, "impact_off_centre");
  for (const ReferenceRow& row : table.rows())
    for (int d = 5; d <= 25; d += 5) {
      Head head = point_head(row.number("M_kg"), 40.0, 0.0, 0.0, 0.8, 0.0, 0.0);
      head.inertia_W = Mat3<double>::Identity() * row.number("I_gcm2") * 1e-7;
      const double centre = launch_from(head).speed;
      head.p_HC_W.y() = -1e-3 * d;
      table.printed(fmt::format("{}: {} mm off", row.text("head"), d), "", launch_from(head).speed / centre,
                    row, fmt::format("d{}mm", d));
    }
  CheckTable fired(report, kImpactGroup, "impact_ball_on_head");
  for (const ReferenceRow& row : fired.rows()) {
    Head head = point_head(row.number("M_kg"), 0.0, 0.0, 0.0, row.number("e"), 0.0, 0.0);
    BallMotion<double> before;
    before.v_WB_W.x() = -48.768;
    const double out = impact_of(head, Ball{}, before).ball.v_WB_W.x();
    fired.printed(fmt::format("restitution {}: ball out over ball in", row.text("e")), "", out / 48.768, row,
                  "out_over_in");
  }
}

/// A driver head struck 15 mm toward the toe.
Launch<double> toe_strike(double vertical_inertia, double depth) {
  Head head = point_head(0.200, 45.0, 0.0, 12.0 * kDegree, 0.82, 0.0, 0.4);
  head.inertia_W = Vec3<double>(2700e-7, 3200e-7, vertical_inertia).asDiagonal();
  head.p_HC_W = depth * head.normal_W + Vec3<double>(0.0, -0.015, 0.0);
  return launch_from(head);
}

void sign_rows(CheckReport& report) {
  CheckTable table(report, kImpactGroup, "impact_signs");
  const Launch<double> usual = toe_strike(4900e-7, 0.036);
  for (const ReferenceRow& row : table.rows()) {
    const Launch<double> changed =
        row.text("change") == "vertical inertia up" ? toe_strike(5900e-7, 0.036) : toe_strike(4900e-7, 0.028);
    const auto size = [&](const Launch<double>& l) {
      return row.text("effect_on") == "backspin" ? std::cos(l.axis_tilt) * l.spin
                                                 : std::abs(std::sin(l.axis_tilt)) * l.spin;
    };
    table.compare(row.text("change") + ": " + row.text("effect_on"), "sign",
                  size(changed) > size(usual) ? 1.0 : -1.0, row.number("sign"), 0.0);
  }
}

/// Driver head of the conformance set-up, level face lofted `phi` against its own path.
Head conformance_head(const ReferenceRow& row, double phi, double attack) {
  Head head = point_head(row.number("head_kg"), row.number("club_mps"), attack, phi + attack,
                         row.number("restitution"), 0.0, 0.4);
  head.inertia_W = Vec3<double>(2500e-7, 3000e-7, 5000e-7).asDiagonal();
  head.p_HC_W = 0.035 * head.normal_W;
  return head;
}

void impact_published_rows(CheckReport& report) {
  CheckTable table(report, kImpactGroup, "impact_published");
  for (const ReferenceRow& row : table.rows()) {
    const std::string name = row.text("id") + ": ";
    if (row.has("loft_deg")) {
      const Launch<double> l =
          launch_from(point_head(row.number("head_kg"), row.number("club_mps"), 0.0,
                                 row.number("loft_deg") * kDegree, row.number("restitution"), 0.0, 0.4));
      const char* why = "the book leaves out that the head recoils along the face";
      table.show(name + "ball speed", "mph", l.speed / kMph, row.number("ball_mph"), row.number("ball_mph"),
                 why);
      table.show(name + "launch angle", "deg", l.elevation / kDegree, row.number("launch_deg"),
                 row.number("launch_deg"), why);
      table.show(name + "spin", "rpm", l.spin / kRpm, row.number("spin_rpm"), row.number("spin_rpm"), why);
      continue;
    }
    // Obliquity from the spin, attack from the launch angle; the ball speed is then the model's answer.
    const auto spin_off = [&](double phi) {
      return launch_from(conformance_head(row, phi, 0.0)).spin - row.number("spin_rpm") * kRpm;
    };
    const double phi = root_between(spin_off, 1e-3, 0.5, 1e-12).value_or(0.0);
    const auto launch_off = [&](double attack) {
      return launch_from(conformance_head(row, phi, attack)).elevation - row.number("launch_deg") * kDegree;
    };
    const double attack = root_between(launch_off, -0.2, 0.2, 1e-12).value_or(0.0);
    const Launch<double> l = launch_from(conformance_head(row, phi, attack));
    table.compare(name + "ball speed at 120 mph, 10 deg, 2520 rpm", "mph", l.speed / kMph,
                  row.number("ball_mph"), 0.01 * row.number("ball_mph"));
  }
}

/// Any head, struck anywhere at any sane angle.
Head drawn_head(Draws& d) {
  const auto between = [&d](double low, double high) { return low + (high - low) * d.uniform(); };
  Head head = point_head(between(0.18, 0.32), 1.0, 0.0, 0.0, between(0.4, 0.86), between(-0.1, 0.25),
                         between(0.0, 0.5));
  head.inertia_W =
      Vec3<double>(between(2000e-7, 3500e-7), between(500e-7, 4200e-7), between(2200e-7, 5900e-7))
          .asDiagonal();
  head.normal_W = direction(between(-0.3, 0.3), between(0.0, 1.05));
  head.v_WH_W = between(15.0, 55.0) * direction(between(-0.2, 0.2), between(-0.2, 0.15));
  head.w_WH_W = Vec3<double>(between(-30.0, 30.0), between(-60.0, 60.0), between(-60.0, 60.0));
  head.p_HC_W =
      between(0.002, 0.045) * head.normal_W + Vec3<double>(0.0, between(-0.03, 0.03), between(-0.02, 0.02));
  return head;
}

double energy_of(double mass, const Mat3<double>& inertia, const Vec3<double>& v, const Vec3<double>& w) {
  return 0.5 * mass * v.squaredNorm() + 0.5 * w.dot(inertia * w);
}

void law_of_nature_rows(CheckReport& report) {
  const Ball ball;
  const Mat3<double> ball_inertia =
      Mat3<double>::Identity() * (ball.inertia_factor * ball.mass * ball.radius * ball.radius);
  std::map<std::string, double> worst;
  Draws draws(20261125);
  for (int k = 0; k < 5000; ++k) {
    const Head head = drawn_head(draws);
    const Impact<double> out = impact_of(head, ball);
    const auto note = [&worst](const std::string& law, double size) {
      worst[law] = std::max(worst[law], size);
    };
    const Vec3<double> before = head.mass * head.v_WH_W;
    const Vec3<double> after = head.mass * out.v_WH_W + ball.mass * out.ball.v_WB_W;
    note("momentum not kept", (after - before).norm() / before.norm());
    // About the contact point: the impulse has no arm there.
    const Vec3<double> ball_at = ball.radius * head.normal_W;
    const Vec3<double> turn_before = head.inertia_W * head.w_WH_W - head.p_HC_W.cross(before);
    const Vec3<double> turn_after = head.inertia_W * out.w_WH_W - head.p_HC_W.cross(head.mass * out.v_WH_W) +
                                    ball_inertia * out.ball.w_WB_W +
                                    ball_at.cross(ball.mass * out.ball.v_WB_W);
    note("angular momentum not kept", (turn_after - turn_before).norm() / turn_before.norm());
    const double energy = energy_of(head.mass, head.inertia_W, head.v_WH_W, head.w_WH_W);
    const double left = energy_of(head.mass, head.inertia_W, out.v_WH_W, out.w_WH_W) +
                        energy_of(ball.mass, ball_inertia, out.ball.v_WB_W, out.ball.w_WB_W);
    note("energy made", (left - energy) / energy);
    const double normal = out.impulse_W.dot(head.normal_W);
    const double along = (out.impulse_W - normal * head.normal_W).norm();
    note("impulse outside the friction cone", (along - head.friction * normal) / out.impulse_W.norm());
  }
  CheckTable table(report, kImpactGroup, "impact_laws");
  for (const ReferenceRow& row : table.rows())
    table.compare(row.text("law"), "share", worst[row.text("law")], row.number("expected"),
                  row.number("allowed"));
}

}  // namespace

void check_impact(CheckReport& report) {
  vector_rows(report);
  planar_rows(report);
  law_rows(report);
  off_centre_rows(report);
  sign_rows(report);
  law_of_nature_rows(report);
  impact_published_rows(report);
}

}  // namespace strikewright
