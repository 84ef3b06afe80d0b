// `strikewright check`: this build against published and exact figures.

#include <limits>
#include <memory>
#include <ostream>

#include "calibration_report.hpp"
#include "check_groups.hpp"
#include "commands.hpp"
#include "quantity/nearest.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

constexpr std::uint64_t kNotGiven = std::numeric_limits<std::uint64_t>::max();

struct CheckOptions {
  std::vector<std::string> only;
  bool verbose = false, calibration = false;
  CalibrationInput pupils;
  std::uint64_t swings = kNotGiven, size = kNotGiven, seed = kNotGiven;  ///< what CalibrationInput says then
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

/// The first option given that means nothing without --calibration; "" = none.
std::string only_of_calibration(const CheckOptions& options) {
  if (options.pupils.worlds) return "--worlds";
  if (options.pupils.causes) return "--causes";
  if (options.swings != kNotGiven) return "--swings";
  if (options.size != kNotGiven) return "--size";
  return options.seed != kNotGiven ? "--seed" : "";
}

/// What only goes with --calibration, and what does not go with it.
Result<int> run(const CheckOptions& options, Doors& doors) {
  const std::string stray = only_of_calibration(options);
  if (!options.calibration && !stray.empty())
    return unexpected(Fault{stray, "no --calibration", "--calibration beside it"});
  if (!options.calibration) return run_reference_checks(options, doors);
  if (!options.only.empty())
    return unexpected(
        Fault{"--only", strikewright::quoted(options.only.front()), "no --only beside --calibration"});
  CalibrationInput pupils = options.pupils;
  if (options.swings != kNotGiven) pupils.swings = options.swings;
  if (options.size != kNotGiven) pupils.size = options.size;
  if (options.seed != kNotGiven) pupils.seed = options.seed;
  pupils.verbose = options.verbose;
  return run_calibration(pupils, doors);
}

}  // namespace

Command check_command() {
  const auto options = std::make_shared<CheckOptions>();
  return {
      .name = "check",
      .says = "this build against published and exact reference figures",
      .more =
          "Prints what this build gives beside what was published, how far apart they are, how far they "
          "may be and why. Rows marked 'shown' are a comparison only: they are never counted. The exit "
          "code is 1 when a counted row is outside what is allowed.\n\n"
          "With --calibration: invents pupils with known truth, reads their swings together and counts how "
          "often the truth lies inside the stated limits and the first cause is the right one. About a "
          "minute on two cores.",
      .options = {only_option(options),
                  toggle("--verbose", member(options, options->verbose),
                         "name every table's source; every quantity of every set of evidence"),
                  toggle("--calibration", member(options, options->calibration),
                         "judge the stated limits and causes on invented pupils"),
                  toggle("--worlds", member(options, options->pupils.worlds),
                         "with --calibration: pupils and coaches unlike what the reading thinks"),
                  toggle("--causes", member(options, options->pupils.causes),
                         "with --calibration: the causes alone"),
                  count("--swings", member(options, options->swings), 6, 100'000,
                        "with --calibration: how many patterns; one swing of each is judged",
                        std::to_string(options->pupils.swings)),
                  count("--size", member(options, options->size), 1, 2'000,
                        "with --calibration: swings in every pattern", "3 to 20, mixed"),
                  count("--seed", member(options, options->seed), 0, 1'000'000'000,
                        "with --calibration: of the random draws", std::to_string(options->pupils.seed))},
      .examples = {{.says = "club meets ball, with the sources",
                    .line = "strikewright check --only impact --verbose"}},
      .run = [options](Doors& doors) { return run(*options, doors); }};
}

}  // namespace strikewright
