#pragma once
// The stages that are checked, one function each, one file each: check_<name>.cpp.

#include <array>

#include "check_report.hpp"

namespace strikewright {

void check_impact(CheckReport& report);
void check_geometry(CheckReport& report);

struct CheckGroup {
  const char* name;
  const char* says;
  void (*run)(CheckReport&);
};

inline constexpr std::array<CheckGroup, 2> kCheckGroups{{
    {"impact", "club meets ball", check_impact},
    {"geometry", "plane, pose, strike point and the club itself", check_geometry},
}};

}  // namespace strikewright
