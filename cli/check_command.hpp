#pragma once
// What `strikewright check` does, apart from its command line.

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "check_report.hpp"

namespace strikewright {

/// Runs the groups named (all when empty). `progress` gets each group's name before it runs.
CheckReport run_checks(const std::vector<std::string>& only,
                       const std::function<void(const std::string&)>& progress = {});

}  // namespace strikewright
