#include "numeric/parallel.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>
#include <stdexcept>
#include <vector>

using namespace strikewright;

namespace {

std::vector<double> squares(std::size_t count, std::size_t chunk, unsigned threads) {
  std::vector<double> out(count, -1.0);
  in_parallel(
      count, chunk,
      [&out](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) out[i] = std::sqrt(static_cast<double>(i));
      },
      threads);
  return out;
}

}  // namespace

TEST_CASE("every piece of work is done once, on one thread or many, with the same bits") {
  for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{7}, std::size_t{1000}}) {
    const auto alone = squares(count, 16, 1);
    for (std::size_t i = 0; i < count; ++i) CHECK(alone[i] == std::sqrt(static_cast<double>(i)));
    for (const unsigned threads : {0u, 2u, 3u, 16u}) {
      for (const std::size_t chunk : {std::size_t{1}, std::size_t{16}, std::size_t{5000}}) {
        CHECK(squares(count, chunk, threads) == alone);
      }
    }
  }
}

TEST_CASE("chunks do not overlap and leave no gap") {
  std::vector<int> visits(103, 0);
  in_parallel(
      visits.size(), 10,
      [&visits](std::size_t begin, std::size_t end) {
        CHECK(end - begin <= 10);
        for (std::size_t i = begin; i < end; ++i) ++visits[i];
      },
      3);
  CHECK(std::accumulate(visits.begin(), visits.end(), 0) == 103);
  CHECK(visits == std::vector<int>(103, 1));
}

TEST_CASE("a chunk that fails tells the caller") {
  for (const unsigned threads : {1u, 4u}) {
    const auto fails = [](std::size_t begin, std::size_t) {
      if (begin == 20) throw std::runtime_error("chunk 2");
    };
    CHECK_THROWS_WITH_AS(in_parallel(100, 10, fails, threads), "chunk 2", std::runtime_error);
  }
}
