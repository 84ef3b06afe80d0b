// Plane, pose, strike point and club against exact geometry and the Rules' limits.

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "bag/generic.hpp"
#include "check_groups.hpp"
#include "delivery/delivery_of.hpp"
#include "numeric/root.hpp"
#include "quantity/angle.hpp"
#include "quantity/fault.hpp"

namespace strikewright {
namespace {

constexpr const char* kGeometryGroup = "geometry";

/// A club whose centre of mass lies on the leading edge: it travels on the arc itself.
Club point_club(double radius) {
  Club club = club_named(generic_bag(), "7i").value();
  club.com_up = club.com_depth = club.com_toe = 0.0;
  club.arc_radius = radius;
  return club;
}

struct OnArc {
  Pass<double> pass;
  Delivery<double> delivery;
};

/// The delivery of a point on an arc of that tilt whose attack angle at the ball is `attack`.
OnArc on_arc(double radius, double tilt, double attack, double turn_rate = 30.0) {
  const Club club = point_club(radius);
  OnArc at;
  at.pass.plane_tilt = tilt;
  at.pass.club_speed = turn_rate * club.turn_radius;
  const auto attack_off = [&](double low_point) {
    at.pass.low_point = low_point;
    at.delivery = delivery_of(at.pass, club, Ball{}, 0.0);
    return at.delivery.attack - attack;
  };
  const auto low_point = root_between(attack_off, -0.6, 0.6, 1e-12);
  ensure(low_point.has_value(), "an attack angle of the reference rows is on the arc");
  attack_off(*low_point);
  return at;
}

void plane_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_plane");
  for (const ReferenceRow& row : table.rows()) {
    const double tilt = row.number("tilt_deg") * kDegree;
    const OnArc at = on_arc(1.5, tilt, row.number("attack_deg") * kDegree, 35.0);
    const std::string name =
        fmt::format("tilt {}, attack {}: ", row.text("tilt_deg"), row.text("attack_deg"));
    table.printed(name + "path off the plane", "deg", at.delivery.path / kDegree, row,
                  "path_minus_plane_deg");
    const double b = std::asin((at.delivery.edge_along - at.pass.low_point) / at.delivery.arc.radius);
    table.printed(name + "angle on the arc", "deg", b / kDegree, row, "b_deg");
    if (row.has("rate_of_face_degps_at_35radps"))
      table.printed(name + "face closing by the swing alone", "deg/s", at.delivery.w_WH_W.z() / kDegree, row,
                    "rate_of_face_degps_at_35radps");
  }
}

void low_point_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_low_point");
  for (const ReferenceRow& row : table.rows()) {
    const OnArc at =
        on_arc(row.number("radius_m"), row.number("tilt_deg") * kDegree, row.number("attack_deg") * kDegree);
    const std::string name = fmt::format("r {}, tilt {}, attack {}: ", row.text("radius_m"),
                                         row.text("tilt_deg"), row.text("attack_deg"));
    table.printed(name + "low point", "m", at.pass.low_point - at.delivery.edge_along, row, "low_point_m");
    table.printed(name + "height", "mm", 1e3 * (at.delivery.edge_height - at.pass.low_point_depth), row,
                  "height_mm");
  }
}

void chord_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_chord");
  for (const ReferenceRow& row : table.rows()) {
    const double depth = 1e-3 * row.number("depth_mm");
    const Arc<double> arc{row.number("radius_m"), row.number("tilt_deg") * kDegree, 0.0, 0.0, -depth};
    const auto height = [&](double b) { return edge_at(arc, b, 0.0).z; };
    const double b = root_between(height, -0.5, 0.0, 1e-14).value_or(0.0);
    const Dual<1> at(b, 0);
    const Arc<Dual<1>> dual{Dual<1>(arc.radius), Dual<1>(arc.tilt), Dual<1>(0.0), Dual<1>(0.0),
                            Dual<1>(-depth)};
    const double fall = edge_at(dual, at, Dual<1>(0.0)).z.v[0];
    const std::string name = fmt::format("{} mm deep: ", row.text("depth_mm"));
    table.printed(name + "angle where the arc enters", "deg", -b / kDegree, row, "b_deg");
    table.printed(name + "length under the turf", "mm", -2e3 * edge_at(arc, b, 0.0).x, row, "length_mm");
    table.printed(name + "attack where it enters", "deg", std::asin(fall / arc.radius) / kDegree, row,
                  "entry_attack_deg");
  }
}

