// Any bytes as a sightings file, whole and in pieces: no crash, and both ways the same answer.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <utility>
#include <vector>

#include "sighting/row.hpp"
#include "sighting/table.hpp"

using namespace strikewright;

namespace {

void must(bool truth) {
  if (!truth) std::abort();
}

struct Answer {
  std::vector<SeenSwing> swings;
  std::vector<Fault> faults;
};

Answer answer(std::string_view text, std::size_t piece) {
  Answer out;
  TableReader reader{{.file = "f", .club = "7i", .most_rows = 1000},
                     [&](SeenSwing&& swing) { out.swings.push_back(std::move(swing)); }};
  for (std::size_t at = 0; at < text.size(); at += piece)
    static_cast<void>(reader.feed(text.substr(at, piece)));
  const auto count = reader.finish();
  must(count.has_value() == reader.faults().empty());
  must(!count || *count == out.swings.size());
  out.faults = reader.faults();
  return out;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 1) return 0;
  const std::string_view text{reinterpret_cast<const char*>(data) + 1, size - 1};
  const Answer whole = answer(text, text.size() + 1);
  const Answer pieces = answer(text, 1 + data[0] % 7);
  must(whole.faults == pieces.faults);
  must(whole.swings.size() == pieces.swings.size());
  for (std::size_t k = 0; k < whole.swings.size(); ++k) {
    const SeenSwing& swing = whole.swings[k];
    must(swing.sightings == pieces.swings[k].sightings);
    must(!swing.club.empty());
    for (const Sighting& s : swing.sightings)
      must(std::isfinite(s.value) && std::isfinite(s.sd) && (is_word(s.kind) || s.sd > 0.0));
  }
  return 0;
}
