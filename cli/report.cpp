// One shape of error for every command.

#include <nlohmann/json.hpp>
#include <ostream>

#include "doors.hpp"

namespace strikewright {
namespace {

nlohmann::ordered_json json_of(const Fault& fault) {
  return {{"place", fault.place}, {"found", fault.found}, {"expected", fault.expected}};
}

}  // namespace

void report(const Fault& fault, Doors& doors) { report(std::vector<Fault>{fault}, doors); }

void report(const std::vector<Fault>& faults, Doors& doors) {
  doors.exit_code = kBadInput;
  if (!doors.json) {
    for (const Fault& fault : faults) doors.err << fault.sentence() << '\n';
    return;
  }
  nlohmann::ordered_json whole{{"error", json_of(faults.front())}};
  for (std::size_t k = 1; k < faults.size(); ++k) whole["more"].push_back(json_of(faults[k]));
  // A fault may quote bytes of a broken file: they become the replacement character, never a throw.
  doors.err << whole.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) << '\n';
}

}  // namespace strikewright
