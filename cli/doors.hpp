#pragma once
// Where a command reads, writes and reports. Tests hand in string streams, main.cpp the real ones.

#include <iosfwd>
#include <vector>

#include "quantity/fault.hpp"
#include "quantity/unit.hpp"

namespace strikewright {

inline constexpr int kGood = 0;         ///< exit code: done
inline constexpr int kCheckFailed = 1;  ///< exit code: a check did not pass
inline constexpr int kBadInput = 2;     ///< exit code: what came from outside was wrong

struct Doors {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;           ///< colour is allowed
  bool err_is_terminal = false;           ///< progress may overwrite its own line
  bool json = false;                      ///< --json was asked for: answers and errors are JSON
  UnitSystem units = UnitSystem::metric;  ///< --units: for sentences and tables, JSON keys carry their own
  bool units_given = false;               ///< --units was there: it overrules a book's settings
  int exit_code = kGood;                  ///< what the program ends with
};

/// Writes the fault to `doors.err`, as a sentence or (with --json) as {"error":{place,found,expected}}, and
/// sets the exit code to kBadInput.
void report(const Fault& fault, Doors& doors);

/// Several at once, one a line; in JSON the first is "error", the rest are "more".
void report(const std::vector<Fault>& faults, Doors& doors);

}  // namespace strikewright
