// `strikewright strike`: one impact of a rigid head with a ball.

#include <ostream>

#include "commands.hpp"
#include "strike_json.hpp"
#include "take.hpp"
#include "verbs/json_door.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {
namespace {

std::string words_of(const RigidStrikeResult& result, UnitSystem units) {
  const Launch<double>& launch = result.launch;
  const double start = launch.azimuth;
  const Vec3<double>& head = result.impact.v_WH_W;
  return table({}, {{"ball speed", show(launch.speed, Dimension::speed, units)},
                    {"launch angle", degrees(launch.elevation)},
                    {"start direction", sided(start, Dimension::angle, units, "right", "left")},
                    {"spin", per_minute(launch.spin)},
                    {"axis tilt", sided(launch.axis_tilt, Dimension::angle, units, "fade", "draw")},
                    {"head speed after", show(head.norm(), Dimension::speed, units)},
                    {"on the face", result.impact.regime == Regime::slide ? "slides" : "sticks"}});
}

}  // namespace

Command strike_command() {
  const auto file = std::make_shared<std::string>();
  Command command{
      .name = "strike",
      .says = "what one impact does to ball and clubhead",
      .more =
          "Reads a JSON document from FILE or standard input: \"head\" with mass_kg, inertia_kgm2 "
          "[x,y,z], velocity_mps [x,y,z] of the centre of mass, angular_velocity_radps [x,y,z], "
          "face_normal [x,y,z] at the contact point, contact_from_com_m [x,y,z], restitution, "
          "tangential_restitution and friction; and, if it is not the standard one, \"ball\" with "
          "mass_kg, radius_m, inertia_factor. World axes: x to the target, y to the left of it, z up.",
      .options = {text("FILE", "FILE", file, "the JSON document", "standard input")},
      .examples = {{.says = "an iron, square, 4 degrees down",
                    .line = "strikewright strike demo/strike.json"}},
      .run = {}};
  command.run = [file](Doors& doors) -> Result<int> {
    const Result<std::string> document = document_of(*file, doors.in);
    if (!document) return unexpected(document.error());
    const Result<RigidStrike> strike =
        strike_from_json(*document, file->empty() || *file == "-" ? "standard input" : *file);
    if (!strike) return unexpected(strike.error());
    const Result<RigidStrikeResult> result = rigid_strike_of(*strike);
    if (!result) return unexpected(result.error());
    if (doors.json) {
      doors.out << json_text(*result) << '\n';
    } else {
      doors.out << words_of(*result, doors.units);
    }
    return kGood;
  };
  return command;
}

}  // namespace strikewright
