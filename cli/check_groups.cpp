#include "check_groups.hpp"

#include <algorithm>

namespace strikewright {

CheckReport run_checks(const std::vector<std::string>& only,
                       const std::function<void(const std::string&)>& progress) {
  CheckReport report;
  for (const CheckGroup& group : kCheckGroups) {
    if (!only.empty() && std::find(only.begin(), only.end(), group.name) == only.end()) continue;
    if (progress) progress(group.name);
    group.run(report);
  }
  return report;
}

}  // namespace strikewright