void turn_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_turn");
  for (const ReferenceRow& row : table.rows()) {
    const double lie = row.number("lie_deg") * kDegree;
    const double loft = row.number("loft_deg") * kDegree;
    const Mat3<double> opened = pose_of(lie, lie, -row.number("open_deg") * kDegree, 0.0, 0.0);
    const Vec3<double> left(0.0, 1.0, 0.0), target(1.0, 0.0, 0.0);
    const Vec3<double> n = turn_about(target, row.number("toe_down_deg") * kDegree) *
                           turn_about(left, row.number("lean_deg") * kDegree) * opened *
                           Vec3<double>(std::cos(loft), 0.0, std::sin(loft));
    const std::string name =
        fmt::format("loft {}: open {}, lean {}, toe down {}: ", row.text("loft_deg"), row.text("open_deg"),
                    row.text("lean_deg"), row.text("toe_down_deg"));
    table.printed(name + "loft", "deg", elevation_of(n) / kDegree, row, "delivered_loft_deg");
    table.printed(name + "face", "deg", azimuth_of(n) / kDegree, row, "face_deg");
  }
}

void pose_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_pose");
  Club club = club_named(generic_bag(), "7i").value();
  club.loft = 33.0 * kDegree;
  club.lie = 62.5 * kDegree;
  for (const ReferenceRow& row : table.rows()) {
    Pass<double> pass;
    pass.club_speed = 36.0;
    pass.plane_tilt = club.lie;
    pass.shaft_lean = face_on_lean(row.number("lean_in_plane_deg") * kDegree, club.lie);
    pass.face_turn = row.number("turn_closed_deg") * kDegree;
    const Delivery<double> d = delivery_of(pass, club, Ball{}, 0.0);
    const std::string name = fmt::format("lean {}, turned closed {}: ", row.text("lean_in_plane_deg"),
                                         row.text("turn_closed_deg"));
    if (row.has("delivered_loft_deg")) {
      table.printed(name + "loft", "deg", elevation_of(d.normal_W) / kDegree, row, "delivered_loft_deg");
      table.printed(name + "face", "deg", azimuth_of(d.normal_W) / kDegree, row, "face_deg");
      table.printed(name + "lean face-on", "deg", d.lean / kDegree, row, "face_on_lean_deg");
    }
    table.printed(name + "lie", "deg", d.lie / kDegree, row, "delivered_lie_deg");
  }
}

void strike_height_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "delivery_strike_height");
  const std::pair<double, const char*> edges[] = {
      {0.0, "up_mm_edge0"}, {-0.005, "up_mm_edge_minus5"}, {0.004, "up_mm_edge_plus4"}};
  for (const ReferenceRow& row : table.rows())
    for (const auto& [height, column] : edges) {
      Club club = point_club(1.5);
      club.loft = row.number("loft_deg") * kDegree;
      Pass<double> pass;
      pass.club_speed = 36.0;
      pass.plane_tilt = club.lie;
      pass.low_point_depth = height;
      // The low point where the leading edge is at contact, so that its height there is the low point's.
      for (int k = 0; k < 30; ++k) pass.low_point = delivery_of(pass, club, Ball{}, 0.0).edge_along;
      const Delivery<double> d = delivery_of(pass, club, Ball{}, 0.0);
      table.printed(
          fmt::format("loft {}, edge at {:+.0f} mm: up the face", row.text("loft_deg"), 1e3 * height), "mm",
          1e3 * d.strike_up, row, column);
    }
}

/// One line for the whole bag: the club that comes nearest to the limit, or is furthest over it.
void limit_rows(CheckReport& report) {
  CheckTable table(report, kGeometryGroup, "club_limits");
  const double open = std::numeric_limits<double>::infinity();
  for (const ReferenceRow& row : table.rows()) {
    const std::string& item = row.text("item");
    const double low = row.has("low") ? row.number("low") : -open;
    const double high = row.has("high") ? row.number("high") : open;
    const auto add = [&](const std::string& what, double measured) {
      table.band(fmt::format("{}: {}", item, what), row.text("unit"), measured, low, high, 1e-9);
    };
    if (item == "ball_mass") add("standard ball", 1e3 * Ball{}.mass);
    // The radius is given to 0.005 mm, the diameter then to 0.01 mm.
    if (item == "ball_diameter") add("standard ball", 2e3 * Ball{}.radius);
    for (const Club& club : generic_bag()) {
      if (item == "length") add(club.name, club.length / kInch);
      if (item == "inertia_vertical" && club.family <= Family::wood) add(club.name, 1e7 * club.inertia.z());
      if (item == "groove_pitch" && club.groove_pitch > 0.0) add(club.name, 1e3 * club.groove_pitch);
      if (item == "restitution_driving" && club.family == Family::driver) add(club.name, club.restitution0);
    }
  }
}

}  // namespace

void check_geometry(CheckReport& report) {
  plane_rows(report);
  low_point_rows(report);
  chord_rows(report);
  turn_rows(report);
  pose_rows(report);
  strike_height_rows(report);
  limit_rows(report);
}

}  // namespace strikewright
