// Club meets turf: the cutting numbers, the speed a cut costs, and a divot beside the measured ones.

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "bag/generic.hpp"
#include "check_groups.hpp"
#include "quantity/angle.hpp"
#include "shot/shot_of.hpp"
#include "strike/turf.hpp"

namespace strikewright {
namespace {

constexpr const char* kTurfGroup = "turf";

void cutting_rows(CheckReport& report) {
  CheckTable table(report, kTurfGroup, "impact_cutting_factors");
  for (const ReferenceRow& row : table.rows()) {
    Soil soil;
    soil.inner_friction = row.number("phi_s_deg") * kDegree;
    soil.steel_friction = row.number("d_s_deg") * kDegree;
    const CutNumbers<double> n = cut_numbers(std::cos(row.number("a_deg") * kDegree), soil);
    const std::string name = fmt::format("rake {}, steel {}, soil {}: ", row.text("a_deg"),
                                         row.text("d_s_deg"), row.text("phi_s_deg"));
    const auto add = [&](const char* what, double measured, const char* column) {
      table.compare(
          name + what, "", measured, row.number(column), row.half_digit(column) + 2e-3 * row.number(column),
          "half of the last printed digit, and 0.2 % because the rows searched their plane in 0.1 deg");
    };
    table.compare(name + "failure plane", "deg", n.failure_plane / kDegree, row.number("b_deg"),
                  row.half_digit("b_deg") + 1e-3);
    add("weight", n.gravity, "N_g");
    add("cohesion", n.cohesion, "N_c");
    add("adhesion", n.adhesion, "N_ca");
    add("inertia", n.inertia, "N_a");
  }
}

/// Share of its speed that a head keeps over a flat cut of that depth and length [m].
double speed_kept(double depth, double length) {
  TurfSetting<double> t;
  t.soil.density = 1600.0;
  t.soil.inertia_share = 0.5;
  t.mass = 0.270;
  t.blade = 0.05;
  t.arc.radius = 1e9;
  t.per_radius = 1e-9;
  t.sin_tilt = 1.0;
  t.arc.low_point_depth = -depth;
  t.smear = 1e-6;
  t.per_smear = 1e6;
  CutNumbers<double> n;
  n.inertia = 1.15;
  n.back = 1.0;
  load_turf(t, 1.0, n);
  TurfState<double> state;
  state.slowness = 1.0 / 36.0;
  PathNodes<double> nodes;
  return 1.0 / (36.0 * through_turf(t, 0.0, length, state, nodes).slowness);
}

void speed_rows(CheckReport& report) {
  CheckTable table(report, kTurfGroup, "impact_turf_speed_before_ball");
  for (const ReferenceRow& row : table.rows())
    for (const int length : {25, 50, 100})
      table.printed(fmt::format("{} mm deep over {} mm: speed kept", row.text("depth_mm"), length), "",
                    speed_kept(1e-3 * row.number("depth_mm"), 1e-3 * length), row,
                    fmt::format("s{}mm", length));
}

void divot_rows(CheckReport& report) {
  Setting setting;
  setting.club = club_named(generic_bag(), "7i").value();
  Pass<double> pass;
  pass.club_speed = 36.0;
  pass.plane_tilt = setting.club.lie;
  pass.low_point = 0.100;
  pass.low_point_depth = -0.003;
  pass.shaft_lean = 8.0 * kDegree;
  const Divot<double> divot = shot_of(pass, setting).strike.divot;
  const double length = divot.end - divot.start;
  const double volume = 1e6 * setting.club.blade_length * length * divot.depth * 2.0 / 3.0;
  CheckTable table(report, kTurfGroup, "impact_divots");
  for (const ReferenceRow& row : table.rows()) {
    const std::string& what = row.text("what");
    const double measured = what == "length"  ? 1e3 * length
                            : what == "width" ? 1e3 * setting.club.blade_length
                                              : volume;
    table.show("7-iron, low point 100 mm ahead, 3 deep: " + what, row.text("unit"), measured,
               row.number("value"), row.number("value"),
               "one clean strike beside means over many players; section taken as a parabola");
  }
}

}  // namespace

void check_turf(CheckReport& report) {
  cutting_rows(report);
  speed_rows(report);
  divot_rows(report);
}

}  // namespace strikewright
