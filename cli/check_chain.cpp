// Delivery to launch, whole: how much of the start direction is face and how much is path, beside what was
// measured.

#include <fmt/format.h>

#include "bag/generic.hpp"
#include "check_groups.hpp"
#include "delivery/default_swing.hpp"
#include "quantity/angle.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {
namespace {

constexpr const char* kChainGroup = "chain";

struct Directions {
  double start, face, path;  ///< rad, horizontal or vertical
};

using DirectionsOf = Directions (*)(const Shot<double>&);

Directions horizontal(const Shot<double>& s) {
  return {s.strike.launch.azimuth, s.delivery.face, s.delivery.path};
}

Directions vertical(const Shot<double>& s) {
  return {s.strike.launch.elevation, s.delivery.loft, s.delivery.attack};
}

/// The pass with the ball so high that it is struck in line with the head's centre of mass: the published
/// strikes were central.
Pass<double> centred(Pass<double> pass, const Setting& setting) {
  pass.strike_toe = setting.club.com_toe;
  const auto off = [&](double sits) {
    pass.ball_sits = sits;
    return shot_of(pass, setting, false).strike.strike_up - setting.club.com_up;
  };
  pass.ball_sits = root_between(off, -0.03, 0.06, 1e-9).value_or(0.0);
  return pass;
}

/// Share of the start that follows the face, from two small changes of the pass: start = a face + b path,
/// both slopes solved for, a / (a + b) returned.
double share_of_face(const Pass<double>& pass, const Setting& setting, double Pass<double>::*first,
                     double Pass<double>::*second, double step1, double step2, DirectionsOf look) {
  const auto change = [&](double Pass<double>::*member, double step) {
    Pass<double> more = pass, less = pass;
    more.*member += step;
    less.*member -= step;
    const Directions a = look(shot_of(centred(more, setting), setting, false));
    const Directions b = look(shot_of(centred(less, setting), setting, false));
    return Directions{a.start - b.start, a.face - b.face, a.path - b.path};
  };
  const Directions u = change(first, step1), v = change(second, step2);
  const double determinant = u.face * v.path - u.path * v.face;
  const double face = (u.start * v.path - u.path * v.start) / determinant;
  const double path = (u.face * v.start - u.start * v.face) / determinant;
  return face / (face + path);
}

}  // namespace

void check_chain(CheckReport& report) {
  CheckTable table(report, kChainGroup, "start_direction");
  for (const ReferenceRow& row : table.rows()) {
    const std::string& name = row.text("club");
    const Club club = club_named(generic_bag(), name == "wedge" ? "pw" : name).value();
    Setting setting;
    setting.club = club;
    setting.ground.surface = Surface::tee;
    Pass<double> pass = usual_pass(club, SwingBand::county);
    pass.low_point_depth = 0.015;  // picked clean: no turf, no grass between
    const bool up = row.text("plane") == "vertical";
    const double share_of_a_change =
        up ? share_of_face(pass, setting, &Pass<double>::shaft_lean, &Pass<double>::low_point, 0.5 * kDegree,
                           0.005, vertical)
           : share_of_face(pass, setting, &Pass<double>::face_turn, &Pass<double>::plane_direction,
                           0.5 * kDegree, 0.5 * kDegree, horizontal);
    const double mid = row.number("share_pct"), wide = row.number("plus_minus_pct");
    const auto show = [&](const char* of, double share) {
      table.show(fmt::format("{}, {}: face's share of {}", row.text("plane"), name, of), "%", 100.0 * share,
                 mid - wide, mid + wide, "the printed 95 % interval of the mean, from centre strikes");
    };
    show("a small change", share_of_a_change);
    if (!up) continue;
    const Directions d = vertical(shot_of(centred(pass, setting), setting, false));
    show("the whole angle", (d.start - d.path) / (d.face - d.path));
  }
}

}  // namespace strikewright
