#pragma once
// A sightings file (or standard input) into swings: in pieces, with a word on progress, never more than a
// stated number of swings in memory.

#include <memory>
#include <string>
#include <vector>

#include "doors.hpp"
#include "sighting/table.hpp"

namespace strikewright {

/// Reads FILE, or standard input for "-". Every fault found (at most 20) is reported to `doors`; the swings
/// are empty then and `doors.exit_code` is kBadInput.
std::vector<SeenSwing> read_sightings(const std::string& file, const TableOptions& options, Doors& doors);

/// A line on a terminal's standard error that comes only when a job takes over a second, then four times a
/// second, over itself. Safe from several threads. Nothing where standard error is a file or a pipe.
class Progress {
 public:
  explicit Progress(Doors& doors);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void say(const std::string& line);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace strikewright
