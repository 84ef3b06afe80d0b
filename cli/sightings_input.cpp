#include "sightings_input.hpp"

#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <mutex>

namespace strikewright {
namespace {

/// Hands the stream over piece by piece; stops early only at a fault.
void feed_all(std::istream& in, TableReader& reader, Progress& progress) {
  std::vector<char> piece(1u << 16);
  double megabytes = 0.0;
  while (in) {
    in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
    const auto got = static_cast<std::size_t>(in.gcount());
    megabytes += static_cast<double>(got) * 1e-6;
    // A fault comes back from finish() as well; after 20 of them the reader takes nothing more.
    if (!reader.feed({piece.data(), got}) && reader.faults().size() >= 20) return;
    progress.say(fmt::format("sightings: {:.0f} MB", megabytes));
  }
}

}  // namespace

struct Progress::State {
  using Clock = std::chrono::steady_clock;
  Doors& doors;
  Clock::time_point next = Clock::now() + std::chrono::seconds(1);
  std::mutex mutex{};
  std::size_t width = 0;
};

Progress::Progress(Doors& doors) : state_{new State{.doors = doors}} {}

Progress::~Progress() {
  if (state_->width > 0) {
    state_->doors.err << '\r' << std::string(state_->width, ' ') << '\r' << std::flush;
  }
}

void Progress::say(const std::string& line) {
  // A file or a pipe gets answers and errors only: the same text on a slow machine as on a fast one.
  if (!state_->doors.err_is_terminal) return;
  const std::lock_guard lock(state_->mutex);
  const auto now = State::Clock::now();
  if (now < state_->next) return;
  state_->next = now + std::chrono::milliseconds(250);
  const std::string blanks(state_->width > line.size() ? state_->width - line.size() : 0, ' ');
  state_->doors.err << '\r' << line << blanks << std::flush;
  state_->width = line.size();
}

std::vector<SeenSwing> read_sightings(const std::string& file, const TableOptions& options, Doors& doors) {
  std::vector<SeenSwing> swings;
  TableReader reader(options, [&](SeenSwing&& swing) { swings.push_back(std::move(swing)); });
  std::ifstream stream;
  if (file != "-") {
    if (std::filesystem::is_directory(file)) {
      report(Fault{file, "a folder", "a sightings file"}, doors);
      return {};
    }
    stream.open(file, std::ios::binary);
    if (!stream) {
      report(Fault{file, "no such file", "a sightings file that can be read"}, doors);
      return {};
    }
  }
  {
    Progress progress(doors);
    feed_all(file == "-" ? doors.in : stream, reader, progress);
  }
  const Result<std::size_t> rows = reader.finish();
  if (rows) return swings;
  std::vector<Fault> faults = reader.faults();
  if (faults.empty()) faults.push_back(rows.error());
  report(faults, doors);
  return {};
}

}  // namespace strikewright
