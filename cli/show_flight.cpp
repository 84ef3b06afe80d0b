#include "show_flight.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "quantity/angle.hpp"
#include "verbs/show.hpp"
#include "wrap.hpp"

namespace strikewright {

std::string lines_of(const Flight<double>& flight, const Run& run, UnitSystem units) {
  const std::vector<std::array<std::string, 3>> rows{
      {"carry", show(flight.carry, Dimension::length, units), "give or take 3 %"},
      {"side", sided(flight.side, Dimension::length, units, "right", "left"), ""},
      {"curve", sided(flight.curve, Dimension::length, units, "right", "left"), "off the start direction"},
      {"apex", flight_height(flight.apex, units), ""},
      {"time", figure(flight.time, 1) + " s", ""},
      {"landing angle", degrees(flight.landing_angle), "down"},
      {"landing speed", show(flight.landing_speed, Dimension::speed, units), ""},
      {"landing spin", per_minute(flight.landing_spin), ""},
      {"total", show(run.total, Dimension::length, units), "a rough guess"},
  };
  std::string out;
  std::size_t wide = 0;
  for (const auto& row : rows) wide = std::max(wide, shown_width(row[1]));
  for (const auto& row : rows) {
    out += "  " + padded(row[0], 22) + padded(row[1], wide) + (row[2].empty() ? "" : "  " + row[2]);
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  }
  if (!flight.reached) out += "The ball never came up to the height of the target.\n";
  if (flight.beyond) out += "Spin beyond what the drag and lift law was measured for: take this with care.\n";
  return out;
}

nlohmann::ordered_json json_of(const Flight<double>& flight, const Run& run) {
  nlohmann::ordered_json out;
  out["carry_m"] = flight.carry;
  out["side_m"] = flight.side + 0.0;  // a straight ball is 0, not -0
  out["apex_m"] = flight.apex;
  out["time_s"] = flight.time;
  out["landing_angle_deg"] = flight.landing_angle / kDegree;
  out["landing_speed_mps"] = flight.landing_speed;
  out["landing_spin_rpm"] = flight.landing_spin / kRpm;
  out["total_m"] = run.total;
  out["curve_m"] = flight.curve + 0.0;
  out["along_m"] = flight.along;
  out["run_m"] = run.run;
  out["reached"] = flight.reached;
  out["beyond_law"] = flight.beyond;
  return out;
}

std::string json_text(const Flight<double>& flight, const Run& run) { return json_of(flight, run).dump(2); }

}  // namespace strikewright
