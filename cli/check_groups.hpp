#pragma once
// The stages that are checked, one function each, one file each: check_<name>.cpp.

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "check_report.hpp"

namespace strikewright {

void check_air(CheckReport& report);
void check_flight(CheckReport& report);
void check_landing(CheckReport& report);
void check_impact(CheckReport& report);
void check_turf(CheckReport& report);
void check_geometry(CheckReport& report);
void check_swing(CheckReport& report);
void check_chain(CheckReport& report);

struct CheckGroup {
  const char* name;
  const char* says;
  void (*run)(CheckReport&);
};

inline constexpr std::array<CheckGroup, 8> kCheckGroups{{
    {"air", "density and viscosity of the air", check_air},
    {"flight", "drag, lift and trajectories", check_flight},
    {"landing", "bounce and roll", check_landing},
    {"impact", "club meets ball", check_impact},
    {"turf", "club meets turf", check_turf},
    {"geometry", "plane, pose, strike point and the club itself", check_geometry},
    {"swing", "the flail", check_swing},
    {"chain", "delivery to launch, whole", check_chain},
}};

/// Runs the groups named (all when empty). `progress` gets each group's name before it runs.
CheckReport run_checks(const std::vector<std::string>& only,
                       const std::function<void(const std::string&)>& progress = {});

}  // namespace strikewright
