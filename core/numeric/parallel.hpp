#pragma once
// The same work on all cores. What is computed must not depend on who computes it: the work is cut into
// chunks by its size alone, each chunk is done by one call, and chunks share nothing.

#include <algorithm>
#include <cstddef>

// WebAssembly as we build it has no threads: there one core does it all.
#if !defined(__EMSCRIPTEN__) && !defined(__wasm__)
#define STRIKEWRIGHT_THREADS 1
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>
#endif

namespace strikewright {

/// How many threads a machine can run at once; 1 where it cannot say.
[[nodiscard]] inline unsigned cores() {
#ifdef STRIKEWRIGHT_THREADS
  return std::max(1u, std::thread::hardware_concurrency());
#else
  return 1;
#endif
}

/// Calls work(begin, end) for the chunks [0, chunk), [chunk, 2 chunk) ... of [0, count). Chunks are handed
/// out in order to whoever is free; the result is the same for any number of threads, if chunks write to
/// different places. The first exception of a chunk ends the work and is thrown again here.
/// @param chunk > 0   @param threads 0 = as many as there are cores
template <class Work>
void in_parallel(std::size_t count, std::size_t chunk, const Work& work, unsigned threads = 0) {
  const std::size_t chunks = (count + chunk - 1) / chunk;
  const auto one = [&](std::size_t c) { work(c * chunk, std::min(count, (c + 1) * chunk)); };
  const unsigned wanted = threads == 0 ? cores() : threads;
  const std::size_t hands = std::min<std::size_t>(wanted, chunks);
#ifdef STRIKEWRIGHT_THREADS
  if (hands > 1) {
    std::atomic<std::size_t> next{0};
    std::exception_ptr thrown;
    std::mutex guard;
    const auto take = [&] {
      for (std::size_t c = next++; c < chunks; c = next++) {
        try {
          one(c);
        } catch (...) {
          const std::lock_guard lock(guard);
          if (!thrown) thrown = std::current_exception();
          next = chunks;
        }
      }
    };
    {
      std::vector<std::jthread> others;
      for (std::size_t i = 1; i < hands; ++i) others.emplace_back(take);
      take();
    }
    if (thrown) std::rethrow_exception(thrown);
    return;
  }
#endif
  for (std::size_t c = 0; c < chunks; ++c) one(c);
}

}  // namespace strikewright
