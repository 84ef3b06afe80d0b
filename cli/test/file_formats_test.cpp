// The page about file formats says what the readers take.

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "bag/figure.hpp"

using namespace strikewright;

TEST_CASE("every figure of an own club is explained in docs/file-formats.md") {
  std::ifstream file(SOURCE_DIR "/docs/file-formats.md");
  const std::string page((std::istreambuf_iterator<char>(file)), {});
  for (const ClubFigure& figure : club_figures()) {
    INFO(figure.key);
    CHECK(page.find("`" + std::string(figure.key) + "`") != std::string::npos);
  }
}
