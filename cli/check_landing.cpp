// Bounce and roll.

#include <fmt/format.h>

#include <cmath>

#include "check_groups.hpp"
#include "flight/landing.hpp"
#include "quantity/angle.hpp"

namespace strikewright {
namespace {

constexpr const char* kLandingGroup = "landing";

Turf turf_named(const std::string& model) {
  if (model == "Biber natural") return Turf::biber_natural();
  if (model == "Biber artificial") return Turf::biber_artificial();
  return Turf::penner_green();
}

void bounce_rows(CheckReport& report) {
  CheckTable table(report, kLandingGroup, "landing_first_bounce");
  for (const ReferenceRow& row : table.rows()) {
    const double speed = row.number("V_ms"), angle = row.number("phi_deg") * kDegree;
    const BallMotionW in{.v = {speed * std::cos(angle), 0.0, -speed * std::sin(angle)},
                         .w = {0.0, -row.number("rpm") * kRpm, 0.0}};
    const BallMotionW out = bounce(in, Ball{}, turf_named(row.text("model")));
    const std::string name = row.text("case") + ", " + row.text("model") + ": ";
    table.compare(name + "slides (1) or grips (0)", "", out.slid ? 1.0 : 0.0,
                  row.text("regime") == "slide" ? 1.0 : 0.0, 0.0);
    table.printed(name + "speed along", "m/s", out.v.x(), row, "vx_out");
    table.printed(name + "speed up", "m/s", out.v.z(), row, "vz_out");
    table.printed(name + "backspin", "rpm", -out.w.y() / kRpm, row, "rpm_out(+back)");
    table.printed(name + "hop in vacuum", "m", 2.0 * out.v.x() * out.v.z() / 9.81, row, "hop_m");
  }
}

}  // namespace

void check_landing(CheckReport& report) {
  bounce_rows(report);
  CheckTable turf(report, kLandingGroup, "landing_restitution");
  for (const ReferenceRow& row : turf.rows())
    turf.printed(row.text("v_ms") + " m/s into the turf: restitution", "",
                 turf_restitution(row.number("v_ms")), row, "e");
  CheckTable green(report, kLandingGroup, "landing_green");
  for (const ReferenceRow& row : green.rows()) {
    const double rolling = rolling_of_green(row.number("stimp_ft"));
    const std::string name = "green of " + row.text("stimp_ft") + " ft: ";
    green.printed(name + "deceleration", "m/s2", rolling_deceleration(rolling), row, "decel_ms2");
    green.printed(name + "rolling resistance", "", rolling, row, "rho_g");
    green.printed(name + "steepest slope that holds a ball", "%", 100.0 * rolling, row, "max_hold_slope_pct");
  }
}

}  // namespace strikewright
