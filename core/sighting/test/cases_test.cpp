#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "sighting/table.hpp"

using namespace strikewright;

namespace {

std::string contents(const std::filesystem::path& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace

TEST_CASE("every bad file of the cases is refused with the sentence beside it") {
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/cases/input")) {
    if (entry.path().extension() != ".csv") continue;
    ++files;
    INFO(entry.path().filename());
    auto expected = entry.path();
    expected.replace_extension(".expected");
    TableOptions options;
    options.file = entry.path().filename().string();
    const auto got = read_table(contents(entry.path()), options);
    REQUIRE(!got.has_value());
    CHECK(got.error().sentence() + "\n" == contents(expected));
  }
  CHECK(files >= 30);
}
