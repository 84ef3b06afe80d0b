// `strikewright check`: this build against published and exact figures.

#include <memory>
#include <ostream>

#include "check_groups.hpp"
#include "commands.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

struct CheckOptions {
  std::vector<std::string> only;
  bool verbose = false;
};

std::vector<std::string> group_names() {
  std::vector<std::string> names;
  names.reserve(kCheckGroups.size());
  for (const CheckGroup& group : kCheckGroups) names.emplace_back(group.name);
  return names;
}

int run_reference_checks(const CheckOptions& options, Doors& doors) {
  const CheckReport report = run_checks(options.only, [&doors](const std::string& name) {
    if (doors.err_is_terminal) doors.err << "checking " << name << " ...\n";
  });
  if (doors.json) {
    print_report_json(report, doors.out);
  } else {
    print_report(report, options.verbose, doors.out);
  }
  return report.sum().not_pass == 0 ? kGood : kCheckFailed;
}

Option only_option(const std::shared_ptr<CheckOptions>& options) {
  return {.name = "--only",
          .value = "NAME",
          .says = "one stage only",
          .standard = "all stages",
          .words = group_names(),
          .take = [options](const std::string& name) -> Result<void> {
            options->only = {name};
            return {};
          }};
}

}  // namespace

Command check_command() {
  const auto options = std::make_shared<CheckOptions>();
  return {.name = "check",
          .says = "run the published and exact reference figures through this build",
          .more =
              "Prints what this build gives beside what was published, how far apart they are, how far they "
              "may be and why. Rows marked 'shown' are a comparison only: they are never counted. The exit "
              "code is 1 when a counted row is outside what is allowed.",
          .options = {only_option(options),
                      toggle("--verbose", member(options, options->verbose), "name every table's source")},
          .examples = {{.says = "club meets ball, with the sources",
                        .line = "strikewright check --only impact --verbose"}},
          .run = [options](Doors& doors) -> Result<int> { return run_reference_checks(*options, doors); }};
}

}  // namespace strikewright
