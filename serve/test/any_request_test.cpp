// The fuzz target's requests, and what becomes of them when bytes change: it ends the program where something
// is wrong.

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

std::vector<std::string> corpus() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/fuzz/corpus/request"))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<std::string> out;
  for (const auto& file : files) {
    std::ifstream in(file, std::ios::binary);
    out.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return out;
}

/// A few bytes changed, left out, doubled, or the end of another request put on.
std::string changed(std::string text, const std::vector<std::string>& all, std::mt19937_64& draws) {
  const auto below = [&](std::size_t n) { return n == 0 ? 0 : draws() % n; };
  for (std::size_t k = 0, times = 1 + below(4); k < times && !text.empty(); ++k) {
    const std::size_t at = below(text.size());
    switch (below(4)) {
      case 0:
        text[at] = static_cast<char>(below(256));
        break;
      case 1:
        text.erase(at, 1 + below(8));
        break;
      case 2:
        text.insert(at, text.substr(at, 1 + below(16)));
        break;
      default: {
        const std::string& other = all[below(all.size())];
        text = text.substr(0, at) + other.substr(below(other.size()));
      }
    }
  }
  return text;
}

int tried(const std::string& text) {
  return LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

TEST_CASE("thousands of damaged requests: no crash, one shape of fault, no word of the book") {
  const std::vector<std::string> all = corpus();
  REQUIRE(all.size() >= 8);
  std::mt19937_64 draws(7);
  for (const std::string& text : all) {
    CHECK(tried(text) == 0);
    for (int k = 0; k < 300; ++k) CHECK(tried(changed(text, all, draws)) == 0);
  }
}
